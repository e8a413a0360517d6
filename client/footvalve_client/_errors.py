"""What can go wrong between a question and its answer.

FootvalveError
    QuantityError           a value that is no quantity of its dimension; also a ValueError
    ConnectionFailed        no connection, or it broke off
    Timeout                 no answer in time
    UnreadableAnswer        an answer that is none of the service's
    MapStopped              `map` got no answer to one of its requests
    ProblemError            problem details (RFC 9457) from the service
        BadRequest          400, the body is no JSON or breaks the schema
        KeyNeeded           401, no key, or none that the service knows
        KeyRefused          403, a key that has run out, or is not for this endpoint
        NotFound            404, nothing there; the base URL may be wrong
        SentTooSlowly       408, the request did not come in whole in time
        BodyTooLarge        413, more than the service takes in one request
        Refused             422, physics or the trade does not allow it
        TooManyRequests     429, asked too often; also of a gateway
        HeadTooLarge        431, headers that are longer than the service takes
        ServiceFailed       500, the service's own fault
        ServiceUnavailable  503, not ready, or closing down; also 502, 503 and 504 of a gateway
"""

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, Final

import msgspec

from footvalve_client._json import Json

if TYPE_CHECKING:
    from footvalve_client._generated.answers import Problem


_CONTROL: Final = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f]")
"""What moves a terminal's cursor or worse; ends of lines and tabs may stay."""


def _printable(text: str) -> str:
    return _CONTROL.sub(lambda found: f"\\x{ord(found[0]):02x}", text)


class FootvalveError(Exception):
    """Whatever this client raises of its own."""

    def __init__(self, detail: str, request_id: str | None = None, tries: int = 0) -> None:
        super().__init__(detail, request_id)
        self.detail = detail
        """What happened, in a sentence."""
        self.request_id = request_id
        """The id by which the service's log knows the request, at each of its tries; None before there was one."""
        self.tries = tries
        """How often it was tried; 0 where nothing was sent."""

    def __str__(self) -> str:
        return _printable(self.detail)


class QuantityError(FootvalveError, ValueError):
    """A value is no quantity of the dimension that its place takes."""

    def __init__(self, detail: str, pointer: str = "") -> None:
        super().__init__(detail)
        self.args: tuple[Any, ...] = (detail, pointer)
        self.pointer = pointer
        """JSON Pointer to the place in what was built; empty for a quantity by itself."""

    def __str__(self) -> str:
        return f"{self.pointer}: {self.detail}" if self.pointer else self.detail


class ConnectionFailed(FootvalveError):
    """No connection, or it broke off before the answer was whole. `__cause__` is what the HTTP library says."""


class Timeout(FootvalveError):
    """No answer in time: none of a try within its timeout, or none at all within the deadline of the call."""


class UnreadableAnswer(FootvalveError):
    """What came back is none of the service's answers: another server's page, or something cut off."""

    def __init__(
        self,
        detail: str,
        request_id: str | None,
        status: int,
        tries: int = 1,
        retry_after: float | None = None,
    ) -> None:
        super().__init__(detail, request_id, tries)
        self.args: tuple[Any, ...] = (detail, request_id, status)
        self.status = status
        """The HTTP status that it came with."""
        self.retry_after = retry_after
        """The seconds until it may be asked again; None where it did not say so."""


class FieldFault(msgspec.Struct, frozen=True):
    """One thing that is wrong with a request, and what stands there."""

    pointer: str
    """JSON Pointer (RFC 6901) to the field; empty for the whole body."""
    detail: str
    """What is wrong there, and what was expected."""
    value: object = None
    """What was sent there; None where nothing was, and for the whole body."""

    def __str__(self) -> str:
        sent = "" if self.value is None else f" = {_shown(self.value)}"
        return f"{self.pointer or 'the body'}{sent}: {self.detail}"


class ProblemError(FootvalveError):
    """The service told of a problem. It prints each fault of the body: where, what was sent, what was expected."""

    def __init__(
        self,
        status: int,
        problem: "Problem",
        request_id: str | None = None,
        faults: tuple[FieldFault, ...] = (),
        tries: int = 1,
        retry_after: float | None = None,
    ) -> None:
        super().__init__(problem.detail, request_id, tries)
        self.args: tuple[Any, ...] = (status, problem, request_id, faults)
        self.status = status
        """The HTTP status."""
        self.problem = problem
        """The problem details as the service sent them; made here, as "about:blank", for a gateway without any."""
        self.faults = faults
        """Every fault of the body that the service could tell apart."""
        self.retry_after = retry_after
        """The seconds until it may be asked again; None where the service did not say so."""

    def __str__(self) -> str:
        tries = f", {self.tries} tries" if self.tries > 1 else ""
        origin = f"(HTTP {self.status}, request {self.request_id}{tries})"
        if not self.faults:
            return _printable(f"{self.problem.title}: {self.problem.detail} {origin}")
        shown = [str(fault) for fault in self.faults[:_MOST_FAULTS]]
        if len(self.faults) > _MOST_FAULTS:
            shown.append(f"and {len(self.faults) - _MOST_FAULTS} more")
        return _printable("\n  ".join([f"{self.problem.title} {origin}", *shown]))


class BadRequest(ProblemError):
    """400: the body is no JSON, or breaks the schema."""


class KeyNeeded(ProblemError):
    """401: the service wants a key and got none, or none that it knows."""


class KeyRefused(ProblemError):
    """403: the service knows the key, but it has run out, or is not for this endpoint."""


class NotFound(ProblemError):
    """404: there is nothing at this path; the base URL may be wrong, or the service older than this client."""


class SentTooSlowly(ProblemError):
    """408: the request did not come in whole within the time that the service allows."""


class BodyTooLarge(ProblemError):
    """413: more than the service takes in one request."""


class Refused(ProblemError):
    """422: the schema allows it, but physics or the trade does not."""


class TooManyRequests(ProblemError):
    """429: asked too often."""


class HeadTooLarge(ProblemError):
    """431: the headers are longer than the service takes, such as those of a lent client."""


class ServiceFailed(ProblemError):
    """500: the service's own fault."""


class ServiceUnavailable(ProblemError):
    """503: the service is not ready, or closes down; or a gateway's 502, 503 or 504."""


BY_STATUS: Final[Mapping[int, type[ProblemError]]] = {
    400: BadRequest,
    401: KeyNeeded,
    403: KeyRefused,
    404: NotFound,
    408: SentTooSlowly,
    413: BodyTooLarge,
    422: Refused,
    429: TooManyRequests,
    431: HeadTooLarge,
    500: ServiceFailed,
    503: ServiceUnavailable,
}

_MOST_CHARACTERS = 60
_MOST_FAULTS = 20


def problem_error(
    status: int,
    problem: "Problem",
    request_id: str | None,
    sent: Any,
    tries: int = 1,
    retry_after: float | None = None,
) -> ProblemError:
    """The error of a problem, by its status; with what was sent, as JSON is read, to show what stands at each fault."""
    kind = BY_STATUS.get(status, ProblemError)
    return kind(status, problem, request_id, faults_of(problem, sent), tries, retry_after)


def faults_of(problem: "Problem", sent: Any) -> tuple[FieldFault, ...]:
    """The faults of a refused body, each with what stands in the body at its place."""
    return tuple(FieldFault(fault.pointer, fault.detail, _at(sent, fault.pointer)) for fault in problem.errors or ())


def _at(value: Json, pointer: str) -> Json:
    """What a JSON Pointer points to; None where that is nothing, or the whole."""
    if not pointer:
        return None
    for step in pointer.split("/")[1:]:
        key = step.replace("~1", "/").replace("~0", "~")
        try:
            value = _member(value, key)
        except (LookupError, ValueError):
            return None
    return value


def _member(value: Json, key: str) -> Json:
    match value:
        case list():
            return value[int(key)]
        case dict():
            return value[key]
        case _:
            raise LookupError(key)


def _shown(value: object) -> str:
    match value:
        case {"value": int() | float() as number, "unit": str(unit)} if value == {"value": number, "unit": unit}:
            return f"{number:.15g} {unit}"
        case {"value": int() | float() as number, "unit": str(unit), "uncertainty": int() | float() as uncertainty}:
            return f"{number:.15g} \u00b1 {uncertainty:.15g} {unit}"
        case _:
            text = msgspec.json.encode(value).decode()
            return text if len(text) <= _MOST_CHARACTERS else f"{text[: _MOST_CHARACTERS - 3]}..."
