"""The legend of a head profile, and the pens that it explains."""

from collections.abc import Sequence
from typing import Final

from footvalve.drawings.clipping import Point
from footvalve.drawings.lettering import text_width
from footvalve.drawings.svg import TEXT_SIZE, Drawing, Pen

PIPE_UNDER_VACUUM: Final = Pen(5.0)
BOILING: Final = Pen(3.0, "4 4", "white")
HYDRAULIC: Final = Pen(1.2, "9 3 2 3")
VAPOUR: Final = Pen(1.5, "6 4")

_SWATCH: Final = 36.0


def draw_legend(drawing: Drawing, left: float, base: float, *, boils: bool) -> None:
    """The legend in one line of text on a base line."""
    swatch = [(left, base - 4.0), (left + _SWATCH, base - 4.0)]
    for pen, words in ((VAPOUR, "vapour limit"), (HYDRAULIC, "hydraulic level")):
        drawing.line(swatch, pen)
        swatch = _after(drawing, swatch, words)
    (start, middle), (end, _) = swatch
    below = [(start, middle - 4.0), (end, middle - 4.0), (end, middle + 6.0), (start, middle + 6.0)]
    drawing.area(below, "hatching", Pen(0.5))
    drawing.line(below[:2], PIPE_UNDER_VACUUM)
    swatch = _after(drawing, swatch, "under vacuum: any opening draws air")
    if boils:
        drawing.line(swatch, PIPE_UNDER_VACUUM)
        drawing.line(swatch, BOILING)
        _after(drawing, swatch, "boils")


def _after(drawing: Drawing, swatch: Sequence[Point], words: str) -> list[Point]:
    """Write the words of a swatch; the result is where the next swatch lies."""
    right, middle = swatch[1]
    drawing.text((right + 5.0, middle + 4.0), words, role="legend")
    left = right + 5.0 + text_width(words, TEXT_SIZE) + 8.0
    return [(left, middle), (left + _SWATCH, middle)]
