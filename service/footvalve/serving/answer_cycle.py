"""One request and its answer, as uvicorn runs them, on a connection of this service."""

import asyncio
from collections.abc import Callable
from typing import Any

from uvicorn.protocols.http.httptools_impl import RequestResponseCycle

from footvalve.web import problem_types as kinds
from footvalve.web.problems import Declined, problem_answer
from footvalve.web.reply import start_of_response


class AnswerCycle(RequestResponseCycle):
    """One request and its answer."""

    async def send(self, message: Any) -> None:
        """Send a part of the answer; its head waits for the first of the body."""
        outlet: Any = self.transport
        if message["type"] == "http.response.start":
            outlet.hold()
            await super().send(message)
        else:
            await super().send(message)
            outlet.flush()

    async def send_500_response(self) -> None:
        """Answer where the application has failed without an answer of its own."""
        scope: Any = self.scope
        reply = problem_answer(scope, Declined(kinds.INTERNAL_ERROR, kinds.INTERNAL_ERROR.remedy))
        headers = [*reply.headers, (b"connection", b"close")]
        await self.send(start_of_response(scope, reply.status, headers))
        await self.send({"type": "http.response.body", "body": reply.body, "more_body": False})


class Outlet:
    """The transport as a cycle sees it: a head leaves together with the first of its body, in one write.

    So wherever this process is killed no head is out without its body, and a proxy may ask again elsewhere. Its `close`
    lets the caller read the answer to its end.
    """

    __slots__ = ("_close", "_head", "_write", "is_closing")

    def __init__(self, transport: asyncio.Transport, close: Callable[[], None]) -> None:
        self._write = transport.write
        self.is_closing = transport.is_closing
        self._close = close
        self._head: bytes | None = None

    def hold(self) -> None:
        """Keep what is written next until there is more."""
        self._head = b""

    def write(self, data: bytes) -> None:
        """Send, after what is held."""
        if self._head == b"":
            self._head = data
        elif self._head is None:
            self._write(data)
        else:
            self._write(self._head + data)
            self._head = None

    def flush(self) -> None:
        """Send what is held, as there is no more."""
        head, self._head = self._head, None
        if head:
            self._write(head)

    def close(self) -> None:
        """Close once everything has been sent."""
        self.flush()
        self._close()
