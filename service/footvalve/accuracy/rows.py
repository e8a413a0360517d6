"""Published values, one a row: a request, a place in its answer, and what a source outside the project says there."""

import csv
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Literal

import msgspec

Expected = float | bool | str
"""What a source may say: a number, a yes or no, or a word."""

_YES_OR_NO = {"true": True, "false": False}


class BadRow(ValueError):
    """A row that cannot be read. The message names it, and says what is wrong."""


class PublishedRow(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A published value, and where an answer holds the same.

    `answer` points into the answer to `inputs`, or, for an endpoint such as `tables/pipes`, into the row of the table
    that has the fields of `inputs`. `tolerance` is in `unit`, which is `-` for what has none.
    """

    id: str
    endpoint: str
    inputs: dict[str, Any]
    answer: str
    expected: Expected
    unit: str
    tolerance: float
    source: str
    locator: str
    obtained: Literal["seen", "computed", "memory"]
    note: str


def published_rows(folder: Path) -> list[PublishedRow]:
    """The rows of a folder's files, file by file. Raises BadRow for the first that cannot be read."""
    return [row for file in sorted(folder.glob("*.csv")) for row in _rows_of(file)]


def _rows_of(file: Path) -> Iterator[PublishedRow]:
    with file.open(encoding="utf-8", newline="") as text:
        for cells in csv.DictReader(text):
            try:
                yield _row(cells)
            except (msgspec.ValidationError, ValueError, TypeError) as error:
                raise BadRow(f"{file.name}, row {cells.get('id')}: {error}") from None


def _row(cells: dict[str, str]) -> PublishedRow:
    read = {**cells, "inputs": json.loads(cells["inputs"]), "expected": _expected(cells["expected"])}
    return msgspec.convert(read, PublishedRow, strict=False)


def _expected(cell: str) -> Expected:
    if cell in _YES_OR_NO:
        return _YES_OR_NO[cell]
    try:
        return float(cell)
    except ValueError:
        return cell
