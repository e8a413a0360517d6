"""What a site sheet is made of: short lists of facts, and tables, each with its title."""

from collections.abc import Sequence
from dataclasses import dataclass

from msgspec import UNSET, UnsetType

from footvalve.contract.quantities import Quantity
from footvalve.drawings.figures import figure, told


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Facts as label and value, or a table, and remarks below them. One column of a table may take several lines."""

    title: str
    facts: Sequence[tuple[str, str]] = ()
    columns: Sequence[str] = ()
    rows: Sequence[Sequence[str]] = ()
    wide: int = 0
    remarks: Sequence[str] = ()


def facts(title: str, *pairs: tuple[str, str | None]) -> Block:
    """A block of those facts that are known."""
    return Block(title=title, facts=[(label, value) for label, value in pairs if value is not None])


def known(quantity: Quantity | UnsetType) -> str | None:
    """A quantity as it is told, or nothing."""
    return None if quantity is UNSET else told(quantity)


def number_cell(value: float | UnsetType) -> str:
    """A plain number in a table's cell."""
    return "–" if value is UNSET else figure(value)


def first_of(items: Sequence[str], most: int) -> list[str]:
    """The items, or the first of them with a word on how many are left out."""
    if len(items) <= most:
        return list(items)
    return [*items[: most - 1], f"and {len(items) - most + 1} more, which the data tell"]
