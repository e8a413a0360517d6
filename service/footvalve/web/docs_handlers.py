"""What answers GET and HEAD at /docs: the contract to read and to try, by Swagger UI from the service itself."""

from functools import partial
from importlib.resources import files
from typing import Final

from litestar.handlers import HTTPRouteHandler

from footvalve.web.embed_files import embed_file, files_of_a_page, kept_text, page
from footvalve.web.kept_resource import MakesKept, kept_handler
from footvalve.web.negotiation import CSS, JAVASCRIPT
from footvalve.web.security_headers import OF_THE_SERVICE

DOCS: Final = "/docs"
_ASSETS: Final = "/docs/assets"

_KEPT_FOR = b"public, max-age=86400"
"""Swagger UI changes seldom, and with its own releases."""


def docs_handlers() -> list[HTTPRouteHandler]:
    """The handlers of the page and of its files."""
    kept: dict[str, MakesKept] = {
        DOCS: partial(page, embed_file("docs.html"), OF_THE_SERVICE),
        **files_of_a_page(_ASSETS, "docs.css", "docs.js"),
        f"{_ASSETS}/swagger-ui.css": partial(kept_text, swagger_ui("swagger-ui.css"), CSS, _KEPT_FOR),
        f"{_ASSETS}/swagger-ui-bundle.js": partial(
            kept_text, swagger_ui("swagger-ui-bundle.js"), JAVASCRIPT, _KEPT_FOR
        ),
    }
    return [kept_handler(path, make) for path, make in kept.items()]


def swagger_ui(name: str) -> bytes:
    """A file of Swagger UI."""
    (release,) = files("swagger_ui_bundle").joinpath("vendor").iterdir()
    return release.joinpath(name).read_bytes()
