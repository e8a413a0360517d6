"""Answers from recordings, where the service itself is not installed."""

from typing import Any, Final, cast

import httpx
import msgspec

from footvalve_client._json import Json
from footvalve_client._offline_transport import OfflineTransport
from footvalve_client._recordings import Recording, meaning, names, nearest, recordings

_BATCH: Final = "/v1/batch"
_JSON: Final = "application/json"
_MOST_DIFFERENCES: Final = 3

_OF_ITSELF: Final = {"/live": b'{"status":"live"}', "/ready": b'{"status":"ready"}'}
"""What is true of a transport that answers at all."""


class NotRecorded(LookupError):
    """There is no recorded answer to a question. The message tells the nearest that there is, and what else to do.

    It is none of the client's errors, so that no code under test takes it for an answer of the service.
    """


class RecordedTransport(OfflineTransport):
    """Answers the questions that are recorded, and a batch of them. Raises NotRecorded for any other.

    A question is known by what its JSON means: neither the order of fields nor how a number is spelled matters.
    """

    def answered(self, request: httpx.Request, library: Any) -> httpx.Response:
        """The recorded answer."""
        content = self._content(request.method, request.url.path, request.headers.get("accept", _JSON), request.content)
        headers = {"content-type": _JSON}
        if "x-request-id" in request.headers:
            headers["x-request-id"] = request.headers["x-request-id"]
        response: httpx.Response = library.Response(200, headers=headers, content=content)
        return response

    def _content(self, method: str, path: str, accepted: str, body: bytes) -> bytes:
        if path in _OF_ITSELF:
            return _OF_ITSELF[path]
        if _JSON not in accepted and "*/*" not in accepted:
            raise _not_recorded(f"{method} {path} as {accepted}", "Recorded answers are JSON alone.")
        value = msgspec.json.decode(body) if body else None
        known = [recording for recording in _of(path) if (recording.method, recording.path) == (method, path)]
        for recording in known:
            if meaning(recording.request) == meaning(value):
                return bytes(recording.answer)
        if path == _BATCH and isinstance(value, dict):
            return self._batch(cast("dict[str, Any]", value))
        raise _not_recorded(f"this question to {method} {path}", _hint(value, known))

    def _batch(self, batch: dict[str, Any]) -> bytes:
        """The answers to the items of a batch, each recorded by itself."""
        items = [
            {"id": item["id"], "status": 200, "body": self._item(item["endpoint"], item["body"])}
            for item in batch["items"]
        ]
        return msgspec.json.encode({"items": items, "warnings": []})

    def _item(self, endpoint: str, body: object) -> msgspec.Raw:
        return msgspec.Raw(self._content("POST", f"/v1/{endpoint}", _JSON, msgspec.json.encode(body)))


def _of(path: str) -> tuple[Recording, ...]:
    """The recordings of an endpoint or a table, by the steps of its path."""
    known = [step for step in path.split("/") if step in names()]
    return recordings(known[-1]) if known else ()


def _not_recorded(what: str, hint: str) -> NotRecorded:
    return NotRecorded(
        f"there is no recorded answer to {what}. {hint} Ask what footvalve_client.testing.examples gives; or install "
        'the distribution footvalve, which answers everything, and leave out source="recorded".'
    )


def _hint(value: Json, known: list[Recording]) -> str:
    found = nearest(value, known)
    if found is None:
        return f"There are recordings of {', '.join(names())}."
    recording, pointers = found
    shown = ", ".join(pointer or "the whole body" for pointer in pointers[:_MOST_DIFFERENCES])
    more = f" and {len(pointers) - _MOST_DIFFERENCES} more" if len(pointers) > _MOST_DIFFERENCES else ""
    return f"The nearest is the example {recording.name!r}, which differs at {shown}{more}."
