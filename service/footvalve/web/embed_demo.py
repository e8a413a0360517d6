"""The demo: a page of an invented shop, with the suction check at each pump. `?lang=` chooses the language."""

from typing import Any, Final

import msgspec
from jinja2 import Environment, StrictUndefined
from litestar import Request, route
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp, Scope
from markupsafe import Markup

from footvalve.web import problem_types as kinds
from footvalve.web.embed_files import embed_file, page
from footvalve.web.embed_script import EmbedScript
from footvalve.web.negotiation import HTML
from footvalve.web.problems import Declined
from footvalve.web.request_headers import accepted, header_table, query_told
from footvalve.web.security_headers import OF_THE_SERVICE

DEMO: Final = "/embed/v1/demo"

_WORDS: Final[dict[str, dict[str, Any]]] = msgspec.json.decode(embed_file("demo.json"))
DEMO_LANGUAGES: Final = tuple(_WORDS)
"""The languages of the page, the one that it speaks by itself first."""

_ATTRIBUTES: Final = {
    "id": "id",
    "pump-name": "in_a_sentence",
    "pump-style": "style",
    "rated-lift": "rated_lift",
    "npsh-required": "npsh_required",
    "flow": "flow",
    "pump-points": "points",
    "switch": "switch",
}
"""What of a product the element's attributes tell, by attribute."""


def demo_handler(script: EmbedScript) -> HTTPRouteHandler:
    """What answers GET and HEAD at the demo."""
    pages = {language: page(demo_page(language, script).encode(), OF_THE_SERVICE) for language in DEMO_LANGUAGES}

    @route(DEMO, http_method=["GET", "HEAD"], status_code=200)
    async def read(request: Request[Any, Any, Any]) -> ASGIApp:
        headers = header_table(request.scope)
        language = _asked(request.scope)
        accepted(headers, (HTML,))
        return pages[language].reply_to(headers)

    return read


def _asked(scope: Scope) -> str:
    """The language that the query asks for. Raises Declined for any other query."""
    queries = {b"": DEMO_LANGUAGES[0]} | {f"lang={language}".encode(): language for language in DEMO_LANGUAGES}
    language = queries.get(scope["query_string"])
    if language is None:
        known = " or ".join(f"?lang={language}" for language in DEMO_LANGUAGES)
        raise Declined(
            kinds.UNKNOWN_QUERY, f"This page takes {known} and no other query, but got ?{query_told(scope)}."
        )
    return language


def demo_page(language: str, script: EmbedScript) -> str:
    """The page in a language."""
    environment = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    words = _WORDS[language]
    products = [
        {**product, "element": _element(product, words["units"], words["instead"])} for product in words["products"]
    ]
    template = environment.from_string(embed_file("demo.html").decode())
    return template.render({**words, "language": language, "products": products, "script_tag": Markup(script.tag())})


def _element(product: dict[str, Any], units: str, instead: str) -> Markup:
    """The element of a product, with all that the shop knows of its pump, and what is read where no script comes."""
    told = {name: product[key] for name, key in _ATTRIBUTES.items() if key in product} | {"units": units}
    attributes = "".join(Markup(' {}="{}"').format(name, value) for name, value in told.items())
    element = Markup("<footvalve-suction-check{} permalink><p>{}</p></footvalve-suction-check>")
    return element.format(Markup(attributes), instead)
