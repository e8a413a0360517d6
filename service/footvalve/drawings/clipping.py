"""Lines cut off where they leave the band that a drawing shows."""

from collections.abc import Sequence
from itertools import groupby, pairwise

Point = tuple[float, float]


def pieces_within(points: Sequence[Point], low: float, high: float) -> list[list[Point]]:
    """The pieces of a line whose second coordinate lies in the band."""
    cut = _with_crossings(points, low, high)
    grouped = groupby(cut, key=lambda point: low <= point[1] <= high)
    return [piece for inside, group in grouped if inside and len(piece := list(group)) > 1]


def held_within(points: Sequence[Point], low: float, high: float) -> list[Point]:
    """The line with what leaves the band laid along its edge: the outline of an area that is cut off there."""
    return [(x, min(max(y, low), high)) for x, y in _with_crossings(points, low, high)]


def _with_crossings(points: Sequence[Point], low: float, high: float) -> list[Point]:
    """The points and, between them, where the line crosses an edge of the band."""
    cut = list(points[:1])
    for (x0, y0), (x1, y1) in pairwise(points):
        edges = sorted((edge for edge in (low, high) if min(y0, y1) < edge < max(y0, y1)), reverse=y1 < y0)
        cut += [(x0 + (x1 - x0) * (edge - y0) / (y1 - y0), edge) for edge in edges]
        cut.append((x1, y1))
    return cut
