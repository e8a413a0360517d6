"""Recorded questions and answers as the Structs of the client."""

from typing import Any, Generic, TypeVar

import msgspec
from msgspec import Struct

from footvalve_client._answer import AnswerPart
from footvalve_client._recordings import recordings
from footvalve_client._request import RequestPart

RequestT_co = TypeVar("RequestT_co", bound=RequestPart, covariant=True)
AnswerT_co = TypeVar("AnswerT_co", bound=AnswerPart, covariant=True)


class Example(Struct, Generic[RequestT_co, AnswerT_co], frozen=True):
    """A worked example of the contract."""

    name: str
    """Its name among those of the endpoint."""
    summary: str
    """What it shows, in a sentence."""
    request: RequestT_co
    """The question."""
    answer: AnswerT_co
    """What the service answers to it."""


def recorded(endpoint: str, request: type[RequestPart], answer: type[AnswerPart]) -> tuple[Example[Any, Any], ...]:
    """The examples of an endpoint, as these Structs."""
    return tuple(
        Example(
            recording.name,
            recording.summary,
            msgspec.convert(recording.request, request),
            msgspec.json.decode(recording.answer, type=answer),
        )
        for recording in recordings(endpoint)
    )
