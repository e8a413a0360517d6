"""From what a caller may give for a field to what the field holds: quantities in any form, however deep they lie."""

from collections.abc import Callable, Mapping, Sequence
from functools import cache, partial
from typing import Any, NamedTuple, TypeGuard, get_args, get_origin, get_type_hints

from msgspec import Struct

from footvalve_client._errors import QuantityError
from footvalve_client._quantity import Quantity

Coercion = Callable[[Any, str], Any]
"""From a value and the JSON Pointer to it to what is held in its place. Raises QuantityError."""


class FieldCoercion(NamedTuple):
    """A field that holds quantities at some depth: its name here and in JSON, and its coercion."""

    name: str
    wire_name: str
    coerce: Coercion


@cache
def coercions(struct: type[Struct]) -> tuple[FieldCoercion, ...]:
    """The fields of a Struct that hold quantities at any depth."""
    hints = get_type_hints(struct)
    names = zip(struct.__struct_fields__, struct.__struct_encode_fields__, strict=True)
    compiled = ((name, wire_name, _coercion(hints[name])) for name, wire_name in names)
    return tuple(FieldCoercion(name, wire_name, coerce) for name, wire_name, coerce in compiled if coerce is not None)


def coerced(body: Mapping[str, object], struct: type[Struct]) -> Mapping[str, object]:
    """A mapping that stands for a Struct, with its quantities as they are held, and without what is None.

    Raises QuantityError.
    """
    held: Mapping[str, object] = _in_mapping((struct,), body, "")
    return held


def _coercion(hint: Any) -> Coercion | None:
    if isinstance(hint, type):
        if issubclass(hint, Quantity):
            return partial(_to_quantity, hint)
        if issubclass(hint, Struct):
            return partial(_in_mapping, (hint,))
        return None
    if get_origin(hint) is Sequence:
        inner = _coercion(get_args(hint)[0])
        return inner and partial(_in_sequence, inner)
    members = tuple(member for member in get_args(hint) if member is not type(None))
    if len(members) == 1:
        return _coercion(members[0])
    structs = tuple(member for member in members if isinstance(member, type) and issubclass(member, Struct))
    return partial(_in_mapping, structs) if structs else None


def _is_mapping(value: object) -> TypeGuard[Mapping[str, Any]]:
    return isinstance(value, Mapping)


def _is_sequence(value: object) -> TypeGuard[Sequence[Any]]:
    return isinstance(value, Sequence) and not isinstance(value, str | Mapping)


def _to_quantity(kind: type[Quantity[Any]], value: Any, pointer: str) -> Any:
    if _is_mapping(value):
        return value
    try:
        return kind.of(value)
    except QuantityError as refused:
        raise QuantityError(refused.detail, pointer) from None


def _in_sequence(inner: Coercion, values: Any, pointer: str) -> Any:
    """A list of what is held; what is no sequence is left for the service to refuse."""
    if not _is_sequence(values):
        return values
    return [inner(value, f"{pointer}/{index}") for index, value in enumerate(values)]


def _in_mapping(structs: tuple[type[Struct], ...], value: Any, pointer: str) -> Any:
    """A mapping that stands for one of the Structs, with its quantities as they are held; other values as they are."""
    if not _is_mapping(value):
        return value
    coerced = {field.wire_name: field.coerce for field in coercions(_meant(structs, value))}
    return {
        key: coerced[key](item, f"{pointer}/{key}") if key in coerced else item
        for key, item in value.items()
        if item is not None
    }


def _meant(structs: tuple[type[Struct], ...], value: Mapping[str, Any]) -> type[Struct]:
    """The Struct that the mapping's tag names; any of them where it names none, for the service to refuse."""
    for struct in structs:
        config = struct.__struct_config__
        if config.tag_field is None or value.get(config.tag_field) == config.tag:
            return struct
    return structs[0]
