"""What part of a suction line a head profile shows, and its scales."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from footvalve.drawings.scales import Scale
from footvalve.drawings.suction_way import Place

_DEEPEST_WHOLE: Final = 0.9
"""Of the height that matters, as much again may hang below it, or heads fall below it, for all of it to be shown."""

_DEPTH_SHOWN: Final = 0.45
"""Of the height that matters, as much again is shown of what is not shown whole."""

_AIR: Final = 0.08
"""Share of the height that stays free above and below."""

_LEAST_AIR: Final = 0.1
"""In the answer's unit: no scale is shorter, however flat the line is."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The window that is shown. What lies before its first place hangs deeper than it reaches."""

    way: Scale
    height: Scale
    hidden: int
    """Number of places below the window, all at the line's beginning."""


@dataclass(frozen=True, slots=True)
class Box:
    """A part of the drawing."""

    left: float
    right: float
    top: float
    bottom: float


def profile_frame(places: Sequence[Place], levels: Sequence[float], box: Box) -> Frame:
    """The frame for the places and for some levels that must be seen, such as those of the water."""
    hanging = _hanging(places, min(levels))
    high = max(*levels, *(max(place.elevation, place.vapour_limit) for place in places))
    low = min(*levels, *(place.elevation for place in places[hanging:]))
    deepest = min(min(place.elevation, place.hydraulic_level, place.vapour_limit) for place in places)
    floor = min(low, deepest) if deepest >= low - _DEEPEST_WHOLE * (high - low) else low - _DEPTH_SHOWN * (high - low)
    air = max(_AIR * (high - floor), _LEAST_AIR)
    bottom = floor - air
    hidden = max((count for count, place in enumerate(places[:hanging], 1) if place.elevation < bottom), default=0)
    start = _way_at(places, hidden, bottom) if hidden else 0.0
    end = max(places[-1].way, start + _LEAST_AIR)
    return Frame(Scale(start, end, box.left, box.right), Scale(bottom, high + air, box.bottom, box.top), hidden)


def _hanging(places: Sequence[Place], level: float) -> int:
    """How many places at the beginning lie below the level without a vacuum in them: the deep end of a drop pipe."""
    for count, place in enumerate(places):
        if place.elevation >= level or place.gauge_head < 0.0:
            return count
    return 0


def _way_at(places: Sequence[Place], hidden: int, elevation: float) -> float:
    """The way at which the line comes up through an elevation, after the hidden places."""
    before, after = places[hidden - 1], places[hidden]
    rise = after.elevation - before.elevation
    return before.way + (after.way - before.way) * (elevation - before.elevation) / rise
