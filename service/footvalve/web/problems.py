"""From an exception to problem details (RFC 9457): one table, and one way out."""

import logging
from collections.abc import Iterable
from typing import Any, Final

import msgspec
from litestar import Request
from litestar.exceptions import ClientException, MethodNotAllowedException, NotFoundException
from litestar.routes import BaseRoute
from litestar.types import Scope

from footvalve.answers.batch import UnknownEndpoint
from footvalve.contract.fault_wording import cleaned, perhaps
from footvalve.contract.faults import Misfit
from footvalve.contract.problem import Fault, Problem, Refused
from footvalve.physics.method import OutsideDomain
from footvalve.web import problem_types as kinds
from footvalve.web.allowed_methods import allow, methods_at
from footvalve.web.log_context import note_problem
from footvalve.web.problem_types import ProblemType
from footvalve.web.reply import Headers, Reply
from footvalve.web.request_id import made_id, request_id

PROBLEM_JSON = "application/problem+json"

KIND_OF: Final[dict[type[Exception], ProblemType]] = {
    Misfit: kinds.SCHEMA,
    UnknownEndpoint: kinds.UNKNOWN_ENDPOINT,
    Refused: kinds.REFUSED,
    OutsideDomain: kinds.BEYOND_RECKONING,
    ArithmeticError: kinds.BEYOND_RECKONING,
    NotFoundException: kinds.NOT_FOUND,
    MethodNotAllowedException: kinds.METHOD_NOT_ALLOWED,
    ClientException: kinds.BAD_REQUEST,
    Exception: kinds.INTERNAL_ERROR,
}
"""What each exception is to the caller. The nearest class counts."""

_LOGGED_AT: Final = {kinds.INTERNAL_ERROR: logging.ERROR, kinds.BEYOND_RECKONING: logging.INFO}
"""Which kinds are logged, with the exception itself, and how loudly: a caller can bring about the second at will."""

_log = logging.getLogger(__name__)
_encode = msgspec.json.Encoder().encode


class Declined(Exception):
    """The request is turned away before its body has been understood."""

    def __init__(self, kind: ProblemType, detail: str, headers: Headers = ()) -> None:
        super().__init__(detail)
        self.kind = kind
        self.headers = headers


def problem_reply(request: Request[Any, Any, Any], error: Exception) -> Reply:
    """The answer to a request that ended in an exception."""
    return problem_answer(request.scope, _declined_by_routing(error, request))


def nothing_at(path: str, routes: Iterable[BaseRoute]) -> Declined:
    """What is said where a path leads nowhere, with the nearest path that leads somewhere."""
    known = [route.path for route in routes]
    return Declined(kinds.NOT_FOUND, f"There is nothing at {cleaned(path)}{perhaps(path, known) or '.'}")


def problem_answer(scope: Scope, error: Exception) -> Reply:
    """The answer that tells of an exception."""
    problem = problem_of(error, request_id(scope), made_id())
    note_problem(scope, kind_of(error).slug, problem.status)
    headers = error.headers if isinstance(error, Declined) else ()
    return Reply(problem.status, _encode(problem), PROBLEM_JSON.encode(), ((b"cache-control", b"no-store"), *headers))


def problem_of(error: Exception, request: str, occurrence: str) -> Problem:
    """What an exception is told as. What nobody foresaw is logged, and told in no detail."""
    kind = kind_of(error)
    problem = problem_details(kind, _detail(kind, error), request, occurrence, _faults(error))
    if kind in _LOGGED_AT:
        log_level = _LOGGED_AT[kind]
        _log.log(log_level, "request %s ended in %s, %s", request, kind.slug, problem.instance, exc_info=error)
    return problem


def kind_of(error: Exception) -> ProblemType:
    """What an exception is to the caller."""
    if isinstance(error, Declined):
        return error.kind
    return next(KIND_OF[ancestor] for ancestor in type(error).__mro__ if ancestor in KIND_OF)


def problem_details(
    kind: ProblemType, detail: str, request: str, occurrence: str, faults: tuple[Fault, ...] = ()
) -> Problem:
    """The problem details of one occurrence. It has a UUID of its own: a caller may send one request id many times."""
    errors = list(faults) or msgspec.UNSET
    return Problem(kind.uri, kind.title, kind.status, detail, f"urn:uuid:{occurrence}", request, errors)


def _declined_by_routing(error: Exception, request: Request[Any, Any, Any]) -> Exception:
    """What Litestar raises before a handler has the request, in the words of this service; anything else as it is."""
    path = request.scope["path"]
    match error:
        case MethodNotAllowedException():
            detail = f"{cleaned(request.method)} is none of the methods of {cleaned(path)}."
            return Declined(kind_of(error), detail, allow(methods_at(path, request.app.routes)))
        case NotFoundException():
            return nothing_at(path, request.app.routes)
        case ClientException():
            return Declined(kind_of(error), cleaned(error.detail))
    return error


def _detail(kind: ProblemType, error: Exception) -> str:
    match error:
        case Declined() | UnknownEndpoint():
            return str(error)
        case Misfit() | Refused() if error.faults:
            return faults_detail(error)
    return kind.remedy


def faults_detail(error: Misfit | Refused) -> str:
    """The first fault of a body, and how many more there are; the list itself goes into `errors`."""
    first, others = error.faults[0], len(error.faults) - 1
    told = f"At {first.pointer or 'the whole body'}: {first.detail}"
    if isinstance(error, Misfit) and error.more:
        return f"{told} (and more: `errors` holds the first {len(error.faults)})."
    if others:
        return f"{told} (and {others} more in `errors`)."
    return told if told.endswith((".", "?")) else f"{told}."


def _faults(error: Exception) -> tuple[Fault, ...]:
    return error.faults if isinstance(error, Misfit | Refused) else ()
