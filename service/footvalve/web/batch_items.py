"""What each item of a batch comes to: exactly what its endpoint would have answered to its body alone."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import msgspec
from msgspec import Raw

from footvalve.answers.batch import UnknownEndpoint, repeated_ids
from footvalve.answers.endpoints import Endpoint
from footvalve.contract.batch import BatchItem, BatchItemAnswer, BatchRequest
from footvalve.web.answering import answering
from footvalve.web.json_body import too_large
from footvalve.web.problems import problem_of

_encode = msgspec.json.Encoder().encode


@dataclass(frozen=True, slots=True)
class BatchCall:
    """A call of the batch: the request's id, and the id of this occurrence."""

    request: str
    occurrence: str


class BatchDesk:
    """Answers the items of batches, for these endpoints and for bodies of this size."""

    def __init__(self, endpoints: Sequence[Endpoint], body_limit: int) -> None:
        self._answering: dict[str, Callable[[bytes], bytes]] = {e.name: answering(e) for e in endpoints}
        self._body_limit = body_limit

    def pieces(self, batch: BatchRequest, call: BatchCall) -> Iterator[bytes]:
        """The JSON of the batch's answer, a piece an item, each worked out when it is asked for."""
        opening = b'{"items":['
        for place, item in enumerate(batch.items):
            yield opening + _encode(self._answer(item, place, call))
            opening = b","
        yield b'],"warnings":' + _encode(repeated_ids(batch.items)) + b"}"

    def _answer(self, item: BatchItem, place: int, call: BatchCall) -> BatchItemAnswer:
        try:
            return BatchItemAnswer(id=item.id, status=200, body=Raw(self._answered(item)))
        except Exception as error:
            problem = problem_of(error, call.request, f"{call.occurrence}#/items/{place}")
            return BatchItemAnswer(id=item.id, status=problem.status, body=Raw(_encode(problem)))

    def _answered(self, item: BatchItem) -> bytes:
        body = bytes(item.body)
        if item.endpoint not in self._answering:
            raise UnknownEndpoint(item.endpoint, self._answering)
        if len(body) > self._body_limit:
            raise too_large(self._body_limit)
        return self._answering[item.endpoint](body)
