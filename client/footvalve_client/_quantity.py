"""A number with its unit: what all dimensions of the contract have in common."""

import math
from collections.abc import Mapping
from decimal import Decimal
from numbers import Real
from typing import TYPE_CHECKING, Any, ClassVar, Generic, Self, TypeVar, cast

from msgspec import Struct
from msgspec.structs import force_setattr

from footvalve_client._errors import QuantityError
from footvalve_client._generated.conversions import CONVERSIONS
from footvalve_client._pint import PhysicalQuantity, from_pint, to_pint
from footvalve_client._text import TextReader

if TYPE_CHECKING:
    import pint

UnitName = TypeVar("UnitName", bound=str)


class Quantity(Struct, Generic[UnitName], frozen=True, omit_defaults=True, repr_omit_defaults=True):
    """A number with its unit, and where it is known its standard uncertainty (one sigma) in the same unit."""

    value: float
    unit: UnitName
    uncertainty: float | None = None

    units: ClassVar[tuple[str, ...]] = ()
    """The units of this dimension that the contract knows."""
    spellings: ClassVar[Mapping[str, str]] = {}
    """The unit that is meant by each spelling that a text may have, in small letters."""
    examples: ClassVar[tuple[str, ...]] = ()
    """How such a quantity is written."""

    def __post_init__(self) -> None:
        if type(self.value) is not float and type(self.value) is not int:
            force_setattr(self, "value", _number(self.value))
        if self.uncertainty is not None and type(self.uncertainty) is not float:
            force_setattr(self, "uncertainty", _number(self.uncertainty))

    @classmethod
    def of(cls, quantity: Self | PhysicalQuantity | str) -> Self:
        """What a text such as "14 ft", a quantity of pint, or a quantity of this very kind says.

        A text may be as installers write it: "5 gpm", `100' 6"`, "1-1/4 in", "50 F"; with a standard uncertainty behind
        it, "14 ft +- 6 in" or "14 ± 0.5 ft". Raises QuantityError, naming the units of this dimension.
        """
        if isinstance(quantity, cls):
            return quantity
        try:
            if isinstance(quantity, str):
                return cls._of_text(quantity)
            value, unit = cls._of_pint(quantity)
        except ValueError as wrong:
            raise cls._refusal(quantity, str(wrong)) from None
        return cls(value, cast("UnitName", unit))

    def to(self, unit: UnitName) -> Self:
        """The same in another unit of its dimension. Raises QuantityError for a unit of another."""
        if unit == self.unit:
            return self
        return type(self)(self.value_in(unit), unit, self.uncertainty_in(unit))

    def value_in(self, unit: UnitName) -> float:
        """The number alone, in a unit of this dimension. Raises QuantityError for a unit of another."""
        if unit == self.unit:
            return self.value
        factor, offset = self._conversion(unit)
        return self.value * factor + offset

    def uncertainty_in(self, unit: UnitName) -> float | None:
        """The standard uncertainty alone, in a unit of this dimension; None where none is known.

        Raises QuantityError for a unit of another dimension.
        """
        if unit == self.unit or self.uncertainty is None:
            return self.uncertainty
        factor, _ = self._conversion(unit)
        return self.uncertainty * factor

    @property
    def quantity(self) -> "pint.Quantity":
        """The value as a quantity of pint, in its application registry. pint is imported at the first use."""
        return to_pint(self.value, self.unit)

    def __str__(self) -> str:
        return format(self, "g")

    def __format__(self, specification: str) -> str:
        specification = specification or "g"
        give_or_take = "" if self.uncertainty is None else f" \u00b1 {self.uncertainty:{specification}}"
        return f"{self.value:{specification}}{give_or_take} {self.unit}"

    def _conversion(self, unit: UnitName) -> tuple[float, float]:
        """Factor and offset into another unit. Raises QuantityError."""
        if unit not in self.units:
            raise QuantityError(f"{unit!r} is no unit of {type(self).__name__}. Units: {', '.join(self.units)}")
        if self.unit not in self.units:
            raise QuantityError(f"this client does not know the unit {self.unit!r}; a newer one may")
        return CONVERSIONS[self.unit][unit]

    @classmethod
    def _refusal(cls, given: object, why: str) -> QuantityError:
        shown = repr(given) if isinstance(given, str) else str(given)
        units = ", ".join(cls.units)
        such = " or ".join(f'"{example}"' for example in cls.examples)
        return QuantityError(f"{shown} is no {cls.__name__}: {why}. Write such as {such}; units: {units}")

    @classmethod
    def _of_text(cls, text: str) -> Self:
        """What a text says. Raises ValueError, saying what is wrong."""
        reader = TextReader(cls.spellings, cls.units)
        (value, unit), uncertain = reader.read_uncertain(text)
        stated = cls(_finite(value), cast("UnitName", unit))
        if uncertain is None:
            return stated
        give_or_take, its_unit = uncertain
        factor = 1.0 if its_unit == unit else CONVERSIONS[its_unit][unit][0]
        return cls(stated.value, stated.unit, _finite(give_or_take) * factor)

    @classmethod
    def _of_pint(cls, quantity: Any) -> tuple[float, str]:
        """Number and unit. Raises ValueError, saying what is wrong."""
        if not hasattr(quantity, "m_as"):
            raise ValueError("expected a number with its unit")
        value, unit = from_pint(quantity, cls.units)
        return _finite(value), unit


def _number(given: Any) -> float:
    """A number of any library as Python has it. Raises QuantityError for what is none, a truth value too."""
    plain = given.item() if hasattr(given, "item") and not getattr(given, "ndim", 0) else given
    if isinstance(plain, bool) or not isinstance(plain, Real | Decimal):
        raise QuantityError(f"{given!r} is no number, as a quantity's value and uncertainty are")
    return int(plain) if isinstance(plain, int) else float(plain)


def _finite(value: float) -> float:
    """The number. Raises ValueError for NaN and infinity."""
    if not math.isfinite(value):
        raise ValueError("expected a finite number")
    return value
