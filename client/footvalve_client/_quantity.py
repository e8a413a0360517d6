"""A number with its unit: what all dimensions of the contract have in common."""

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, ClassVar, Generic, Self, TypeVar, cast

from msgspec import Struct

from footvalve_client._errors import QuantityError
from footvalve_client._generated.conversions import CONVERSIONS
from footvalve_client._pint import PhysicalQuantity, from_pint, to_pint
from footvalve_client._text import TextReader

if TYPE_CHECKING:
    import pint

UnitName = TypeVar("UnitName", bound=str)


class Quantity(Struct, Generic[UnitName], frozen=True):
    """A number with its unit."""

    value: float
    unit: UnitName

    units: ClassVar[tuple[str, ...]] = ()
    """The units of this dimension that the contract knows."""
    spellings: ClassVar[Mapping[str, str]] = {}
    """The unit that is meant by each spelling that a text may have, in small letters."""
    examples: ClassVar[tuple[str, ...]] = ()
    """How such a quantity is written."""

    @classmethod
    def of(cls, quantity: Self | PhysicalQuantity | str) -> Self:
        """What a text such as "14 ft", a quantity of pint, or a quantity of this very kind says.

        A text may be as installers write it: "5 gpm", `100' 6"`, "1-1/4 in", "50 F". Raises QuantityError, naming the
        units of this dimension.
        """
        if isinstance(quantity, cls):
            return quantity
        try:
            value, unit = cls._read(quantity)
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
        such = " or ".join(f'"{example}"' for example in cls.examples)
        return QuantityError(f"{shown} is no {cls.__name__}: {why}. Write such as {such}; units: {units}")

    @classmethod
    def _read(cls, quantity: Any) -> tuple[float, str]:
        """Number and unit. Raises ValueError, saying what is wrong."""
        if isinstance(quantity, str):
            value, unit = TextReader(cls.spellings, cls.units).read(quantity)
        elif hasattr(quantity, "m_as"):
            value, unit = from_pint(quantity, cls.units)
        else:
            raise ValueError("expected a number with its unit")
        if not math.isfinite(value):
            raise ValueError("expected a finite number")
        return value, unit
