"""Long work in short slices, so that whoever asks for little is answered meanwhile."""

from asyncio import Lock, sleep
from collections.abc import AsyncGenerator, Iterator
from time import perf_counter

SLICE_SECONDS = 0.01
"""One step of the work may make a slice longer, as a step is never broken off."""

_FREE_TURNS = 6
"""Turns of the event loop between two slices: from its first byte to its answer a small request takes about as many."""


class Pace:
    """A pace that all who hold it keep together: one slice of one of them at a time, and free turns after each."""

    def __init__(self) -> None:
        self._slice = Lock()

    async def slices(self, steps: Iterator[bytes]) -> AsyncGenerator[bytes, None]:
        """What the steps give, joined slice by slice. A step is taken when its turn has come."""
        while True:
            async with self._slice:
                done = _worked(steps)
                for _ in range(_FREE_TURNS):
                    await sleep(0)
            if not done:
                return
            yield done


def _worked(steps: Iterator[bytes]) -> bytes:
    """What the steps of one slice give; nothing once there are no more."""
    end, done = perf_counter() + SLICE_SECONDS, []
    for step in steps:
        done.append(step)
        if perf_counter() > end:
            break
    return b"".join(done)
