"""Processes of the service behind the proxy that is shipped with it: what a fault costs, what they do together.

    sh deploy/scale.sh [--processes 2] [--seconds 10] [--rounds 3] [--faults]

First the faults. Callers ask the mix of load/demo_mix.py without pause, and hold every answer to the octet against
what it must be. Meanwhile one process is killed with -9 and another is told to drain (SIGTERM); each is started again.
Not one request may be lost. With --faults that is all. An answer leaves a process whole or not at all, so the proxy can
ask again elsewhere what a killed process was at.

Then the throughput, asked by wrk: one process by itself, one behind the proxy, and all of them. The runs take turns, so
that whatever else the machine does slows all alike; told are the medians, and the ratio of all processes to one. The
processes, the proxy and wrk share the processors, so the ratio stays below the number of either.

Exits with 1 where a request was lost.
"""

import argparse
import os
import sys
import time
from collections.abc import Callable, Sequence
from statistics import median
from typing import Final, NamedTuple

from load.demo_mix import Question, questions
from load.running_proxy import RunningProxy, running_proxy
from load.service_group import PATIENCE_S, ServiceProcess, service_group
from load.verified_load import VerifiedLoad, true_answers, verified_load
from load.wrk import Throughput, throughput

CALLERS: Final = 16
LEAST_ANSWERS: Final = 200
"""Right answers between one event and the next; with each process there must be some."""


class Faults(NamedTuple):
    """What came of the load with its faults."""

    right: int
    sent_again: int
    lost: dict[str, int]


def main() -> int:
    """Do both, and print what came of it; 1 where a request was lost."""
    chosen = _parser().parse_args()
    asked = questions()
    with service_group(chosen.processes, {"FOOTVALVE_LOG_REQUESTS": "none"}) as group:
        found = faults(group, asked)
        print(_told(found), flush=True)
        if not chosen.faults:
            print(_table(chosen.processes, _throughputs(group, asked, chosen.seconds, chosen.rounds)))
    return 1 if found.lost else 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--processes", type=int, choices=range(2, 5), default=2, help="(default: %(default)s)")
    parser.add_argument("--seconds", type=int, default=10, help="of each run of wrk (default: %(default)s)")
    parser.add_argument("--rounds", type=int, default=3, help="of the runs of wrk (default: %(default)s)")
    parser.add_argument("--faults", action="store_true", help="only what a fault costs")
    return parser


def faults(group: Sequence[ServiceProcess], asked: Sequence[Question]) -> Faults:
    """Kill one process and drain another while they are asked. Raises RuntimeError where one does not come back."""
    answers = true_answers(group[0].address, asked)
    with running_proxy([process.address for process in group]) as proxy:
        with verified_load(proxy.url.removeprefix("http://"), answers, CALLERS) as load:
            _all_answer(proxy, load, len(group))
            group[0].kill()
            _more(load)
            group[0].start()
            _all_answer(proxy, load, len(group))
            group[1].drain()
            _more(load)
            group[1].start()
            _all_answer(proxy, load, len(group))
        return Faults(load.right, proxy.sent_again, dict(load.lost))


def _more(load: VerifiedLoad) -> None:
    wanted = load.right + LEAST_ANSWERS
    _until(lambda: load.right >= wanted, "answers go on coming")


def _all_answer(proxy: RunningProxy, load: VerifiedLoad, number: int) -> None:
    """Wait until every process has answered again, and many requests have been."""
    before = proxy.answered_by
    _more(load)
    _until(lambda: len(proxy.answered_by - before) == number, "every process answers")


def _until(reached: Callable[[], bool], what: str) -> None:
    give_up = time.monotonic() + PATIENCE_S
    while not reached():
        if time.monotonic() > give_up:
            raise RuntimeError(f"waited {PATIENCE_S:.0f} s in vain until {what}")
        time.sleep(0.05)


def _told(found: Faults) -> str:
    lost = ", ".join(f"{number} {what}" for what, number in sorted(found.lost.items())) or "none"
    return (
        f"One process killed with -9, one drained, each started again, under {CALLERS} callers:\n"
        f"  {found.right} requests answered, every answer as it must be\n"
        f"  {found.sent_again} of them sent again by the proxy to another process\n"
        f"  lost: {lost}"
    )


Setups = dict[str, list[Throughput]]


def _throughputs(group: Sequence[ServiceProcess], asked: Sequence[Question], seconds: int, rounds: int) -> Setups:
    with (
        running_proxy([group[0].address]) as before_one,
        running_proxy([process.address for process in group]) as before_all,
    ):
        places = {
            "one process": group[0].address,
            "one process behind the proxy": before_one.url.removeprefix("http://"),
            f"{len(group)} processes behind the proxy": before_all.url.removeprefix("http://"),
        }
        found: Setups = {name: [] for name in places}
        for _ in range(rounds):
            for name, address in places.items():
                found[name].append(throughput(address, asked, 2 * CALLERS, seconds))
        return found


def _table(processes: int, found: Setups) -> str:
    alone, behind, together = map(_rate, found.values())
    return "\n".join(
        [
            f"\nThroughput on {os.cpu_count()} processors that the service shares with the proxy and wrk:",
            "| | answers a second | 99 of 100 within, ms | refused | broken |\n|---|---|---|---|---|",
            *(_row(name, runs) for name, runs in found.items()),
            f"{processes} processes to one, both behind the proxy: {together / behind:.2f}; "
            f"to one by itself: {together / alone:.2f}.",
        ]
    )


def _row(name: str, runs: Sequence[Throughput]) -> str:
    p99_ms = 1e3 * median(run.p99_s for run in runs)
    refused, broken = sum(run.refused for run in runs), sum(run.broken for run in runs)
    return f"| {name} | {_rate(runs):.0f} | {p99_ms:.0f} | {refused} | {broken} |"


def _rate(runs: Sequence[Throughput]) -> float:
    return median(run.per_second for run in runs)


if __name__ == "__main__":
    sys.exit(main())
