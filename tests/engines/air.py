"""The air against the weight of the air above it, and against CoolProp's real air."""

from collections.abc import Iterator
from functools import cache
from typing import Any

import numpy
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp

from engines.comparison import Comparison, apart, compared
from footvalve.physics.atmosphere import air_density, atmospheric_pressure, speed_of_sound

GRAVITY = 9.80665
EARTH_RADIUS = 6356766.0
MOLAR_MASS = 28.9644
GAS_CONSTANT = 8314.32
"""m/s^2, m, kg/kmol and J/(kmol K) of the U.S. Standard Atmosphere 1976."""

ALTITUDES = numpy.linspace(-2000.0, 11000.0, 105).tolist()
TEMPERATURES = numpy.linspace(225.0, 335.0, 23).tolist()
PRESSURES = (5.0e4, 7.0e4, 8.5e4, 1.05e5)


@cache
def pressure_of_the_air_above(altitude: float) -> float:
    """Pa at an altitude in m: dp/dz = -rho g from sea level on, the air cooling by 6.5 K for each geopotential
    kilometre and gravity fading with height."""

    def fall(z, p):
        temperature = 288.15 - 0.0065 * EARTH_RADIUS * z / (EARTH_RADIUS + z)
        gravity = GRAVITY * (EARTH_RADIUS / (EARTH_RADIUS + z)) ** 2
        return -p * MOLAR_MASS / (GAS_CONSTANT * temperature) * gravity

    if altitude == 0.0:
        return 101325.0
    return float(solve_ivp(fall, (0.0, altitude), [101325.0], method="DOP853", rtol=1e-12, atol=1e-6).y[0, -1])


def pressure_by_integration() -> Comparison:
    """A closed form of the same equation: only rounding and the integrator's 1e-12 a step may differ."""
    found = (
        (apart(atmospheric_pressure(altitude=z), pressure_of_the_air_above(z)), {"altitude m": z}) for z in ALTITUDES
    )
    return compared("air pressure by altitude", "scipy, dp/dz", found, bound=1e-9)


def _states() -> Iterator[tuple[float, float, dict[str, Any]]]:
    for temperature in TEMPERATURES:
        for pressure in PRESSURES:
            yield temperature, pressure, {"K": temperature, "Pa": pressure}


def density_by_coolprop() -> Comparison:
    """Real dry air is up to 0.16 % heavier than the ideal gas, at the coldest."""
    found = (
        (apart(air_density(pressure=p, temperature=t), PropsSI("D", "T", t, "P", p, "Air")), at)
        for t, p, at in _states()
    )
    return compared("density of air", "CoolProp", found, bound=1.7e-3)


def sound_by_coolprop() -> Comparison:
    """In real dry air sound is up to 0.04 % faster than in the ideal gas."""
    found = ((apart(speed_of_sound(temperature=t), PropsSI("A", "T", t, "P", p, "Air")), at) for t, p, at in _states())
    return compared("speed of sound", "CoolProp", found, bound=4e-4)
