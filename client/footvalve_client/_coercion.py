"""From what a caller may give for a field to what the field holds: quantities in any form, however deep they lie."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache, partial
from math import isfinite
from typing import Any, Final, NamedTuple, TypeGuard, get_args, get_origin, get_type_hints

import msgspec
from msgspec import Raw, Struct

from footvalve_client._errors import QuantityError
from footvalve_client._quantity import Quantity

Coercion = Callable[[Any, str], Any]
"""From a value and the JSON Pointer to it to what is held in its place. Raises QuantityError."""

_AS_THEY_ARE: Final = frozenset({str, int, float, bool, Raw})


class FieldCoercion(NamedTuple):
    """A field: its name here and in JSON, and its coercion."""

    name: str
    wire_name: str
    coerce: Coercion


@cache
def coercions(struct: type[Struct], endpoint: str | None = None) -> tuple[FieldCoercion, ...]:
    """The fields of a Struct. What an item of a batch asks of an endpoint is read as that endpoint's request."""
    hints = get_type_hints(struct)
    names = zip(struct.__struct_fields__, struct.__struct_encode_fields__, strict=True)
    return tuple(FieldCoercion(name, wire_name, _coercion(hints[name], endpoint)) for name, wire_name in names)


def coerced(body: Mapping[str, object], struct: type[Struct]) -> Mapping[str, object]:
    """A mapping that stands for a Struct, with its quantities as they are held, and without what is None.

    Raises QuantityError.
    """
    held: Mapping[str, object] = _in_mapping((struct,), body, "")
    return held


def _coercion(hint: Any, endpoint: str | None = None) -> Coercion:
    if hint is Any:
        return partial(_in_body, endpoint)
    if isinstance(hint, type):
        if issubclass(hint, Quantity):
            return partial(_to_quantity, hint)
        return partial(_in_mapping, (hint,)) if issubclass(hint, Struct) else _plain
    if get_origin(hint) is Sequence:
        return partial(_in_sequence, _coercion(get_args(hint)[0]))
    members = tuple(member for member in get_args(hint) if member is not type(None))
    if len(members) == 1:
        return _coercion(members[0])
    structs = tuple(member for member in members if isinstance(member, type) and issubclass(member, Struct))
    return partial(_in_mapping, structs) if structs else _plain


def _is_mapping(value: object) -> TypeGuard[Mapping[str, Any]]:
    return isinstance(value, Mapping)


def _in_body(endpoint: str | None, value: Any, pointer: str) -> Any:
    """The body of a batch's item; one for an endpoint that nobody knows holds no quantities in other forms."""
    from footvalve_client._generated.endpoints import ENDPOINTS  # noqa: PLC0415  # which is made of what stands here

    if endpoint in ENDPOINTS and _is_mapping(value):
        return _in_mapping((ENDPOINTS[endpoint][0],), value, pointer)
    return _plain(value, pointer)


def _to_quantity(kind: type[Quantity[Any]], value: Any, pointer: str) -> Any:
    if _is_mapping(value):
        return _plain(value, pointer)
    try:
        quantity = kind.of(value)
    except QuantityError as refused:
        raise QuantityError(refused.detail, pointer) from None
    _plain(quantity.value, f"{pointer}/value")
    _plain(quantity.uncertainty, f"{pointer}/uncertainty")
    return quantity


def _in_sequence(inner: Coercion, values: Any, pointer: str) -> Any:
    """A list of what is held; what gives no items is left for the service to refuse."""
    if isinstance(values, str | bytes | Mapping | Struct):
        return _plain(values, pointer)
    try:
        items = iter(values)
    except TypeError:
        return _plain(values, pointer)
    return [inner(value, f"{pointer}/{index}") for index, value in enumerate(items)]


def _in_mapping(structs: tuple[type[Struct], ...], value: Any, pointer: str) -> Any:
    """A mapping that stands for one of the Structs, with what its fields hold; what is no mapping as it is."""
    if not _is_mapping(value):
        return _plain(value, pointer)
    endpoint = value.get("endpoint")
    fields = coercions(_meant(structs, value), endpoint if isinstance(endpoint, str) else None)
    coerced = {field.wire_name: field.coerce for field in fields}
    return {key: coerced.get(key, _plain)(item, f"{pointer}/{key}") for key, item in value.items() if item is not None}


def _plain(value: Any, pointer: str) -> Any:
    """What JSON can say of a value, its numbers finite and those of Python. Raises QuantityError and TypeError."""
    if isinstance(value, float) and not isfinite(value):
        raise QuantityError(f"{float(value)} is no finite number", pointer)
    if value is None or type(value) in _AS_THEY_ARE or isinstance(value, Struct):
        return value
    unwrapped: Any = getattr(value, "item", None)
    if unwrapped is not None and not getattr(value, "ndim", 0):
        return _plain(unwrapped(), pointer)
    if _is_mapping(value):
        return {key: _plain(item, f"{pointer}/{key}") for key, item in value.items()}
    if _gives_items(value):
        return [_plain(item, f"{pointer}/{index}") for index, item in enumerate(value)]
    try:
        msgspec.json.encode(value)
    except TypeError as error:
        raise TypeError(f"{pointer}: {error}") from None
    return value


def _gives_items(value: object) -> TypeGuard[Iterable[Any]]:
    return hasattr(value, "__iter__") and not isinstance(value, str | bytes) and not hasattr(value, "m_as")


def _meant(structs: tuple[type[Struct], ...], value: Mapping[str, Any]) -> type[Struct]:
    """The Struct that the mapping's tag names; any of them where it names none, for the service to refuse."""
    for struct in structs:
        config = struct.__struct_config__
        if config.tag_field is None or value.get(config.tag_field) == config.tag:
            return struct
    return structs[0]
