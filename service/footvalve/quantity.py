"""The closed lists of units on the wire, and what turns each into the unit that physics reckons in.

Physics reckons in SI, but for charge (Ah) and energy (Wh), which the trade's equations are written in.
The factors are definitions, written out: a library of units takes longer to import than all the rest of the service,
and text from a caller must never reach one.
"""

from fractions import Fraction
from typing import Final, Literal, get_args

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


def wire_units(dimension: str) -> tuple[str, ...]:
    """The closed list of units of a dimension, in the order of the contract."""
    return get_args(DIMENSIONS[dimension][0])


_FOOT: Final = Fraction("0.3048")
_INCH: Final = _FOOT / 12
_GALLON: Final = 231 * _INCH**3
_STANDARD_GRAVITY: Final = Fraction("9.80665")
_POUND_FORCE: Final = Fraction("0.45359237") * _STANDARD_GRAVITY
_COLUMN_OF_WATER: Final = 1000 * _STANDARD_GRAVITY
"""Pa for each m of water of 1000 kg/m^3, as is the convention of ftH2O and mH2O."""
_RANKINE: Final = Fraction(5, 9)

_SCALES: Final[dict[str, Fraction | int]] = {
    "m": 1,
    "cm": Fraction(1, 100),
    "mm": Fraction(1, 1000),
    "ft": _FOOT,
    "in": _INCH,
    "mm^2": Fraction(1, 10**6),
    "cm^2": Fraction(1, 10**4),
    "in^2": _INCH**2,
    "s": 1,
    "min": 60,
    "h": 3600,
    "d": 86400,
    "L/s": Fraction(1, 1000),
    "L/min": Fraction(1, 60_000),
    "m^3/h": Fraction(1, 3600),
    "gal/min": _GALLON / 60,
    "gal/h": _GALLON / 3600,
    "L": Fraction(1, 1000),
    "m^3": 1,
    "gal": _GALLON,
    "Pa": 1,
    "kPa": 1000,
    "bar": 100_000,
    "psi": _POUND_FORCE / _INCH**2,
    "ftH2O": _COLUMN_OF_WATER * _FOOT,
    "mH2O": _COLUMN_OF_WATER,
    "degC": 1,
    "degF": _RANKINE,
    "K": 1,
    "A": 1,
    "mA": Fraction(1, 1000),
    "V": 1,
    "mV": Fraction(1, 1000),
    "W": 1,
    "kW": 1000,
    "hp": 550 * _FOOT * _POUND_FORCE,
    "Wh": 1,
    "kWh": 1000,
    "Ah": 1,
    "ohm": 1,
    "mohm": Fraction(1, 1000),
    "gal/min/ft": _GALLON / 60 / _FOOT,
    "L/s/m": Fraction(1, 1000),
    "m/s": 1,
    "ft/s": _FOOT,
}
"""By definition, and exact: NIST SP 811 (2008), Appendix B.8."""

_OFFSETS: Final = {"degC": Fraction("273.15"), "degF": Fraction("459.67") * _RANKINE}

CONVERSIONS: Final[dict[str, tuple[float, float]]] = {
    unit: (float(scale), float(_OFFSETS.get(unit, 0))) for unit, scale in _SCALES.items()
}
"""For each wire unit the scale and the offset that lead to the unit of physics: base = value * scale + offset."""


def to_base(value: float, unit: str) -> float:
    """The value in the unit of physics. Raises KeyError for a unit that is on no list."""
    scale, offset = CONVERSIONS[unit]
    return value * scale + offset


def from_base(base: float, unit: str) -> float:
    """The value in a wire unit of what physics reckoned. Raises KeyError for a unit that is on no list."""
    scale, offset = CONVERSIONS[unit]
    return (base - offset) / scale
