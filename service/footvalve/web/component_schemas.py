"""The schemas of the contract document: what msgspec knows of the Structs, and the ranges that the fields take."""

from collections.abc import Iterable, Iterator
from typing import Any, get_type_hints

import msgspec
from msgspec import Struct, inspect

from footvalve.contract.quantities import Quantity
from footvalve.contract.ranges import Within, range_in
from footvalve.quantity import DIMENSIONS

Schema = dict[str, Any]


def reference(struct: type[Struct]) -> Schema:
    """A reference to a Struct's schema."""
    return {"$ref": f"#/components/schemas/{struct.__name__}"}


def component_schemas(roots: Iterable[type[Struct]]) -> dict[str, Schema]:
    """The schema of each Struct that the roots hold, by the Struct's name."""
    roots = tuple(roots)
    _, schemas = msgspec.json.schema_components(roots, ref_template="#/components/schemas/{name}")
    for struct in structs_in(roots):
        schema = schemas[struct.__name__]
        _name_types(schema)
        _publish_ranges(struct, schema["properties"])
    return dict(sorted(schemas.items()))


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
            schema["type"] = "string" if isinstance(choices[0], str) else "integer"
            if len(choices) == 1:
                schema["const"] = schema.pop("enum")[0]
        for part in schema.values():
            _name_types(part)
    elif isinstance(schema, list):
        for part in schema:
            _name_types(part)


def _publish_ranges(struct: type[Struct], properties: dict[str, Schema]) -> None:
    hints = get_type_hints(struct, include_extras=True)
    for field in msgspec.structs.fields(struct):
        found = range_in(hints[field.name])
        if found is not None:
            _publish_range(*found, properties[field.encode_name])


def _publish_range(quantity: type[Quantity], within: Within, schema: Schema) -> None:
    unit = DIMENSIONS[quantity.__name__][1]
    each = "Each from" if "items" in schema else "From"
    told = f"{each} {within.low:g} to {within.high:g} {unit}."
    schema["description"] = f"{schema.get('description', '')} {told}".strip()
    ranged = schema.get("items", schema)
    ranged["x-range"] = {"low": within.low, "high": within.high, "unit": unit}
