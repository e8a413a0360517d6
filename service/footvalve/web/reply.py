"""The one way in which an answer leaves: whole, with its length and the request's id, and without a body to HEAD."""

from collections.abc import Iterable
from typing import Any, Self

from litestar.types import HTTPResponseStartEvent, Receive, Scope, Send

from footvalve.web.request_id import request_id

Headers = tuple[tuple[bytes, bytes], ...]

_EVERYWHERE: Headers = ((b"x-content-type-options", b"nosniff"), (b"referrer-policy", b"no-referrer"))


def start_of_response(scope: Scope, status: int, headers: Iterable[tuple[bytes, bytes]]) -> HTTPResponseStartEvent:
    """The message that opens a response, with the headers that every one of them has."""
    every = (*_EVERYWHERE, *headers, (b"x-request-id", request_id(scope).encode()))
    return {"type": "http.response.start", "status": status, "headers": every}


class Reply:
    """An answer, ready to be sent any number of times."""

    __slots__ = ("body", "headers", "status")

    def __init__(self, status: int, body: bytes = b"", media_type: bytes = b"", headers: Headers = ()) -> None:
        self.status = status
        self.body = body
        self.headers = list(headers)
        if media_type:
            self.headers += ((b"content-type", media_type), (b"content-length", b"%d" % len(body)))

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:  # noqa: ARG002
        """Send it to the request that the scope tells of."""
        body = b"" if scope.get("method") == "HEAD" else self.body
        await send(start_of_response(scope, self.status, self.headers))
        await send({"type": "http.response.body", "body": body, "more_body": False})

    def to_asgi_response(self, *_: Any, **__: Any) -> Self:
        """What Litestar calls on the way out of an exception handler."""
        return self
