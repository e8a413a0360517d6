"""The air against the standard's values and a published table."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from footvalve.physics.atmosphere import air_density, atmospheric_pressure, speed_of_sound
from footvalve.physics.method import OutsideDomain
from footvalve.physics.si import STANDARD_GRAVITY


def test_air_below_the_sea_agrees_with_a_published_table():
    """Davis, Water and Wastewater Engineering (2010), Table 3-7 (seen): 113.9 kPa and 11.62 m of water at -1000 m,
    half the last digit and the head from the rounded pressure. The answers take no site so low."""
    pressure = atmospheric_pressure(altitude=-1000.0)
    assert pressure == pytest.approx(113.9e3, abs=60)
    assert pressure / (1000 * STANDARD_GRAVITY) == pytest.approx(11.62, abs=0.011)


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


def test_air_is_an_ideal_gas_however_cold_and_thin():
    """p M / (R T) and sqrt(1.4 R T / M) with the standard's constants, far below where it is used."""
    molar_mass, gas_constant = 28.9644, 8314.32
    assert air_density(pressure=0.5, temperature=0.25) == pytest.approx(
        0.5 * molar_mass / (gas_constant * 0.25), rel=1e-6
    )
    assert speed_of_sound(temperature=0.25) == pytest.approx(
        math.sqrt(1.4 * gas_constant * 0.25 / molar_mass), rel=1e-6
    )


def test_air_is_refused_with_what_is_wrong():
    with pytest.raises(OutsideDomain, match=r"^the altitude must lie from -2000 to 11000 m, not at 11001 m"):
        atmospheric_pressure(altitude=11001.0)
    with pytest.raises(OutsideDomain, match=r"^air has a positive absolute pressure and a"):
        air_density(pressure=0.0, temperature=288.15)
    with pytest.raises(OutsideDomain, match=r"^air has a positive absolute temperature"):
        speed_of_sound(temperature=0.0)


@pytest.mark.parametrize("altitude", [-2000.0, 11000.0])
def test_the_standard_reaches_to_its_ends_themselves(altitude):
    """The weight of the air from sea level to there, with gravity that fades with the height, by quadrature."""

    def weight_over_pressure(z):
        geopotential = 6356766.0 * z / (6356766.0 + z)
        gravity = STANDARD_GRAVITY * (6356766.0 / (6356766.0 + z)) ** 2
        return gravity * 28.9644 / (8314.32 * (288.15 - 0.0065 * geopotential))

    expected = 101325.0 * math.exp(-quad(weight_over_pressure, 0.0, altitude)[0])
    assert atmospheric_pressure(altitude=altitude) == pytest.approx(expected, rel=1e-9)
