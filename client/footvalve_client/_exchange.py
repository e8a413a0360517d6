"""One call as HTTP carries it, whoever carries it: what is sent at each try, and what comes of what comes back."""

import os
from functools import cache
from http import HTTPStatus
from typing import TYPE_CHECKING, Any, Final, Generic, TypeVar, cast

import msgspec

from footvalve_client._answer import AnswerPart
from footvalve_client._deadline import Deadline
from footvalve_client._errors import (
    ConnectionFailed,
    FootvalveError,
    ProblemError,
    SentTooSlowly,
    ServiceUnavailable,
    Timeout,
    TooManyRequests,
    UnreadableAnswer,
    problem_error,
)
from footvalve_client._generated.answers import Problem
from footvalve_client._options import Options
from footvalve_client._request import RequestPart
from footvalve_client._retry import PASSING_STATUSES, retry_after

if TYPE_CHECKING:
    from footvalve_client._border import AsyncHttpClient, HttpClient, HttpResponse, Library

AnswerT = TypeVar("AnswerT", bound=AnswerPart)
PartT = TypeVar("PartT", bound=AnswerPart)

_JSON: Final = "application/json"
_PROBLEM_JSON: Final = "application/problem+json"
_MOST_CHARACTERS: Final = 200

MOST_ANSWER_BYTES: Final = 64_000_000
"""Far more than the greatest answer, that to a batch of 1000; no server may fill the memory here."""

_OF_A_GATEWAY: Final = {408: SentTooSlowly, 429: TooManyRequests}

_encode = msgspec.json.Encoder().encode


class Call(Generic[AnswerT]):
    """One question from its first try to its answer, under one request id."""

    __slots__ = (
        "_content",
        "_headers",
        "_kind",
        "_method",
        "_url",
        "deadline",
        "library",
        "options",
        "request_id",
        "tries",
    )

    def __init__(
        self,
        method: str,
        url: str,
        request: RequestPart | None,
        kind: type[AnswerT],
        options: Options,
        library: "Library",
    ) -> None:
        self._method = method
        self._url = url
        self._content = None if request is None else _encode(request)
        self._kind = kind
        self.options = options
        self.library = library
        self.request_id = os.urandom(16).hex()
        self._headers = {"accept": _JSON, "x-request-id": self.request_id}
        if self._content is not None:
            self._headers["content-type"] = _JSON
        if options.key is not None:
            self._headers["authorization"] = options.key.header
        self.deadline = Deadline(options.deadline)
        self.tries = 0

    def __str__(self) -> str:
        tries = f", {self.tries} tries" if self.tries > 1 else ""
        return f"{self._method} {self._url} (request {self.request_id}{tries})"

    def next_try(self, http: "HttpClient | AsyncHttpClient") -> Any:
        """The request of the next try. Raises TimeoutError behind the deadline."""
        self.tries += 1
        phases = self.deadline.phases(self.options.phases or http.timeout.as_dict())
        return http.build_request(
            self._method,
            self._url,
            content=self._content,
            headers=self._headers,
            extensions={"timeout": phases},
        )

    def failure(self, error: Exception) -> FootvalveError:
        """What the HTTP library raises on the way, as this client's error."""
        told = f"{type(error).__name__}: {error}" if str(error) else type(error).__name__
        if not isinstance(error, self.library.timeouts):
            return ConnectionFailed(f"no answer to {self}: {told}", self.request_id, self.tries)
        limit = f"within the deadline of {self.options.deadline:g} s" if self.deadline.over else "in time"
        return Timeout(f"no answer {limit} to {self}: {told}", self.request_id, self.tries)

    def answer(self, response: "HttpResponse", content: bytes) -> AnswerT:
        """The answer. Raises ProblemError for problem details, and UnreadableAnswer for what is neither."""
        media_type = response.headers.get("content-type", "").partition(";")[0].strip().lower()
        status = response.status_code
        if 200 <= status < 300 and media_type == _JSON:
            return self._decoded(response, content, self._kind)
        if 400 <= status < 600 and media_type == _PROBLEM_JSON:
            raise self._problem_error(response, self._decoded(response, content, Problem))
        if status in PASSING_STATUSES and media_type != _PROBLEM_JSON:
            raise self._gateway_error(response, content)
        location = response.headers.get("location", "")
        redirect = f", a redirect to {location!r}" if 300 <= status < 400 and location else ""
        raise self._unreadable(response, content, f"HTTP {status} with {media_type or 'no content type'}{redirect}")

    def check_size(self, response: "HttpResponse", size: int) -> None:
        """Raises UnreadableAnswer where more has come than any answer holds."""
        if size > MOST_ANSWER_BYTES:
            raise self._unreadable(response, b"", f"more than {MOST_ANSWER_BYTES} bytes")

    def _gateway_error(self, response: "HttpResponse", content: bytes) -> ProblemError:
        """The error of what passes, told without problem details."""
        status = response.status_code
        request_id = self._logged_id(response)
        between = f"HTTP {status} from something between here and the service"
        problem = Problem(
            type="about:blank",
            title=HTTPStatus(status).phrase,
            status=status,
            detail=f"{between}, to {self._method} {self._url}. It says: {_start(content)}",
            instance="",
            request_id=request_id,
        )
        return _OF_A_GATEWAY.get(status, ServiceUnavailable)(
            status, problem, request_id, (), self.tries, retry_after(response.headers)
        )

    def _problem_error(self, response: "HttpResponse", problem: Problem) -> ProblemError:
        sent = None if self._content is None else msgspec.json.decode(self._content)
        return problem_error(
            response.status_code, problem, self._logged_id(response), sent, self.tries, retry_after(response.headers)
        )

    def _decoded(self, response: "HttpResponse", content: bytes, kind: type[PartT]) -> PartT:
        try:
            return cast("PartT", _decoder(kind).decode(content))
        except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
            raise self._unreadable(response, content, str(error)) from None

    def _unreadable(self, response: "HttpResponse", content: bytes, why: str) -> UnreadableAnswer:
        detail = f"what answers {self} is no Footvalve service, or was cut off: {why}. It says: {_start(content)}"
        return UnreadableAnswer(
            detail, self._logged_id(response), response.status_code, self.tries, retry_after(response.headers)
        )

    def _logged_id(self, response: "HttpResponse") -> str:
        """The request id that the service took."""
        return response.headers.get("x-request-id", self.request_id)


def _start(content: bytes) -> str:
    text = content[: _MOST_CHARACTERS + 1].decode("utf-8", "replace")
    return repr(text if len(text) <= _MOST_CHARACTERS else f"{text[:_MOST_CHARACTERS]}...")


@cache
def _decoder(kind: type[AnswerPart]) -> msgspec.json.Decoder[Any]:
    return msgspec.json.Decoder(kind)
