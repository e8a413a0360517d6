"""Water against the two libraries that reckon it: CoolProp by IAPWS-95, iapws by IF97."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

import iapws
import numpy
from CoolProp.CoolProp import PropsSI

from engines.comparison import Comparison, apart, compared
from footvalve.physics.water import water

AIR = 101325.0
TRIPLE_POINT = 273.16
"""K. CoolProp's water begins here, 0.01 K above ice."""

TEMPERATURES = numpy.linspace(TRIPLE_POINT, 368.15, 191).tolist()
"""From 0 to 95 degC by half degrees."""

PRESSURES = (1.0e4, 3.0e4, 6.0e4, 1.5e5, 3.0e5, 6.0e5, 1.0e6)
"""Pa, from a suction line near boiling to a house's line."""


@dataclass(frozen=True)
class Liquid:
    """Density in kg/m^3, dynamic viscosity in Pa s and vapour pressure in Pa."""

    density: float
    viscosity: float
    vapour_pressure: float


@cache
def by_coolprop(temperature: float, pressure: float = AIR) -> Liquid:
    """Water after CoolProp."""
    state = ("T", temperature, "P|liquid", pressure, "Water")
    saturated = PropsSI("P", "T", temperature, "Q", 0, "Water")
    return Liquid(PropsSI("D", *state), PropsSI("V", *state), saturated)


def by_iapws(temperature: float) -> Liquid:
    """Water after iapws."""
    at = iapws.IAPWS97(T=temperature, P=AIR / 1e6)
    return Liquid(at.rho, at.mu, iapws.iapws97._PSat_T(temperature) * 1e6)


OURS = {"density": "density", "viscosity": "dynamic_viscosity", "vapour_pressure": "vapour_pressure"}


def _by_temperature(name: str, engine: Callable[[float], Liquid]) -> Iterator[tuple[float, dict[str, Any]]]:
    for temperature in TEMPERATURES:
        ours = getattr(water(temperature=temperature), OURS[name])
        yield apart(ours, getattr(engine(temperature), name)), {"K": temperature}


def _by_pressure(name: str) -> Iterator[tuple[float, dict[str, Any]]]:
    """The service weighs all water at the pressure of the air; here it stands under its own."""
    for pressure in PRESSURES:
        for temperature in TEMPERATURES:
            theirs = by_coolprop(temperature, pressure)
            if theirs.vapour_pressure < pressure:
                ours = getattr(water(temperature=temperature), OURS[name])
                yield apart(ours, getattr(theirs, name)), {"K": temperature, "Pa": pressure}


def density_by_coolprop() -> Comparison:
    """IF97, which the service uses, was fitted to IAPWS-95: within 0.02 parts in a thousand here."""
    return compared("water's density", "CoolProp", _by_temperature("density", by_coolprop), bound=2e-5)


def viscosity_by_coolprop() -> Comparison:
    """The same equation, but for the density that goes into it and the critical enhancement, which is left out."""
    return compared("water's viscosity", "CoolProp", _by_temperature("viscosity", by_coolprop), bound=3e-5)


def vapour_pressure_by_coolprop() -> Comparison:
    """IF97's saturation line keeps within 0.1 parts in a thousand of IAPWS-95: 0.1 mm of head at 12 degC."""
    found = _by_temperature("vapour_pressure", by_coolprop)
    return compared("water's vapour pressure", "CoolProp", found, bound=1e-4)


def density_under_pressure() -> Comparison:
    """Water gives way by 4.6 to 5.1 parts in 1e10 for each pascal: 0.5 parts in a thousand up to 10 bar."""
    return compared("density at 0.1 to 10 bar", "CoolProp", _by_pressure("density"), bound=5e-4)


def viscosity_under_pressure() -> Comparison:
    """Cold water grows thinner under pressure, by up to 1.4 parts in a thousand at 10 bar: nothing beside a wall's
    roughness."""
    return compared("viscosity at 0.1 to 10 bar", "CoolProp", _by_pressure("viscosity"), bound=1.5e-3)


def density_by_iapws() -> Comparison:
    """The same release in code of its own: only rounding may differ."""
    return compared("water's density", "iapws", _by_temperature("density", by_iapws), bound=1e-9)


def viscosity_by_iapws() -> Comparison:
    """The same release in code of its own: only rounding may differ."""
    return compared("water's viscosity", "iapws", _by_temperature("viscosity", by_iapws), bound=1e-9)


def vapour_pressure_by_iapws() -> Comparison:
    """The same release in code of its own: only rounding may differ."""
    return compared("water's vapour pressure", "iapws", _by_temperature("vapour_pressure", by_iapws), bound=1e-9)
