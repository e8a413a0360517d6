"""Lines on their way out, in a thread of its own: no request ever waits for a disk or a pipe."""

import os
from collections.abc import Iterator
from queue import SimpleQueue
from threading import Thread
from typing import Final

from footvalve.web.log_line import MOST_BYTES
from footvalve.web.metrics import COUNTED

MOST_WAITING: Final = 10_000
"""Lines that may wait for a slow reader; any more are lost."""

_SECONDS_TO_END = 2


class LogWriter:
    """Writes lines to a file descriptor. Lines that cannot be written are lost, and counted; nothing else happens."""

    def __init__(self, descriptor: int) -> None:
        self._descriptor = descriptor
        self._waiting: SimpleQueue[bytes | None] = SimpleQueue()
        self._broken_off = False
        self._thread = Thread(target=self._write_all, name="log", daemon=True)
        self._thread.start()

    def put(self, line: bytes) -> None:
        """Write a line soon. Never waits."""
        if self._waiting.qsize() < MOST_WAITING:
            self._waiting.put(line)
        else:
            COUNTED.log_lines_lost()

    def close(self) -> None:
        """Write what waits, unless that takes too long."""
        self._waiting.put(None)
        self._thread.join(_SECONDS_TO_END)

    def _write_all(self) -> None:
        for lines in self._packed():
            self._write(lines)

    def _packed(self) -> Iterator[list[bytes]]:
        """The lines that wait, as many together as go into a pipe whole; until None comes."""
        lines: list[bytes] = []
        for line in iter(self._waiting.get, None):
            if lines and sum(map(len, lines)) + len(line) > MOST_BYTES:
                yield lines
                lines = []
            lines.append(line)
            if self._waiting.empty():
                yield lines
                lines = []
        if lines:
            yield lines

    def _write(self, lines: list[bytes]) -> None:
        every = b"".join((b"\n" if self._broken_off else b"", *lines))
        left = every
        try:
            while left:
                left = left[os.write(self._descriptor, left) :]
        except OSError:
            COUNTED.log_lines_lost(min(left.count(b"\n"), len(lines)))
        written = every.removesuffix(left)
        if written:
            self._broken_off = not written.endswith(b"\n")
