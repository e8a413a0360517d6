"""What a server process can be told to do, and the line on which its keeper tells it so."""

import contextlib
import socket
from enum import IntEnum


class Order(IntEnum):
    """How a server process shall end; a greater one overrules a lesser one."""

    LEAVE = 1
    """Take no new connections, as other processes do, and finish what is asked."""
    DRAIN = 2
    """The whole service ends: take new connections for a while yet, then finish what is asked."""
    STOP = 3
    """Take no new connections from now on, and finish what is asked."""
    QUIT = 4
    """End at once."""


READY = b"r"
"""Said by a server process that takes connections."""

WISH = b"w"
"""Said by a server process that was told by somebody else to end: its keeper shall put another in its place."""


class Line:
    """One end of the line between a server process and its keeper. It breaks when either ends."""

    def __init__(self, end: socket.socket) -> None:
        end.setblocking(False)
        self._end = end

    def fileno(self) -> int:
        """The descriptor, for who waits until something is said."""
        return self._end.fileno()

    def say(self, words: bytes) -> None:
        """Tell the other end; where it is gone there is nobody to tell."""
        with contextlib.suppress(OSError):
            self._end.send(words)

    def hear(self) -> bytes | None:
        """What has been said since; None once the other end is gone."""
        try:
            return self._end.recv(64) or None
        except BlockingIOError:
            return b""
        except OSError:
            return None

    def close(self) -> None:
        """Hang up."""
        self._end.close()


def order_of(words: bytes | None) -> Order | None:
    """The greatest order in what was heard. A process without a keeper drains."""
    return Order.DRAIN if words is None else max(map(Order, words), default=None)


def hurried(order: Order | None) -> Order:
    """The order that one more signal means."""
    if order is None or order < Order.DRAIN:
        return Order.DRAIN
    return Order.STOP if order == Order.DRAIN else Order.QUIT
