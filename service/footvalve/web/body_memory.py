"""The limit on what long bodies take of memory: while they come in, and until their answers have left."""

from typing import Any, Final

from litestar.types import ASGIApp, Receive, Scope, Send

from footvalve.web import problem_types as kinds
from footvalve.web.problems import Declined

NOT_COUNTED: Final = 16_384
"""Bytes of a body that no limit is on but that on connections: who asks a single question gets through, whoever else
fills the memory with long bodies that never end."""

_ASK_AGAIN: Final = ((b"retry-after", b"5"),)


class BodyMemory:
    """Counts the bytes of long bodies that are held in this process."""

    def __init__(self, limit: int) -> None:
        self._limit = limit
        self.held = 0

    def layer(self, app: ASGIApp) -> ASGIApp:
        """The application with this around it."""

        async def limited(scope: Scope, receive: Receive, send: Send) -> None:
            if scope.get("method") != "POST":
                await app(scope, receive, send)
                return
            body = _Body(self, receive)
            try:
                await app(scope, body.receive, send)
            finally:
                self.held -= body.counted

        return limited

    def take(self, octets: int) -> None:
        """Raises Declined where so many more find no room."""
        if self.held + octets > self._limit:
            raise Declined(kinds.OVERLOADED, "There is no room for so long a body now.", _ASK_AGAIN)
        self.held += octets


class _Body:
    """One body, as far as it has come in."""

    __slots__ = ("_memory", "_receive", "_size", "counted")

    def __init__(self, memory: BodyMemory, receive: Receive) -> None:
        self._memory = memory
        self._receive = receive
        self._size = 0
        self.counted = 0

    async def receive(self) -> Any:
        """The next message. Raises Declined where it finds no room."""
        message: Any = await self._receive()
        if message["type"] == "http.request":
            self._size += len(message.get("body", b""))
            more = self._size - NOT_COUNTED - self.counted
            if more > 0:
                self._memory.take(more)
                self.counted += more
        return message
