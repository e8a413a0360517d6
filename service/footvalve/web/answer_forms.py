"""The forms in which an endpoint's answer leaves: JSON, and for a site plan its sheet and its head profile."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any, Final

from footvalve.answers.endpoints import Endpoint
from footvalve.contract.site_plan import SitePlanAnswer, SitePlanRequest
from footvalve.drawings.plan_profile import plan_profile
from footvalve.drawings.site_sheet import NOTHING_ELSE, sheet_policy, site_sheet
from footvalve.web.answering import encoded
from footvalve.web.entity_tag import entity_tag
from footvalve.web.negotiation import HTML, JSON, SVG
from footvalve.web.reply import Headers, Reply

AnswerForm = Callable[[Any], Reply]
"""From a decoded request to the reply. It raises whatever the request can end in."""

_VARY: Final[Headers] = ((b"vary", b"Accept"),)

FOR_THE_CALLER: Final[Headers] = ((b"cache-control", b"private, no-cache"),)
"""An answer tells of somebody's well, and a later release may answer otherwise: none but the caller may keep it."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A form that an answer is drawn in, and what its media type stands for in the contract document."""

    description: str
    content_type: bytes
    draw: Callable[[Any, Any], str]
    policy: Callable[[], str]


def _sheet_of_today(request: SitePlanRequest, answer: SitePlanAnswer) -> str:
    return site_sheet(request, answer, datetime.now(UTC).date())


DRAWN: Final[Mapping[str, Mapping[str, Drawn]]] = {
    "site-plan": {
        HTML: Drawn(
            "The same answer as a site sheet for print, with drawings and the day in UTC.",
            b"text/html; charset=utf-8",
            _sheet_of_today,
            sheet_policy,
        ),
        SVG: Drawn(
            "The head profile of the suction line alone.",
            SVG.encode(),
            plan_profile,
            lambda: NOTHING_ELSE,
        ),
    }
}
"""For each endpoint that has any, its forms beside JSON, by media type."""


def answer_forms(endpoint: Endpoint) -> dict[str, AnswerForm]:
    """The endpoint's forms by media type, the preferred first."""
    drawn = DRAWN.get(endpoint.name, {})
    return {
        JSON: _json_form(endpoint, (*FOR_THE_CALLER, *(_VARY if drawn else ()))),
        **{name: _drawn_form(endpoint, form) for name, form in drawn.items()},
    }


def _json_form(endpoint: Endpoint, headers: Headers) -> AnswerForm:
    media_type = JSON.encode()

    def told(request: Any) -> Reply:
        body = encoded(endpoint(request))
        return Reply(200, body, media_type, ((b"etag", entity_tag(body)), *headers))

    return told


def _drawn_form(endpoint: Endpoint, form: Drawn) -> AnswerForm:
    def drawn(request: Any) -> Reply:
        answer = endpoint(request)
        encoded(answer)  # what cannot be told in JSON is told in no other form either
        headers = (*FOR_THE_CALLER, *_VARY, (b"content-security-policy", form.policy().encode()))
        return Reply(200, form.draw(request, answer).encode(), form.content_type, headers)

    return drawn
