"""The worked examples of the contract: which questions are known, and what they are answered."""

from collections.abc import Iterator, Sequence
from functools import cache
from importlib.resources import files
from typing import Any

import msgspec
from msgspec import Raw, Struct

from footvalve_client._json import Json


class Recording(Struct, frozen=True):
    """One question, and the service's answer to it."""

    name: str
    summary: str
    method: str
    path: str
    answer: Raw
    request: Any = None


def names() -> list[str]:
    """What there are recordings of, sorted: the last steps of paths."""
    return sorted(file.name.removesuffix(".json") for file in _folder().iterdir() if file.name.endswith(".json"))


@cache
def recordings(name: str) -> tuple[Recording, ...]:
    """The recordings of an endpoint, in the order of the contract. Raises FileNotFoundError for one that has none."""
    return msgspec.json.decode(_folder().joinpath(f"{name}.json").read_bytes(), type=tuple[Recording, ...])


def meaning(value: Json) -> object:
    """What a JSON value means, so that equal meanings are equal and no others: 14 is 14.0, but 1 is not true."""
    match value:
        case bool() | None:
            return (type(value), value)
        case dict():
            return {key: meaning(item) for key, item in value.items()}
        case list():
            return [meaning(item) for item in value]
        case _:
            return value


def differences(value: Json, other: Json, pointer: str = "") -> Iterator[str]:
    """JSON Pointers to where two JSON values differ; the empty one for the whole."""
    match value, other:
        case dict(), dict():
            for key in value.keys() | other.keys():
                if key in value and key in other:
                    yield from differences(value[key], other[key], f"{pointer}/{key}")
                else:
                    yield f"{pointer}/{key}"
        case list(), list() if len(value) == len(other):
            for place, (item, its) in enumerate(zip(value, other, strict=True)):
                yield from differences(item, its, f"{pointer}/{place}")
        case _:
            if meaning(value) != meaning(other):
                yield pointer


def nearest(value: Json, known: Sequence[Recording]) -> tuple[Recording, list[str]] | None:
    """The recording whose question differs in the fewest places, and where; None where there is none."""
    found = [(recording, sorted(differences(value, recording.request))) for recording in known]
    return min(found, key=lambda pair: len(pair[1]), default=None)


def _folder() -> Any:
    return files("footvalve_client").joinpath("_recorded")
