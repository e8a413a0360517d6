"""Worked requests for each endpoint, as they stand in the contract document, the README and the tests."""

import json
from functools import cache
from importlib.resources import files

from msgspec import Struct, convert


class Example(Struct, frozen=True, forbid_unknown_fields=True):
    """A request with a name and a sentence that says what it shows."""

    name: str
    summary: str
    request: dict[str, object]


@cache
def examples(endpoint: str) -> tuple[Example, ...]:
    """The examples of an endpoint, in the order of the file. Raises FileNotFoundError for one that has none."""
    text = files(__package__).joinpath("examples", f"{endpoint}.json").read_text(encoding="utf-8")
    return convert(json.loads(text), tuple[Example, ...])
