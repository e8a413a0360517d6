"""What each item of a batch comes to: exactly what its endpoint would have answered to its body alone."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import msgspec
from msgspec import Raw

from footvalve.answers.batch import UnknownEndpoint, repeated_ids
from footvalve.answers.endpoints import Endpoint
from footvalve.contract.batch import BatchItem, BatchItemAnswer, BatchRequest
from footvalve.web.answering import encoded
from footvalve.web.heavy_work import units_of_item, units_to_search
from footvalve.web.json_body import too_large
from footvalve.web.metrics import COUNTED
from footvalve.web.problems import Declined, problem_of
from footvalve.web.settings import Settings
from footvalve.web.visit import Visit
from footvalve.web.work_intake import Intake, Question
from footvalve.web.work_limit import refuse_too_much_together

_encode = msgspec.json.Encoder().encode


@dataclass(frozen=True, slots=True)
class BatchCall:
    """A call of the batch: the request's id, the id of this occurrence, and whose it is where that matters."""

    request: str
    occurrence: str
    visit: Visit | None = None


class BatchDesk:
    """Answers the items of batches, for these endpoints and within these limits."""

    def __init__(self, endpoints: Sequence[Endpoint], settings: Settings) -> None:
        self._endpoints = {endpoint.name: endpoint for endpoint in endpoints}
        self._intakes = {endpoint.name: Intake(endpoint, settings) for endpoint in endpoints}
        self._body_limit = settings.body_limit_bytes
        self._work_limit = settings.batch_work_limit

    def refuse_too_much(self, batch: BatchRequest) -> None:
        """Raises Declined for a batch whose items together ask for more work than is allowed. They are taken in once
        more when they are answered, as all of them at once take more room than their bodies."""
        units = [units_of_item(self._units(item)) for item in batch.items]
        if sum(units) > self._work_limit:
            most = max(units)
            refuse_too_much_together(sum(units), len(units), units.index(most), most, self._work_limit)

    def _units(self, item: BatchItem) -> float:
        """The work of an item; none for one that is refused before any is done."""
        raw = bytes(item.body)
        if item.endpoint not in self._intakes or len(raw) > self._body_limit:
            return 0.0
        try:
            question = self._intakes[item.endpoint].at_once(raw)
        except Declined:
            return 0.0
        return units_to_search(raw) if question is None else question.cost.units

    def pieces(self, batch: BatchRequest, call: BatchCall) -> Iterator[bytes]:
        """The JSON of the batch's answer, a piece an item, each worked out when it is asked for."""
        opening = b'{"items":['
        for place, item in enumerate(batch.items):
            yield opening + _encode(self._answer(item, place, call))
            opening = b","
        yield b'],"warnings":' + _encode(repeated_ids(batch.items)) + b"}"

    def _answer(self, item: BatchItem, place: int, call: BatchCall) -> BatchItemAnswer:
        try:
            status, body = 200, self._answered(item, call.visit)
        except Exception as error:
            problem = problem_of(error, call.request, f"{call.occurrence}#/items/{place}")
            status, body = problem.status, _encode(problem)
        COUNTED.batch_item(status)
        return BatchItemAnswer(id=item.id, status=status, body=Raw(body))

    def _answered(self, item: BatchItem, visit: Visit | None) -> bytes:
        body = bytes(item.body)
        if item.endpoint not in self._endpoints:
            raise UnknownEndpoint(item.endpoint, self._endpoints)
        if visit is not None:
            visit.check_endpoint(item.endpoint)
        if len(body) > self._body_limit:
            raise too_large(self._body_limit)
        question = self._taken_in(item.endpoint, body)
        return encoded(self._endpoints[item.endpoint](question.request))

    def _taken_in(self, endpoint: str, body: bytes) -> Question:
        intake = self._intakes[endpoint]
        return intake.at_once(body) or intake.searched(body)
