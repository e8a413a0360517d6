"""The methods that a path takes, as the header Allow tells them (RFC 9110, section 10.2.1)."""

from collections.abc import Iterable

from litestar import route
from litestar.handlers import HTTPRouteHandler
from litestar.routes import BaseRoute
from litestar.types import ASGIApp
from litestar.utils import normalize_path

from footvalve.web.reply import Headers, Reply


def allow(methods: Iterable[str]) -> Headers:
    """The header Allow."""
    return ((b"allow", ", ".join(sorted(methods)).encode()),)


def methods_at(path: str, routes: Iterable[BaseRoute]) -> set[str]:
    """The methods of the route at a path; none where there is no route."""
    normal = normalize_path(path)
    return {method for route in routes if route.path == normal for method in route.methods}


def options_handler(handler: HTTPRouteHandler) -> HTTPRouteHandler:
    """What answers OPTIONS at the path of another handler."""
    reply = Reply(204, headers=allow({*handler.http_methods, "OPTIONS"}))

    @route(list(handler.paths), http_method="OPTIONS")
    async def options() -> ASGIApp:
        return reply

    return options
