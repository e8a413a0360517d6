"""The closed lists of units on the wire, and what turns each into the unit that physics reckons in.

Physics reckons in SI, but for charge (Ah) and energy (Wh), which the trade's equations are written in.
The factors come from pint once, at import: text from a caller never reaches pint.
"""

from fractions import Fraction
from typing import Final, Literal, get_args

import pint

LengthUnit = Literal["m", "cm", "mm", "ft", "in"]
AreaUnit = Literal["mm^2", "cm^2", "in^2"]
DurationUnit = Literal["s", "min", "h", "d"]
FlowUnit = Literal["L/s", "L/min", "m^3/h", "gal/min", "gal/h"]
VolumeUnit = Literal["L", "m^3", "gal"]
PressureUnit = Literal["Pa", "kPa", "bar", "psi", "ftH2O", "mH2O"]
TemperatureUnit = Literal["degC", "degF", "K"]
CurrentUnit = Literal["A", "mA"]
VoltageUnit = Literal["V", "mV"]
PowerUnit = Literal["W", "kW", "hp"]
EnergyUnit = Literal["Wh", "kWh"]
ChargeUnit = Literal["Ah"]
ResistanceUnit = Literal["ohm", "mohm"]
SpecificCapacityUnit = Literal["gal/min/ft", "L/s/m"]
VelocityUnit = Literal["m/s", "ft/s"]

DIMENSIONS: Final[dict[str, tuple[object, str]]] = {
    "Length": (LengthUnit, "m"),
    "Area": (AreaUnit, "m^2"),
    "Duration": (DurationUnit, "s"),
    "Flow": (FlowUnit, "m^3/s"),
    "Volume": (VolumeUnit, "m^3"),
    "Pressure": (PressureUnit, "Pa"),
    "Temperature": (TemperatureUnit, "K"),
    "Current": (CurrentUnit, "A"),
    "Voltage": (VoltageUnit, "V"),
    "Power": (PowerUnit, "W"),
    "Energy": (EnergyUnit, "Wh"),
    "Charge": (ChargeUnit, "Ah"),
    "Resistance": (ResistanceUnit, "ohm"),
    "SpecificCapacity": (SpecificCapacityUnit, "m^2/s"),
    "Velocity": (VelocityUnit, "m/s"),
}
"""Each dimension with its closed list of wire units and the unit that physics reckons in."""

_SPELLED_FOR_PINT: Final = {
    "mH2O": "meter * kilogram / liter * standard_gravity",
    "ftH2O": "foot * kilogram / liter * standard_gravity",
}
"""Conventional columns of water: 1000 kg/m^3 under standard gravity, NIST SP 811 (2008), Appendix B.8."""


def wire_units(dimension: str) -> tuple[str, ...]:
    """The closed list of units of a dimension, in the order of the contract."""
    return get_args(DIMENSIONS[dimension][0])


def _conversions() -> dict[str, tuple[float, float]]:
    exact = pint.UnitRegistry(non_int_type=Fraction, autoconvert_offset_to_baseunit=True)
    table = {}
    for dimension, (_, base) in DIMENSIONS.items():
        for unit in wire_units(dimension):
            spelled = _SPELLED_FOR_PINT.get(unit, unit)
            zero, one = (exact.Quantity(Fraction(n), spelled).to(base).magnitude for n in (0, 1))
            table[unit] = (float(one - zero), float(zero))
    return table


CONVERSIONS: Final[dict[str, tuple[float, float]]] = _conversions()
"""For each wire unit the scale and the offset that lead to the unit of physics: base = value * scale + offset."""


def to_base(value: float, unit: str) -> float:
    """The value in the unit of physics. Raises KeyError for a unit that is on no list."""
    scale, offset = CONVERSIONS[unit]
    return value * scale + offset


def from_base(base: float, unit: str) -> float:
    """The value in a wire unit of what physics reckoned. Raises KeyError for a unit that is on no list."""
    scale, offset = CONVERSIONS[unit]
    return (base - offset) / scale
