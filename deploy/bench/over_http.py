"""What an answer costs over HTTP: the service against handlers that reckon nothing, and against a bare function.

    sh deploy/bench.sh [--seconds 1] [--rounds 5] [--write]

Three processes serve with the same server: the service, the same application with answers that are there before they
are asked, and a function of ASGI that only decodes and encodes. wrk asks each the same body on the same number of
connections, as fast as it is answered; the runs take turns, so that whatever else the machine does slows all alike.
Told are medians of the ratios of a round: of answers a second, and of the processor's time of an answer, which is
steadier. Then wrk asks the service with pauses, for half of what it has answered at most. --write puts the page into
deploy/bench/BENCHMARK.md. With the defaults it takes some seven minutes.
"""

import argparse
import http.client
import json
import os
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import ExitStack, closing
from pathlib import Path
from statistics import median
from typing import Final, NamedTuple

from bench.in_process import Case, cases
from bench.kinds import AGAINST, KINDS, path_of
from bench.page import page
from bench.results import Compared, Half, Results, Run
from bench.served import Served, seconds_to_ready, served, served_kind
from load.demo_mix import Question
from load.wrk import throughput

CONNECTIONS: Final = 8
CALLERS_BY_CHANCE: Final = 64
"""Connections of the runs at half the load: so many that a pause is far longer than an answer takes."""

BATCH_ITEMS: Final = 1000
PLAIN: Final = "suction-feasibility"
PAGE: Final = Path(__file__).with_name("BENCHMARK.md")


class _Asked(NamedTuple):
    """A case as each kind is asked it."""

    case: Case
    questions: Mapping[str, Question]


def main() -> None:
    """Measure, print, and write the page where that is wanted."""
    options = _parser().parse_args()
    results = measured(options.seconds, options.rounds)
    text = page(results)
    print(text)
    if options.write:
        PAGE.write_text(text, encoding="utf-8")


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="sh deploy/bench.sh", description=(__doc__ or "").partition("\n")[0])
    parser.add_argument(
        "--seconds", type=int, default=1, help="of each run of wrk, at half the load twice that (default: %(default)s)"
    )
    parser.add_argument("--rounds", type=int, default=5, help="of the runs of wrk (default: %(default)s)")
    parser.add_argument("--write", action="store_true", help=f"write {PAGE.name}")
    return parser


def measured(seconds: int, rounds: int) -> Results:
    """Everything that the page tells."""
    load_before = os.getloadavg()[0]
    compared = _compared(seconds, rounds)
    workers = _workers(seconds, rounds)
    started = median(seconds_to_ready() for _ in range(rounds))
    batch = _batch(rounds)
    return Results(load_before, seconds, 2 * seconds, rounds, CONNECTIONS, compared, *workers, started, batch)


def _compared(seconds: int, rounds: int) -> dict[str, Compared]:
    asked = [_asked(case) for case in cases()]
    runs: dict[str, dict[str, list[Run]]] = {one.case.name: {kind: [] for kind in KINDS} for one in asked}
    halves: dict[str, dict[str, list[Half]]] = {
        one.case.name: {kind: [] for kind in _asked_at_half(one.case)} for one in asked
    }
    with ExitStack() as until_the_end:
        servers = {kind: until_the_end.enter_context(served_kind(kind)) for kind in KINDS}
        for turn in range(rounds):
            for one in asked:
                found = runs[one.case.name]
                for kind in _in_turn(list(KINDS), turn):
                    found[kind].append(_run(servers[kind], one.questions[kind], CONNECTIONS, seconds))
                for kind, had in halves[one.case.name].items():
                    most = median(run.per_second for run in found[kind])
                    had.append(_half(servers[kind], one.questions[kind], most, 2 * seconds))
    return {name: Compared(found, halves[name]) for name, found in runs.items()}


def _asked(case: Case) -> _Asked:
    as_it_is = Question(f"/v1/{case.endpoint.name}", case.raw)
    return _Asked(case, {"service": as_it_is} | {kind: Question(path_of(case), case.raw) for kind in AGAINST})


def _asked_at_half(case: Case) -> Sequence[str]:
    """The kinds that are asked a case at half the load."""
    return list(KINDS) if case.name == PLAIN else ["service"]


def _in_turn(kinds: list[str], turn: int) -> list[str]:
    """The kinds, each turn another first, so that none always follows the same."""
    first = turn % len(kinds)
    return kinds[first:] + kinds[:first]


def _run(server: Served, asked: Question, connections: int, seconds: int) -> Run:
    before = server.cpu_seconds()
    told = throughput(server.address, [asked], connections, seconds)
    spent = server.cpu_seconds() - before
    if told.refused or told.broken or not told.requests:
        raise RuntimeError(f"{asked.path}: of {told.requests} requests {told.refused} refused, {told.broken} broken")
    return Run(told.per_second, 1e6 * spent / told.requests, 1e3 * told.p50_s)


def _half(server: Served, asked: Question, most: float, seconds: int) -> Half:
    pause = max(0.001, 2 * CALLERS_BY_CHANCE / most - 2 / most)  # from the mean between two requests, an answer's time
    told = throughput(server.address, [asked], CALLERS_BY_CHANCE, seconds, mean_pause_s=pause)
    return Half(told.per_second / most, 1e3 * told.p50_s, 1e3 * told.p99_s)


def _workers(seconds: int, rounds: int) -> tuple[float, float]:
    """What two workers answer over what one does; and the memory of the greatest after the load, in MB."""
    asked = _asked(next(case for case in cases() if case.name == PLAIN)).questions["service"]
    ratios, memory = [], 0.0
    with served(1) as one, served(2) as two:
        for _ in range(rounds):
            alone, both = (_run(server, asked, 4 * CONNECTIONS, seconds) for server in (one, two))
            ratios.append(both.per_second / alone.per_second)
        for path, body in _every_body():
            for server in (one, two):
                throughput(server.address, [Question(path, body)], CONNECTIONS, 1)
        memory = max(one.memory_mb(), two.memory_mb())
    return median(ratios), memory


def _every_body() -> Iterator[Question]:
    """Each endpoint once, so that what is made at the first request is there when memory is told."""
    for case in cases():
        if case.name == case.endpoint.name:
            yield _asked(case).questions["service"]


def _batch(rounds: int) -> Run:
    """Answers of a batch, one batch after the other on one connection."""
    case = next(case for case in cases() if case.name == PLAIN)
    items = [{"id": f"site-{number}", "endpoint": PLAIN, "body": case.body} for number in range(BATCH_ITEMS)]
    body = json.dumps({"items": items}).encode()
    with served(1) as server, closing(http.client.HTTPConnection(server.address, timeout=60)) as connection:
        post = _poster(connection, body)
        post()
        before, start = server.cpu_seconds(), time.perf_counter()
        for _ in range(rounds):
            post()
        took, spent = time.perf_counter() - start, server.cpu_seconds() - before
    answers = rounds * BATCH_ITEMS
    return Run(answers / took, 1e6 * spent / answers, 1e3 * took / rounds)


def _poster(connection: http.client.HTTPConnection, body: bytes) -> Callable[[], None]:
    def post() -> None:
        connection.request("POST", "/v1/batch", body, {"content-type": "application/json"})
        response = connection.getresponse()
        answered = response.read().count(b'"status":200')  # to read it as JSON would take longer than some answers
        if response.status != 200 or answered != BATCH_ITEMS:
            raise RuntimeError(f"the batch is answered with {response.status}, and {answered} of its items")

    return post


if __name__ == "__main__":
    main()
