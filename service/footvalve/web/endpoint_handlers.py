"""What answers POST /v1/<name>: one question, one answer."""

from typing import Any

from litestar import Request, post
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp

from footvalve.answers.endpoints import Endpoint
from footvalve.web.answering import answering
from footvalve.web.json_body import json_body
from footvalve.web.negotiation import JSON
from footvalve.web.reply import Reply
from footvalve.web.request_headers import admit, header_table

_media_type = JSON.encode()


def endpoint_handler(endpoint: Endpoint, body_limit: int) -> HTTPRouteHandler:
    """The handler of one endpoint."""
    answered = answering(endpoint)

    @post(f"/v1/{endpoint.name}", status_code=200)
    async def answer(request: Request[Any, Any, Any]) -> ASGIApp:
        headers = header_table(request.scope)
        admit(request.scope, headers)
        body = await json_body(request.receive, headers, body_limit)
        return Reply(200, answered(body), _media_type)

    return answer
