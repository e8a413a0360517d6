"""Whether it pays to remember answers by their bodies: what a look costs, and how often a shop's visitors ask alike.

    .venv/bin/python deploy/bench/repeated_bodies.py [--asked 30000] [--kept 1000] [--rounds 15]

The visitors are drawn: each has a site of its own, told in the round figures that people tell, and changes one input at
a time. Of their questions some share comes once more just as it was (a reload, a retry, a figure put back to what it
was), which is what a memory can save. That share is assumed, and so told for several. With several processes each
remembers by itself, so that a question asked again finds its answer in one of them only. Times are those of the body
that the suction check sends, with uncertain figures and `limits`, and of the plain example.
"""

import argparse
import json
import random
import sys
from collections import OrderedDict, deque
from collections.abc import Iterator, Sequence
from copy import deepcopy
from itertools import islice
from typing import Any, Final

from in_process import Body, Case, cases, fastest, measured, with_uncertainties

from footvalve.web.answering import answering

SHARES: Final = (0.0, 0.02, 0.05, 0.1, 0.2)
"""Of all questions those that are an earlier one, word for word."""

WORKERS: Final = (1, 2, 4)
RECENT: Final = 200
"""From how many questions back an earlier one comes."""

_QUESTIONS_OF_VISITOR: Final = 3

_INPUTS: Final[dict[tuple[str | int, ...], range]] = {
    ("depth_to_water", "value"): range(4, 31),
    ("seasonal_fall", "value"): range(9),
    ("flow", "value"): range(2, 7),
    ("pump", "inlet_elevation", "value"): range(-8, 4),
    ("pump", "rated_suction_lift", "value"): range(20, 28),
    ("site", "altitude", "value"): range(0, 7_001, 100),
    ("site", "water_temperature", "value"): range(44, 62, 2),
    ("line", 3, "length", "value"): range(30, 151, 5),
    ("line", 5, "length", "value"): range(10, 201, 5),
}
"""What visitors tell of their sites, in the units of the example."""


class Memory:
    """Answers by their bodies; of so many the one that was asked for longest ago goes first."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._answers: OrderedDict[bytes, bytes] = OrderedDict()

    def known(self, raw: bytes) -> bytes | None:
        """The answer, if it is there."""
        answer = self._answers.get(raw)
        if answer is not None:
            self._answers.move_to_end(raw)
        return answer

    def keep(self, raw: bytes, answer: bytes) -> None:
        """Remember an answer."""
        self._answers[raw] = answer
        if len(self._answers) > self._most:
            self._answers.popitem(last=False)


def main() -> None:
    """Measure and print."""
    options = _options()
    plain = next(case for case in cases() if case.name == "suction-feasibility")
    of_page = Case("page", plain.endpoint, {**with_uncertainties(plain.body), "limits": True, "contributions": True})
    saved = [measured(case, options.rounds).whole for case in (of_page, plain)]
    missed, hit = _missed(of_page.body, options.kept, options.rounds), _hit(of_page.raw, options.rounds)
    print(f"decoding, answer and encoding: {saved[0]:.0f} us of the page's body, {saved[1]:.0f} us of the plain one")
    print(f"a look: {missed:.1f} us in vain, {hit:.1f} us with success")
    print(f"{options.kept} answers with their bodies: {options.kept * _held_mb(of_page):.1f} MB in each process\n")
    print("| asked again | workers | found | time, page's body | time, plain body |\n|--:|--:|--:|--:|--:|")
    for share in SHARES:
        asked = list(islice(questions(of_page.body, share, random.Random(2)), options.asked))
        for workers in WORKERS:
            found = found_share(asked, workers, options.kept)
            changes = (((1 - found) * missed - found * (whole - hit)) / whole for whole in saved)
            print(
                f"| {share:.0%} | {workers} | {found:.1%} | "
                + " | ".join(f"{change:+.1%}" for change in changes)
                + " |"
            )


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--asked", type=int, default=30_000, help="questions (default: %(default)s)")
    parser.add_argument("--kept", type=int, default=1_000, help="answers kept by a process (default: %(default)s)")
    parser.add_argument("--rounds", type=int, default=15, help="of which the fastest counts (default: %(default)s)")
    return parser.parse_args()


def _held_mb(case: Case) -> float:
    """Megabytes of a body with its answer."""
    return (sys.getsizeof(case.raw) + sys.getsizeof(answering(case.endpoint)(case.raw))) / 1e6


def _missed(body: Body, most: int, rounds: int) -> float:
    """Microseconds of a look for a body that is not there, and of keeping its answer."""
    memory, answer = Memory(most), bytes(4_000)
    drawn = questions(body, 0.0, random.Random(1))
    waiting = [next(drawn) for _ in range(20 * most)]
    turn: Iterator[bytes] = iter(())

    def look() -> None:
        nonlocal turn
        raw = next(turn, b"")
        if not raw:
            turn = iter(waiting)
            raw = next(turn)
        raw = raw[:-1] + b"}"  # a new object: the hash of the old one is remembered
        if memory.known(raw) is None:
            memory.keep(raw, answer)

    return fastest(look, rounds)


def _hit(raw: bytes, rounds: int) -> float:
    """Microseconds of a look for a body that is there."""
    memory = Memory(1)
    memory.keep(raw, bytes(4_000))
    return fastest(lambda: memory.known(raw[:-1] + b"}"), rounds)


def found_share(asked: Sequence[bytes], workers: int, most: int) -> float:
    """The share of questions whose answer is remembered by the process that they come to."""
    chance, found = random.Random(3), 0
    memories = [Memory(most) for _ in range(workers)]
    for raw in asked:
        memory = chance.choice(memories)
        if memory.known(raw) is None:
            memory.keep(raw, raw)
        else:
            found += 1
    return found / len(asked)


def questions(body: Body, share: float, chance: random.Random) -> Iterator[bytes]:
    """Bodies of visitors without end."""
    recent: deque[bytes] = deque(maxlen=RECENT)
    for raw in _visitors(body, chance):
        while recent and chance.random() < share:
            yield chance.choice(recent)
        recent.append(raw)
        yield raw


def _visitors(body: Body, chance: random.Random) -> Iterator[bytes]:
    while True:
        told = deepcopy(body)
        for path in _INPUTS:
            _set(told, path, chance)
        yield json.dumps(told).encode()
        for path in chance.sample(list(_INPUTS), _QUESTIONS_OF_VISITOR - 1):
            _set(told, path, chance)
            yield json.dumps(told).encode()


def _set(told: Any, path: tuple[str | int, ...], chance: random.Random) -> None:
    *way, last = path
    for key in way:
        told = told[key]
    told[last] = chance.choice([value for value in _INPUTS[path] if value != told[last]])


if __name__ == "__main__":
    main()
