"""What a million checks a day, and a million an hour, need: from what a request costs, measured here and now.

    .venv/bin/python deploy/capacity.py [--seconds 10] [--rounds 3] [--check]

One process of the service is asked the mix of load/demo_mix.py by wrk, behind the proxy; from the processor time that
the process and the proxy take for it follows the cost of a request. Writes deploy/CAPACITY.md. With --check it writes
nothing, and exits with 1 where the page is not what follows from the figures that stand in it.
"""

import argparse
import math
import os
import platform
import sys
from collections.abc import Sequence
from pathlib import Path
from statistics import median
from typing import Final, NamedTuple

import msgspec
from load.demo_mix import SHARES, Question, questions
from load.running_proxy import running_proxy
from load.service_group import ServiceProcess, cpu_seconds_of, service_group
from load.wrk import throughput

PAGE: Final = Path(__file__).with_name("CAPACITY.md")

PLAIN: Final = "suction-feasibility"
"""Of which endpoint the first example is a plain check."""

CONNECTIONS: Final = 16
LIGHT_CONNECTIONS: Final = 1
USED_FRACTION: Final = 0.6
"""Of a core, on the peak. What is left is for what waits in line, for a roll, and for costlier requests."""

SPARE: Final = 1
"""Processes more than the load needs: one may be away."""

LEAST: Final = 3
"""Fewer would not outlive a fault during a roll."""


class Costs(msgspec.Struct, frozen=True):
    """What was measured, as it stands in the page. Times in microseconds of a processor, memory in MB."""

    service_us: float
    plain_us: float
    proxy_us: float
    memory_mb: float
    p99_alone_ms: float
    python: str
    cores: int


class Demand(NamedTuple):
    """A number of checks, the seconds that they come in, and how far the busiest minute lies above the mean."""

    name: str
    checks: int
    seconds: int
    peak_factor: float

    @property
    def peak_rate(self) -> float:
        """Requests a second in the busiest minute."""
        return self.checks / self.seconds * self.peak_factor


DEMANDS: Final = (
    Demand("a million checks a day", 1_000_000, 86_400, 5.0),
    Demand("a million checks an hour", 1_000_000, 3_600, 2.0),
)


class Need(NamedTuple):
    """What a demand takes."""

    rate: float
    cores: float
    processes: int
    proxy_cores: float
    memory_mb: float


def main() -> int:
    """Measure and write the page, or check the page that stands."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--seconds", type=int, default=10, help="of each run of wrk (default: %(default)s)")
    parser.add_argument("--rounds", type=int, default=3, help="of the runs of wrk (default: %(default)s)")
    parser.add_argument("--check", action="store_true", help="write nothing; see whether the page follows from itself")
    chosen = parser.parse_args()
    if chosen.check:
        stands = PAGE.read_text(encoding="utf-8")
        return 0 if page(costs_of(stands)) == stands else 1
    PAGE.write_text(page(measured(questions(), chosen.seconds, chosen.rounds)), encoding="utf-8")
    print(PAGE.read_text(encoding="utf-8"))
    return 0


def measured(asked: Sequence[Question], seconds: int, rounds: int) -> Costs:
    """The costs as they come out on this machine: the medians of some rounds. Raises RuntimeError for a failure."""
    with (
        service_group(1, {"FOOTVALVE_LOG_REQUESTS": "none"}) as (process,),
        running_proxy([process.address]) as proxy,
    ):
        address = proxy.url.removeprefix("http://")
        _run(address, asked, CONNECTIONS, 2)  # what is made at the first request is made now
        busy = [_costs(process, proxy.pid, address, asked, seconds) for _ in range(rounds)]
        plain = [next(one for one in asked if one.path == f"/v1/{PLAIN}")]
        plainly = [_costs(process, proxy.pid, address, plain, seconds)[0] for _ in range(rounds)]
        alone = [_run(address, asked, LIGHT_CONNECTIONS, seconds)[1] for _ in range(rounds)]
        return Costs(
            service_us=_rounded(median(service for service, _ in busy)),
            plain_us=_rounded(median(plainly)),
            proxy_us=_rounded(median(before for _, before in busy)),
            memory_mb=_rounded(process.memory_bytes() / 1e6),
            p99_alone_ms=_rounded(median(alone) * 1e3),
            python=platform.python_version(),
            cores=os.cpu_count() or 1,
        )


def _costs(
    process: ServiceProcess, proxy_pid: int, address: str, asked: Sequence[Question], seconds: int
) -> tuple[float, float]:
    """Microseconds of a processor that the process and the proxy take for a request."""
    before = process.cpu_seconds(), cpu_seconds_of(proxy_pid)
    requests, _ = _run(address, asked, CONNECTIONS, seconds)
    after = process.cpu_seconds(), cpu_seconds_of(proxy_pid)
    return (after[0] - before[0]) / requests * 1e6, (after[1] - before[1]) / requests * 1e6


def _run(address: str, asked: Sequence[Question], connections: int, seconds: int) -> tuple[int, float]:
    """How many requests were answered, and within which seconds 99 of 100."""
    run = throughput(address, asked, connections, seconds)
    if run.refused or run.broken or not run.requests:
        raise RuntimeError(f"{run.refused} of {run.requests} requests were refused, {run.broken} broke: ask less")
    return run.requests, run.p99_s


def _rounded(value: float) -> float:
    return float(f"{value:.3g}")


def need(demand: Demand, costs: Costs) -> Need:
    """What a demand takes at these costs."""
    cores = demand.peak_rate * costs.service_us / 1e6
    processes = max(LEAST, math.ceil(cores / USED_FRACTION) + SPARE)
    return Need(
        demand.peak_rate, cores, processes, demand.peak_rate * costs.proxy_us / 1e6, processes * costs.memory_mb
    )


def costs_of(stands: str) -> Costs:
    """The costs that stand in a page."""
    (line,) = (line for line in stands.splitlines() if line.startswith("<!-- measured: "))
    return msgspec.json.decode(line.removeprefix("<!-- measured: ").removesuffix(" -->"), type=Costs)


def page(costs: Costs) -> str:
    """The page that follows from the costs."""
    day, hour = DEMANDS
    shares = "\n".join(f"| {name} | {share} |" for name, share in SHARES.items())
    rows = "\n".join(_row(demand, need(demand, costs)) for demand in DEMANDS)
    return f"""# Capacity

What the service needs for a load, from what a request costs. Written by `deploy/capacity.py`; run it again on the
machines that shall carry the load, as all of it scales with their speed.
<!-- measured: {msgspec.json.encode(costs).decode()} -->

## Measured
One process behind the proxy of `deploy/proxy`, on {costs.cores} cores that they share with what asks, with Python
{costs.python}. What is asked is every example of the contract, in the mix of a public site:

| endpoint | of a hundred requests |
|---|---|
{shares}

| | |
|---|---|
| processor time of the service for a request of the mix | {costs.service_us:g} µs |
| for a plain feasibility check | {costs.plain_us:g} µs |
| processor time of the proxy for a request | {costs.proxy_us:g} µs |
| requests of the mix that fill one core, in a second | {1e6 / costs.service_us:.0f} |
| memory of a process | {costs.memory_mb:g} MB |
| asked one after the other, 99 of 100 are answered within | {costs.p99_alone_ms:g} ms |

The mix costs more than a plain check: it has feasibility checks with `limits` and whole site plans, for which the
service reckons the same line many times over. Each uncertain input has the headline reckoned twice more. A batch counts
as its items.

## Assumed
- Each check is a request of the mix.
- The busiest minute has {day.peak_factor:g} times the day's mean rate, or {hour.peak_factor:g} times the hour's.
- On the peak a process works {USED_FRACTION:.0%} of a core: beyond that what waits in line grows fast.
- There is {SPARE} process more than that, as one may be away, and there are never fewer than {LEAST}.

## Needed
| for | requests a second on the peak | cores at work | processes | cores at work in the proxy | memory, MB |
|---|---|---|---|---|---|
{rows}

A process has one worker and fills one core at most. On one machine there may be about as many processes as cores, less
one for the proxy. `deploy/kubernetes` adds pods at the same {USED_FRACTION:.0%} of a core.
"""


def _row(demand: Demand, found: Need) -> str:
    return (
        f"| {demand.name} | {found.rate:.0f} | {found.cores:.2f} | {found.processes} "
        f"| {found.proxy_cores:.2f} | {found.memory_mb:.0f} |"
    )


if __name__ == "__main__":
    sys.exit(main())
