"""The levels of a head profile: ground, water, and what the pump needs, each named in the column at the right."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from footvalve.contract.suction_feasibility import SuctionFeasibilityAnswer
from footvalve.drawings.clipping import Point
from footvalve.drawings.figures import figure, told, told_alone, unit_as_written
from footvalve.drawings.label_column import spread
from footvalve.drawings.profile_frame import Box, Frame
from footvalve.drawings.suction_way import Place
from footvalve.drawings.svg import Drawing, Pen

_GROUND: Final = Pen(1.2)
_SOIL: Final = Pen(0.7)
_PUMPING: Final = Pen(0.8)
_AT_REST: Final = Pen(0.8, "2 3")
_LEADER: Final = Pen(0.5, shade="#777")
_GAUGE: Final = Pen(1.0)

_GAUGE_LEFT: Final = 528.0
_GAUGE_RIGHT: Final = 540.0
_NAMES_LEFT: Final = 566.0
_ROW: Final = 14.5


@dataclass(frozen=True, slots=True)
class ProfileLevels:
    """The levels beside the line, in the answer's unit above the ground."""

    answer: SuctionFeasibilityAnswer
    inlet: Place
    at_rest: float
    asked_margin: float

    @property
    def pumping(self) -> float:
        """The water while it is drawn, in the dry season."""
        return -self.answer.pumping_depth.value

    @property
    def needed(self) -> float:
        """Up to which the pressure must carry at the inlet for the pump to work."""
        return self.inlet.elevation + self.answer.npsh_required.value

    @property
    def available(self) -> float:
        """Up to which it does carry there."""
        return self.inlet.elevation + self.answer.npsh_available.value

    @property
    def seen(self) -> tuple[float, ...]:
        """The levels that the drawing must reach to."""
        return (0.0, self.pumping, self.at_rest, self.inlet.elevation, self.needed + self.asked_margin)


@dataclass(frozen=True, slots=True)
class _Name:
    height: float
    text: str
    bold: bool = False
    from_gauge: bool = False


def draw_levels(drawing: Drawing, frame: Frame, plot: Box, levels: ProfileLevels) -> None:
    """The levels across the plot, the gauge of the pump's need at its right, and all their names."""
    _draw_ground(drawing, frame, plot)
    _draw_water(drawing, frame, plot, levels)
    _draw_gauge(drawing, frame, levels)
    names = list(_names(levels))
    wanted = [frame.height(name.height) for name in names]
    heights = spread(wanted, _ROW, plot.top + 6.0, plot.bottom - 2.0)
    for name, y, at in zip(names, wanted, heights, strict=True):
        start = _GAUGE_RIGHT if name.from_gauge else plot.right
        drawing.line([(start, y), (_NAMES_LEFT - 14.0, y), (_NAMES_LEFT - 3.0, at)], _LEADER)
        drawing.text((_NAMES_LEFT, at + 4.0), name.text, bold=name.bold, role="level")


def _names(levels: ProfileLevels) -> Iterator[_Name]:
    answer, inlet = levels.answer, levels.inlet
    unit = unit_as_written(answer.margin.unit)
    yield _Name(0.0, "ground 0")
    yield _Name(levels.at_rest, f"water at rest {figure(levels.at_rest)} {unit}")
    yield _Name(levels.pumping, f"pumping level {figure(levels.pumping)} {unit}")
    yield _Name(inlet.elevation, f"pump inlet {figure(inlet.elevation)} {unit}")
    yield _Name(inlet.hydraulic_level, f"hydraulic level {figure(inlet.hydraulic_level)} {unit}")
    yield _Name(inlet.vapour_limit, f"vapour limit {figure(inlet.vapour_limit)} {unit}")
    need = inlet.elevation + answer.npsh_required.value / 2
    yield _Name(need, f"pump needs {told_alone(answer.npsh_required)}", from_gauge=True)
    margin = (levels.needed + max(levels.available, inlet.elevation)) / 2
    yield _Name(margin, f"margin {told(answer.margin)}", bold=True, from_gauge=True)
    asked = f"margin asked {figure(levels.asked_margin)} {unit}"
    yield _Name(levels.needed + levels.asked_margin, asked, from_gauge=True)


def _draw_ground(drawing: Drawing, frame: Frame, plot: Box) -> None:
    y = frame.height(0.0)
    drawing.line([(plot.left, y), (plot.right, y)], _GROUND, role="ground")
    for x in range(int(plot.left) + 6, int(plot.right), 14):
        drawing.line([(float(x), y), (x - 5.0, y + 5.0)], _SOIL)


def _draw_water(drawing: Drawing, frame: Frame, plot: Box, levels: ProfileLevels) -> None:
    for place, (height, pen) in enumerate(((levels.at_rest, _AT_REST), (levels.pumping, _PUMPING))):
        y, x = frame.height(height), plot.left + 10.0 + 13.0 * place
        drawing.line([(plot.left, y), (plot.right, y)], pen, role="water")
        drawing.area([(x - 5.0, y - 9.0), (x + 5.0, y - 9.0), (x, y - 1.0)], "white", _GAUGE)


def _draw_gauge(drawing: Drawing, frame: Frame, levels: ProfileLevels) -> None:
    """At the inlet: dark as far as the pump's need is met, hatched where it is not, white for what is to spare."""
    inlet, needed, available = levels.inlet.elevation, levels.needed, levels.available
    met = min(max(available, inlet), needed)
    drawing.area(_bar(frame, inlet, met), "#555", _GAUGE, role="need-met")
    if available < needed:
        drawing.area(_bar(frame, met, needed), "hatching", _GAUGE, role="need-not-met")
    else:
        drawing.area(_bar(frame, needed, available), "white", _GAUGE, role="to-spare")
    asked = frame.height(needed + levels.asked_margin)
    drawing.line([(_GAUGE_LEFT - 4.0, asked), (_GAUGE_RIGHT + 4.0, asked)], Pen(2.0), role="asked")


def _bar(frame: Frame, low: float, high: float) -> list[Point]:
    bottom, top = frame.height(low), frame.height(high)
    return [(_GAUGE_LEFT, bottom), (_GAUGE_RIGHT, bottom), (_GAUGE_RIGHT, top), (_GAUGE_LEFT, top)]
