"""The limit on how many requests are at work at once, in this process."""

from typing import Any, Final

from litestar.types import ASGIApp, Receive, Scope, Send

from footvalve.web import problem_types as kinds
from footvalve.web.layer import decline
from footvalve.web.problems import Declined

_NEVER_COUNTED: Final = frozenset({"/live", "/ready"})
"""Whoever looks whether the process is well must be told so most of all when there is much to do."""

_ASK_AGAIN: Final = ((b"retry-after", b"1"),)


class Concurrency:
    """Counts the requests at work: from where the whole request is there until its answer has left."""

    def __init__(self, limit: int) -> None:
        self._limit = limit
        self.at_work = 0

    def layer(self, app: ASGIApp) -> ASGIApp:
        """The application with this around it."""

        async def limited(scope: Scope, receive: Receive, send: Send) -> None:
            if scope["path"] in _NEVER_COUNTED:
                await app(scope, receive, send)
                return
            place = _Place(self, receive)
            try:
                if scope.get("method") == "POST":
                    self.refuse_if_full()
                    await app(scope, place.receive, send)
                else:
                    place.take()
                    await app(scope, receive, send)
            except _Full as refusal:
                await decline(refusal, scope, receive, send)
            finally:
                place.leave()

        return limited

    def refuse_if_full(self) -> None:
        """Raises Declined where there is no place left."""
        if self.at_work >= self._limit:
            raise _Full(kinds.OVERLOADED, f"{self._limit} requests are at work already.", _ASK_AGAIN)


class _Full(Declined):
    """There is no place left."""


class _Place:
    """The place of one request among those at work. One that comes in slowly takes none until its body is whole, so
    that slow callers cannot fill the places."""

    __slots__ = ("_is_taken", "_places", "_receive")

    def __init__(self, places: Concurrency, receive: Receive) -> None:
        self._places = places
        self._receive = receive
        self._is_taken = False

    def take(self) -> None:
        """Raises Declined where there is none left."""
        if not self._is_taken:
            self._places.refuse_if_full()
            self._places.at_work += 1
            self._is_taken = True

    def leave(self) -> None:
        """Let another have it."""
        if self._is_taken:
            self._places.at_work -= 1
            self._is_taken = False

    async def receive(self) -> Any:
        """The next message; with the last of the body the place is taken."""
        message: Any = await self._receive()
        if message["type"] == "http.request" and not message.get("more_body", False):
            self.take()
        return message
