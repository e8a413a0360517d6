"""Until when a call may take, and how that bounds each step of it."""

import math
from collections.abc import Generator, Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from time import monotonic
from typing import Final

from footvalve_client._options import Phases


class Deadline:
    """The end of a call, so many seconds from now; without seconds there is none."""

    __slots__ = ("_end", "seconds")

    def __init__(self, seconds: float | None) -> None:
        self.seconds = seconds
        self._end = math.inf if seconds is None else monotonic() + seconds

    @contextmanager
    def kept(self) -> Generator[None, None, None]:
        """Makes it the current deadline of this context."""
        token = CURRENT.set(self)
        try:
            yield
        finally:
            CURRENT.reset(token)

    @property
    def left(self) -> float | None:
        """Seconds that are left, never less than 0; None without a deadline."""
        return None if self.seconds is None else max(0.0, self._end - monotonic())

    @property
    def over(self) -> bool:
        """Whether there is no time left."""
        return self._end <= monotonic()

    def bounded(self, limit: float | None) -> float | None:
        """A limit in seconds, but no more than what is left. Raises TimeoutError where nothing is."""
        left = self.left
        if left is None:
            return limit
        if not left:
            raise TimeoutError("too late")
        return left if limit is None else min(limit, left)

    def phases(self, phases: Phases) -> dict[str, float | None]:
        """Seconds for each phase of a try, none of them more than what is left. Raises TimeoutError."""
        return {phase: self.bounded(limit) for phase, limit in phases.items()}

    def within(self, chunks: Iterable[bytes]) -> Iterator[bytes]:
        """What comes in while there is time. Raises TimeoutError for what comes later."""
        for chunk in chunks:
            if self.over:
                raise TimeoutError("too late")
            yield chunk


_NONE: Final = Deadline(None)
CURRENT: Final = ContextVar("CURRENT", default=_NONE)
"""The deadline of the call that this context is in."""
