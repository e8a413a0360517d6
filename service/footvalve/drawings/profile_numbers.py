"""The numbers beside the places of a head profile: neighbours that would lie on each other share one label."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Final

from footvalve.drawings.clipping import Point
from footvalve.drawings.lettering import text_width
from footvalve.drawings.svg import Anchor

Extent = tuple[float, float, float, float]
"""Left, right, top and bottom."""

_Side = tuple[float, float, Anchor]
"""Across and down from a mark to its label, and how the label hangs there."""

NUMBER_SIZE: Final = 11.0
_CLEARANCE: Final = 3.0
_OFF: Final = 7.0
_BELOW: Final[_Side] = (-_OFF - 1.0, _OFF + 6.0, "end")
_ABOVE: Final[_Side] = (-_OFF - 1.0, -_OFF - 1.0, "end")

_STEEP: Final = 0.6
"""Rise over run in the drawing, from which on a label stands beside the line and not above it."""

_SLANTING: Final = 0.2
"""Fall over run, from which on a label to the left is better below the line than above it."""


@dataclass(frozen=True, slots=True)
class NumberLabel:
    """The numbers from `first` to `last`, written at a point."""

    first: int
    last: int
    at: Point
    anchor: Anchor

    @property
    def text(self) -> str:
        """The numbers, as a range where there are several."""
        return numbers_told(self.first, self.last)

    @property
    def extent(self) -> Extent:
        """The room that the label takes."""
        width = text_width(self.text, NUMBER_SIZE)
        x, y = self.at
        left = {"start": x, "middle": x - width / 2, "end": x - width}[self.anchor]
        return left, left + width, y - NUMBER_SIZE, y


def numbers_told(first: int, last: int) -> str:
    """Numbers of places, as a range where there are several."""
    return f"{first}" if first == last else f"{first}–{last}"


@dataclass(frozen=True, slots=True)
class _Station:
    """A point of the line where one or more parts end, and how the line comes to it and leaves it."""

    first: int
    last: int
    at: Point
    slopes: tuple[float, ...]


def number_labels(marks: Sequence[tuple[int, Point]], obstacles: Sequence[Extent]) -> list[NumberLabel]:
    """Labels for numbered marks, in the order of the line, clear of what else stands there if that can be had."""
    stations = _stations(marks)
    groups: list[tuple[int, int]] = []
    labels: list[NumberLabel] = []
    for index in range(len(stations)):
        begin = index
        label = _label(stations, begin, index, obstacles)
        while touched := [place for place, other in enumerate(labels) if _touch(other, label)]:
            begin = groups[touched[0]][0]
            del labels[touched[0] :], groups[touched[0] :]
            label = _label(stations, begin, index, obstacles)
        labels.append(label)
        groups.append((begin, index))
    return labels


def _stations(marks: Sequence[tuple[int, Point]]) -> list[_Station]:
    groups = [list(group) for _, group in groupby(marks, key=lambda mark: mark[1][0])]
    points = [group[0][1] for group in groups]
    slopes = [(y1 - y0) / (x1 - x0) for (x0, y0), (x1, y1) in pairwise(points)]
    return [
        _Station(group[0][0], group[-1][0], point, tuple(slopes[max(place - 1, 0) : place + 1]))
        for place, (group, point) in enumerate(zip(groups, points, strict=True))
    ]


def _label(stations: Sequence[_Station], begin: int, end: int, obstacles: Sequence[Extent]) -> NumberLabel:
    """One label for the stations from `begin` to `end`, beside the middle one."""
    middle = stations[(begin + end) // 2]
    x, y = middle.at
    for dx, dy, anchor in _sides(middle):
        label = NumberLabel(stations[begin].first, stations[end].last, (x + dx, y + dy), anchor)
        if not any(_meet(label.extent, obstacle) for obstacle in obstacles):
            break
    return label


def _sides(station: _Station) -> Iterator[_Side]:
    """Where beside a mark a label lies clear of the line, the best place first. In the drawing a rise is below zero."""
    falls = any(slope > _SLANTING for slope in station.slopes)
    if any(slope < -_STEEP for slope in station.slopes):
        yield -_OFF, -_OFF / 2, "end"
    elif any(slope > _STEEP for slope in station.slopes):
        yield _OFF, -_OFF / 2, "start"
    else:
        yield 0.0, -_OFF - 1.0, "middle"
    yield from (_BELOW, _ABOVE) if falls else (_ABOVE, _BELOW)


def _touch(one: NumberLabel, other: NumberLabel) -> bool:
    left, right, top, bottom = one.extent
    return _meet((left - _CLEARANCE, right + _CLEARANCE, top, bottom), other.extent)


def _meet(one: Extent, other: Extent) -> bool:
    beside = one[1] <= other[0] or other[1] <= one[0]
    return not (beside or one[3] <= other[2] or other[3] <= one[2])
