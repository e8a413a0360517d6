"""What answers GET and HEAD at /embed/v1: the suction check for other people's pages, its texts, and pages about it."""

from functools import partial
from typing import Final

import msgspec
from litestar.handlers import HTTPRouteHandler

from footvalve.web.embed_answers import ScriptIntegrity, TextLanguages
from footvalve.web.embed_demo import demo_handler
from footvalve.web.embed_files import BRIEFLY, embed_file, files_of_a_page, kept_text
from footvalve.web.embed_script import ALIAS, EmbedScript, embed_script
from footvalve.web.embed_site_sheet import site_sheet_files
from footvalve.web.embed_texts import texts_by_language
from footvalve.web.kept_resource import Kept, MakesKept, kept_handler
from footvalve.web.negotiation import CSS, JAVASCRIPT, JSON
from footvalve.web.security_headers import READ_ANYWHERE

INTEGRITY: Final = "/embed/v1/integrity.json"
TEXTS: Final = "/embed/v1/texts"
LOOK: Final = "/embed/v1/suction-check.css"

_FOR_GOOD = b"public, max-age=31536000, immutable"


def embed_handlers(public_origin: str) -> list[HTTPRouteHandler]:
    """The handlers of everything under /embed. The files are read here, once. Raises BadTexts."""
    script = embed_script()
    kept: dict[str, MakesKept] = {
        **_of_script(script, public_origin),
        **_of_texts(),
        LOOK: partial(kept_text, embed_file("suction-check.css"), CSS, BRIEFLY, READ_ANYWHERE),
        **site_sheet_files(),
        **files_of_a_page("/embed/v1", "demo.css", "demo.js"),
    }
    return [*(kept_handler(path, make) for path, make in kept.items()), demo_handler(script)]


def _of_script(script: EmbedScript, public_origin: str) -> dict[str, MakesKept]:
    told = ScriptIntegrity(public_origin + script.address, script.integrity, script.tag(public_origin))
    return {
        ALIAS: partial(kept_text, script.source, JAVASCRIPT, BRIEFLY, READ_ANYWHERE),
        script.address: partial(kept_text, script.source, JAVASCRIPT, _FOR_GOOD, READ_ANYWHERE),
        INTEGRITY: _json(msgspec.json.encode(told)),
    }


def _of_texts() -> dict[str, MakesKept]:
    texts = texts_by_language()
    listed = msgspec.json.encode(TextLanguages(list(texts)))
    return {TEXTS: _json(listed), **{f"{TEXTS}/{language}.json": _json(raw) for language, raw in texts.items()}}


def _json(raw: bytes) -> MakesKept:
    return partial(Kept, raw, JSON, BRIEFLY, READ_ANYWHERE)
