"""What answers GET and HEAD at /v1/tables/<name>: a table, or that the caller has it already."""

from functools import partial

import msgspec
from litestar.handlers import HTTPRouteHandler

from footvalve.answers.tables import TABLES, table
from footvalve.web.kept_resource import Kept, kept_handler
from footvalve.web.negotiation import JSON

TABLE_PATHS = tuple(f"/v1/tables/{name}" for name in TABLES)

_KEPT_FOR = b"public, max-age=3600"
"""A table changes with a release alone; an hour after one, everybody has it anew."""


def table_handlers() -> list[HTTPRouteHandler]:
    """The handlers of every table."""
    return [kept_handler(path, partial(_kept, name)) for name, path in zip(TABLES, TABLE_PATHS, strict=True)]


def _kept(name: str) -> Kept:
    return Kept(msgspec.json.encode(table(name)), JSON, _KEPT_FOR)
