"""Water against the releases' own check values and published tables."""

import csv
import json
import math
from itertools import pairwise
from pathlib import Path

import pytest
from chemicals.iapws import iapws97_region1_rho
from chemicals.vapor_pressure import Psat_IAPWS
from chemicals.viscosity import mu_IAPWS

from footvalve.physics.method import OutsideDomain
from footvalve.physics.si import STANDARD_GRAVITY
from footvalve.physics.water import WATER, water

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


def test_water_knows_its_own_temperature():
    assert water(temperature=300.0).temperature == 300.0


def test_a_millionth_of_a_kelvin_past_an_end_is_still_water():
    """So that 32 degF and 212 degF are never refused for a last digit; two millionths are refused, with the ends."""
    assert water(temperature=273.15 - 1e-6).density == pytest.approx(water(temperature=273.15).density, rel=1e-9)
    assert water(temperature=373.15 + 1e-6).density == pytest.approx(water(temperature=373.15).density, rel=1e-9)
    for outside in (273.15 - 2e-6, 373.15 + 2e-6):
        with pytest.raises(OutsideDomain, match=r"^water is liquid from 273\.15 to 373\.15 K, not at"):
            water(temperature=outside)


def test_the_kinematic_viscosity_at_twenty_degrees_is_the_viscometers_standard():
    """1.0034 mm^2/s, by which viscometers are calibrated: ISO/TR 3666 (1998), from memory, to half its digit."""
    assert water(temperature=293.15).kinematic_viscosity == pytest.approx(1.0034e-6, abs=0.5e-10)
