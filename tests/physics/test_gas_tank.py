"""The gas cushion of a tank against published examples, and against the properties of real air."""

import csv
import json
from pathlib import Path

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.atmosphere import atmospheric_pressure
from footvalve.physics.gas_tank import GAS_LAW, acceptance_fraction, drawdown, gas_volume
from footvalve.physics.method import OutsideDomain

REFERENCE = Path(__file__).parents[1] / "reference"
PSI = 6894.757293168
GALLON = 3.785411784e-3
"""NIST SP 811 (2008), Appendix B.8."""

pressures = st.floats(1.1e5, 1.1e6)
exponents = st.floats(1.0, 1.4)


def rows(name: str) -> list:
    with (REFERENCE / name).open(newline="") as lines:
        return [pytest.param(row, id=row["id"]) for row in csv.DictReader(lines)]


def atmosphere(inputs: dict) -> float:
    if "altitude_m" in inputs:
        return atmospheric_pressure(altitude=inputs["altitude_m"])
    return inputs["atmosphere_psi"] * PSI


@pytest.mark.parametrize("row", rows("pressure_tank.csv"))
def test_drawdown_is_as_published(row):
    inputs = json.loads(row["inputs"])
    air = atmosphere(inputs)
    found = drawdown(
        tank_volume=inputs["volume_gal"] * GALLON,
        precharge_absolute=inputs["precharge_psi"] * PSI + air,
        cut_in_absolute=inputs["cut_in_psi"] * PSI + air,
        cut_out_absolute=inputs["cut_out_psi"] * PSI + air,
    )
    assert found / GALLON == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


@pytest.mark.parametrize("row", rows("tank_gas_volume.csv"))
def test_gas_volume_is_as_published(row):
    inputs = json.loads(row["inputs"])
    air = atmosphere(inputs)
    found = gas_volume(
        tank_volume=inputs["volume_gal"] * GALLON,
        precharge_absolute=inputs["precharge_psi"] * PSI + air,
        pressure_absolute=inputs["pressure_psi"] * PSI + air,
    )
    assert found / GALLON == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


@pytest.mark.parametrize("pressure", [2e5, 4e5, 8e5, 1.14e6])
def test_real_air_stays_within_half_a_percent_of_the_ideal_gas(pressure):
    """What the method's range promises, with the density of real air after CoolProp."""
    precharge, temperature = 1.4e5, 285.15
    real = PropsSI("D", "P", precharge, "T", temperature, "Air") / PropsSI("D", "P", pressure, "T", temperature, "Air")
    ideal = gas_volume(tank_volume=1.0, precharge_absolute=precharge, pressure_absolute=pressure)
    assert pressure in GAS_LAW.range_of("cut_out_absolute")
    assert ideal == pytest.approx(real, rel=0.005)


def test_adiabatic_air_keeps_its_entropy():
    """An exponent of 1.4 against real air at constant entropy after CoolProp; 1.4 itself is rounded."""
    precharge, pressure = 3.0e5, 5.0e5
    entropy = PropsSI("S", "P", precharge, "T", 288.15, "Air")
    real = PropsSI("D", "P", precharge, "T", 288.15, "Air") / PropsSI("D", "P", pressure, "S", entropy, "Air")
    ideal = gas_volume(tank_volume=1.0, precharge_absolute=precharge, pressure_absolute=pressure, gas_exponent=1.4)
    assert ideal == pytest.approx(real, rel=0.005)


def test_a_precharge_above_cut_in_counts_from_the_precharge():
    between = drawdown(tank_volume=0.1, precharge_absolute=3.5e5, cut_in_absolute=3e5, cut_out_absolute=5e5)
    assert between == pytest.approx(0.1 * (1 - 3.5 / 5))


def test_a_precharge_at_cut_out_lets_no_water_in():
    assert drawdown(tank_volume=0.1, precharge_absolute=5e5, cut_in_absolute=3e5, cut_out_absolute=5e5) == 0


@given(st.floats(1e4, 1.1e6), pressures, pressures, exponents)
def test_no_precharge_gives_more_than_a_precharge_at_cut_in(precharge, one, other, exponent):
    low, high = sorted((one, other))
    if low == high:
        return
    switch = {"cut_in_absolute": low, "cut_out_absolute": high, "gas_exponent": exponent}
    given_ = drawdown(tank_volume=1.0, precharge_absolute=precharge, **switch)
    most = drawdown(tank_volume=1.0, precharge_absolute=low, **switch)
    assert 0 <= given_ <= most * (1 + 1e-12)


@given(st.floats(0, 20), st.floats(0, 2500), st.floats(1, 500))
def test_higher_up_the_same_gauge_settings_give_more_at_a_precharge_of_cut_in(psi_apart, altitude, climb):
    """Thinner air makes the ratio of absolute pressures larger: 1 - (p1 + a) / (p2 + a) falls with a."""
    cut_in, cut_out = 30 * PSI, (50 + psi_apart) * PSI

    def given_at(height):
        air = atmospheric_pressure(altitude=height)
        return drawdown(
            tank_volume=1.0,
            precharge_absolute=cut_in + air,
            cut_in_absolute=cut_in + air,
            cut_out_absolute=cut_out + air,
        )

    assert given_at(altitude + climb) > given_at(altitude)


def test_acceptance_is_the_drawdown_of_a_precharge_at_cut_in():
    accepted = acceptance_fraction(precharge_absolute=3e5, cut_out_absolute=5e5, gas_exponent=1.2)
    given_ = drawdown(
        tank_volume=1.0, precharge_absolute=3e5, cut_in_absolute=3e5, cut_out_absolute=5e5, gas_exponent=1.2
    )
    assert accepted == pytest.approx(given_, rel=1e-12)


@pytest.mark.parametrize(
    "wrong",
    [
        {"tank_volume": 0.0},
        {"tank_volume": float("nan")},
        {"precharge_absolute": -1.0},
        {"pressure_absolute": 0.0},
        {"gas_exponent": 0.0},
    ],
)
def test_what_no_tank_can_be_is_refused(wrong):
    right = {"tank_volume": 0.1, "precharge_absolute": 3e5, "pressure_absolute": 4e5, "gas_exponent": 1.0}
    with pytest.raises(OutsideDomain):
        gas_volume(**right | wrong)


def test_a_cut_out_that_is_not_above_cut_in_is_refused():
    with pytest.raises(OutsideDomain):
        drawdown(tank_volume=0.1, precharge_absolute=3e5, cut_in_absolute=4e5, cut_out_absolute=4e5)
