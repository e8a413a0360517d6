"""Counting together with other processes, in a Redis or Valkey, by the scripts of `limits`.

They count in windows that slide, atomically and by the store's own clock. `limits` itself makes one trip to the store
for the verdict and one for how it stands then; here both go together, and with them whatever else is asked meanwhile:
the more load, the less each request costs.
"""

import asyncio
from asyncio import AbstractEventLoop, Future, Task
from collections.abc import Iterable, Iterator
from contextlib import suppress
from itertools import islice, repeat
from typing import Any, Final, NamedTuple

from limits.aio.storage.redis.bridge import RedisBridge
from redis.asyncio import Redis
from redis.asyncio.retry import Retry
from redis.backoff import NoBackoff
from redis.exceptions import RedisError

from footvalve.web.allowance import Allowance
from footvalve.web.rate_store import StoreAway
from footvalve.web.rate_window import Verdict, Window

_TICK_SECONDS: Final = 0.02
_PATIENCE_TICKS: Final = 5
"""How long the store may take for an answer: a tenth of a second in short waits. One that takes longer, as this process
had other work or no processor, counts as short: what came meanwhile has not been seen yet."""

_CLOSING_SECONDS: Final = 1.0
"""How long a connection may take to open, or to close while nobody waits for it."""

_MOST_TOGETHER: Final = 128
"""Questions on one trip."""

_COUNTER: Final = "footvalve:"
"""What the name of every counter begins with."""


class _Question(NamedTuple):
    who: str
    allowance: Allowance
    requests: int

    @property
    def keys(self) -> tuple[str, str]:
        """Where the window before and this one are kept; the braces keep both in one place of a cluster."""
        now = f"{_COUNTER}{{{self.who}/{self.allowance.seconds}}}"
        return f"{now}/before", now


_NOTHING: Final = _Question("nobody", Allowance(1, 1), 0)


class SharedCounters:
    """What was let through by all who count in the store at this URL. A client is made for each event loop."""

    def __init__(self, url: str) -> None:
        self._url = url.replace("valkey", "redis", 1) if url.startswith("valkey") else url
        self._loop: AbstractEventLoop | None = None
        self._waiting: list[tuple[_Question, Future[Verdict | StoreAway]]] = []
        self._sending: Task[None] | None = None
        self._client: _Client | None = None

    async def charge(self, who: str, allowance: Allowance, requests: int) -> Verdict:
        """Whether so many requests fit, all of them, and how it stands then; if they do, they are counted.

        No requests always fit: that is how to look. Raises StoreAway, after a tenth of a second at the latest.
        """
        return await self._asked(_Question(who, allowance, requests))

    async def check(self) -> None:
        """Raises StoreAway where it is."""
        await self._asked(_NOTHING)

    async def _asked(self, question: _Question) -> Verdict:
        loop = asyncio.get_running_loop()
        if self._loop is not loop:
            self._loop, self._waiting, self._sending, self._client = loop, [], None, None
        answer: Future[Verdict | StoreAway] = loop.create_future()
        self._waiting.append((question, answer))
        if self._sending is None:
            self._sending = loop.create_task(self._send())
        verdict = await answer
        if isinstance(verdict, StoreAway):
            raise StoreAway(*verdict.args)
        return verdict

    async def _send(self) -> None:
        """Carry what waits to the store, one trip after the other, until nothing waits."""
        try:
            while self._waiting:
                together, self._waiting = self._waiting[:_MOST_TOGETHER], self._waiting[_MOST_TOGETHER:]
                try:
                    told: Iterable[Verdict | StoreAway] = await self._trip([question for question, _ in together])
                except StoreAway as away:
                    together += self._waiting
                    self._waiting = []
                    told = repeat(away)
                for (_, answer), verdict in zip(together, told):  # noqa: B905  # an absence has no end
                    if not answer.done():
                        answer.set_result(verdict)
        finally:
            self._sending = None

    async def _trip(self, questions: list[_Question]) -> list[Verdict]:
        """The verdicts. Raises StoreAway where there are none; after that the next trip takes a new connection."""
        client = self._client = self._client or _Client(self._url)
        trip = asyncio.get_running_loop().create_task(client.verdicts(questions))
        for _ in range(_PATIENCE_TICKS):
            await asyncio.wait((trip,), timeout=_TICK_SECONDS)
            if trip.done():
                break
        failed = trip.exception() if trip.done() else TimeoutError("no answer in time")
        if failed is None:
            return trip.result()
        self._client = None
        client.leaving = asyncio.ensure_future(client.leave(trip))
        raise StoreAway(_without_counters(failed))


def _without_counters(failed: BaseException) -> str:
    """What went wrong, for the log. redis repeats the command that failed, whose counter is named by an address."""
    _, _, why = str(failed).rpartition(" caused error: ")
    return type(failed).__name__ if _COUNTER in why else f"{type(failed).__name__}: {why}"


class _Client:
    """One connection to the store, which is told the scripts before the first question."""

    def __init__(self, url: str) -> None:
        self._redis: Redis = Redis.from_url(
            url, retry=Retry(NoBackoff(), 0), socket_timeout=None, socket_connect_timeout=_CLOSING_SECONDS
        )
        self._charge = self._redis.register_script(RedisBridge.SCRIPT_ACQUIRE_SLIDING_WINDOW)
        self._look = self._redis.register_script(RedisBridge.SCRIPT_SLIDING_WINDOW)
        self._knows_scripts = False
        self.leaving: Future[None] | None = None

    async def verdicts(self, questions: list[_Question]) -> list[Verdict]:
        """The verdicts to all questions, in one trip."""
        async with self._redis.pipeline(transaction=False) as pipe:
            if not self._knows_scripts:
                pipe.script_load(self._charge.script)
                pipe.script_load(self._look.script)
            for question in questions:
                limit, seconds = question.allowance.requests, question.allowance.seconds
                if question.requests:
                    pipe.evalsha(self._charge.sha, 2, *question.keys, limit, seconds, question.requests)
                pipe.evalsha(self._look.sha, 2, *question.keys, seconds)
            answers = iter(await pipe.execute())
        if not self._knows_scripts:
            self._knows_scripts = all(islice(answers, 2))
        return [_verdict(question, answers) for question in questions]

    async def leave(self, trip: Task[Any]) -> None:
        """Give up a trip that has failed or takes too long, and the connection with it; nobody waits for that."""
        trip.cancel()
        await asyncio.gather(trip, return_exceptions=True)
        await self.close()

    async def close(self) -> None:
        """Close the connection."""
        with suppress(RedisError, OSError):
            await self._redis.aclose()


def _verdict(question: _Question, answers: Iterator[Any]) -> Verdict:
    fits = bool(next(answers)) if question.requests else True
    before, _, now, left_ms = next(answers)
    seconds = question.allowance.seconds
    rest = seconds if now is None else max(0.0, left_ms / 1000 - seconds)  # a window is kept for one more of its length
    return Verdict(fits, Window(int(before or 0), int(now or 0), rest))
