"""What answers POST /v1/batch: many questions, each answered as if it had come alone."""

import asyncio
from collections.abc import Sequence
from typing import Any

from litestar import Request, post
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp

from footvalve.answers.endpoints import Endpoint
from footvalve.web.batch_decoding import decoded_batch
from footvalve.web.batch_items import BatchCall, BatchDesk
from footvalve.web.json_body import json_body
from footvalve.web.negotiation import JSON
from footvalve.web.pace import Pace
from footvalve.web.request_headers import admit, header_table
from footvalve.web.request_id import made_id, request_id
from footvalve.web.settings import Settings
from footvalve.web.streamed_reply import StreamedReply

BATCH = "/v1/batch"


def batch_handler(endpoints: Sequence[Endpoint], settings: Settings) -> HTTPRouteHandler:
    """The handler of batches of these endpoints' questions."""
    desk = BatchDesk(endpoints, settings.body_limit_bytes)
    pace = Pace()

    @post(BATCH, status_code=200)
    async def answer(request: Request[Any, Any, Any]) -> ASGIApp:
        headers = header_table(request.scope)
        admit(request.scope, headers)
        raw = await json_body(request.receive, headers, settings.batch_limit_bytes)
        batch = await asyncio.to_thread(decoded_batch, raw)  # a bad one is walked by Python, which may take long
        call = BatchCall(request_id(request.scope), made_id())
        return StreamedReply(pace.slices(desk.pieces(batch, call)), JSON.encode())

    return answer
