"""What answers POST /v1/<name>: from the bytes of a body to the bytes of an answer."""

import re
from typing import Any

import msgspec
from litestar import Request, post
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp

from footvalve.answers.endpoints import Endpoint
from footvalve.contract.answer import Answer
from footvalve.web.json_body import json_body
from footvalve.web.negotiation import JSON
from footvalve.web.reply import Reply
from footvalve.web.request_headers import admit, header_table
from footvalve.web.strict_decoding import strict_decoder

_encode = msgspec.json.Encoder().encode
_media_type = JSON.encode()
_null = re.compile(b"null").search


def endpoint_handler(endpoint: Endpoint, body_limit: int) -> HTTPRouteHandler:
    """The handler of one endpoint."""
    decode = strict_decoder(endpoint.request)

    @post(f"/v1/{endpoint.name}", status_code=200)
    async def answer(request: Request[Any, Any, Any]) -> ASGIApp:
        headers = header_table(request.scope)
        admit(request.scope, headers)
        body = await json_body(request.receive, headers, body_limit)
        return answer_reply(endpoint(decode(body)))

    return answer


def answer_reply(answer: Answer) -> Reply:
    """An answer on its way out. Raises ArithmeticError where a number in it is not finite."""
    body = _encode(answer)
    if _null(body) and _holds_null(msgspec.json.decode(body)):
        raise ArithmeticError("the answer holds a number that is not finite")
    return Reply(200, body, _media_type)


def _holds_null(value: Any) -> bool:
    """Whether there is a null: the encoder writes one for NaN and infinity, and an answer has no other."""
    match value:
        case dict():
            return any(map(_holds_null, value.values()))
        case list():
            return any(map(_holds_null, value))
    return value is None
