"""Bodies gathered into requests of a size that the service takes, and the results that come of one."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final, NamedTuple, cast

import msgspec
from msgspec import Raw, Struct

from footvalve_client._answer import AnswerPart
from footvalve_client._coercion import coerced
from footvalve_client._errors import FootvalveError, QuantityError, UnreadableAnswer, problem_error
from footvalve_client._generated.answers import Problem
from footvalve_client._generated.requests import BatchItem, BatchRequest
from footvalve_client._map_result import MapResult
from footvalve_client._request import RequestPart

BATCH: Final = "/v1/batch"

BATCH_SIZE: Final = 100
"""Bodies in one request where nobody says."""

MOST_BODIES: Final = 1000
"""Bodies that the service takes in one request."""

MOST_BYTES: Final = 4_000_000
"""Bytes that the service takes in one request, unless its operator says otherwise."""

_BYTES_BESIDE: Final = 200
"""More than stands in JSON around a body: its id, the endpoint's name, and what begins and ends the whole."""

_OK: Final = 200

_encode = msgspec.json.Encoder().encode


class ItemAnswer(AnswerPart, frozen=True, kw_only=True):
    """What one item of a batch came to, its body not yet read."""

    status: int
    body: Raw


class ItemAnswers(AnswerPart, frozen=True, kw_only=True):
    """What a batch came to, in the order of its items."""

    items: list[ItemAnswer]


class Asked(NamedTuple):
    """An endpoint and the Structs that it takes and answers."""

    endpoint: str
    request: type[RequestPart]
    answer: type[AnswerPart]


class Entry(Struct, frozen=True, eq=False):
    """A body, and how it is sent; or why it is not."""

    index: int
    body: RequestPart | Mapping[str, object]
    content: bytes = b""
    error: FootvalveError | None = None


class Batch:
    """Bodies that go in one request, in their order."""

    def __init__(self, asked: Asked, entries: Sequence[Entry]) -> None:
        self._asked = asked
        self._entries = entries
        self._sent = [entry for entry in entries if entry.error is None]

    @property
    def first(self) -> int:
        """The index of the first body."""
        return self._entries[0].index

    @property
    def question(self) -> BatchRequest | None:
        """What is to be sent; None where nothing is."""
        endpoint = self._asked.endpoint
        items = [BatchItem(id=str(sent.index), endpoint=endpoint, body=Raw(sent.content)) for sent in self._sent]
        return BatchRequest(items=items) if items else None

    def halves(self) -> tuple["Batch", "Batch"] | None:
        """Two that are smaller; None where one body alone is sent."""
        if len(self._sent) == 1:
            return None
        middle = self._entries.index(self._sent[len(self._sent) // 2])
        return Batch(self._asked, self._entries[:middle]), Batch(self._asked, self._entries[middle:])

    def results(self, items: Sequence[ItemAnswer]) -> list[MapResult[Any]]:
        """The results, from the answers to what was sent. Raises UnreadableAnswer where they do not fit."""
        if len(items) != len(self._sent):
            raise UnreadableAnswer(f"{len(items)} items came back for {len(self._sent)}", None, _OK)
        answers = iter(items)
        return [
            self._refused(entry, entry.error) if entry.error else self._result(entry, next(answers))
            for entry in self._entries
        ]

    def refused(self, error: FootvalveError) -> list[MapResult[Any]]:
        """The results where what was sent was refused as a whole."""
        return [self._refused(entry, entry.error or error) for entry in self._entries]

    def _result(self, entry: Entry, item: ItemAnswer) -> MapResult[Any]:
        try:
            if item.status == _OK:
                answer = msgspec.json.decode(item.body, type=self._asked.answer)
                return MapResult(index=entry.index, body=entry.body, answer=answer)
            problem = msgspec.json.decode(item.body, type=Problem)
        except msgspec.DecodeError as error:
            detail = f"what came back for body {entry.index} cannot be read: {error}"
            raise UnreadableAnswer(detail, None, item.status) from None
        sent = msgspec.json.decode(entry.content)
        return self._refused(entry, problem_error(item.status, problem, problem.request_id, sent))

    @staticmethod
    def _refused(entry: Entry, error: FootvalveError) -> MapResult[Any]:
        return MapResult(index=entry.index, body=entry.body, error=error)


class Gathering:
    """Takes bodies one by one, and gives a batch whenever one is full."""

    def __init__(self, asked: Asked, size: int) -> None:
        self._asked = asked
        self._size = size
        self._entries: list[Entry] = []
        self._bytes = 0
        self._index = 0
        self.failure: Exception | None = None
        """What the bodies themselves raised when the next one was pulled."""

    def take(self, body: object) -> Iterator[Batch]:
        """What is full with this body; one that cannot be sent keeps its place, with its error."""
        entry = self._entry(body)
        self._index += 1
        size = len(entry.content) + _BYTES_BESIDE
        if self._entries and self._bytes + size > MOST_BYTES:
            yield from self.rest()
        self._entries.append(entry)
        self._bytes += size
        if len(self._entries) == self._size:
            yield from self.rest()

    def rest(self) -> Iterator[Batch]:
        """What was taken since the last batch; nothing where that is nothing."""
        entries, self._entries, self._bytes = self._entries, [], 0
        if entries:
            yield Batch(self._asked, entries)

    def _entry(self, given: object) -> Entry:
        kind = self._asked.request
        body = cast("RequestPart | Mapping[str, object]", given)
        if not isinstance(given, kind | Mapping):
            wrong = f"expected a {kind.__name__} or a mapping, not {type(given).__name__}"
            return Entry(self._index, body, error=FootvalveError(wrong))
        try:
            content = _encode(coerced(body, kind) if isinstance(body, Mapping) else body)
        except QuantityError as error:
            return Entry(self._index, body, error=error)
        except (TypeError, ValueError, OverflowError, RecursionError, msgspec.MsgspecError) as error:
            unsayable = FootvalveError(f"cannot be sent: {error}")
            unsayable.__cause__ = error
            return Entry(self._index, body, error=unsayable)
        return Entry(self._index, body, content)
