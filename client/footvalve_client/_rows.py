"""Answers as flat rows for data frames: texts, numbers and truth values under names that tell the unit."""

from collections.abc import Iterable, Mapping
from typing import Any, TypeAlias

from footvalve_client._answer import AnswerPart
from footvalve_client._map_result import MapResult
from footvalve_client._quantity import Quantity

Scalar: TypeAlias = str | int | float | bool
Row: TypeAlias = dict[str, Scalar]

Held: TypeAlias = "Scalar | Quantity[Any] | AnswerPart | list[Held] | Mapping[str, Any] | None"
"""What a field of an answer may hold."""


def to_dicts(answers: "Iterable[AnswerPart | MapResult[Any]]", path: str = "") -> list[Row]:
    """The rows of many answers under one another, as `to_dicts` of each gives them.

    A column `answer` in front tells the answer's place, from 0. Results of `map` will do too: a refused one gives
    a row with the column `error` instead. Raises ValueError for a path to nothing.
    """
    return [row for place, answer in enumerate(answers) for row in _numbered(place, answer, path)]


def _numbered(place: int, answer: "AnswerPart | MapResult[Any]", path: str) -> list[Row]:
    if isinstance(answer, AnswerPart):
        return [{"answer": place, **row} for row in rows(answer, path)]
    if answer.error is not None:
        return [{"answer": answer.index, "error": answer.error.detail}]
    return _numbered(answer.index, answer.unwrap(), path)


def rows(part: AnswerPart, path: str = "") -> list[Row]:
    """The rows of a part, or of what a path leads to. Raises ValueError for a path to nothing."""
    return _rows(part, path.split(".") if path else [], {}, "")


def _rows(value: Held, steps: list[str], outer: Row, name: str) -> list[Row]:
    """The rows of what is reached, its name being the last step; `outer` tells of the lists that were passed."""
    match value:
        case None:
            return []
        case list():
            told = [
                outer | (_flat(item, f"{name}_") if steps and isinstance(item, AnswerPart) else {}) for item in value
            ]
            return [row for item, there in zip(value, told, strict=True) for row in _rows(item, steps, there, name)]
        case AnswerPart() if steps:
            step, *further = steps
            if step not in value.__struct_fields__:
                leading = ", ".join(_leading(value)) or "nothing"
                raise ValueError(f"{type(value).__name__} has no {step!r} to make rows of, only {leading}")
            return _rows(getattr(value, step), further, outer, step)
        case AnswerPart():
            return [outer | _flat(value)]
        case _ if steps:
            raise ValueError(f"{name!r} has no {steps[0]!r}")
        case _:
            return [outer | _column(name, value)]


def _leading(part: AnswerPart) -> list[str]:
    """The fields that hold lists or parts."""
    return [name for name in part.__struct_fields__ if isinstance(getattr(part, name), list | AnswerPart)]


def _flat(part: AnswerPart, prefix: str = "") -> Row:
    row: Row = {}
    for name in part.__struct_fields__:
        row |= _column(prefix + name.rstrip("_"), getattr(part, name))
    return row


def _column(name: str, value: Held) -> Row:
    """The columns of one field: none of a list, nor of a step that is a whole answer."""
    match value:
        case Quantity():
            column = f"{name}_{unit_in_name(value.unit)}"
            uncertain = {} if value.uncertainty is None else {f"{column}_uncertainty": value.uncertainty}
            return {column: value.value, **uncertain}
        case AnswerPart():
            return {} if is_answer(value) else _flat(value, f"{name}_")
        case None | list() | Mapping():
            return {}
        case _:
            return {name: value}


def is_answer(part: AnswerPart) -> bool:
    """Whether it is the answer of an endpoint, which tells its basis."""
    return "basis" in part.__struct_fields__


def unit_in_name(unit: str) -> str:
    """A unit as it may stand in a name: `gal_per_min`, `m3_per_h`."""
    return unit.replace("/", "_per_").replace("^", "")
