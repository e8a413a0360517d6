"""What answers POST /v1/<name>: one question, one answer."""

from typing import Any

from litestar import Request, post
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp

from footvalve.answers.endpoints import Endpoint
from footvalve.web.answer_forms import answer_forms
from footvalve.web.json_body import json_body
from footvalve.web.request_headers import admit, header_table


def endpoint_handler(endpoint: Endpoint, body_limit: int) -> HTTPRouteHandler:
    """The handler of one endpoint."""
    forms = answer_forms(endpoint)
    offers = tuple(forms)

    @post(f"/v1/{endpoint.name}", status_code=200)
    async def answer(request: Request[Any, Any, Any]) -> ASGIApp:
        headers = header_table(request.scope)
        form = forms[admit(request.scope, headers, offers)]
        return form(await json_body(request.receive, headers, body_limit))

    return answer
