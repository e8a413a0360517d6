"""How the contract document tells of the suction check for other people's pages, and of the pages about it."""

from typing import Any

from footvalve.web.component_schemas import Schema, reference
from footvalve.web.documented_problems import problem_references
from footvalve.web.documented_reading import reading_kept
from footvalve.web.embed_answers import ScriptIntegrity, TextLanguages
from footvalve.web.embed_demo import DEMO, DEMO_LANGUAGES
from footvalve.web.embed_handlers import INTEGRITY, TEXTS
from footvalve.web.embed_script import ALIAS
from footvalve.web.embed_site_sheet import SITE_SHEET
from footvalve.web.embed_texts import texts_by_language
from footvalve.web.negotiation import HTML, JAVASCRIPT, JSON

_EMBED = "embed"

_SCRIPT = f"""\
A module that defines the element `footvalve-suction-check`; it has no dependency. This address always holds the \
newest one; the address that {INTEGRITY} tells holds the same bytes for good. A page of another origin loads it where \
the operator has allowed that origin.\
"""
_PLAN = "The inputs stand behind the # of the address, which is never sent: the suction check makes such links."


def embed_paths() -> dict[str, Schema]:
    """The paths under /embed."""
    return {
        ALIAS: _kept("suctionCheckScript", "The suction check as a script", JAVASCRIPT, _text(), _SCRIPT),
        INTEGRITY: _kept(
            "suctionCheckIntegrity", "What holds the script to its bytes", JSON, reference(ScriptIntegrity)
        ),
        TEXTS: _kept("suctionCheckLanguages", "The languages of the suction check", JSON, reference(TextLanguages)),
        f"{TEXTS}/{{language}}.json": _texts(),
        DEMO: _demo(),
        SITE_SHEET: _page("siteSheetPage", "A page that shows the site sheet of a plan", _PLAN),
    }


def _kept(identifier: str, summary: str, media_type: str, schema: Schema, more: str = "") -> Schema:
    headers = ("Cross-Origin-Resource-Policy",)
    return reading_kept(identifier, summary, {media_type: {"schema": schema}}, *headers, tag=_EMBED, more=more)


def _page(identifier: str, summary: str, more: str = "") -> Schema:
    headers = ("Content-Security-Policy", "Referrer-Policy")
    return reading_kept(identifier, summary, {HTML: {"schema": _text()}}, *headers, tag=_EMBED, more=more)


def _texts() -> Schema:
    texts = {"type": "object", "description": "Texts, and groups of texts, by their names."}
    path = _kept("suctionCheckTexts", "The texts of the suction check in a language", JSON, texts)
    language = _one_of("language", "path", texts_by_language(), "The language.")
    path["get"]["parameters"] = [{**language, "required": True}]
    path["get"]["responses"] |= problem_references(404)
    return path


def _demo() -> Schema:
    path = _page("suctionCheckDemo", "A page of an invented shop with the suction check in it")
    told = f"The language of the page; {DEMO_LANGUAGES[0]} where it is left out."
    path["get"]["parameters"] = [_one_of("lang", "query", DEMO_LANGUAGES, told)]
    return path


def _one_of(name: str, place: str, words: Any, description: str) -> Schema:
    return {"name": name, "in": place, "description": description, "schema": {"type": "string", "enum": list(words)}}


def _text() -> Schema:
    return {"type": "string"}
