"""The contract document: OpenAPI 3.1, assembled from the endpoints, their types, and their examples."""

import json
import re
from collections.abc import Sequence
from typing import Any, get_args

import msgspec
from msgspec import Struct

from footvalve import __version__
from footvalve.answers.endpoints import ENDPOINTS, Endpoint
from footvalve.contract.answer import Answer
from footvalve.contract.batch import BatchAnswer, BatchRequest
from footvalve.contract.examples import examples
from footvalve.contract.faults import fitted
from footvalve.contract.problem import Problem
from footvalve.contract.tables import AnyTable
from footvalve.web.answer_forms import DRAWN
from footvalve.web.batch_handler import BATCH
from footvalve.web.component_schemas import Schema, component_schemas, reference
from footvalve.web.docs_handlers import DOCS
from footvalve.web.documented_batch import batch_operation
from footvalve.web.documented_embed import embed_paths
from footvalve.web.documented_headers import HEADERS, RATE, answer_response
from footvalve.web.documented_problems import OF_EVERY_QUESTION, problem_references, problem_responses, refusals
from footvalve.web.documented_reading import reading, reading_kept
from footvalve.web.documented_security import KEY_OR_NONE, SECURITY_SCHEMES
from footvalve.web.documented_tables import table_operation
from footvalve.web.embed_answers import ScriptIntegrity, TextLanguages
from footvalve.web.endpoint_handlers import path_of
from footvalve.web.negotiation import HTML, JSON
from footvalve.web.problem_types import PROBLEM_TYPES
from footvalve.web.service_answers import Health, Index, ProblemKind

Document = dict[str, Any]

_DESCRIPTION = """\
Can this well be drawn on by suction from a dry place, and how must the rest be sized?

Every number with a dimension is an object of `value` and `unit`; each dimension has its own closed list of units. \
A field with a range tells it in its description, rounded inward, and in full as `x-range` in the unit that stands \
there. `x-spellings` of a unit tells how people write it, in small letters: a client may take that and send the unit. \
The endpoints are pure: the same body gives the same answer. \
What cannot be answered comes back as `application/problem+json` (RFC 9457), with every fault of the body and a JSON \
Pointer to each. A path answers 405 with Allow to a method that it does not take, and 501 to one that nobody knows. \
A request may carry `X-Request-Id`; the answer gives it back.\
"""

_UNSEEN = re.compile("[\U00010000-\U0010ffff]")
"""Characters of the pattern of a name that no editor shows: they are written as escapes."""

_TAGS = [
    {"name": "answers", "description": "What the service reckons."},
    {"name": "tables", "description": "The numbers that the answers rest on."},
    {"name": "embed", "description": "The suction check for other people's pages."},
    {"name": "service", "description": "What the service tells of itself."},
]


def contract_text() -> str:
    """The contract document as it stands in the repository."""
    text = json.dumps(contract_document(ENDPOINTS), indent=2, ensure_ascii=False) + "\n"
    return _UNSEEN.sub(lambda found: json.dumps(found[0])[1:-1], text)


def contract_document(endpoints: Sequence[Endpoint]) -> Document:
    """The contract document of these endpoints; the same at every call."""
    paths = {
        **{path_of(endpoint): {"post": _answering(endpoint)} for endpoint in endpoints},
        BATCH: {"post": batch_operation(endpoints)},
        "/v1/tables/{name}": {"get": table_operation()},
        **embed_paths(),
        **_service_paths(),
    }
    return {
        "openapi": "3.1.0",
        "info": {"title": "Footvalve", "version": __version__, "description": _DESCRIPTION},
        "servers": [
            {
                "url": "/",
                "description": "The service that this document comes from, in production as in staging.",
                "x-internal": False,
            }
        ],
        "tags": _TAGS,
        "paths": dict(sorted(paths.items())),
        "components": {
            "schemas": component_schemas(_roots(endpoints)),
            "headers": HEADERS,
            "responses": problem_responses(),
            "securitySchemes": SECURITY_SCHEMES,
        },
    }


def _roots(endpoints: Sequence[Endpoint]) -> list[type[Struct]]:
    """The types that the operations take and answer."""
    answering = [kind for endpoint in endpoints for kind in (endpoint.request, endpoint.answer)]
    told = [Problem, Health, Index, ProblemKind, ScriptIntegrity, TextLanguages]
    return [*answering, BatchRequest, BatchAnswer, *get_args(AnyTable), *told]


def operation_id(endpoint_name: str) -> str:
    """The endpoint's name in camelCase."""
    first, *others = endpoint_name.split("-")
    return first + "".join(word.capitalize() for word in others)


def _answering(endpoint: Endpoint) -> Schema:
    worked = {example.name: example for example in examples(endpoint.name)}
    asked = {name: {"summary": e.summary, "value": e.request} for name, e in worked.items()}
    answered = {name: {"summary": e.summary, "value": _answer(endpoint, e.request)} for name, e in worked.items()}
    return {
        "operationId": operation_id(endpoint.name),
        "security": KEY_OR_NONE,
        "tags": ["answers"],
        "summary": endpoint.title,
        "description": endpoint.description,
        "requestBody": {
            "description": "The whole question; there are no query parameters.",
            "required": True,
            "content": {JSON: {"schema": reference(endpoint.request), "examples": asked}},
        },
        "responses": dict(
            sorted(
                {
                    "200": _answered(endpoint, {"schema": reference(endpoint.answer), "examples": answered}),
                    **refusals(endpoint),
                    **problem_references(*OF_EVERY_QUESTION),
                }.items()
            )
        ),
    }


def _answered(endpoint: Endpoint, json_content: Schema) -> Schema:
    drawn = DRAWN.get(endpoint.name, {})
    if not drawn:
        return answer_response("The answer.", {JSON: json_content}, "Cache-Control", "ETag", *RATE)
    forms = {media_type: {"schema": _text(form.description)} for media_type, form in drawn.items()}
    description = "The answer, in the media type that the request's Accept likes best; JSON where it has no liking."
    kept = ("Cache-Control", "Content-Security-Policy", "ETag", "Vary")
    return answer_response(description, {JSON: json_content, **forms}, *kept, *RATE)


def _text(description: str) -> Schema:
    return {"type": "string", "description": description}


def _answer(endpoint: Endpoint, request: dict[str, object]) -> object:
    answer: Answer = endpoint(fitted(request, endpoint.request))
    return msgspec.to_builtins(answer)


def _service_paths() -> dict[str, Schema]:
    kept = {"schema": reference(Health)}
    contract = {"schema": {"type": "object", "description": "An OpenAPI 3.1 document."}}
    page = {HTML: {"schema": {"type": "string"}}}
    of_a_page = ("Content-Security-Policy", "Referrer-Policy")
    return {
        "/": reading_kept("index", "Where to find what", {JSON: {"schema": reference(Index)}}),
        "/live": reading("live", "Whether the process lives", {JSON: kept}, "Cache-Control"),
        "/ready": reading("ready", "Whether it is ready for work", {JSON: kept}, "Cache-Control"),
        "/openapi.json": reading_kept("contract", "This document", {JSON: contract}),
        DOCS: reading_kept("docs", "This document as a page, to read and to try", page, *of_a_page),
        "/problems/{slug}": _reading_problem_kind(),
    }


def _reading_problem_kind() -> Schema:
    page = {HTML: {"schema": {"type": "string"}}, JSON: {"schema": reference(ProblemKind)}}
    path = reading("problemKind", "What a problem's type URI names", page, "Vary")
    slug = {
        "name": "slug",
        "in": "path",
        "required": True,
        "description": "The last part of the type URI.",
        "schema": {"type": "string", "enum": [kind.slug for kind in PROBLEM_TYPES]},
    }
    path["get"]["parameters"] = [slug]
    path["get"]["responses"] |= problem_references(404)
    return path
