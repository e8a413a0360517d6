"""How the contract document tells of the batch, with examples whose answers are the service's own."""

from collections.abc import Sequence

import msgspec

from footvalve.answers.endpoints import Endpoint
from footvalve.contract.batch import BatchAnswer, BatchRequest
from footvalve.contract.examples import Example, examples
from footvalve.contract.faults import Misfit
from footvalve.web.batch_decoding import decoded_batch
from footvalve.web.batch_items import BatchCall, BatchDesk
from footvalve.web.component_schemas import Schema, reference
from footvalve.web.documented_headers import RATE, answer_response
from footvalve.web.documented_problems import (
    OF_EVERY_QUESTION,
    SAMPLE_IDS,
    problem_references,
    problem_response,
    schema_problem,
)
from footvalve.web.documented_security import KEY_OR_NONE
from footvalve.web.negotiation import JSON
from footvalve.web.settings import Settings

_DESCRIPTION = """\
Up to 1000 questions in one call. Each is answered as if it had come alone, and the answers keep the order: what is \
wrong with the body of an item, or with its endpoint's name, spoils that item alone, and stands in its place as the \
problem that the endpoint would have answered. What is wrong with the batch itself, such as an item without an id, \
refuses the whole. The work of all items is reckoned before the first of them is begun, each as if it came alone, and \
a batch that asks for too much is refused whole; an item that would be refused for its work alone spoils itself alone. \
An id may stand twice; `warnings` tells of it. The answer comes in pieces while it is worked out.\
"""


def batch_operation(endpoints: Sequence[Endpoint]) -> Schema:
    """The operation of POST /v1/batch for these endpoints."""
    desk = BatchDesk(endpoints, Settings())
    worked = examples("batch")
    asked = {e.name: {"summary": e.summary, "value": e.request} for e in worked}
    answered = {e.name: {"summary": e.summary, "value": _answer(desk, e)} for e in worked}
    return {
        "operationId": "batch",
        "security": KEY_OR_NONE,
        "tags": ["answers"],
        "summary": "Many at once",
        "description": _DESCRIPTION,
        "requestBody": {
            "description": "The questions, each with the name of its endpoint.",
            "required": True,
            "content": {JSON: {"schema": reference(BatchRequest), "examples": asked}},
        },
        "responses": {
            "200": answer_response(
                "What each item comes to.",
                {JSON: {"schema": reference(BatchAnswer), "examples": answered}},
                "Cache-Control",
                *RATE,
            ),
            "400": _refusal(worked[0]),
            **problem_references(*OF_EVERY_QUESTION, 422),
        },
    }


def _answer(desk: BatchDesk, example: Example) -> object:
    batch = decoded_batch(msgspec.json.encode(example.request))
    return msgspec.json.decode(b"".join(desk.pieces(batch, BatchCall(*SAMPLE_IDS))))


def _refusal(example: Example) -> Schema:
    """What is said to an example whose first item has lost its id."""
    first, *others = msgspec.convert(example.request["items"], list[dict[str, object]])
    nameless = {key: value for key, value in first.items() if key != "id"}
    try:
        decoded_batch(msgspec.json.encode({"items": [nameless, *others]}))
    except Misfit as misfit:
        return problem_response(400, schema_problem(misfit))
    raise AssertionError("an item without an id must be refused")
