"""The air against the standard's values, published tables and an independent library."""

import csv
import json
import math
from pathlib import Path

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from footvalve.physics.atmosphere import air_density, atmospheric_pressure, speed_of_sound
from footvalve.physics.method import OutsideDomain
from footvalve.physics.si import STANDARD_GRAVITY

REFERENCE = Path(__file__).parents[1] / "reference" / "atmosphere.csv"
ROWS = list(csv.DictReader(REFERENCE.read_text(encoding="utf-8").splitlines()))
FOOT = 0.3048
SCALE = {"Pa": 1, "kPa": 1e3, "psia": 6894.757293168, "m/s": 1, "ft/s": FOOT, "ft": FOOT, "m water": 1}


def pressure(inputs):
    altitude = inputs["z_m"] if "z_m" in inputs else inputs["z_ft"] * FOOT
    return atmospheric_pressure(altitude=altitude)


def conventional_head(inputs):
    """Metres of water of 1000 kg/m3 under standard gravity, NIST SP 811 (2008), B.8."""
    return pressure(inputs) / (1000 * STANDARD_GRAVITY)


QUANTITY = {
    "pressure": pressure,
    "conventional head": conventional_head,
    "speed of sound": lambda inputs: speed_of_sound(temperature=inputs["T_C"] + 273.15),
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_air_agrees_with_published_values(row):
    """Each row's tolerance is its rounding, or the difference of models that its note names."""
    computed = QUANTITY[row["quantity"]](json.loads(row["inputs"])) / SCALE[row["unit"]]
    assert computed == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))


def test_pressure_is_the_weight_of_the_air_above():
    """The closed form against the hydrostatic equation, integrated with gravity that fades with height."""

    def fall(z, p):
        geopotential = 6356766 * z / (6356766 + z)
        temperature = 288.15 - 0.0065 * geopotential
        gravity = STANDARD_GRAVITY * (6356766 / (6356766 + z)) ** 2
        return -p * 28.9644 / (8314.32 * temperature) * gravity

    for end in (-2000, -500, 500, 1500, 3000, 5000, 8000, 11000):
        summed = solve_ivp(fall, (0, end), [101325.0], rtol=1e-11, atol=1e-6).y[0, -1]
        assert atmospheric_pressure(altitude=end) == pytest.approx(summed, rel=1e-9)


def test_dry_air_is_near_ideal():
    """CoolProp's dry air is a real gas: ideal air is up to 0.16 % lighter (at -48 degC), sound 0.04 % slower."""
    for temperature in range(225, 336, 10):
        for pressure_here in (5.0e4, 8.5e4, 1.05e5):
            state = ("T", temperature, "P", pressure_here, "Air")
            ours = air_density(pressure=pressure_here, temperature=temperature)
            assert ours == pytest.approx(PropsSI("D", *state), rel=1.7e-3)
            assert speed_of_sound(temperature=temperature) == pytest.approx(PropsSI("A", *state), rel=4e-4)


@given(st.floats(-2000, 10900), st.floats(1, 100))
def test_higher_places_have_less_pressure(altitude, climb):
    assert atmospheric_pressure(altitude=altitude + climb) < atmospheric_pressure(altitude=altitude)


@given(st.floats(220, 335), st.floats(2e4, 1.1e5))
def test_sound_pressure_and_density_obey_the_definition_of_sound(temperature, pressure_here):
    """c^2 = gamma p / rho with gamma = 1.4; the constants were rounded at nine digits or more."""
    density = air_density(pressure=pressure_here, temperature=temperature)
    squared = 1.4 * pressure_here / density
    assert speed_of_sound(temperature=temperature) ** 2 == pytest.approx(squared, rel=1e-9)


@pytest.mark.parametrize("altitude", [-2001.0, 11001.0, math.nan, math.inf])
def test_altitudes_off_the_standard_are_refused(altitude):
    with pytest.raises(OutsideDomain):
        atmospheric_pressure(altitude=altitude)


@pytest.mark.parametrize("nothing", [0.0, -1.0, math.nan, math.inf])
def test_air_without_pressure_or_warmth_is_refused(nothing):
    with pytest.raises(OutsideDomain):
        air_density(pressure=nothing, temperature=288.15)
    with pytest.raises(OutsideDomain):
        air_density(pressure=101325.0, temperature=nothing)
    with pytest.raises(OutsideDomain):
        speed_of_sound(temperature=nothing)
