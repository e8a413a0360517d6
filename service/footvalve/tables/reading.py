"""Reads the CSV tables that lie beside this module."""

import csv
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files
from io import StringIO
from types import MappingProxyType
from typing import TypeVar

Row = Mapping[str, str]
Entry = TypeVar("Entry")


class UnknownEntry(KeyError):
    """A table has no entry of this key; `choices` are the keys that it has."""

    def __init__(self, table: str, key: str, choices: Iterable[str]) -> None:
        super().__init__(key)
        self.table = table
        self.key = key
        self.choices = tuple(choices)

    def __str__(self) -> str:
        return f"the table of {self.table} has no {self.key!r}; it has {', '.join(self.choices)}"


@cache
def rows(table: str) -> tuple[Row, ...]:
    """The rows of a table, each by the names of its columns, in the order of the file."""
    text = files(__package__).joinpath(f"{table}.csv").read_text(encoding="utf-8")
    return tuple(MappingProxyType(row) for row in csv.DictReader(StringIO(text), strict=True))


def facts(table: str, subject: str) -> dict[str, dict[str, Row]]:
    """The rows of a table with one fact a row, by the column of its subject and then by `property`."""
    gathered: dict[str, dict[str, Row]] = {}
    for row in rows(table):
        gathered.setdefault(row[subject], {})[row["property"]] = row
    return gathered


def entry(table: str, entries: Mapping[str, Entry], key: str) -> Entry:
    """The entry of a key. Raises UnknownEntry with the keys that there are."""
    try:
        return entries[key]
    except KeyError:
        raise UnknownEntry(table, key, entries) from None


def yes_or_no(text: str) -> bool:
    """True for yes, False for no; anything else in a table is a fault of the table."""
    return {"yes": True, "no": False}[text]
