"""The head profile of a suction line: how high it runs, how high its pressure carries, and where it would boil."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from footvalve.contract.line import LinePart
from footvalve.contract.quantities import Length
from footvalve.contract.suction_feasibility import SuctionFeasibilityAnswer
from footvalve.drawings.clipping import Point, held_within, pieces_within
from footvalve.drawings.figures import figure, unit_as_written
from footvalve.drawings.lettering import shortened, text_width
from footvalve.drawings.profile_frame import Box, Frame, profile_frame
from footvalve.drawings.profile_key import draw_key, key_entries, key_height
from footvalve.drawings.profile_legend import BOILING, HYDRAULIC, PIPE_UNDER_VACUUM, VAPOUR, draw_legend
from footvalve.drawings.profile_levels import ProfileLevels, draw_levels
from footvalve.drawings.profile_numbers import NUMBER_SIZE, number_labels, numbers_told
from footvalve.drawings.profile_wording import left_told, profile_description, profile_title
from footvalve.drawings.scales import ticks
from footvalve.drawings.suction_way import Place, stretches_that_boil, stretches_under_vacuum, suction_way
from footvalve.drawings.svg import TEXT_SIZE, Drawing, Pen
from footvalve.quantity import from_base

WIDTH: Final = 720.0
_PLOT: Final = Box(left=52.0, right=505.0, top=50.0, bottom=286.0)
_INDENT: Final = 34.0
"""From the axis to the line's beginning: the labels of the first parts stand there."""

_CALLOUT_LEFT: Final = 110.0
_LEGEND: Final = 342.0
_KEY_TOP: Final = 352.0
_FOOT: Final = 2.0

_GRID: Final = Pen(0.5, shade="#bbb")
_AXIS: Final = Pen(1.0)
_PIPE: Final = Pen(2.2)
_DIMENSION: Final = Pen(0.9)
_MARK: Final = Pen(1.2)
_PUMP_RADIUS: Final = 9.0
_BREAK: Final = ((-9.0, 0.0), (-3.0, 6.0), (3.0, 0.0), (9.0, 6.0))


def head_profile(
    answer: SuctionFeasibilityAnswer,
    line: Sequence[LinePart],
    *,
    resting_depth: Length,
    asked_margin: Length,
    keyed: bool = True,
) -> str:
    """The head profile as SVG, for the answer and the line that it is about.

    `resting_depth` is the depth to the water at rest below the ground, `asked_margin` the policy's margin. Without a
    key the numbers are told elsewhere.
    """
    unit = answer.margin.unit
    places = suction_way(answer, line)
    levels = ProfileLevels(answer, places[-1], from_base(-resting_depth.base, unit), from_base(asked_margin.base, unit))
    frame = profile_frame(places, levels.seen, Box(_PLOT.left + _INDENT, _PLOT.right, _PLOT.top, _PLOT.bottom))
    entries = key_entries(places) if keyed else []
    drawing = Drawing(
        "head-profile",
        (WIDTH, _KEY_TOP + key_height(entries) + _FOOT),
        title=profile_title(answer),
        description=profile_description(answer, places),
    )
    drawing.text((4.0, 18.0), profile_title(answer), size=14.0, bold=True)
    _draw_axes(drawing, frame, unit)
    _draw_vacuum(drawing, frame, places)
    draw_levels(drawing, frame, _PLOT, levels)
    _draw_heads(drawing, frame, places)
    _draw_line(drawing, frame, places)
    tightest = places[answer.tightest.index + 1 if isinstance(answer.tightest.index, int) else 0]
    _draw_tightest(drawing, frame, tightest, answer)
    _draw_numbers(drawing, frame, places, tightest)
    draw_legend(drawing, 4.0, _LEGEND, boils=answer.tightest.above_vapour.value < 0)
    draw_key(drawing, entries, 4.0, WIDTH - 4.0, _KEY_TOP)
    return drawing.markup


def _draw_axes(drawing: Drawing, frame: Frame, unit: str) -> None:
    written = unit_as_written(unit)
    for elevation in ticks(frame.height.low, frame.height.high, 7):
        y = frame.height(elevation)
        drawing.line([(_PLOT.left, y), (_PLOT.right, y)], _GRID)
        drawing.text((_PLOT.left - 5.0, y + 4.0), figure(elevation), anchor="end")
    for way in ticks(frame.way.low, frame.way.high, 8):
        x = frame.way(way)
        drawing.line([(x, _PLOT.bottom), (x, _PLOT.bottom + 4.0)], _AXIS)
        drawing.text((x, _PLOT.bottom + 17.0), figure(way), anchor="middle")
    corners = [(_PLOT.left, _PLOT.top), (_PLOT.left, _PLOT.bottom), (_PLOT.right, _PLOT.bottom)]
    drawing.line(corners, _AXIS)
    drawing.text((4.0, _PLOT.top - 10.0), f"elevation, {written}")
    drawing.text((_PLOT.right, _PLOT.bottom + 33.0), f"way along the line from its intake, {written}", anchor="end")


def _draw_vacuum(drawing: Drawing, frame: Frame, places: Sequence[Place]) -> None:
    for stretch in stretches_under_vacuum(places):
        pipe, level = (_from(points, frame.way.low) for points in (stretch.pipe, stretch.level))
        below = held_within(level, frame.height.low, frame.height.high)
        drawing.area(_drawn(frame, [*pipe, *reversed(below)]), "hatching", role="vacuum-area")
        drawing.line(_drawn(frame, pipe), PIPE_UNDER_VACUUM, role="under-vacuum")


def _draw_boiling(drawing: Drawing, frame: Frame, places: Sequence[Place]) -> None:
    for stretch in stretches_that_boil(places):
        points = _drawn(frame, _from(stretch.pipe, frame.way.low))
        drawing.line(points, PIPE_UNDER_VACUUM)
        drawing.line(points, BOILING, role="boils")


def _draw_heads(drawing: Drawing, frame: Frame, places: Sequence[Place]) -> None:
    limit = [(place.way, place.vapour_limit) for place in places]
    level = [(place.way, place.hydraulic_level) for place in places]
    for points, pen, role in ((limit, VAPOUR, "vapour-limit"), (level, HYDRAULIC, "hydraulic-level")):
        for piece in pieces_within(_from(points, frame.way.low), frame.height.low, frame.height.high):
            drawing.line(_drawn(frame, piece), pen, role=role)


def _draw_line(drawing: Drawing, frame: Frame, places: Sequence[Place]) -> None:
    """The pipe itself, a mark at every place, the numbers, and the pump at the end."""
    points = _from([(place.way, place.elevation) for place in places], frame.way.low)
    drawing.line(_drawn(frame, points), _PIPE, role="line")
    _draw_boiling(drawing, frame, places)
    marks = _marks(frame, places)
    for number, point in marks:
        drawing.circle(point, 3.0, _MARK, role=f"place-{number}")
    _draw_beginning(drawing, frame, places)
    _draw_pump(drawing, marks[-1][1])


def _marks(frame: Frame, places: Sequence[Place]) -> list[tuple[int, Point]]:
    """The places that are shown, each with its number."""
    shown = places[frame.hidden :]
    return [(place.number, (frame.way(place.way), frame.height(place.elevation))) for place in shown]


def _draw_numbers(drawing: Drawing, frame: Frame, places: Sequence[Place], tightest: Place) -> None:
    """The parts' numbers, clear of the pump and of the pointer to the tightest place."""
    parts = [mark for mark in _marks(frame, places) if mark[0]]
    x, y = parts[-1][1]
    pump = (x, x + 2 * _PUMP_RADIUS, y - _PUMP_RADIUS, y + _PUMP_RADIUS)
    pointed = frame.way(tightest.way)
    pointer = (pointed - 4.0, pointed + 4.0, 0.0, frame.height(tightest.elevation))
    for label in number_labels(parts, [pump, pointer]):
        drawing.text(label.at, label.text, anchor=label.anchor, size=NUMBER_SIZE, role="number")


def _draw_beginning(drawing: Drawing, frame: Frame, places: Sequence[Place]) -> None:
    """The intake, or the break below which it hangs."""
    if not frame.hidden:
        x, y = frame.way(0.0), frame.height(places[0].elevation)
        drawing.text((x + 8.0, y + 13.0), "intake", size=NUMBER_SIZE)
        return
    x, y = frame.way(frame.way.low), _PLOT.bottom
    for below in (0.0, 5.0):
        drawing.line([(x + dx, y - dy - below) for dx, dy in _BREAK], _MARK, role="break")
    numbers = f"intake and {numbers_told(1, frame.hidden - 1)}" if frame.hidden > 1 else "intake"
    depth = min(place.elevation for place in places[: frame.hidden])
    drawing.text((4.0, y + 33.0), f"{numbers} below, to {figure(depth)}", size=NUMBER_SIZE, role="number")


def _draw_pump(drawing: Drawing, inlet: Point) -> None:
    x, y = inlet[0] + _PUMP_RADIUS, inlet[1]
    drawing.circle((x, y), _PUMP_RADIUS, Pen(1.6), role="pump")
    drawing.area([(x - 4.0, y - 6.5), (x - 4.0, y + 6.5), (x + 8.0, y)], "black")


def _draw_tightest(drawing: Drawing, frame: Frame, place: Place, answer: SuctionFeasibilityAnswer) -> None:
    """The tightest place, pointed at from above, with what is left there."""
    x, y = frame.way(place.way), frame.height(place.elevation)
    left = f" ({place.number}), {left_told(answer)}"
    start = "tightest: "
    end = WIDTH - 6.0
    room = end - _CALLOUT_LEFT - text_width(start + left, TEXT_SIZE, bold=True)
    text = start + shortened(place.name, room, TEXT_SIZE, bold=True) + left
    width = text_width(text, TEXT_SIZE, bold=True)
    beginning = min(max(x - width / 2, _CALLOUT_LEFT), end - width)
    drawing.text((beginning, _PLOT.top - 10.0), text, bold=True, role="tightest")
    drawing.line([(x, _PLOT.top - 6.0), (x, y - 4.0)], _DIMENSION, role="tightest-pointer")
    drawing.area([(x - 3.5, y - 12.0), (x + 3.5, y - 12.0), (x, y - 3.5)], "black")


def _drawn(frame: Frame, points: Sequence[Point]) -> list[Point]:
    return [(frame.way(way), frame.height(height)) for way, height in points]


def _from(points: Sequence[Point], way: float) -> list[Point]:
    """The points from a way on, beginning there."""
    kept = [point for point in points if point[0] >= way]
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 < way < x1:
            return [(way, y0 + (y1 - y0) * (way - x0) / (x1 - x0)), *kept]
    return kept
