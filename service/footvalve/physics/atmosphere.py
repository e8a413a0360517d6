"""The air over the well: how hard it presses, what it weighs, and how fast sound runs through it."""

from functools import lru_cache
from math import inf

from fluids.atmosphere import ATMOSPHERE_1976

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import Kelvins, KilogramsPerCubicMetre, Metres, MetresPerSecond, Pascals

STANDARD_ATMOSPHERE = Method(
    name="Standard atmosphere 1976 (the weather moves the pressure by 1 to 3 % either way)",
    source="U.S. Standard Atmosphere 1976 (NOAA, NASA, USAF), Eq. 33a; equal to ISO 2533:1975 below 32 km",
    ranges=(Range("altitude", -500.0, 11000.0, "m"),),
    note="the standard's lowest layer",
)
"""Barometers reduced to sea level stand between about 98 and 104 kPa, lower only in deep storms (general
knowledge of meteorology, no source): a verdict with 0.3 m of head in hand may turn with the weather."""

AIR_DENSITY = Method(
    name="Ideal gas law, dry air",
    source="U.S. Standard Atmosphere 1976 (NOAA, NASA, USAF), Eq. 42, with its M = 28.9644 kg/kmol",
    ranges=(Range("pressure", 2.0e4, 1.1e5, "Pa"), Range("temperature", 220.0, 335.0, "K")),
    note="ranges: own choice, the air of inhabited places",
)
"""Air in a well is damp: saturated at 12 degC it is 0.5 % lighter, at 30 degC 1.6 %."""

SPEED_OF_SOUND = Method(
    name="Speed of sound in an ideal gas, dry air",
    source="U.S. Standard Atmosphere 1976 (NOAA, NASA, USAF), Eq. 50, with its ratio of specific heats 1.4",
    ranges=(Range("temperature", 220.0, 335.0, "K"),),
    note="range: own choice, the air of inhabited places",
)
"""Damp air carries sound faster: saturated at 12 degC by about 0.2 %, at 30 degC by about 0.7 %."""

LOWEST_ALTITUDE: Metres = -2000.0
HIGHEST_ALTITUDE: Metres = 11000.0
"""Where the tables of ISO 2533 begin, and where the layer with the even fall of temperature ends."""


def atmospheric_pressure(*, altitude: Metres) -> Pascals:
    """Pressure of the standard atmosphere at a height above mean sea level; remembered for the next call.

        p = p0 [T0 / (T0 + L H)]^(g0 M / (R L)),    H = r0 z / (r0 + z)

    with p0 = 101325 Pa, T0 = 288.15 K, L = -6.5 K/km, r0 = 6356766 m.

    Valid for: -500 to 11000 m, the average of weather and season at middle latitudes.
    Source: U.S. Standard Atmosphere 1976, Eqs 18 and 33a; ISO 2533:1975.
    Raises: OutsideDomain below the standard's tables (-2000 m) and above its lowest layer (11000 m).

    >>> round(atmospheric_pressure(altitude=1000.0))
    89876
    """
    return _atmospheric_pressure(altitude)


@lru_cache(maxsize=1024)
def _atmospheric_pressure(altitude: Metres) -> Pascals:
    if not LOWEST_ALTITUDE <= altitude <= HIGHEST_ALTITUDE:
        raise OutsideDomain(
            f"the altitude must lie from {LOWEST_ALTITUDE:g} to {HIGHEST_ALTITUDE:g} m, not at {altitude:g} m"
        )
    return float(ATMOSPHERE_1976(altitude).P)


def air_density(*, pressure: Pascals, temperature: Kelvins) -> KilogramsPerCubicMetre:
    """Density of dry air at an absolute pressure and a temperature.

        rho = p M / (R T)

    Valid for: 20 to 110 kPa, 220 to 335 K.
    Source: U.S. Standard Atmosphere 1976, Eq. 42.
    Raises: OutsideDomain for a pressure or an absolute temperature that is not positive.

    >>> round(air_density(pressure=101325.0, temperature=288.15), 4)
    1.225
    """
    if not (0.0 < pressure < inf and 0.0 < temperature < inf):
        raise OutsideDomain("air has a positive absolute pressure and a positive absolute temperature")
    return float(ATMOSPHERE_1976.density(temperature, pressure))


def speed_of_sound(*, temperature: Kelvins) -> MetresPerSecond:
    """Speed of sound in dry air; an ideal gas carries it alike at every pressure.

        c = sqrt(gamma R T / M)

    Valid for: 220 to 335 K.
    Source: U.S. Standard Atmosphere 1976, Eq. 50.
    Raises: OutsideDomain for an absolute temperature that is not positive.

    >>> round(speed_of_sound(temperature=288.15), 2)
    340.29
    """
    if not 0.0 < temperature < inf:
        raise OutsideDomain("air has a positive absolute temperature")
    return float(ATMOSPHERE_1976.sonic_velocity(temperature))
