"""How the contract document tells of problems: one response a status, with examples that are real."""

from collections.abc import Iterator
from typing import Final

import msgspec

from footvalve.answers.endpoints import Endpoint
from footvalve.contract.examples import examples
from footvalve.contract.faults import Misfit, fitted
from footvalve.contract.problem import Problem, Refused
from footvalve.web.component_schemas import Schema, reference
from footvalve.web.documented_headers import RATE, headers
from footvalve.web.problem_types import PROBLEM_TYPES, REFUSED, SCHEMA, ProblemType
from footvalve.web.problems import PROBLEM_JSON, faults_detail, problem_details

SAMPLE_IDS: Final = ("5f0c1d6e-8b1a-8c3e-b7f2-0000000002a0", "5f0c1d6e-8b1a-8c3e-b7f2-0000000002a1")
"""A request and an occurrence that never were, so that the document is the same at every call."""

_MORE_HEADERS: Final = {
    401: ("WWW-Authenticate",),
    415: ("Accept", "Accept-Encoding"),
    429: ("Retry-After",),
    503: ("Retry-After",),
}

_OF_NO_OPERATION: Final = frozenset((405, 501))
"""The statuses that answer what is none of the document's operations: a method that a path does not take, or nobody."""

OF_EVERY_QUESTION: Final = (401, 403, 406, 408, 413, 415, 429, 431, 500, 503)
"""The statuses that any question may be refused with, whatever its body says."""

OF_EVERY_READING: Final = (400, 406, 408, 431, 500, 503)
"""The statuses that a GET of any resource may be refused with."""

OF_EVERY_TABLE: Final = (*OF_EVERY_READING, 401, 403, 404, 429)
"""The statuses that a GET of a table may be refused with: tables need a key where questions do."""


def problem_responses() -> dict[str, Schema]:
    """The response of each status that a problem comes with, as a component."""
    statuses = sorted({kind.status for kind in PROBLEM_TYPES})
    return {f"Problem{status}": problem_response(status) for status in statuses if status not in _OF_NO_OPERATION}


def problem_references(*statuses: int) -> dict[str, Schema]:
    """The responses of an operation, by status."""
    return {str(status): {"$ref": f"#/components/responses/Problem{status}"} for status in statuses}


def problem_response(status: int, problem: Problem | None = None) -> Schema:
    """The response of one status, with an example where one is given."""
    content: Schema = {"schema": reference(Problem)}
    if problem is not None:
        content["examples"] = {"problem": {"summary": problem.title, "value": msgspec.to_builtins(problem)}}
    return {
        "description": "; or ".join(kind.title for kind in PROBLEM_TYPES if kind.status == status),
        "headers": headers("Cache-Control", *_MORE_HEADERS.get(status, ()), *(RATE if status < 500 else ())),
        "content": {PROBLEM_JSON: content},
    }


def refusals(endpoint: Endpoint) -> dict[str, Schema]:
    """The 400 and the 422 of an endpoint: what it says to its first example, spoiled in two ways."""
    return {str(problem.status): problem_response(problem.status, problem) for problem in _spoiled(endpoint)}


def _spoiled(endpoint: Endpoint) -> Iterator[Problem]:
    sound = examples(endpoint.name)[0].request
    try:
        fitted({**sound, "units": "imperial", "site": {"altitude": 300}}, endpoint.request)
    except Misfit as misfit:
        yield schema_problem(misfit)
    try:
        endpoint(fitted({**sound, "site": {"altitude": {"value": 20_000, "unit": "m"}}}, endpoint.request))
    except Refused as refused:
        yield _problem(REFUSED, refused)


def schema_problem(misfit: Misfit) -> Problem:
    """What is said to a body that breaks the schema."""
    return _problem(SCHEMA, misfit)


def _problem(kind: ProblemType, error: Misfit | Refused) -> Problem:
    return problem_details(kind, faults_detail(error), *SAMPLE_IDS, error.faults)
