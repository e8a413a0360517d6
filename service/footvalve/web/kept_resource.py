"""A resource that never changes while the service runs: sent whole with a tag, and not at all to who holds it."""

from collections.abc import Callable
from functools import cache
from typing import Any

from litestar import Request, route
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp

from footvalve.web.entity_tag import entity_tag, is_held
from footvalve.web.reply import Headers, Reply
from footvalve.web.request_headers import HeaderTable, admit, header_table


class Kept:
    """A representation's bytes with their tag, and the two replies that follow from them."""

    __slots__ = ("_tag", "_unchanged", "_whole", "media_type")

    def __init__(self, body: bytes, content_type: str, kept_for: bytes, more_headers: Headers = ()) -> None:
        self.media_type = content_type.partition(";")[0]
        self._tag = entity_tag(body)
        headers: Headers = ((b"etag", self._tag), (b"cache-control", kept_for), *more_headers)
        self._whole = Reply(200, body, content_type.encode(), headers)
        self._unchanged = Reply(304, headers=headers)

    def reply_to(self, headers: HeaderTable) -> Reply:
        """The answer to a request with these headers."""
        return self._unchanged if is_held(self._tag, headers.get(b"if-none-match", b"")) else self._whole


MakesKept = Callable[[], Kept]


def kept_handler(path: str, make: MakesKept) -> HTTPRouteHandler:
    """What answers GET and HEAD at a path. It is made at the first request, so that the start need not wait for it."""
    made_once = cache(make)

    @route(path, http_method=["GET", "HEAD"], status_code=200)
    async def read(request: Request[Any, Any, Any]) -> ASGIApp:
        headers = header_table(request.scope)
        kept = made_once()
        admit(request.scope, headers, (kept.media_type,))
        return kept.reply_to(headers)

    return read
