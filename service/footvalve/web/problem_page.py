"""The page that a problem's type URI answers with, for people and for programs."""

from html import escape

import msgspec

from footvalve.web.negotiation import HTML, JSON
from footvalve.web.problem_types import ProblemType
from footvalve.web.reply import Reply
from footvalve.web.security_headers import page_headers
from footvalve.web.service_answers import ProblemKind

_VARY = (b"vary", b"Accept")


def problem_page(kind: ProblemType) -> dict[str, Reply]:
    """The page in each media type on offer."""
    data = msgspec.json.encode(ProblemKind(kind.uri, kind.title, kind.status, kind.remedy))
    return {
        HTML: Reply(200, _html(kind).encode(), b"text/html; charset=utf-8", (_VARY, *page_headers())),
        JSON: Reply(200, data, JSON.encode(), (_VARY,)),
    }


def _html(kind: ProblemType) -> str:
    title = escape(kind.title)
    return (
        '<!doctype html>\n<html lang="en">\n'
        f'<head><meta charset="utf-8"><title>{title}</title></head>\n'
        f"<body>\n<h1>{title}</h1>\n<p>HTTP status {kind.status}</p>\n<p>{escape(kind.remedy)}</p>\n</body>\n</html>\n"
    )
