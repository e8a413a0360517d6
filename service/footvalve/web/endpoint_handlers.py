"""What answers POST /v1/<name>: one question, one answer."""

from functools import partial
from typing import Any

from litestar import Request, post
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp

from footvalve.answers.endpoints import Endpoint
from footvalve.web.answer_forms import answer_forms
from footvalve.web.heavy_work import is_heavy, is_long_to_search
from footvalve.web.json_body import json_body
from footvalve.web.pace import Pace
from footvalve.web.request_headers import admit, header_table
from footvalve.web.settings import Settings
from footvalve.web.work_intake import Intake


def endpoint_handler(endpoint: Endpoint, settings: Settings, pace: Pace) -> HTTPRouteHandler:
    """The handler of one endpoint. What takes long keeps the pace; all else is answered where it stands."""
    forms = answer_forms(endpoint)
    offers = tuple(forms)
    intake = Intake(endpoint, settings)

    @post(f"/v1/{endpoint.name}", status_code=200)
    async def answer(request: Request[Any, Any, Any]) -> ASGIApp:
        headers = header_table(request.scope)
        form = forms[admit(request.scope, headers, offers)]
        raw = await json_body(request.receive, headers, settings.body_limit_bytes)
        question = intake.at_once(raw)
        if question is None:
            search = partial(intake.searched, raw)
            question = await pace.once(search, request.receive) if is_long_to_search(raw) else search()
        if is_heavy(question.cost):
            return await pace.once(partial(form, question.request), request.receive)
        return form(question.request)

    return answer
