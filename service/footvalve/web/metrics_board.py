"""The numbers of one process's metrics, side by side in memory, where adding to one costs next to nothing.

The values of prometheus_client itself cost a request 3 µs, and 7 µs over several processes; these cost under one. They
are told through that library (metrics_collector.py).
"""

from collections.abc import Iterable, Iterator
from threading import Lock
from typing import Final

from footvalve.web.metrics_catalogue import METRICS, Metric

Series = tuple[str, tuple[str, ...]]
"""A metric's name, and the values of its labels."""

Reading = tuple[Series, tuple[float, ...]]
"""A series with its numbers."""

MOST_CELLS: Final = 16_384
"""Numbers: enough for every path with every method and status. What finds no place is not told."""

SPILL: Final = 0
"""The place of what finds none: as wide as the widest series, before all others."""

_FIRST: Final = max(metric.cells for metric in METRICS.values())


class Board:
    """Numbers in this process's own memory."""

    def __init__(self, memory: memoryview | None = None) -> None:
        self.cells: memoryview[float] = (memory or memoryview(bytearray(8 * MOST_CELLS))).cast("d")
        self._places: dict[Series, int] = {}
        self._free = _FIRST
        self._placing = Lock()

    def place(self, metric: Metric, labels: tuple[str, ...] = ()) -> int:
        """The index of the first number of a series. They are 0 before anybody adds to them."""
        series = (metric.name, labels)
        place = self._places.get(series)
        if place is None:
            with self._placing:
                place = self._places.get(series) or self._new_place(series)
        return place

    def readings(self) -> Iterator[Reading]:
        """Every series with its numbers as they stand."""
        return readings_of(tuple(self._places), self.cells)

    def _new_place(self, series: Series) -> int:
        fits = self._free + METRICS[series[0]].cells <= MOST_CELLS and self._noted(series)
        return self._allotted(series) if fits else SPILL

    def _allotted(self, series: Series) -> int:
        place = self._places[series] = self._free
        self._free += METRICS[series[0]].cells
        return place

    def _noted(self, series: Series) -> bool:  # noqa: ARG002
        """Whether a reader of the numbers will know what stands there."""
        return True


def readings_of(series: Iterable[Series], cells: "memoryview[float]") -> Iterator[Reading]:
    """Series in the order in which they were placed, with their numbers."""
    place = _FIRST
    for name, labels in series:
        after = place + METRICS[name].cells
        yield (name, labels), tuple(cells[place:after])
        place = after
