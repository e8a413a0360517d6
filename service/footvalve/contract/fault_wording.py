"""The words in which a fault is told: what was expected, what was got, and what was perhaps meant."""

import json
from collections.abc import Iterable
from decimal import Decimal
from difflib import get_close_matches
from typing import Any

from msgspec import inspect

from footvalve.contract.name_pattern import NAME_PATTERN, name_fault
from footvalve.contract.quantities import Quantity
from footvalve.contract.unit_spelling import meant
from footvalve.quantity import wire_units

MOST_CHARACTERS = 80
"""Text from a caller goes back no longer than this."""


def cleaned(text: str, most: int = MOST_CHARACTERS) -> str:
    """Text from a caller as it may be sent back: without control characters, and cut."""
    shown = "".join(character if character.isprintable() else "?" for character in text[: most + 1])
    return shown if len(shown) <= most else f"{shown[: most - 3]}..."


def pointer_to(parent: str, key: str | int) -> str:
    """The JSON Pointer (RFC 6901) to a member of what `parent` points to.

    It leads no further than to the parent where the key itself cannot be sent back.
    """
    return f"{parent}/{str(key).replace('~', '~0').replace('/', '~1')}" if can_be_sent_back(str(key)) else parent


def can_be_sent_back(key: str) -> bool:
    """Whether a caller's key may stand in a pointer as it is: short, and without control characters."""
    return len(key) <= MOST_CHARACTERS and key.isprintable()


def unexpected(expected: inspect.Type, got: object) -> str:
    """A value of the wrong kind."""
    return f"expected {wanted(expected, got)}, got {_shown(got)}"


def wanted(expected: inspect.Type, got: object = None) -> str:
    """What a type takes, in words."""
    match expected:
        case inspect.Metadata():
            return wanted(expected.type, got)
        case inspect.StructType() if issubclass(expected.cls, Quantity):
            return f"an object such as {_quantity(expected.cls, got)}"
        case inspect.UnionType():
            return " or ".join(dict.fromkeys(wanted(member, got) for member in expected.types))
        case inspect.LiteralType():
            return f"one of {listed(expected.values)}"
    return _PLAIN.get(type(expected), "another value")


_PLAIN: dict[type[inspect.Type], str] = {
    inspect.StructType: "an object",
    inspect.ListType: "an array",
    inspect.FloatType: "a number",
    inspect.IntType: "a whole number",
    inspect.StrType: "a string",
    inspect.BoolType: "true or false",
    inspect.NoneType: "null",
    inspect.RawType: "any JSON value",
}


def perhaps(got: object, known: Iterable[Any]) -> str:
    """The nearest of the known words, as an ending to a sentence; nothing where none is near."""
    if not isinstance(got, str):
        return ""
    near = get_close_matches(got[:MOST_CHARACTERS], [str(word) for word in known], n=1)
    return f"; did you mean `{near[0]}`?" if near else ""


def unit_fault(unit: str, dimension: str) -> str:
    """A unit that is none of its dimension's, and the one that was perhaps meant."""
    near = meant(unit[:MOST_CHARACTERS], dimension)
    hint = f"; did you mean `{near}`?" if near else ""
    return f"unit `{cleaned(unit)}` is not a unit of {dimension}: use one of {listed(wire_units(dimension))}{hint}"


def unmatched(pattern: str, text: str) -> str:
    """A text that does not match the pattern of its field."""
    return name_fault(text) if pattern == NAME_PATTERN else f"must match {pattern}"


LEAST_PLAIN, MOST_PLAIN = 1e-6, 1e16
"""What is smaller or greater has too many noughts for a sentence."""


def plain(number: float) -> str:
    """A number without a power of ten, and without a point where it is whole; as JSON would have it where that would be
    a row of noughts.

    >>> plain(5.0), plain(0.00001), plain(1e-300)
    ('5', '0.00001', '1e-300')
    """
    if number and not LEAST_PLAIN <= abs(number) < MOST_PLAIN:
        return repr(number)
    return f"{Decimal(repr(number)).normalize():f}"


def listed(words: Iterable[Any]) -> str:
    """The words with commas between them."""
    return ", ".join(map(str, words))


def _quantity(quantity: type[Quantity], got: object) -> str:
    value = got if isinstance(got, int | float) and not isinstance(got, bool) else 1
    return json.dumps({"value": value, "unit": wire_units(quantity.__name__)[0]})


def _shown(got: object) -> str:
    match got:
        case dict():
            return "an object"
        case list():
            return "an array"
        case str():
            return f'the string "{cleaned(got)}"'
        case bool() | None:
            return json.dumps(got)
    return f"the number {cleaned(str(got))}"
