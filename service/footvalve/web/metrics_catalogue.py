"""Every metric that is told, but for those of the processes themselves. Each label has a closed list of values."""

from dataclasses import dataclass
from typing import Final, Literal

BUCKETS: Final = (0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0)
"""Seconds: from an answer of the plainest kind to a batch that somebody waits for."""


@dataclass(frozen=True, slots=True)
class Metric:
    """A metric: its name, how several processes' numbers become one, its meaning, and its labels.

    A counter's and a histogram's numbers are added, those of ended processes too; a gauge's only while its process
    lives, added (`sum`) or the least of them (`least`).
    """

    name: str
    kind: Literal["counter", "histogram", "sum", "least"]
    meaning: str
    labels: tuple[str, ...] = ()

    @property
    def cells(self) -> int:
        """How many numbers each combination of labels takes: a histogram's are its buckets, all above, and the sum."""
        return len(BUCKETS) + 2 if self.kind == "histogram" else 1


REQUESTS: Final = Metric(
    "footvalve_requests",
    "counter",
    "Requests that ended, by path, method and status; none: it ended before an answer had begun.",
    ("path", "method", "status"),
)
SECONDS: Final = Metric(
    "footvalve_request_seconds", "histogram", "Time from a request's head to the end of its answer.", ("path",)
)
IN_PROGRESS: Final = Metric("footvalve_requests_in_progress", "sum", "Requests that have begun and not ended.")
PROBLEMS: Final = Metric(
    "footvalve_problems",
    "counter",
    "Requests that ended in problem details, by the last part of the problem's type.",
    ("problem",),
)
REFUSED_UNREAD: Final = Metric(
    "footvalve_refused_unread",
    "counter",
    "Connections, and heads that could not be read, that were refused before there was a request.",
    ("problem",),
)
BATCH_ITEMS: Final = Metric("footvalve_batch_items", "counter", "Items of batches, by their own status.", ("status",))
LOG_LINES_LOST: Final = Metric("footvalve_log_lines_lost", "counter", "Lines of the log that could not be written.")
STORE_UP: Final = Metric(
    "footvalve_rate_limit_store_up",
    "least",
    "1 while the store of the rate limits answers every worker, else 0; not told where there is none.",
)
STORE_FALLBACKS: Final = Metric(
    "footvalve_rate_limit_fallbacks",
    "counter",
    "Requests that were counted in one process alone, as the store of the rate limits was away.",
)
KEY_RELOAD_FAILURES: Final = Metric(
    "footvalve_key_reload_failures", "counter", "How often the file of the keys had changed and could not be read."
)
LONG_WORK_WAITING: Final = Metric(
    "footvalve_long_work_waiting", "sum", "Requests that ask for much work and wait for their first turn."
)
WORKERS_UP: Final = Metric("footvalve_workers_up", "sum", "Workers that run.")
WORKER_RESTARTS: Final = Metric(
    "footvalve_worker_restarts", "counter", "Workers that ended by themselves and were replaced."
)

METRICS: Final = {
    metric.name: metric
    for metric in (
        REQUESTS,
        SECONDS,
        IN_PROGRESS,
        PROBLEMS,
        REFUSED_UNREAD,
        BATCH_ITEMS,
        LOG_LINES_LOST,
        STORE_UP,
        STORE_FALLBACKS,
        KEY_RELOAD_FAILURES,
        LONG_WORK_WAITING,
        WORKERS_UP,
        WORKER_RESTARTS,
    )
}
"""Every metric by its name."""

TOLD_FROM_THE_START: Final = (LOG_LINES_LOST, STORE_FALLBACKS, KEY_RELOAD_FAILURES, WORKER_RESTARTS)
"""Counters that are told as 0 before anything happened: an alarm on their growth needs a first value."""
