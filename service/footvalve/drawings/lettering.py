"""How wide text comes out, so that labels keep clear of each other in whatever plain typeface draws them."""

from itertools import accumulate, takewhile
from typing import Final
from unicodedata import category, east_asian_width

_NARROW: Final = frozenset("ijl.,:;'|!()[]{}/\\ \u00a0")
_WIDE: Final = frozenset("mwMW@%—…")
_ELLIPSIS = "…"


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """The width of a line of text, estimated on the wide side (own estimate of common sans-serif faces)."""
    return sum(map(_advance, text)) * size * (1.08 if bold else 1.0)


def _advance(character: str) -> float:
    if east_asian_width(character) in "WF" or category(character) == "So":
        return 1.05
    if character in _NARROW:
        return 0.34
    if character in _WIDE:
        return 0.95
    if category(character) in ("Mn", "Me", "Cf"):
        return 0.0
    return 0.7 if character.isupper() else 0.59


def shortened(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """The text, or as much of its beginning as fits into the width, with an ellipsis."""
    if text_width(text, size, bold=bold) <= width:
        return text
    room = width - text_width(_ELLIPSIS, size, bold=bold)
    widths = accumulate(text_width(character, size, bold=bold) for character in text)
    kept = sum(1 for _ in takewhile(lambda reached: reached <= room, widths))
    return text[:kept].rstrip() + _ELLIPSIS
