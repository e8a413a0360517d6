"""What answers GET and HEAD: the service's health, its contract, and the pages of its problems."""

from collections.abc import Callable, Mapping, Sequence
from functools import cache, partial
from typing import Any

import msgspec
from litestar import Request, route
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp

from footvalve import __version__
from footvalve.answers.endpoints import Endpoint
from footvalve.web import problem_types as kinds
from footvalve.web.access_layer import Access
from footvalve.web.batch_handler import BATCH
from footvalve.web.docs_handlers import DOCS
from footvalve.web.document import contract_document
from footvalve.web.embed_demo import DEMO
from footvalve.web.endpoint_handlers import path_of
from footvalve.web.kept_resource import Kept, kept_handler
from footvalve.web.negotiation import JSON
from footvalve.web.problem_page import problem_page
from footvalve.web.problem_types import PROBLEM_TYPES
from footvalve.web.problems import Declined
from footvalve.web.reply import Headers, Reply
from footvalve.web.request_headers import admit, header_table
from footvalve.web.service_answers import Health, Index
from footvalve.web.table_handlers import TABLE_PATHS

Representations = Mapping[str, Reply]
"""A resource in each media type that it comes in, the preferred first."""

IS_CLOSING_DOWN = "is_closing_down"
"""The entry of a request's state by which the server tells that the service ends."""

_FRESH: Headers = ((b"cache-control", b"no-store"),)

_ASKED_AGAIN = b"no-cache"
"""For what tells of this release alone."""


def service_handlers(endpoints: Sequence[Endpoint], access: Access) -> list[HTTPRouteHandler]:
    """The handlers of everything that is no endpoint."""
    posted = [*map(path_of, endpoints), BATCH]
    index = Index("footvalve", __version__, "/openapi.json", posted, list(TABLE_PATHS), [DOCS, DEMO])
    return [
        kept_handler("/", lambda: _kept(index)),
        _reader("/live", lambda: _json(Health("live"), _FRESH)),
        _ready(access),
        kept_handler("/openapi.json", lambda: _kept(contract_document(endpoints))),
        *(_reader(kind.uri, partial(problem_page, kind)) for kind in PROBLEM_TYPES),
    ]


def _reader(path: str, represent: Callable[[], Representations]) -> HTTPRouteHandler:
    """A handler for what never changes; it is made at the first request, so that the start need not wait for it."""
    made_once = cache(represent)

    @route(path, http_method=["GET", "HEAD"], status_code=200)
    async def read(request: Request[Any, Any, Any]) -> ASGIApp:
        representations = made_once()
        headers = header_table(request.scope)
        return representations[admit(request.scope, headers, tuple(representations))]

    return read


def _ready(access: Access) -> HTTPRouteHandler:
    """A handler for whether the service is ready, and what it does without meanwhile."""

    @route("/ready", http_method=["GET", "HEAD"], status_code=200)
    async def read(request: Request[Any, Any, Any]) -> ASGIApp:
        admit(request.scope, header_table(request.scope))
        if request.scope["state"].get(IS_CLOSING_DOWN):
            raise Declined(kinds.CLOSING_DOWN, "This process takes no more work.", ((b"retry-after", b"1"),))
        return _json(await access.health(), _FRESH)[JSON]

    return read


def _kept(value: object) -> Kept:
    return Kept(msgspec.json.encode(value), JSON, _ASKED_AGAIN)


def _json(value: object, headers: Headers) -> Representations:
    return {JSON: Reply(200, msgspec.json.encode(value), JSON.encode(), headers)}
