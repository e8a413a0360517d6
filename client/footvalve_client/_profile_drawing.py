"""The head profile of a suction line as a small drawing: where it runs, how high its pressure carries, where it boils.

The answer tells no lengths, so that the places stand side by side in the water's order. Its colours are read on a
light page as on a dark one; texts and axes take the page's own.
"""

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from itertools import pairwise
from math import floor, log10
from typing import Final, NamedTuple

from footvalve_client._generated.answers import ProfileNode, SuctionFeasibilityAnswer
from footvalve_client._generated.closed_lists import LengthUnit
from footvalve_client._outline import told

WIDTH: Final = 720
_LEFT, _RIGHT, _TOP, _BOTTOM = 46.0, 560.0, 40.0, 250.0
_LABEL_GAP: Final = 15.0
_NUMBERS: Final = _BOTTOM + 16
_KEY_TOP: Final = _BOTTOM + 40
_KEY_COLUMNS: Final = 3
_KEY_STEP: Final = 15
_MOST_IN_KEY: Final = 45
_MOST_LETTERS: Final = 28
_NARROWEST: Final = 20.0
"""Between two numbers on the axis."""

_HEAD_UNITS: Final = {"ft": "ftH2O", "m": "mH2O"}

_WATER: Final = "#2f7fd6"
_BOILING: Final = "#d64545"
_VACUUM: Final = "#d9730d"


class _Place(NamedTuple):
    """A place on the line, and three heights over it, in the drawing's unit."""

    name: str
    elevation: float
    level: float
    """How high the pressure would carry open water."""
    limit: float
    """How high this place might lie before the water boils."""
    under_vacuum: bool


class _Scale(NamedTuple):
    """From places and heights to the drawing."""

    places: int
    low: float
    high: float

    def x(self, place: float) -> float:
        return _LEFT + 12 + (_RIGHT - _LEFT - 24) * place / max(1, self.places - 1)

    def y(self, height: float) -> float:
        return _BOTTOM - (_BOTTOM - _TOP) * (height - self.low) / (self.high - self.low)


class _Label(NamedTuple):
    """A text beside the drawing, at the height that it is about."""

    height: float
    text: str
    colour: str


def head_profile(answer: SuctionFeasibilityAnswer) -> str:
    """The drawing as SVG; nothing where there are no places. Raises QuantityError for units that are not known here."""
    unit: LengthUnit = "m" if answer.margin.unit in ("m", "cm", "mm") else "ft"
    places = [_place(node, unit) for node in answer.profile]
    if not places:
        return ""
    water = -answer.pumping_depth.value_in(unit)
    scale = _scale(places, water)
    key = places[:_MOST_IN_KEY]
    rows = -(-len(key) // _KEY_COLUMNS) + (len(places) > len(key))
    height = _KEY_TOP + rows * _KEY_STEP
    parts = [*_axes(scale, unit), *_levels(scale, water), *_lines(scale, places), *_marks(scale, places, answer)]
    parts += [*_labels(scale, _beside(places, water, unit)), *_caption(answer), *_key(scale, key, len(places))]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height:g}" width="{WIDTH}" role="img"'
        f' aria-label="{escape(_said(answer))}" font-family="sans-serif" font-size="12" fill="currentColor"'
        f' style="max-width:100%;height:auto">{"".join(parts)}</svg>'
    )


def _place(node: ProfileNode, unit: LengthUnit) -> _Place:
    elevation = node.elevation.value_in(unit)
    head = node.gauge_pressure.value_in("ftH2O" if unit == "ft" else "mH2O")
    limit = elevation + node.above_vapour.value_in(unit)
    return _Place(node.name, elevation, elevation + head, limit, node.under_vacuum)


def _scale(places: Sequence[_Place], water: float) -> _Scale:
    """From the highest that is to be seen down to the lowest, but for what hangs far below all pressures."""
    heights = [height for place in places for height in (place.elevation, place.level, place.limit)]
    high = max(0.0, water, *heights)
    pressures = min(water, *(place.level for place in places), places[-1].elevation)
    low = max(min(heights), pressures - 0.25 * (high - pressures))
    room = 0.06 * (high - low) or 1.0
    return _Scale(len(places), low - room, high + room)


def _said(answer: SuctionFeasibilityAnswer) -> str:
    tightest = answer.tightest
    left = f"{told(answer.tightest.above_vapour)} left before the water boils"
    return f"Head profile of the suction line, {answer.verdict}. Tightest: {tightest.name}, {left}."


def _caption(answer: SuctionFeasibilityAnswer) -> Iterator[str]:
    tightest = answer.tightest
    number = 0 if tightest.index is None else tightest.index + 1
    left = f"{told(tightest.above_vapour)} left before the water boils"
    if tightest.above_vapour.value < 0:
        left = "the water boils there"
    yield _text(4, 16, f"Tightest place: {number} {_short(tightest.name)}, {left}", weight="bold")


def _axes(scale: _Scale, unit: str) -> Iterator[str]:
    yield _text(4, _TOP - 8, f"elevation, {unit}", size=11)
    for height in _ticks(scale.low, scale.high):
        y = scale.y(height)
        yield _line([(_LEFT, y), (_RIGHT, y)], "currentColor", 0.5, opacity=0.25)
        yield _text(_LEFT - 6, y + 4, _figure(height), anchor="end")
    wide = (step for step in (1, 2, 5, 10, 20, 50, 100) if step * _between(scale) >= _NARROWEST)
    step = next(wide, scale.places)
    for place in range(0, scale.places, step):
        yield _text(scale.x(place), _NUMBERS, str(place), anchor="middle")


def _between(scale: _Scale) -> float:
    return scale.x(1) - scale.x(0)


def _ticks(low: float, high: float) -> list[float]:
    """About six round heights."""
    rough = (high - low) / 6
    power = 10.0 ** floor(log10(rough))
    step = next(step for step in (power, 2 * power, 5 * power, 10 * power) if step >= rough)
    first = -int(-low // step)
    return [number * step for number in range(first, int(high // step) + 1)]


def _levels(scale: _Scale, water: float) -> Iterator[str]:
    for height, colour, dashes in ((0.0, "currentColor", "2 3"), (water, _WATER, "2 3")):
        if scale.low <= height <= scale.high:
            yield _line([(_LEFT, scale.y(height)), (_RIGHT, scale.y(height))], colour, 1.2, dashes=dashes)


def _lines(scale: _Scale, places: Sequence[_Place]) -> Iterator[str]:
    """The three lines, cut at the drawing's edge, and over the pipe what stands under vacuum."""
    points = [(scale.x(place), scale.y(at.elevation)) for place, at in enumerate(places)]
    limits = [(scale.x(place), scale.y(at.limit)) for place, at in enumerate(places)]
    levels = [(scale.x(place), scale.y(at.level)) for place, at in enumerate(places)]
    yield _line(_above(limits), _BOILING, 1.6, dashes="7 4")
    yield _line(_above(levels), _WATER, 1.8)
    for one, other in pairwise(zip(points, places, strict=True)):
        if one[1].under_vacuum and other[1].under_vacuum:
            yield _line(_above([one[0], other[0]]), _VACUUM, 7, opacity=0.55)
    yield _line(_above(points), "currentColor", 2.4)


def _above(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """What lies above the lower edge: a line that comes from below begins at the edge."""
    kept: list[tuple[float, float]] = []
    for (x0, y0), (x1, y1) in pairwise(points):
        if min(y0, y1) > _BOTTOM:
            continue
        for x, y in ((x0, y0), (x1, y1)):
            if y > _BOTTOM:
                x, y = x0 + (x1 - x0) * (_BOTTOM - y0) / (y1 - y0), _BOTTOM  # noqa: PLW2901
            if not kept or kept[-1] != (x, y):
                kept.append((x, y))
    return kept


def _marks(scale: _Scale, places: Sequence[_Place], answer: SuctionFeasibilityAnswer) -> Iterator[str]:
    tightest = 0 if answer.tightest.index is None else answer.tightest.index + 1
    for place, at in enumerate(places):
        x, y = scale.x(place), scale.y(at.elevation)
        if y > _BOTTOM:
            yield f'<path d="M{x - 5:.1f} {_BOTTOM - 7:.1f}l5 7l5 -7z" fill="currentColor"/>'
            continue
        colour = _BOILING if at.limit < at.elevation else "currentColor"
        yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>'
        if place == tightest:
            yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="8" fill="none" stroke="{_BOILING}" stroke-width="2"/>'


def _beside(places: Sequence[_Place], water: float, unit: str) -> list[_Label]:
    end = places[-1]
    heights = (
        (end.limit, "boils above", _BOILING),
        (end.level, "head line", _WATER),
        (water, "water drawn", _WATER),
        (end.elevation, "line's end", "currentColor"),
    )
    labels = [_Label(height, f"{name} {_figure(height)} {unit}", colour) for height, name, colour in heights]
    return [*labels, _Label(0.0, "ground", "currentColor")]


def _labels(scale: _Scale, labels: Iterable[_Label]) -> Iterator[str]:
    """The labels under one another, each as near to its height as the others let it, with a line that leads there."""
    ordered = sorted(labels, key=lambda label: -label.height)
    wanted = [min(scale.y(label.height), _BOTTOM) for label in ordered]
    for label, y, at in zip(ordered, wanted, _apart(wanted), strict=True):
        yield _line([(_RIGHT, y), (_RIGHT + 12, at)], label.colour, 1)
        yield _text(_RIGHT + 15, at + 4, label.text, colour=label.colour)


def _apart(wanted: Sequence[float]) -> list[float]:
    """Heights in the same order that lie a label apart, none below the drawing."""
    found: list[float] = []
    for y in wanted:
        found.append(max(y, found[-1] + _LABEL_GAP) if found else y)
    lowest = _BOTTOM
    for place in reversed(range(len(found))):
        found[place] = min(found[place], lowest)
        lowest = found[place] - _LABEL_GAP
    return found


def _key(scale: _Scale, places: Sequence[_Place], number: int) -> Iterator[str]:
    """The names behind the numbers, in columns; with the elevation of what hangs below the drawing."""
    rows = -(-len(places) // _KEY_COLUMNS)
    for place, at in enumerate(places):
        x = 4 + (place // rows) * (WIDTH / _KEY_COLUMNS)
        y = _KEY_TOP + (place % rows) * _KEY_STEP
        below = f", at {_figure(at.elevation)}" if scale.y(at.elevation) > _BOTTOM else ""
        colour = _VACUUM if at.under_vacuum else "currentColor"
        yield _text(x, y, f"{place} {_short(at.name)}{below}", size=11, colour=colour)
    if number > len(places):
        yield _text(4, _KEY_TOP + rows * _KEY_STEP, f"and {number - len(places)} more", size=11)


def _figure(height: float) -> str:
    return f"{height:.3g}".replace("-", "\u2212")


def _short(name: str) -> str:
    return name if len(name) <= _MOST_LETTERS else f"{name[: _MOST_LETTERS - 1]}\u2026"


def _line(
    points: Sequence[tuple[float, float]], colour: str, width: float, dashes: str = "", opacity: float = 1
) -> str:
    told = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
    more = f' stroke-dasharray="{dashes}"' if dashes else ""
    more += f' opacity="{opacity:g}"' if opacity < 1 else ""
    return f'<polyline points="{told}" fill="none" stroke="{colour}" stroke-width="{width:g}"{more}/>'


def _text(
    x: float,
    y: float,
    text: str,
    *,
    anchor: str = "start",
    size: int = 12,
    weight: str = "normal",
    colour: str = "currentColor",
) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{size}" font-weight="{weight}" stroke="none"'
        f' fill="{colour}">{escape(text)}</text>'
    )
