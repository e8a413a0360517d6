"""Long work beside the event loop: in a thread, one piece of it at a time, by turns in the order of asking.

So whoever asks for little is answered meanwhile, and long work of many callers goes on evenly.
"""

import asyncio
import sys
from asyncio import AbstractEventLoop, Lock
from collections.abc import AsyncGenerator, Callable, Iterator
from time import perf_counter
from typing import Final, TypeVar
from weakref import WeakKeyDictionary

from litestar.types import Receive

from footvalve.web import problem_types as kinds
from footvalve.web.metrics import COUNTED
from footvalve.web.problems import Declined

SLICE_SECONDS = 0.01
"""One step of the work may make a slice longer, as a step is never broken off."""

_HANDOVER_SECONDS: Final = 0.001
"""After so long the thread lets the event loop go on, at each of the steps that even a light request takes several of.
Python's own five milliseconds add up to more than a light request may wait."""

_ASK_AGAIN: Final = ((b"retry-after", b"2"),)

Done = TypeVar("Done")


class Pace:
    """A pace that all who hold it keep together. So many may stand in line, and none of them longer than so many
    seconds; who has had a turn stands in line for the next one as long as it takes."""

    def __init__(self, places: int, seconds: float) -> None:
        sys.setswitchinterval(_HANDOVER_SECONDS)
        self._places = places
        self._seconds = seconds
        self._lines: WeakKeyDictionary[AbstractEventLoop, _Line] = WeakKeyDictionary()

    async def once(self, work: Callable[[], Done], receive: Receive) -> Done:
        """What the work gives when its turn has come. Raises Declined where the line is full or does not move on; and
        once the caller has gone, whose place in the line is free at once."""
        task = asyncio.ensure_future(self._in_line(work))
        gone = asyncio.ensure_future(_disconnected(receive))
        try:
            await asyncio.wait((task, gone), return_when=asyncio.FIRST_COMPLETED)
            if not task.done():
                raise Declined(kinds.BAD_REQUEST, "The connection ended before the answer was there.")
            return task.result()
        finally:
            task.cancel()
            gone.cancel()

    async def slices(self, steps: Iterator[bytes]) -> AsyncGenerator[bytes, None]:
        """What the steps give, joined slice by slice. A step is taken when its turn has come."""
        while True:
            line = self._line
            await line.turn.acquire()
            done = await line.worked(lambda: _slice(steps))
            if not done:
                return
            yield done

    async def _in_line(self, work: Callable[[], Done]) -> Done:
        line = self._line
        if line.waiting >= self._places:
            raise _overloaded(f"{line.waiting} requests that ask for much work wait already.")
        self._waits(line, 1)
        try:
            async with asyncio.timeout(self._seconds):
                await line.turn.acquire()
        except TimeoutError:
            raise _overloaded(f"The work could not be begun within {self._seconds:g} s.") from None
        finally:
            self._waits(line, -1)
        return await line.worked(work)

    @staticmethod
    def _waits(line: "_Line", by: int) -> None:
        line.waiting += by
        COUNTED.long_work_waits(by)

    @property
    def waiting(self) -> int:
        """How many wait for their first turn."""
        return self._line.waiting

    @property
    def _line(self) -> "_Line":
        """That of the event loop that runs, as none can wait for another's."""
        return self._lines.setdefault(asyncio.get_running_loop(), _Line())


class _Line:
    """Those who wait on one event loop. Whoever holds `turn` has the turn."""

    def __init__(self) -> None:
        self.turn = Lock()
        self.waiting = 0

    async def worked(self, work: Callable[[], Done]) -> Done:
        """What the work gives, done in a thread by whoever has the turn. A thread cannot be broken off, so that the
        turn is over with the work, even where nobody waits for it any more."""
        working = asyncio.ensure_future(asyncio.to_thread(work))
        working.add_done_callback(lambda _: self.turn.release())
        return await asyncio.shield(working)


def _slice(steps: Iterator[bytes]) -> bytes:
    """What the steps of one slice give; nothing once there are no more."""
    end, done = perf_counter() + SLICE_SECONDS, []
    for step in steps:
        done.append(step)
        if perf_counter() > end:
            break
    return b"".join(done)


async def _disconnected(receive: Receive) -> None:
    """Waits until the caller has gone. The body has been read, so that nothing else comes."""
    while (await receive())["type"] != "http.disconnect":
        pass


def _overloaded(detail: str) -> Declined:
    return Declined(kinds.OVERLOADED, detail, _ASK_AGAIN)
