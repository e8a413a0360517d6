"""The schemas of the contract document: what msgspec knows of the Structs, and what it does not.

That is the ranges that fields take, the order of choices, and how people write units.
"""

import re
from collections.abc import Iterable, Iterator
from typing import Any, Final, Literal, get_args, get_origin, get_type_hints

import msgspec
from msgspec import Struct, inspect

from footvalve.contract.quantities import Quantity
from footvalve.contract.ranges import Within, range_in
from footvalve.contract.unit_spelling import EXAMPLES, SPELLINGS
from footvalve.quantity import DIMENSIONS
from footvalve.web.documented_ranges import range_told

Schema = dict[str, Any]

_RANGE_OF_UNSEEN: Final = re.compile("([\U00010000-\U0010ffff])-([\U00010000-\U0010ffff])")
"""A range of characters that take two units of UTF-16 each."""


def reference(struct: type[Struct]) -> Schema:
    """A reference to a Struct's schema."""
    return {"$ref": f"#/components/schemas/{struct.__name__}"}


def component_schemas(roots: Iterable[type[Struct]]) -> dict[str, Schema]:
    """The schema of each Struct that the roots hold, by the Struct's name."""
    roots = tuple(roots)
    _, schemas = msgspec.json.schema_components(roots, ref_template="#/components/schemas/{name}")
    for struct in structs_in(roots):
        _complete(struct, schemas[struct.__name__])
    return dict(sorted(schemas.items()))


def _complete(struct: type[Struct], schema: Schema) -> None:
    schema["description"] = " ".join(schema["description"].split())  # of a docstring, which is wrapped and indented
    hints = get_type_hints(struct, include_extras=True)
    for field in msgspec.structs.fields(struct):
        described = schema["properties"][field.encode_name]
        _restore_order(described, tuple(_choices(hints[field.name])))
        found = range_in(hints[field.name])
        if found is not None:
            _publish_range(*found, described)
    _name_types(schema)
    _spell_patterns_out(schema)
    if issubclass(struct, Quantity):
        _publish_spellings(struct, schema)


def structs_in(roots: Iterable[type[Struct]]) -> set[type[Struct]]:
    """Every Struct that the roots hold, and the roots themselves."""
    return {struct for info in inspect.multi_type_info(roots) for struct in _structs(info)}


def _structs(info: inspect.Type) -> Iterator[type[Struct]]:
    match info:
        case inspect.Metadata():
            yield from _structs(info.type)
        case inspect.StructType():
            yield info.cls
            for field in info.fields:
                yield from _structs(field.type)
        case inspect.UnionType():
            for member in info.types:
                yield from _structs(member)
        case inspect.ListType():
            yield from _structs(info.item_type)


def _name_types(schema: Any) -> None:
    """Say of what type the choices are, and that a single choice is a constant: generators of clients need both."""
    if isinstance(schema, dict):
        choices = schema.get("enum")
        if isinstance(choices, list):
            schema |= {"type": "string"} if isinstance(choices[0], str) else _integers(choices)
            if len(choices) == 1:
                schema["const"] = schema.pop("enum")[0]
        for part in schema.values():
            _name_types(part)
    elif isinstance(schema, list):
        for part in schema:
            _name_types(part)


def _integers(choices: list[int]) -> Schema:
    """The type of whole numbers to choose from, with its ends for who reads no choices."""
    return {"type": "integer", "format": "int32", "minimum": min(choices), "maximum": max(choices)}


def _spell_patterns_out(schema: Any) -> None:
    """Name each character of a range that ECMAScript understands with its flag `u` alone: many tools leave it off."""
    if isinstance(schema, dict):
        if isinstance(schema.get("pattern"), str):
            schema["pattern"] = _RANGE_OF_UNSEEN.sub(_every_character, schema["pattern"])
        for part in schema.values():
            _spell_patterns_out(part)
    elif isinstance(schema, list):
        for part in schema:
            _spell_patterns_out(part)


def _every_character(found: re.Match[str]) -> str:
    return "".join(map(chr, range(ord(found[1]), ord(found[2]) + 1)))


def _choices(annotation: Any) -> Iterator[tuple[Any, ...]]:
    """The closed lists in an annotation, each in its own order."""
    if get_origin(annotation) is Literal:
        yield get_args(annotation)
    else:
        for argument in get_args(annotation):
            yield from _choices(argument)


def _restore_order(schema: Any, lists: tuple[tuple[Any, ...], ...]) -> None:
    """Give choices the order of the contract, in which 1/2 stands before 1: msgspec sorts them as text."""
    if isinstance(schema, dict):
        choices = schema.get("enum")
        if isinstance(choices, list):
            schema["enum"] = next((list(words) for words in lists if set(words) == set(choices)), choices)
        for part in schema.values():
            _restore_order(part, lists)
    elif isinstance(schema, list):
        for part in schema:
            _restore_order(part, lists)


def _publish_spellings(quantity: type[Quantity], schema: Schema) -> None:
    dimension = quantity.__name__
    schema["examples"] = [{"value": value, "unit": unit} for value, unit in EXAMPLES[dimension]]
    schema["properties"]["unit"]["x-spellings"] = SPELLINGS[dimension]


def _publish_range(quantity: type[Quantity], within: Within, schema: Schema) -> None:
    told = range_told(quantity, within)
    told = f"Each {told}." if "items" in schema else f"{told[0].upper()}{told[1:]}."
    schema["description"] = f"{schema.get('description', '')} {told}".strip()
    ranged = schema.get("items", schema)
    ranged["x-range"] = {"low": within.low, "high": within.high, "unit": DIMENSIONS[quantity.__name__][1]}
