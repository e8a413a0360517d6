"""One side of guard.py: answers with the service of one commit, and tells how long that takes, as it is asked to.

Questions come as lines of JSON on standard input: `["cases"]`, `["take", {"name": body}]`, `["time", "name"]`.
"""

import gc
import json
import sys
from collections.abc import Callable
from time import process_time
from typing import Any, Final

import footvalve

_LEAST_SECONDS: Final = 0.01
"""What a turn takes at least."""


class Side:
    """The calls that are timed, by the name of their body."""

    def __init__(self) -> None:
        # only now that it is known whose service it is
        from in_process import cases  # noqa: PLC0415

        from footvalve.web.answering import answering  # noqa: PLC0415

        self._cases = {case.name: case for case in cases()}
        self._answering = answering
        self._calls: dict[str, tuple[Callable[[], object], int]] = {}

    def cases(self) -> dict[str, Any]:
        """The bodies of this side, by name."""
        return {name: case.body for name, case in self._cases.items()}

    def take(self, bodies: dict[str, Any]) -> list[str]:
        """Prepare the bodies; which of them this side answers."""
        for name, body in bodies.items():
            if name in self._cases:
                self._prepare(name, json.dumps(body).encode())
        gc.collect()
        gc.freeze()
        gc.disable()
        return list(self._calls)

    def _prepare(self, name: str, raw: bytes) -> None:
        answer = self._answering(self._cases[name].endpoint)
        try:
            answer(raw)
        except Exception:  # what one side refuses cannot be compared
            return

        def call() -> object:
            return answer(raw)

        calls = 1
        while _seconds(call, calls) < _LEAST_SECONDS:
            calls *= 2
        self._calls[name] = call, calls

    def time(self, name: str) -> float:
        """Microseconds of one call, of the time of this process."""
        call, calls = self._calls[name]
        gc.collect()
        return 1e6 / calls * _seconds(call, calls)


def _seconds(call: Callable[[], object], calls: int) -> float:
    start = process_time()
    for _ in range(calls):
        call()
    return process_time() - start


def main(tree: str) -> None:
    """Answer every question."""
    if not str(footvalve.__file__).startswith(tree):
        raise SystemExit(f"the service comes from {footvalve.__file__} instead of {tree}")
    side = Side()
    known: dict[str, Callable[..., Any]] = {"cases": side.cases, "take": side.take, "time": side.time}
    for line in sys.stdin:
        word, *more = json.loads(line)
        print(json.dumps(known[word](*more)), flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
