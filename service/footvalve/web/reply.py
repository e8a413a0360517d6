"""The one way in which an answer leaves: whole, with its length and the request's id, and without a body to HEAD."""

from typing import Any, Self

from litestar.types import Receive, Scope, Send

from footvalve.web.request_id import request_id

Headers = tuple[tuple[bytes, bytes], ...]

_EVERYWHERE: Headers = ((b"x-content-type-options", b"nosniff"),)


class Reply:
    """An answer, ready to be sent any number of times."""

    __slots__ = ("body", "headers", "status")

    def __init__(self, status: int, body: bytes = b"", media_type: bytes = b"", headers: Headers = ()) -> None:
        self.status = status
        self.body = body
        self.headers = [*_EVERYWHERE, *headers]
        if media_type:
            self.headers += ((b"content-type", media_type), (b"content-length", b"%d" % len(body)))

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:  # noqa: ARG002
        """Send it to the request that the scope tells of."""
        headers = [*self.headers, (b"x-request-id", request_id(scope).encode())]
        body = b"" if scope.get("method") == "HEAD" else self.body
        await send({"type": "http.response.start", "status": self.status, "headers": headers})
        await send({"type": "http.response.body", "body": body, "more_body": False})

    def to_asgi_response(self, *_: Any, **__: Any) -> Self:
        """What Litestar calls on the way out of an exception handler."""
        return self
