"""What water weighs, how thick it is and when it boils, at the temperature of the well."""

from dataclasses import dataclass
from functools import lru_cache

from chemicals.iapws import iapws97_region1_rho
from chemicals.vapor_pressure import Psat_IAPWS
from chemicals.viscosity import mu_IAPWS

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import (
    Kelvins,
    KilogramsPerCubicMetre,
    Pascals,
    PascalSeconds,
    SquareMetresPerSecond,
)

WATER = Method(
    name="IAPWS properties of water: density and vapour pressure IF97, viscosity 2008",
    source="IAPWS R7-97(2012), Eq. 7 (region 1, 101.325 kPa) and Eq. 30 (saturation); IAPWS R12-08, Eq. 10",
    ranges=(Range("temperature", 273.15, 373.15, "K"),),
    note="pure water near atmospheric pressure; 1 g/L of minerals adds some 0.1 % to the density",
)

DENSITY_PRESSURE: Pascals = 101325.0
"""The pressure of the density. A tenth of it, as in a suction line, moves the density by less than 50 ppm."""

_ROUNDING: Kelvins = 1e-6
"""How far past the range a temperature may lie, so that 32 degF is never refused for its last digit."""


@dataclass(frozen=True, slots=True)
class Water:
    """Properties of pure liquid water at one temperature."""

    temperature: Kelvins
    density: KilogramsPerCubicMetre
    dynamic_viscosity: PascalSeconds
    vapour_pressure: Pascals

    @property
    def kinematic_viscosity(self) -> SquareMetresPerSecond:
        """Dynamic viscosity over density."""
        return self.dynamic_viscosity / self.density


def water(*, temperature: Kelvins) -> Water:
    """Density, viscosity and vapour pressure of pure water at a temperature; remembered for the next call.

        rho = 1 / v(T, 101.325 kPa),    mu = mu0(T) mu1(T, rho),    p_v = p_sat(T)

    Valid for: 273.15 to 373.15 K, liquid, near atmospheric pressure. The critical enhancement of viscosity is
    left out, as the release allows so far from the critical point; so are minerals, of which 1 g/L adds some
    0.1 % to the density.
    Source: IAPWS R7-97(2012), Eq. 7 (region 1) and Eq. 30 (saturation line); IAPWS R12-08, Eq. 10.
    Raises: OutsideDomain where water at atmospheric pressure is ice or steam.

    >>> cold = water(temperature=285.15)
    >>> round(cold.density, 2), round(cold.dynamic_viscosity, 7), round(cold.vapour_pressure, 1)
    (999.5, 0.001234, 1402.8)
    """
    return _water(temperature)


@lru_cache(maxsize=1024)
def _water(temperature: Kelvins) -> Water:
    liquid = WATER.range_of("temperature")
    if not liquid.low - _ROUNDING <= temperature <= liquid.high + _ROUNDING:
        raise OutsideDomain(f"water is liquid from {liquid.low:g} to {liquid.high:g} K, not at {temperature:g} K")
    density = float(iapws97_region1_rho(temperature, DENSITY_PRESSURE))
    return Water(
        temperature=temperature,
        density=density,
        dynamic_viscosity=float(mu_IAPWS(temperature, density)),
        vapour_pressure=float(Psat_IAPWS(temperature)),
    )
