"""What there is to show of an answer, in words: the same in a notebook and in a terminal."""

import re
from collections.abc import Iterable, Iterator
from typing import Any, Final, NamedTuple

from footvalve_client._answer import AnswerPart
from footvalve_client._quantity import Quantity
from footvalve_client._rows import Held, is_answer

SEVERITIES: Final = ("danger", "warning", "note")
"""The gravest first."""

MARKS: Final = {"feasible": "\u2713", "marginal": "\u007e", "infeasible": "\u2717"}
"""What stands before a verdict, so that it is not told by colour alone."""

_LEAST_CHANCE: Final = 0.01
_DOUBT: Final = "doubt"
_WORDS: Final = {"npsh": "NPSH"}


class Notice(NamedTuple):
    """A caution with its severity, or a doubt about the input."""

    severity: str
    text: str


class Table(NamedTuple):
    """A list of parts: a column for each field that any of them has."""

    name: str
    columns: list[str]
    rows: list[list[str]]


class Outline(NamedTuple):
    """A part of an answer, sorted by how it is shown."""

    title: str
    verdict: str
    facts: list[tuple[str, str]]
    texts: list[tuple[str, list[str]]]
    notices: list[Notice]
    tables: list[Table]
    steps: list[tuple[str, AnswerPart]]


def outline(part: AnswerPart) -> Outline:
    """All that a part holds, in the order of its fields, but the gravest notices first."""
    fields: dict[str, Held] = {_words(name): getattr(part, name) for name in part.__struct_fields__}
    lists = {name: value for name, value in fields.items() if isinstance(value, list) and value}
    texts = {name: [item for item in value if isinstance(item, str)] for name, value in lists.items()}
    parts = {name: [item for item in value if isinstance(item, AnswerPart)] for name, value in lists.items()}
    steps = [(name, value) for name, value in fields.items() if isinstance(value, AnswerPart) and is_answer(value)]
    return Outline(
        title=_title(part),
        verdict=str(getattr(part, "verdict", None) or ""),
        facts=[fact for name, value in fields.items() for fact in _facts(name, value)],
        texts=[(name, found) for name, found in texts.items() if found],
        notices=notices(part),
        tables=[_table(name, found) for name, found in parts.items() if found and name not in ("Cautions", "Warnings")],
        steps=steps,
    )


def notices(part: AnswerPart) -> list[Notice]:
    """The doubts about the input, then the cautions, the gravest first."""
    doubts = [Notice(_DOUBT, f"{found.pointer}: {found.detail}") for found in getattr(part, "warnings", None) or ()]
    cautions = [Notice(found.severity, found.text) for found in getattr(part, "cautions", None) or ()]
    return [*doubts, *sorted(cautions, key=lambda notice: _gravity(notice.severity))]


def told(value: Held, name: str = "") -> str:
    """A value in words, with as many digits as anybody reads."""
    match value:
        case bool():
            return "yes" if value else "no"
        case float() if name.endswith("fraction"):
            return f"{100 * value:.3g} %"
        case float() if name.startswith("chance"):
            return chance_told(value)
        case float():
            return f"{value:.4g}" if abs(value) < 1e4 else f"{value:.0f}"
        case Quantity():
            return quantity_told(value)
        case _:
            return str(value)


def chance_told(chance: float) -> str:
    """A chance in words, never surer than it can be known."""
    if not _LEAST_CHANCE <= chance <= 1 - _LEAST_CHANCE:
        return "over 99 %" if chance > _LEAST_CHANCE else "under 1 %"
    return f"{100 * chance:.0f} %"


def quantity_told(quantity: Quantity[Any]) -> str:
    """A quantity in words: "1.94 ± 0.62 ft"."""
    if quantity.uncertainty is None:
        return f"{told(quantity.value)} {quantity.unit}"
    return f"{told(quantity.value)} \u00b1 {quantity.uncertainty:.2g} {quantity.unit}"


def _gravity(severity: str) -> int:
    return SEVERITIES.index(severity) if severity in SEVERITIES else len(SEVERITIES)


def _title(part: AnswerPart) -> str:
    words = re.findall(r"[A-Z][a-z]*", type(part).__name__.removesuffix("Answer"))
    return " ".join(words).capitalize()


def _words(name: str) -> str:
    words = [_WORDS.get(word, word) for word in name.strip("_").split("_")]
    text = " ".join(words)
    return text[:1].upper() + text[1:]


def _facts(name: str, value: Held) -> Iterator[tuple[str, str]]:
    """A name and a value in words, for all but lists of more than quantities."""
    match value:
        case None | dict() | []:
            return
        case AnswerPart():
            if not is_answer(value):
                for inner in value.__struct_fields__:
                    words = _words(inner)
                    yield from _facts(f"{name}: {words[:1].lower()}{words[1:]}", getattr(value, inner))
        case [Quantity(), *_]:
            yield name, ", ".join(map(told, value))
        case list():
            return
        case _:
            if name != "Verdict":
                yield name, told(value, name.lower())


def _table(name: str, parts: Iterable[AnswerPart]) -> Table:
    cells = [{_words(field): _cell(field, getattr(part, field)) for field in part.__struct_fields__} for part in parts]
    columns = [column for column in cells[0] if any(row[column] for row in cells)]
    columns.sort(key=lambda column: column != "Index")
    return Table(name, columns, [[row[column] for column in columns] for row in cells])


def _cell(name: str, value: Held) -> str:
    match value:
        case None:
            return ""
        case list():
            return ", ".join(_cell(name, item) for item in value)
        case AnswerPart():
            return ", ".join(text for _, text in _facts("", value))
        case _:
            return told(value, name)
