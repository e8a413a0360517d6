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

    async def send_500_response(self) -> None:
        """Answer where the application has failed without an answer of its own."""
        scope: Any = self.scope
        reply = problem_answer(scope, Declined(kinds.INTERNAL_ERROR, kinds.INTERNAL_ERROR.remedy))
        headers = [*reply.headers, (b"connection", b"close")]
        await self.send(start_of_response(scope, reply.status, headers))  # type: ignore[arg-type]
        await self.send({"type": "http.response.body", "body": reply.body, "more_body": False})


class Outlet:
    """The transport as a cycle sees it: its `close` lets the caller read the answer to its end."""

    __slots__ = ("close", "is_closing", "write")

    def __init__(self, transport: asyncio.Transport, close: Callable[[], None]) -> None:
        self.write = transport.write
        self.is_closing = transport.is_closing
        self.close = close
