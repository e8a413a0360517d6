"""Water against the releases' own check values, published tables and two independent libraries."""

import csv
import json
import math
from itertools import pairwise
from pathlib import Path

import iapws
import pytest
from chemicals.iapws import iapws97_region1_rho
from chemicals.vapor_pressure import Psat_IAPWS
from chemicals.viscosity import mu_IAPWS
from CoolProp.CoolProp import PropsSI

from footvalve.physics.method import OutsideDomain
from footvalve.physics.si import STANDARD_GRAVITY
from footvalve.physics.water import DENSITY_PRESSURE, WATER, water

REFERENCE = Path(__file__).parents[1] / "reference" / "water.csv"
ROWS = list(csv.DictReader(REFERENCE.read_text(encoding="utf-8").splitlines()))
FOOT = 0.3048
CONVENTIONAL_WATER = 1000 * STANDARD_GRAVITY  # Pa for each metre of head, NIST SP 811 (2008), B.8
GRID = [273.16 + step * (373.12 - 273.16) / 50 for step in range(51)]


def kelvins(inputs):
    ((unit, value),) = inputs.items()
    return {"T_K": value, "T_C": value + 273.15, "T_F": (value + 459.67) / 1.8}[unit]


def vapour_head(at):
    return at.vapour_pressure / (at.density * STANDARD_GRAVITY)


SCALE = {"Pa": 1, "kPa": 1e3, "MPa": 1e6, "uPa s": 1e-6, "kg/m3": 1, "m3/kg": 1, "ft": FOOT, "m water": 1}
PROPERTY = {
    "density": lambda at: at.density,
    "dynamic viscosity": lambda at: at.dynamic_viscosity,
    "vapour pressure": lambda at: at.vapour_pressure,
    "vapour head": vapour_head,
    "conventional vapour head": lambda at: at.vapour_pressure / CONVENTIONAL_WATER,
}
EQUATION = {
    "region 1 equation": lambda at: 1 / iapws97_region1_rho(at["T_K"], at["p_MPa"] * 1e6),
    "saturation equation": lambda at: Psat_IAPWS(at["T_K"]),
    "viscosity equation": lambda at: mu_IAPWS(at["T_K"], at["rho"]),
}


@pytest.mark.parametrize("row", [r for r in ROWS if r["quantity"] in PROPERTY], ids=lambda row: row["id"])
def test_water_agrees_with_published_values(row):
    """Each row's tolerance is its rounding, or what the table's older formulation differs from IAPWS."""
    computed = PROPERTY[row["quantity"]](water(temperature=kelvins(json.loads(row["inputs"])))) / SCALE[row["unit"]]
    assert computed == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))


@pytest.mark.parametrize("row", [r for r in ROWS if r["quantity"] in EQUATION], ids=lambda row: row["id"])
def test_the_equations_under_water_give_the_releases_check_values(row):
    """A new version of the property library that fails here has changed an equation: do not take it."""
    computed = EQUATION[row["quantity"]](json.loads(row["inputs"])) / SCALE[row["unit"]]
    assert computed == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))


def test_every_reference_row_is_used():
    assert {row["quantity"] for row in ROWS} == PROPERTY.keys() | EQUATION.keys()


def test_water_agrees_with_coolprop():
    """CoolProp reckons by IAPWS-95, to which IF97 was fitted: within 0.1, 0.015 and 0.02 parts in a thousand."""
    for temperature in GRID:
        ours = water(temperature=temperature)
        saturated = PropsSI("P", "T", temperature, "Q", 0, "Water")
        state = ("T", temperature, "P|liquid", DENSITY_PRESSURE, "Water")
        assert ours.vapour_pressure == pytest.approx(saturated, rel=1.0e-4)
        assert ours.density == pytest.approx(PropsSI("D", *state), rel=2.0e-5)
        assert ours.dynamic_viscosity == pytest.approx(PropsSI("V", *state), rel=3.0e-5)


def test_water_agrees_with_iapws():
    """The iapws package reckons the same IF97 and R12-08 in code of its own: only rounding may differ."""
    for temperature in GRID:
        ours = water(temperature=temperature)
        theirs = iapws.IAPWS97(T=temperature, P=DENSITY_PRESSURE / 1e6)
        assert ours.density == pytest.approx(theirs.rho, rel=1e-9)
        assert ours.dynamic_viscosity == pytest.approx(theirs.mu, rel=1e-9)
        assert ours.kinematic_viscosity == pytest.approx(theirs.nu, rel=1e-9)
        assert ours.vapour_pressure == pytest.approx(iapws.iapws97._PSat_T(temperature) * 1e6, rel=1e-9)


def test_tetens_vapour_pressure_stays_within_its_known_deviation():
    """FAO-56 Eq. 11 departs from IAPWS by -0.130 % at worst, near 45 degC (computed with an IAPWS library)."""

    def deviation(celsius):
        tetens = 610.8 * math.exp(17.27 * celsius / (celsius + 237.3))
        return 100 * (tetens / water(temperature=celsius + 273.15).vapour_pressure - 1)

    worst = max(range(61), key=lambda celsius: abs(deviation(celsius)))
    assert worst == pytest.approx(45, abs=2)
    assert deviation(worst) == pytest.approx(-0.13, abs=0.02)


def test_warmer_water_is_thinner_and_boils_sooner():
    waters = [water(temperature=temperature) for temperature in GRID]
    for cooler, warmer in pairwise(waters):
        assert warmer.dynamic_viscosity < cooler.dynamic_viscosity
        assert warmer.vapour_pressure > cooler.vapour_pressure


def test_water_is_heaviest_at_four_degrees():
    """The greatest density is at 3.98 degC (CRC Handbook, from memory)."""
    heaviest = max(range(0, 1000), key=lambda hundredth: water(temperature=273.15 + hundredth / 100).density)
    assert heaviest == pytest.approx(398, abs=3)


@pytest.mark.parametrize("temperature", [0.0, 273.14, 373.16, -5.0, math.nan, math.inf])
def test_ice_and_steam_are_refused(temperature):
    with pytest.raises(OutsideDomain):
        water(temperature=temperature)


@pytest.mark.parametrize("end", ["low", "high"])
def test_a_range_end_is_water_even_where_conversion_spoils_its_last_digit(end):
    edge = getattr(WATER.range_of("temperature"), end)
    assert math.isfinite(water(temperature=math.nextafter(edge, -math.inf)).density)
    assert math.isfinite(water(temperature=math.nextafter(edge, math.inf)).density)
