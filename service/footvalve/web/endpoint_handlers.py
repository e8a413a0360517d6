"""What answers POST /v1/<name>: one question, one answer."""

from collections.abc import Awaitable, Callable
from functools import partial
from typing import Any

from litestar import Request, post
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp, Receive, Scope

from footvalve.answers.endpoints import Endpoint
from footvalve.web.answer_forms import answer_forms
from footvalve.web.heavy_work import is_heavy, is_long_to_search
from footvalve.web.json_body import json_body
from footvalve.web.pace import Pace
from footvalve.web.reply import Reply
from footvalve.web.request_headers import admit, header_table
from footvalve.web.settings import Settings
from footvalve.web.work_intake import Intake

Answering = Callable[[Scope, Receive], Awaitable[Reply]]
"""From a request to the reply. It raises whatever the request can end in."""


def path_of(endpoint: Endpoint) -> str:
    """Where an endpoint is asked."""
    return f"/v1/{endpoint.name}"


def endpoint_answering(endpoint: Endpoint, settings: Settings, pace: Pace) -> Answering:
    """What answers one endpoint. What takes long keeps the pace; all else is answered where it stands."""
    forms = answer_forms(endpoint)
    offers = tuple(forms)
    intake = Intake(endpoint, settings)

    async def answer(scope: Scope, receive: Receive) -> Reply:
        headers = header_table(scope)
        form = forms[admit(scope, headers, offers)]
        raw = await json_body(receive, headers, settings.body_limit_bytes)
        question = intake.at_once(raw)
        if question is None:
            search = partial(intake.searched, raw)
            question = await pace.once(search, receive) if is_long_to_search(raw) else search()
        if is_heavy(question.cost):
            return await pace.once(partial(form, question.request), receive)
        return form(question.request)

    return answer


def endpoint_handler(endpoint: Endpoint, answer: Answering) -> HTTPRouteHandler:
    """The same as a handler of the routing, which knows by it the path and its methods."""

    @post(path_of(endpoint), status_code=200)
    async def handler(request: Request[Any, Any, Any]) -> ASGIApp:
        return await answer(request.scope, request.receive)

    return handler
