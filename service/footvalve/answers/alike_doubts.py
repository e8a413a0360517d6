"""Doubts of one kind at many places: a few are told one by one, the rest together."""

from collections import defaultdict
from collections.abc import Iterable

from msgspec import Struct

from footvalve.contract.answer import Warning

MOST_TOLD = 5
"""Doubts of one kind that are told one by one: more would hide those of other kinds (own choice)."""


class Doubt(Struct, frozen=True):
    """A warning, and in a clause what is doubtful in it and in all others of its kind."""

    kind: str
    warning: Warning


def few_of_each(doubts: Iterable[Doubt], pointer: str) -> list[Warning]:
    """The first of each kind in their order, then one warning at `pointer` for the rest of each kind."""
    doubts = list(doubts)
    if len(doubts) <= MOST_TOLD:
        return [doubt.warning for doubt in doubts]
    told: list[Warning] = []
    seen: dict[str, int] = defaultdict(int)
    for doubt in doubts:
        seen[doubt.kind] += 1
        if seen[doubt.kind] <= MOST_TOLD:
            told.append(doubt.warning)
    return told + [_rest(kind, count - MOST_TOLD, pointer) for kind, count in seen.items() if count > MOST_TOLD]


def _rest(kind: str, count: int, pointer: str) -> Warning:
    places = "place" if count == 1 else "places"
    return Warning(pointer, f"{kind}: so it is at {count} more {places}")
