"""What is known of a method: its name, where it comes from, and the range in which it may be trusted."""

from dataclasses import dataclass


class OutsideDomain(ValueError):
    """The inputs have no physical meaning for the equation (a negative bore, a pressure below vacuum)."""


@dataclass(frozen=True, slots=True)
class Range:
    """An interval of one input of a method, ends included, in the SI unit that is named. An end may be infinite."""

    quantity: str
    low: float
    high: float
    unit: str = ""

    def __contains__(self, value: float) -> bool:
        return self.low <= value <= self.high


@dataclass(frozen=True, slots=True)
class Method:
    """A method with its source (author, edition, table or equation), the ranges that it was shown to hold in, and
    what else there is to know of its trust."""

    name: str
    source: str
    ranges: tuple[Range, ...] = ()
    note: str = ""

    def __hash__(self) -> int:
        """By the name alone, which a dictionary of methods finds fast; methods of one name need not be equal."""
        return hash(self.name)

    def range_of(self, quantity: str) -> Range:
        """The range of one input. Raises KeyError for a quantity that the method does not limit."""
        for candidate in self.ranges:
            if candidate.quantity == quantity:
                return candidate
        raise KeyError(quantity)
