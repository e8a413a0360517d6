"""What a connection is told by the server itself, where no application is asked: a whole answer as bytes."""

from http import HTTPStatus
from typing import Any

from footvalve.serving.date_header import date_header
from footvalve.web.metrics import COUNTED
from footvalve.web.problem_types import ProblemType
from footvalve.web.problems import Declined, problem_answer
from footvalve.web.reply import Headers, start_of_response

RETRY_SOON: Headers = ((b"retry-after", b"1"),)
"""For what is over in a moment, or is another process's turn."""


def refusal(kind: ProblemType, detail: str, scope: Any = None) -> bytes:
    """The answer that tells of a problem and ends the connection; `scope` is that of the request, as far as known."""
    if scope is None:
        COUNTED.refused_unread(kind.slug)
    known: Any = scope or {"headers": [], "state": {}}
    reply = problem_answer(known, Declined(kind, detail, RETRY_SOON if kind.status == 503 else ()))
    start = start_of_response(known, reply.status, reply.headers)
    lines = [
        b"HTTP/1.1 %d %b" % (reply.status, HTTPStatus(reply.status).phrase.encode()),
        *(b"%b: %b" % header for header in (date_header(), *start["headers"], (b"connection", b"close"))),
    ]
    body = b"" if known.get("method") == "HEAD" else reply.body
    return b"\r\n".join([*lines, b"", body])
