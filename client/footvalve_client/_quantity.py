"""A number with its unit: what all dimensions of the contract have in common."""

import math
import re
from typing import TYPE_CHECKING, Any, ClassVar, Final, Generic, Self, TypeVar, cast

from msgspec import Struct

from footvalve_client._errors import QuantityError
from footvalve_client._generated.conversions import CONVERSIONS
from footvalve_client._pint import PhysicalQuantity, from_pint, to_pint

if TYPE_CHECKING:
    import pint

UnitName = TypeVar("UnitName", bound=str)

_NUMBER_AND_UNIT: Final = re.compile(r"([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)", re.ASCII | re.DOTALL)


class Quantity(Struct, Generic[UnitName], frozen=True):
    """A number with its unit."""

    value: float
    unit: UnitName

    units: ClassVar[tuple[str, ...]] = ()
    """The units of this dimension that the contract knows."""

    @classmethod
    def of(cls, quantity: Self | PhysicalQuantity | str) -> Self:
        """What a text such as "14 ft", a quantity of pint, or a quantity of this very kind says.

        Raises QuantityError, naming the units of this dimension.
        """
        if isinstance(quantity, cls):
            return quantity
        try:
            value, unit = _read(quantity, cls.units)
        except ValueError as wrong:
            raise cls._refusal(quantity, str(wrong)) from None
        return cls(value, cast("UnitName", unit))

    def to(self, unit: UnitName) -> Self:
        """The same in another unit of its dimension. Raises QuantityError for a unit of another."""
        if unit == self.unit:
            return self
        return type(self)(self.value_in(unit), unit)

    def value_in(self, unit: UnitName) -> float:
        """The number alone, in a unit of this dimension. Raises QuantityError for a unit of another."""
        if unit == self.unit:
            return self.value
        if unit not in self.units:
            raise QuantityError(f"{unit!r} is no unit of {type(self).__name__}. Units: {', '.join(self.units)}")
        if self.unit not in self.units:
            raise QuantityError(f"this client does not know the unit {self.unit!r}; a newer one may")
        factor, offset = CONVERSIONS[self.unit][unit]
        return self.value * factor + offset

    @property
    def quantity(self) -> "pint.Quantity":
        """The same as a quantity of pint, in its application registry. pint is imported at the first use."""
        return to_pint(self.value, self.unit)

    def __str__(self) -> str:
        return f"{self.value:g} {self.unit}"

    def __format__(self, specification: str) -> str:
        return f"{self.value:{specification}} {self.unit}" if specification else str(self)

    @classmethod
    def _refusal(cls, given: object, why: str) -> QuantityError:
        shown = repr(given) if isinstance(given, str) else str(given)
        units = ", ".join(cls.units)
        return QuantityError(f'{shown} is no {cls.__name__}: {why}. Write such as "14 {cls.units[0]}"; units: {units}')


def _read(quantity: Any, units: tuple[str, ...]) -> tuple[float, str]:
    """Number and unit. Raises ValueError, saying what is wrong."""
    if isinstance(quantity, str):
        value, unit = _read_text(quantity, units)
    elif hasattr(quantity, "m_as"):
        value, unit = from_pint(quantity, units)
    else:
        raise ValueError("expected a number with its unit")
    if not math.isfinite(value):
        raise ValueError("expected a finite number")
    return value, unit


def _read_text(text: str, units: tuple[str, ...]) -> tuple[float, str]:
    match = _NUMBER_AND_UNIT.fullmatch(text.strip())
    if match is None:
        raise ValueError("expected a number, then its unit")
    number, unit = match.groups()
    if unit not in units:
        raise ValueError(f"{unit!r} is none of its units" if unit else "the unit is missing")
    return float(number), unit
