"""To and from pint, which is imported only when it is used."""

from typing import TYPE_CHECKING, Any, Protocol

from footvalve_client._errors import QuantityError
from footvalve_client._generated.conversions import PINT_SPELLING

if TYPE_CHECKING:
    import pint


class PhysicalQuantity(Protocol):
    """A quantity of pint, from whichever registry."""

    @property
    def units(self) -> Any:
        """Its units."""

    def m_as(self, units: Any) -> Any:
        """Its magnitude in other units."""


def to_pint(value: float, unit: str) -> "pint.Quantity":
    """The quantity in pint's application registry. Raises QuantityError for a unit that this client does not know."""
    import pint  # noqa: PLC0415  # a third of a second, for those who use it alone

    spelling = PINT_SPELLING.get(unit)
    if spelling is None:
        raise QuantityError(f"this client does not know the unit {unit!r}; a newer one may")
    return pint.Quantity(value, spelling)  # pyright: ignore[reportReturnType]  # which it takes for a base class


def from_pint(quantity: PhysicalQuantity, units: tuple[str, ...]) -> tuple[float, str]:
    """Magnitude and unit: its own unit where that is one of `units`, else the first of them.

    Raises ValueError where the quantity is of another dimension, or no single number.
    """
    from pint import DimensionalityError  # noqa: PLC0415  # who calls this has imported pint

    unit = _wire_unit(quantity, units)
    try:
        return float(quantity.m_as(PINT_SPELLING[unit])), unit
    except DimensionalityError:
        raise ValueError("it is of another dimension") from None
    except (TypeError, ValueError):
        raise ValueError("expected a single number") from None


def _wire_unit(quantity: PhysicalQuantity, units: tuple[str, ...]) -> str:
    own = f"{quantity.units:D}"
    return next((unit for unit in units if PINT_SPELLING[unit] == own), units[0])
