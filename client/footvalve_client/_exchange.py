"""One question and its answer as HTTP carries them, whoever carries them."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from typing import TYPE_CHECKING, Any, Final, TypeVar, cast

import msgspec

from footvalve_client._answer import AnswerPart
from footvalve_client._errors import (
    BY_STATUS,
    ConnectionFailed,
    ProblemError,
    Timeout,
    UnreadableAnswer,
    faults_of,
)
from footvalve_client._generated.answers import Problem
from footvalve_client._request import RequestPart

if TYPE_CHECKING:
    import httpx

AnswerT = TypeVar("AnswerT", bound=AnswerPart)

_JSON: Final = "application/json"
_PROBLEM_JSON: Final = "application/problem+json"
_MOST_CHARACTERS: Final = 200

_encode = msgspec.json.Encoder().encode


class Question(msgspec.Struct, frozen=True):
    """What is sent."""

    method: str
    url: str
    request_id: str
    content: bytes | None

    @property
    def headers(self) -> dict[str, str]:
        """The headers that go with it."""
        headers = {"accept": _JSON, "x-request-id": self.request_id}
        return headers if self.content is None else {**headers, "content-type": _JSON}

    def __str__(self) -> str:
        return f"{self.method} {self.url} (request {self.request_id})"


def question(method: str, url: str, request: RequestPart | None) -> Question:
    """A question with an id of its own."""
    return Question(method, url, os.urandom(16).hex(), None if request is None else _encode(request))


@contextmanager
def carried(asked: Question) -> Iterator[None]:
    """What httpx raises on the way, as this client's errors."""
    import httpx  # noqa: PLC0415  # there by now, with the client that calls

    try:
        yield
    except httpx.TimeoutException as error:
        raise Timeout(f"no answer in time to {asked}: {_named(error)}", asked.request_id) from error
    except httpx.HTTPError as error:
        raise ConnectionFailed(f"no answer to {asked}: {_named(error)}", asked.request_id) from error


def answer(asked: Question, response: "httpx.Response", kind: type[AnswerT]) -> AnswerT:
    """The answer. Raises ProblemError for problem details, and UnreadableAnswer for what is neither."""
    media_type = response.headers.get("content-type", "").partition(";")[0].strip().lower()
    if response.is_success and media_type == _JSON:
        return _decoded(asked, response, kind)
    if response.is_error and media_type == _PROBLEM_JSON:
        raise _problem_error(asked, response)
    raise _unreadable(asked, response, f"HTTP {response.status_code} with {media_type or 'no content type'}")


def _problem_error(asked: Question, response: "httpx.Response") -> ProblemError:
    problem = _decoded(asked, response, Problem)
    sent = None if asked.content is None else msgspec.json.decode(asked.content)
    kind = BY_STATUS.get(response.status_code, ProblemError)
    return kind(response.status_code, problem, _request_id(asked, response), faults_of(problem, sent))


def _decoded(asked: Question, response: "httpx.Response", kind: type[AnswerT]) -> AnswerT:
    try:
        return cast("AnswerT", _decoder(kind).decode(response.content))
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        raise _unreadable(asked, response, str(error)) from None


def _unreadable(asked: Question, response: "httpx.Response", why: str) -> UnreadableAnswer:
    text = response.content[: _MOST_CHARACTERS + 1].decode("utf-8", "replace")
    shown = text if len(text) <= _MOST_CHARACTERS else f"{text[:_MOST_CHARACTERS]}..."
    detail = f"what answers {asked} is no Footvalve service, or was cut off: {why}. It says: {shown!r}"
    return UnreadableAnswer(detail, _request_id(asked, response), response.status_code)


def _request_id(asked: Question, response: "httpx.Response") -> str:
    return str(response.headers.get("x-request-id", asked.request_id))


def _named(error: Exception) -> str:
    return f"{type(error).__name__}: {error}" if str(error) else type(error).__name__


@cache
def _decoder(kind: type[AnswerT]) -> msgspec.json.Decoder[Any]:
    return msgspec.json.Decoder(kind)
