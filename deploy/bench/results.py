"""What the benchmark over HTTP has found, and what is wanted of it."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from statistics import median
from typing import NamedTuple


class Run(NamedTuple):
    """One run of wrk as fast as it is answered: answers a second, the processor's time and half the callers' wait."""

    per_second: float
    cpu_us: float
    p50_ms: float


class Half(NamedTuple):
    """One run by chance: its share of the greatest load, within what time half of the answers and 99 of 100 came."""

    share: float
    p50_ms: float
    p99_ms: float


@dataclass(frozen=True, slots=True)
class Compared:
    """The runs of one body by kind, in the order of the rounds. At half the load, some kinds alone."""

    runs: Mapping[str, list[Run]]
    halves: Mapping[str, list[Half]]

    def of(self, kind: str) -> Run:
        """The medians of a kind."""
        return Run(*map(median, zip(*self.runs[kind], strict=True)))

    def half(self, kind: str = "service") -> Half:
        """The medians at half the load of a kind."""
        return Half(*map(median, zip(*self.halves[kind], strict=True)))

    def throughput_ratio(self, kind: str) -> float:
        """The service's answers a second over those of a kind: the median of the rounds."""
        return self._ratio(lambda run, of: run.per_second / of.per_second, kind)

    def cpu_ratio(self, kind: str) -> float:
        """A kind's processor time of an answer over the service's: the median of the rounds."""
        return self._ratio(lambda run, of: of.cpu_us / run.cpu_us, kind)

    def _ratio(self, ratio: Callable[[Run, Run], float], kind: str) -> float:
        return median(map(ratio, self.runs["service"], self.runs[kind]))


@dataclass(frozen=True, slots=True)
class Results:
    """Everything that was measured in one go."""

    load_before: float
    seconds: int
    seconds_at_half: int
    rounds: int
    connections: int
    compared: Mapping[str, Compared]
    two_workers: float
    memory_mb: float
    start_s: float
    batch: Run


class Target(NamedTuple):
    """Something that is wanted, and what was found."""

    what: str
    wanted: str
    found: str
    is_reached: bool


SHARES = {
    "suction-feasibility": 0.85,
    "sounding": 0.8,
    "well-recovery": 0.8,
    "friction": 0.8,
    "tank-cycle": 0.8,
    "battery-runtime": 0.8,
    "manifold-check": 0.8,
    "site-plan": 0.4,
    "suction-feasibility, six uncertain": 0.6,
    "suction-feasibility, limits": 0.4,
}
"""What share of the handler that reckons nothing is wanted of each body."""


def targets(results: Results) -> Iterator[Target]:
    """Every target. A share is held against the processor's time, which is the steadier figure."""
    for name, least in SHARES.items():
        share = results.compared[name].cpu_ratio("ready")
        yield Target(f"{name}, of the handler that reckons nothing", f"{least} or more", f"{share:.2f}", share >= least)
    per_second, p99 = results.batch.per_second, results.compared["suction-feasibility"].half().p99_ms
    yield Target("batch, feasibility answers a second on one core", "25000", f"{per_second:.0f}", per_second >= 25_000)
    yield Target("suction-feasibility, p99 at half the greatest load", "under 3 ms", f"{p99:.1f} ms", p99 < 3)
    memory, start, two = results.memory_mb, results.start_s, results.two_workers
    yield Target("memory of a worker after load", "under 90 MB", f"{memory:.0f} MB", memory < 90)
    yield Target("start to ready", "under 1 s", f"{start:.2f} s", start < 1)
    yield Target("two workers over one, suction-feasibility", "1.8", f"{two:.2f}", two >= 1.8)
