"""One caller's connection, from its opening to its end: its limits, its refusals, and how it is closed.

Time is limited without a timer for each request: a connection holds the deadline of what it waits for, and a sweep that
comes twice a second looks at all of them (callers.py).
"""

import asyncio
import fcntl
import socket
import struct
import termios
from typing import Any, Final

from uvicorn.config import Config

from footvalve.serving.answer_cycle import Outlet
from footvalve.serving.callers import Callers
from footvalve.serving.refusal import refusal
from footvalve.serving.request_reading import RequestReader
from footvalve.web import problem_types as kinds
from footvalve.web.problem_types import ProblemType

_LINGER_S: Final = 1.5
"""How long what still comes is thrown away before a socket is closed: closed at once, it would destroy the answer."""

_FRESH_S: Final = 1.0
"""How long a connection on which nothing was asked yet is given for it before it counts as idle at the end."""

_MOST_TURNED_AWAY: Final = 256
"""So many connections beyond the limit are seen off with patience; any more are closed at once."""


class CallerConnection(RequestReader):
    """A connection from its opening to its end."""

    def __init__(
        self, config: Config, server_state: Callers, app_state: dict[str, Any], _loop: asyncio.AbstractEventLoop
    ) -> None:
        super().__init__(config, server_state, app_state, _loop)
        self._opened = server_state.now
        self._half_closed = False
        self._last_words: bytes | None = None
        self._untaken = 0
        self._untaken_since = 0.0

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Take a connection, or turn it away where there are too many."""
        super().connection_made(transport)
        self.outlet = Outlet(transport, self._close)
        if len(self.connections) > self.limits.connection_limit:
            self._turn_away()

    def _turn_away(self) -> None:
        self.connections.discard(self)
        self.callers.turned_away.add(self)
        words = refusal(kinds.OVERLOADED, f"More than {self.limits.connection_limit} connections are open.")
        self._end(words)
        if len(self.callers.turned_away) > _MOST_TURNED_AWAY:
            self.transport.close()

    def connection_lost(self, exc: Exception | None) -> None:
        """Forget the connection."""
        self.callers.turned_away.discard(self)
        self._drop_work()
        super().connection_lost(exc)

    def eof_received(self) -> bool:  # type: ignore[override]
        """The caller sends no more, but may still read: it gets the answers to what it has asked."""
        self._half_closed = True
        if self.is_over:
            return False
        if self.receiving and not self.in_head and not self.cycle.response_complete:
            self.refuse(kinds.BAD_REQUEST, "The connection ended before the body did.")
            return True
        self.answer_for_the_last_time()
        return self.running is not None

    # What goes out

    def on_response_complete(self) -> None:
        """Go on to the next request in line, or wait for one."""
        self.callers.total_requests += 1
        self.running = None
        if self.is_over or self.transport.is_closing():
            return
        self.flow.resume_reading()
        if self.pipeline:
            self._begin(self.pipeline.pop()[0])
        elif self._last_words is not None:
            self._end(self._last_words)
        elif self._half_closed:
            self.transport.close()
        elif not self.receiving:
            self.deadline = self.in_time(self.limits.keep_alive_seconds)

    def refuse(self, kind: ProblemType, detail: str) -> None:
        """Answer the request that is coming in with a problem, after the answers to those before it; then close."""
        words = refusal(kind, detail, None if self.in_head else self.scope)
        if self.receiving and not self.in_head:
            self._refuse_in_body(words)
        elif self.running:
            self._last_words = words
            self.stop_reading()
        else:
            self._end(words)

    def _refuse_in_body(self, words: bytes) -> None:
        cycle = self.cycle
        self.receiving = False
        waiting = [(queued, app) for queued, app in self.pipeline if queued is not cycle]
        is_queued = len(waiting) < len(self.pipeline)
        self.stop_reading()
        if is_queued:
            self.pipeline = type(self.pipeline)(waiting)
            self._last_words = words
            return
        self._abandon(b"" if cycle.response_complete else words)

    def _abandon(self, words: bytes) -> None:
        """Let every request go without its answer; the first one gets these words instead."""
        has_begun = self.running is not None and self.running.response_started
        self._drop_work()
        if has_begun:
            self.hang_up()
        else:
            self._end(words)

    def _drop_work(self) -> None:
        """Let what is at work know that nobody waits for it any more."""
        self.pipeline.clear()
        if self.running:
            self.running.disconnected = True
            self.running.message_event.set()
            self.running = None

    def _end(self, words: bytes = b"") -> None:
        """Send the last words, and close as soon as the caller does."""
        self.is_over = True
        self.receiving = self.in_head = False
        if self.transport.is_closing():
            return
        if words:
            self.transport.write(words)
        if self._half_closed:
            self.transport.close()
            return
        self.deadline = self.in_time(_LINGER_S)
        self.flow.resume_reading()
        self.transport.write_eof()

    def _close(self) -> None:
        """Close after a last answer; with patience where the caller is still sending."""
        if self.transport.is_closing():
            return
        if self._half_closed or not (self.receiving or self._unread()):
            self.is_over = True
            self.transport.close()
        else:
            self._end()

    # What the sweep and the end of the process ask for

    def look_after(self, now: float) -> None:
        """End what has taken too long: a request that does not come, an answer that is not taken, idleness."""
        untaken = self.transport.get_write_buffer_size()
        if untaken:
            self._watch_taking(untaken, now)
        else:
            self._untaken = 0
            if self.deadline < now:
                self._end_waiting()

    def _watch_taking(self, untaken: int, now: float) -> None:
        if untaken != self._untaken:
            self._untaken, self._untaken_since = untaken, now
        elif now - self._untaken_since > self.limits.send_seconds:
            self.hang_up()

    def _end_waiting(self) -> None:
        if self.is_over:
            self.transport.close()
        elif self.receiving and self.flow.read_paused:
            self.deadline = self.in_time(1)  # it is we who do not read on
        elif self.receiving:
            seconds = self.limits.receive_seconds
            self.refuse(kinds.REQUEST_TIMEOUT, f"The request did not come in whole within {seconds} s.")
        elif not self._unread():
            self._end()

    def answer_for_the_last_time(self) -> None:
        """Let the answer to the newest request say that the connection ends with it."""
        if self.running and not self.cycle.response_started:
            self.cycle.keep_alive = False

    def close_if_idle(self) -> None:
        """Close where nothing is asked: a connection that is new is given a moment for it."""
        fresh = self.cycle is None and self.callers.now - self._opened < _FRESH_S
        if not (fresh or self.is_over or self.receiving or self.running or self._unread()):
            self._end()

    def break_off(self) -> bool:
        """Refuse what is unfinished as there is no time left; whether there was anything."""
        if self.is_over or not (self.receiving or self.running):
            return False
        scope = self.running.scope if self.running else None
        words = refusal(kinds.CLOSING_DOWN, "The service closes down, and no time was left for the request.", scope)
        self._abandon(words)
        return True

    def hang_up(self) -> None:
        """End it at once; where something is still to be sent, so that the kernel keeps none of it."""
        if self.is_over and not self.transport.get_write_buffer_size():
            self.transport.close()
            return
        if not self.transport.is_closing():
            self._socket().setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
        self._drop_work()
        self.is_over = True
        self.transport.abort()

    def _unread(self) -> int:
        """How many octets have come that the loop has not handed over yet."""
        (octets,) = struct.unpack("i", fcntl.ioctl(self._socket().fileno(), termios.FIONREAD, struct.pack("i", 0)))
        return int(octets)

    def _socket(self) -> Any:
        return self.transport.get_extra_info("socket")
