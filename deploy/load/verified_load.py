"""Callers that ask without pause and hold every answer, to the octet, against what it must be."""

import threading
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from http.client import HTTPConnection, HTTPException
from itertools import cycle, islice
from typing import Final

from load.demo_mix import Question

_HEADERS: Final = {"content-type": "application/json"}
_TIMEOUT_S: Final = 60.0

Answers = Mapping[Question, bytes]


def true_answers(address: str, asked: Sequence[Question]) -> Answers:
    """The answer to every question: they are pure, so each has one for good. Raises RuntimeError for a refusal."""
    connection = HTTPConnection(address, timeout=_TIMEOUT_S)
    try:
        return {question: _answer(connection, question) for question in dict.fromkeys(asked)}
    finally:
        connection.close()


def _answer(connection: HTTPConnection, question: Question) -> bytes:
    status, content = _asked(connection, question)
    if status != 200:
        raise RuntimeError(f"{question.path} answers {status} to an example: {content.decode('utf-8', 'replace')}")
    return content


def _asked(connection: HTTPConnection, question: Question) -> tuple[int, bytes]:
    connection.request("POST", question.path, question.body, _HEADERS)
    answer = connection.getresponse()
    return answer.status, answer.read()


class VerifiedLoad:
    """What the callers have seen so far."""

    def __init__(self, address: str, answers: Answers) -> None:
        self._address = address
        self._answers = answers
        self._over = threading.Event()
        self._lock = threading.Lock()
        self._seen: Counter[str] = Counter()

    @property
    def right(self) -> int:
        """Requests that were answered, each as it must be."""
        return self._seen["right"]

    @property
    def lost(self) -> dict[str, int]:
        """Requests that were not, by what became of them."""
        with self._lock:
            return {what: number for what, number in self._seen.items() if what != "right"}

    def ask_on(self, first: int) -> None:
        """Ask until it is over, on one connection as long as that lives."""
        listed = list(self._answers)
        asked = cycle(islice(cycle(listed), first, first + len(listed)))
        connection = HTTPConnection(self._address, timeout=_TIMEOUT_S)
        try:
            while not self._over.is_set():
                self._count(self._outcome(connection, next(asked)))
        finally:
            connection.close()

    def end(self) -> None:
        """Let every caller finish the request that it is at."""
        self._over.set()

    def _outcome(self, connection: HTTPConnection, question: Question) -> str:
        try:
            status, content = _asked(connection, question)
        except (OSError, HTTPException) as error:
            connection.close()
            return type(error).__name__
        if status != 200:
            return f"status {status}"
        return "right" if content == self._answers[question] else "another answer"

    def _count(self, what: str) -> None:
        with self._lock:
            self._seen[what] += 1


@contextmanager
def verified_load(address: str, answers: Answers, callers: int) -> Iterator[VerifiedLoad]:
    """So many callers that ask as long as the with statement lasts."""
    load = VerifiedLoad(address, answers)
    threads = [threading.Thread(target=load.ask_on, args=(5 * number,)) for number in range(callers)]
    for thread in threads:
        thread.start()
    try:
        yield load
    finally:
        load.end()
        for thread in threads:
            thread.join()
