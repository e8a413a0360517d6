"""What the service says to a published row: an answer, a batch of them, or the row of a table."""

import json
from collections.abc import Sequence
from functools import cache
from typing import Any

import msgspec

from footvalve.answers.endpoints import ENDPOINT, ENDPOINTS
from footvalve.answers.tables import TABLES, table
from footvalve.web.answering import answering
from footvalve.web.batch_decoding import decoded_batch
from footvalve.web.batch_items import BatchCall, BatchDesk
from footvalve.web.settings import Settings

_TABLES = "tables/"

Row = dict[str, Any]
"""A row of a table, as JSON has it."""


class NothingThere(LookupError):
    """A row asks for what the service does not have. The message says what."""


def answered(endpoint: str, inputs: dict[str, Any]) -> Any:
    """The JSON that a request gets, or the row of a table that has these fields. Raises what a request can end in."""
    if endpoint.startswith(_TABLES):
        return _selected(_table_rows(endpoint.removeprefix(_TABLES)), inputs)
    body = msgspec.json.encode(inputs)
    if endpoint == "batch":
        return json.loads(b"".join(_batch_desk().pieces(decoded_batch(body), BatchCall("accuracy", "accuracy"))))
    if endpoint not in ENDPOINT:
        raise NothingThere(f"there is no endpoint {endpoint}")
    return json.loads(answering(ENDPOINT[endpoint])(body))


@cache
def _batch_desk() -> BatchDesk:
    return BatchDesk(ENDPOINTS, Settings())


@cache
def _table_rows(name: str) -> list[Row]:
    if name not in TABLES:
        raise NothingThere(f"there is no table {name}")
    rows: list[Row] = msgspec.to_builtins(table(name))["rows"]
    return rows


def _selected(rows: Sequence[Row], wanted: Row) -> Row:
    """The one row that has the wanted fields. Where it holds rows of its own, and some fields of one are wanted, that
    one stands in their place."""
    inner = {field: value for field, value in wanted.items() if _holds_rows(rows[0].get(field))}
    found = [row for row in rows if all(row.get(field) == wanted[field] for field in wanted.keys() - inner.keys())]
    if len(found) != 1:
        raise NothingThere(f"{len(found)} rows have {json.dumps(wanted)}")
    return found[0] | {field: _selected(found[0][field], value) for field, value in inner.items()}


def _holds_rows(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], dict)


def pointed(answer: Any, pointer: str) -> Any:
    """What a JSON Pointer (RFC 6901) points to. Raises NothingThere."""
    value = answer
    for token in pointer.split("/")[1:]:
        key = token.replace("~1", "/").replace("~0", "~")
        try:
            value = value[int(key)] if isinstance(value, list) else value[key]
        except (LookupError, ValueError, TypeError):
            raise NothingThere(f"the answer has no {pointer}") from None
    return value
