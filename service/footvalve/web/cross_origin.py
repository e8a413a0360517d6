"""Which pages of other origins may read what the service answers: the CORS protocol (WHATWG Fetch, section 3.2).

Litestar's own puts its Vary in place of the one that is there, leaves it out where no Origin came, and answers OPTIONS
itself at every path.
"""

from collections.abc import Iterable
from typing import Final

from litestar.types import ASGIApp, Message, Receive, Scope, Send

from footvalve.web.reply import Headers

ANY_ORIGIN: Final = "*"

_COVERED = ("/v1/", "/embed/")
_COVERED_ALONE = "/openapi.json"

_READABLE: Headers = (
    (b"access-control-expose-headers", b"ETag, RateLimit, RateLimit-Policy, Retry-After, X-Request-Id"),
)
_VARIES: Headers = ((b"vary", b"Origin"),)
_PREFLIGHT: Headers = (
    (b"access-control-allow-headers", b"Authorization, Content-Type, If-None-Match, X-Request-Id"),
    (b"access-control-max-age", b"7200"),
)


class CrossOrigin:
    """What is said to the pages of some origins, or of every one. Credentials are never asked for."""

    def __init__(self, origins: Iterable[str] = ()) -> None:
        self._origins = frozenset(origin.encode() for origin in origins)
        self._any = ANY_ORIGIN.encode() in self._origins

    def layer(self, app: ASGIApp) -> ASGIApp:
        """The application with this around it; itself where no origin is allowed."""
        if not self._origins:
            return app

        async def opened(scope: Scope, receive: Receive, send: Send) -> None:
            await app(scope, receive, self._opening(scope, send) if _is_covered(scope["path"]) else send)

        return opened

    def _opening(self, scope: Scope, send: Send) -> Send:
        """The way out for one request, on which its answer gets the headers that the origin of its page calls for."""
        more, preflight = self._headers(scope)

        async def sent(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = list(message["headers"])
                extra = _preflight_headers(headers) if preflight and message["status"] == 204 else ()
                message = {**message, "headers": [*headers, *more, *extra]}
            await send(message)

        return sent

    def _headers(self, scope: Scope) -> tuple[Headers, bool]:
        """The headers of any answer to this request, and whether it is a preflight that may pass."""
        asked = dict(scope["headers"])
        origin = asked.get(b"origin", b"")
        if self._any:
            allowed: Headers = ((b"access-control-allow-origin", b"*"), *_READABLE)
        elif origin in self._origins:
            allowed = ((b"access-control-allow-origin", origin), *_READABLE, *_VARIES)
        else:
            return _VARIES, False
        return allowed, scope.get("method") == "OPTIONS" and b"access-control-request-method" in asked


def _is_covered(path: str) -> bool:
    return path.startswith(_COVERED) or path == _COVERED_ALONE


def _preflight_headers(answer: Iterable[tuple[bytes, bytes]]) -> Headers:
    """What an answer to OPTIONS also tells a preflight; the methods are those of its Allow."""
    methods = tuple((b"access-control-allow-methods", value) for name, value in answer if name == b"allow")
    return (*methods, *_PREFLIGHT)
