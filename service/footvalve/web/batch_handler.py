"""What answers POST /v1/batch: many questions, each answered as if it had come alone."""

from collections.abc import Sequence
from functools import partial
from typing import Any

from litestar import Request, post
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp

from footvalve.answers.endpoints import Endpoint
from footvalve.contract.batch import BatchRequest
from footvalve.web.answer_forms import FOR_THE_CALLER
from footvalve.web.batch_decoding import decoded_batch
from footvalve.web.batch_items import BatchCall, BatchDesk
from footvalve.web.body_shape import refuse_long
from footvalve.web.json_body import json_body
from footvalve.web.negotiation import JSON
from footvalve.web.pace import Pace
from footvalve.web.request_headers import admit, header_table
from footvalve.web.request_id import made_id, request_id
from footvalve.web.settings import Settings
from footvalve.web.streamed_reply import StreamedReply
from footvalve.web.visit import visit_of

BATCH = "/v1/batch"


def batch_handler(endpoints: Sequence[Endpoint], settings: Settings, pace: Pace) -> HTTPRouteHandler:
    """The handler of batches of these endpoints' questions."""
    desk = BatchDesk(endpoints, settings)

    @post(BATCH, status_code=200)
    async def answer(request: Request[Any, Any, Any]) -> ASGIApp:
        headers = header_table(request.scope)
        admit(request.scope, headers)
        raw = await json_body(request.receive, headers, settings.batch_limit_bytes)
        batch = await pace.once(partial(_admitted, raw, desk, settings), request.receive)
        visit = visit_of(request.scope)
        if visit is not None:
            await visit.charge(len(batch.items))
        call = BatchCall(request_id(request.scope), made_id(), visit)
        return StreamedReply(pace.slices(desk.pieces(batch, call)), JSON.encode(), FOR_THE_CALLER)

    return answer


def _admitted(raw: bytes, desk: BatchDesk, settings: Settings) -> BatchRequest:
    """The batch, once it is known to be within the limits: no answer has begun then. What raises is no batch."""
    batch = decoded_batch(raw, settings.nesting_limit)
    refuse_long(batch.items, settings.list_limit, "/items")
    desk.refuse_too_much(batch)
    return batch
