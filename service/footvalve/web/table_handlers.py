"""What answers GET and HEAD at /v1/tables/<name>: a table, or that the caller has it already."""

from functools import cache
from typing import Any

import msgspec
from litestar import Request, route
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp

from footvalve.answers.tables import TABLES, table
from footvalve.web.entity_tag import entity_tag, is_held
from footvalve.web.negotiation import JSON
from footvalve.web.reply import Headers, Reply
from footvalve.web.request_headers import admit, header_table

TABLE_PATHS = tuple(f"/v1/tables/{name}" for name in TABLES)

_KEPT_FOR = b"public, max-age=3600"
"""A table changes with a release alone; an hour after one, everybody has it anew."""


class _Held:
    """A table's bytes with their tag, and the two replies that follow from them."""

    def __init__(self, name: str) -> None:
        body = msgspec.json.encode(table(name))
        self.tag = entity_tag(body)
        headers: Headers = ((b"etag", self.tag), (b"cache-control", _KEPT_FOR))
        self.whole = Reply(200, body, JSON.encode(), headers)
        self.unchanged = Reply(304, headers=headers)


_held = cache(_Held)


def table_handlers() -> list[HTTPRouteHandler]:
    """The handlers of every table."""
    return [_table_handler(name, path) for name, path in zip(TABLES, TABLE_PATHS, strict=True)]


def _table_handler(name: str, path: str) -> HTTPRouteHandler:
    @route(path, http_method=["GET", "HEAD"], status_code=200)
    async def read(request: Request[Any, Any, Any]) -> ASGIApp:
        headers = header_table(request.scope)
        admit(request.scope, headers)
        held = _held(name)
        return held.unchanged if is_held(held.tag, headers.get(b"if-none-match", b"")) else held.whole

    return read
