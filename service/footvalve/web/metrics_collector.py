"""The metrics of every process, as prometheus_client tells them."""

import os
from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import accumulate
from math import isnan
from operator import add

from prometheus_client import ProcessCollector
from prometheus_client.core import CounterMetricFamily, GaugeMetricFamily, HistogramMetricFamily, InfoMetricFamily
from prometheus_client.metrics_core import Metric as Family
from prometheus_client.registry import Collector

from footvalve import __version__
from footvalve.web.metrics_board import Board, Reading
from footvalve.web.metrics_catalogue import BUCKETS, METRICS, Metric
from footvalve.web.metrics_folder import Folder

Numbers = dict[tuple[str, ...], tuple[float, ...]]
"""The numbers of a metric, by the values of its labels."""

Processes = dict[str, int]
"""The id of each process that runs, by a name that the next process in its place has too."""

_UPPER_BOUNDS = [*map(str, BUCKETS), "+Inf"]


class MetricsCollector(Collector):
    """What this process has counted, and what its workers have, where there are any."""

    def __init__(self, board: Board, folder: Folder | None = None) -> None:
        self._board = board
        self._folder = folder

    def collect(self) -> Iterator[Family]:
        """Every metric that has a number."""
        readings, processes = self._read()
        yield InfoMetricFamily("footvalve_build", "What runs here.", {"version": __version__})
        together = _together(readings)
        for name, metric in METRICS.items():
            if name in together:
                yield _FAMILIES[metric.kind](metric, together[name])
        yield from _process_families(processes)

    def _read(self) -> tuple[list[Reading], Processes]:
        readings = list(self._board.readings())
        if self._folder is None:
            return readings, {"worker-0": os.getpid()}
        processes = {"keeper": os.getpid()}
        for slot in self._folder.slots():
            process = slot.process()
            if process is not None:
                processes[f"worker-{slot.number}"] = process
            readings += (r for r in slot.readings() if process is not None or _outlives_its_process(r))
        return readings, processes


def _outlives_its_process(reading: Reading) -> bool:
    (name, _), _ = reading
    return METRICS[name].kind in {"counter", "histogram"}


def _together(readings: Iterable[Reading]) -> dict[str, Numbers]:
    """The numbers of all processes, by the name of their metric."""
    together: dict[str, Numbers] = defaultdict(dict)
    for (name, labels), numbers in readings:
        if isnan(numbers[0]):
            continue
        others = together[name].get(labels)
        join = min if METRICS[name].kind == "least" else add
        together[name][labels] = numbers if others is None else tuple(map(join, others, numbers))
    return together


def _counter(metric: Metric, series: Numbers) -> Family:
    family = CounterMetricFamily(metric.name, metric.meaning, labels=metric.labels)
    for labels, (number,) in series.items():
        family.add_metric(labels, number)
    return family


def _gauge(metric: Metric, series: Numbers) -> Family:
    family = GaugeMetricFamily(metric.name, metric.meaning, labels=metric.labels)
    for labels, (number,) in series.items():
        family.add_metric(labels, number)
    return family


def _histogram(metric: Metric, series: Numbers) -> Family:
    family = HistogramMetricFamily(metric.name, metric.meaning, labels=metric.labels)
    for labels, (*buckets, seconds) in series.items():
        family.add_metric(labels, list(zip(_UPPER_BOUNDS, accumulate(buckets), strict=True)), seconds)
    return family


_FAMILIES = {"counter": _counter, "sum": _gauge, "least": _gauge, "histogram": _histogram}


def _process_families(processes: Processes) -> Iterable[Family]:
    """What the system tells of each process, under the names that Prometheus gives it."""
    families: dict[str, Family] = {}
    for name, process in processes.items():
        for told in ProcessCollector(pid=lambda process=process: process, registry=None).collect():  # type: ignore[misc]
            family = families.setdefault(told.name, Family(told.name, told.documentation, told.type))
            for sample in told.samples:
                family.add_sample(sample.name, {"process": name}, sample.value)
    return families.values()
