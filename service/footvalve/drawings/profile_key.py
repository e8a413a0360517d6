"""The key below a head profile: which part has which number."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

from footvalve.drawings.lettering import shortened
from footvalve.drawings.suction_way import Place
from footvalve.drawings.svg import Drawing

_GAP: Final = 12.0

_MOST_KEYED: Final = 60
"""Parts; the names of more stand in the answer alone."""


@dataclass(frozen=True, slots=True)
class _Type:
    """How the key is set."""

    columns: int
    size: float
    row: float


_ROOMY: Final = _Type(columns=3, size=11.5, row=15.0)
_DENSE: Final = _Type(columns=4, size=10.5, row=13.0)
_MOST_ROOMY: Final = 18
"""Entries, above which the key is set densely."""


def _type_for(entries: Sequence[str]) -> _Type:
    return _ROOMY if len(entries) <= _MOST_ROOMY else _DENSE


def key_entries(places: Sequence[Place]) -> list[str]:
    """What the key says, entry by entry."""
    entries = [f"{place.number}  {place.name}" for place in places if place.number]
    if len(entries) <= _MOST_KEYED:
        return entries
    left_out = len(entries) - _MOST_KEYED + 1
    return [*entries[: _MOST_KEYED - 1], f"and {left_out} more parts"]


def key_height(entries: Sequence[str]) -> float:
    """How much height the key takes."""
    face = _type_for(entries)
    return ceil(len(entries) / face.columns) * face.row


def draw_key(drawing: Drawing, entries: Sequence[str], left: float, right: float, top: float) -> None:
    """The key, column by column."""
    face = _type_for(entries)
    rows = ceil(len(entries) / face.columns)
    width = (right - left) / face.columns
    for place, entry in enumerate(entries):
        column, row = divmod(place, rows)
        at = (left + column * width, top + (row + 1) * face.row - 4.0)
        drawing.text(at, shortened(entry, width - _GAP, face.size), size=face.size, role="key")
