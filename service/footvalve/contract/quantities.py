"""A number with its unit on the wire: one type a dimension, each with a closed list of units."""

from bisect import bisect_right
from collections.abc import Callable
from functools import cache
from math import isfinite
from typing import Annotated, Self, TypeVar

from msgspec import UNSET, Meta, Struct, UnsetType

from footvalve.quantity import (
    CONVERSIONS,
    AreaUnit,
    ChargeUnit,
    CurrentUnit,
    DurationUnit,
    EnergyUnit,
    FlowUnit,
    LengthUnit,
    PowerUnit,
    PressureUnit,
    ResistanceUnit,
    SpecificCapacityUnit,
    TemperatureUnit,
    VelocityUnit,
    VoltageUnit,
    VolumeUnit,
)

GREATEST = 1e9
"""No magnitude on the wire is larger: a limit of the contract, far outside what any field takes."""

Signed = Annotated[float, Meta(ge=-GREATEST, le=GREATEST, description="The magnitude, in the unit beside it.")]
Unsigned = Annotated[float, Meta(ge=0, le=GREATEST, description="The magnitude, in the unit beside it.")]

Uncertainty = Annotated[
    Annotated[float, Meta(ge=0, le=GREATEST)] | UnsetType,
    Meta(
        description="Standard uncertainty of the value (one sigma, JCGM 100), in the same unit; 0 says the same as "
        "leaving it out. Uncertain inputs are taken as independent of one another."
    ),
]

SIGNIFICANT_DIGITS = 6


_POWERS = [float(f"1e{power}") for power in range(-9, 7)]
_LEAST_SCALED, *_, _MOST_SCALED = _POWERS
_SCALES = [10.0 ** (SIGNIFICANT_DIGITS - 1 - power) for power in range(-10, 6)]
"""By the number of powers of ten up to a value what makes a whole number of its significant digits. Each is exact."""

_ONES = 1.5 * 2.0**52
"""What has no digits after the point: a far smaller value that it is added to, and taken from again, is a whole one."""

_ALMOST_HALF = 0.5 - 1e-7
"""How far from a whole number a scaled value is surely rounded right: its own last digit is a thousand times finer."""


def rounded(value: float) -> float:
    """The value to six significant digits, as every number of an answer is written.

    Raises ArithmeticError for NaN and infinity: JSON has no number for them.
    """
    magnitude = value if value >= 0.0 else -value
    if _LEAST_SCALED <= magnitude < _MOST_SCALED:
        scale = _SCALES[bisect_right(_POWERS, magnitude)]
        scaled = value * scale
        whole = (scaled + _ONES) - _ONES
        if -_ALMOST_HALF < scaled - whole < _ALMOST_HALF:
            return whole / scale  # both exact: the nearest there is to the decimal, as if it had been read from text
    return _rounded_by_text(value)


def _rounded_by_text(value: float) -> float:
    if not isfinite(value):
        raise ArithmeticError(f"{value} is no finite number")
    return float(f"{value:.{SIGNIFICANT_DIGITS}g}") + 0.0  # which makes 0 of -0


LEAST_TOLD = 1e-6
"""What is smaller has too many noughts for a sentence."""

LEAST_PLAIN = 1e-4
"""From here on a format of so many significant digits takes no power of ten."""


def figure(value: float) -> str:
    """A number as a sentence tells it: three digits, more only before the point, and a power of ten only beyond what
    any quantity has.

    >>> figure(1299.7), figure(0.0000123456), figure(-0.0), figure(2e-9), figure(7.3091e12)
    ('1300', '0.0000123', '0', 'nearly 0', '7.31e+12')
    """
    if LEAST_PLAIN <= abs(value) < 999.5 or abs(value) > GREATEST:
        return f"{value:.3g}"
    if abs(value) >= 999.5:
        return f"{value:.0f}"
    if 0.0 < abs(value) < LEAST_TOLD:
        return "nearly 0"
    digits = f"{float(f'{value:.3g}'):.9f}".rstrip("0").rstrip(".")
    return digits if digits.strip("-0") else "0"


class Quantity(Struct, frozen=True, forbid_unknown_fields=True):
    """A number with its unit."""

    value: float
    unit: str
    uncertainty: Uncertainty = UNSET

    @property
    def base(self) -> float:
        """The quantity in the unit that physics reckons in: SI, but Ah for charge and Wh for energy."""
        scale, offset = CONVERSIONS[self.unit]
        return self.value * scale + offset

    @property
    def base_uncertainty(self) -> float:
        """The standard uncertainty in the unit of physics; 0 where none is stated."""
        scale, _ = CONVERSIONS[self.unit]
        return self.uncertainty * scale if self.uncertainty else 0.0

    def moved(self, base: float) -> Self:
        """The quantity so much further up, given in the unit of physics; as uncertain as it was."""
        scale, _ = CONVERSIONS[self.unit]
        return type(self)(self.value + base / scale, self.unit, self.uncertainty)

    def with_uncertainty(self, base: float) -> Self:
        """The quantity with a standard uncertainty that is given in the unit of physics, rounded for the wire."""
        scale, _ = CONVERSIONS[self.unit]
        return type(self)(self.value, self.unit, min(rounded(base / scale), GREATEST))

    @classmethod
    def from_base(cls, base: float, unit: str) -> Self:
        """The quantity in `unit`, rounded for the wire, of a number in the unit of physics.

        Raises ArithmeticError for a magnitude that the wire does not take.
        """
        tell: Callable[[float], Self] = told_in(cls, unit)
        return tell(base)

    def __str__(self) -> str:
        return f"{figure(self.value)} {self.unit}"


Told = TypeVar("Told", bound=Quantity)


@cache
def told_in(kind: type[Told], unit: str) -> Callable[[float], Told]:
    """The function that makes `Quantity.from_base` of this kind, in this unit."""
    scale, offset = CONVERSIONS[unit]

    def told(base: float) -> Told:
        value = rounded((base - offset) / scale)
        if not -GREATEST <= value <= GREATEST:
            raise ArithmeticError(f"{figure(value)} {unit} is more than the contract takes")
        return kind(value, unit)

    return told


class Length(Quantity, frozen=True, forbid_unknown_fields=True):
    """A length, depth, elevation or head."""

    value: Signed
    unit: LengthUnit


class Area(Quantity, frozen=True, forbid_unknown_fields=True):
    """A cross-section."""

    value: Unsigned
    unit: AreaUnit


class Duration(Quantity, frozen=True, forbid_unknown_fields=True):
    """A span of time."""

    value: Unsigned
    unit: DurationUnit


class Flow(Quantity, frozen=True, forbid_unknown_fields=True):
    """A volume flow; gal is the US gallon."""

    value: Unsigned
    unit: FlowUnit


class Volume(Quantity, frozen=True, forbid_unknown_fields=True):
    """A volume; gal is the US gallon."""

    value: Unsigned
    unit: VolumeUnit


class Pressure(Quantity, frozen=True, forbid_unknown_fields=True):
    """A pressure, gauge unless the field's name says absolute; ftH2O and mH2O are conventional."""

    value: Signed
    unit: PressureUnit


class Temperature(Quantity, frozen=True, forbid_unknown_fields=True):
    """A temperature."""

    value: Signed
    unit: TemperatureUnit


class Current(Quantity, frozen=True, forbid_unknown_fields=True):
    """An electric current."""

    value: Unsigned
    unit: CurrentUnit


class Voltage(Quantity, frozen=True, forbid_unknown_fields=True):
    """An electric potential difference."""

    value: Unsigned
    unit: VoltageUnit


class Power(Quantity, frozen=True, forbid_unknown_fields=True):
    """A power."""

    value: Unsigned
    unit: PowerUnit


class Energy(Quantity, frozen=True, forbid_unknown_fields=True):
    """An energy."""

    value: Unsigned
    unit: EnergyUnit


class Charge(Quantity, frozen=True, forbid_unknown_fields=True):
    """An electric charge."""

    value: Unsigned
    unit: ChargeUnit


class Resistance(Quantity, frozen=True, forbid_unknown_fields=True):
    """An electric resistance."""

    value: Unsigned
    unit: ResistanceUnit


class SpecificCapacity(Quantity, frozen=True, forbid_unknown_fields=True):
    """A well's yield for each length of drawdown."""

    value: Unsigned
    unit: SpecificCapacityUnit


class Velocity(Quantity, frozen=True, forbid_unknown_fields=True):
    """A velocity."""

    value: Unsigned
    unit: VelocityUnit
