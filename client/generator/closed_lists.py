"""The closed lists of words that the contract writes in place, each under a name of its own.

To a type checker such a list is a Literal; at run time it is a plain string. So a checker and an editor know every
word, and a word that a newer service adds does not break an older client.
"""

from collections import defaultdict
from dataclasses import dataclass
from typing import Any

from generator.contract import REFERENCE, Contract, Schema

Word = str | int


@dataclass(frozen=True, slots=True)
class ClosedList:
    """A named list of words."""

    name: str
    words: tuple[Word, ...]

    @property
    def base(self) -> str:
        """What the words are at run time."""
        return type(self.words[0]).__name__


def closed_lists(contract: Contract) -> dict[tuple[str, str], ClosedList]:
    """Each closed list by the schema and the field that hold it.

    A list is named after its schema and field, or after the field alone where several schemas share it. Raises
    ValueError where that gives two lists one name.
    """
    holders: dict[tuple[str, tuple[Word, ...]], list[str]] = defaultdict(list)
    tags = contract.tags
    for name, schema in contract.objects.items():
        for field, described in schema["properties"].items():
            words = _words(described)
            if words is not None and (name, field) not in tags:
                holders[field, words].append(name)
    lists = {key: ClosedList(_name(key[0], those, contract), key[1]) for key, those in holders.items()}
    names = [found.name for found in lists.values()]
    clashing = {name for name in names if names.count(name) > 1 or name in contract.schemas}
    if clashing:
        raise ValueError(f"closed lists or schemas share a name: {', '.join(sorted(clashing))}")
    return {(holder, key[0]): lists[key] for key, those in holders.items() for holder in those}


def without_lists(described: Any, name: str) -> Any:
    """The description of a field with a reference to the named list in place of its words."""
    match described:
        case {"enum": _} | {"const": _}:
            return {"description": described.get("description", ""), "$ref": REFERENCE + name}
        case {"items": items, **rest}:
            return {**rest, "items": without_lists(items, name)}
    return described


def _words(described: Schema) -> tuple[Word, ...] | None:
    match described:
        case {"enum": list(words)}:
            return tuple(words)
        case {"const": str(word)}:
            return (word,)
        case {"items": dict(items)}:
            return _words(items)
    return None


def _name(field: str, holders: list[str], contract: Contract) -> str:
    camel = "".join(part.capitalize() for part in field.split("_"))
    if len(holders) > 1 and camel not in contract.schemas:
        return camel
    holder = holders[0].removesuffix("Request").removesuffix("Answer")
    return f"{holder}Kind" if camel == holder else holder + camel
