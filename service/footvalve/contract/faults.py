"""Every fault of a refused body, each with a JSON Pointer, in one answer.

A decoder stops at the first fault, and that is right as long as there is none. Only once it has found one is the
body walked again beside its type, to tell its sender everything at once.
"""

import math
import operator
import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from itertools import islice
from typing import Any, TypeVar, get_type_hints

from msgspec import Struct, ValidationError, convert, inspect, structs

from footvalve.contract.fault_wording import (
    cleaned,
    listed,
    perhaps,
    plain,
    pointer_to,
    unexpected,
    unit_fault,
    unmatched,
    wanted,
)
from footvalve.contract.problem import Fault
from footvalve.contract.quantities import Quantity
from footvalve.contract.ranges import Within, outside, range_in
from footvalve.quantity import wire_units

MOST_FAULTS = 50
"""More of one body's faults than these are not told."""

_GREATEST_EXACT_INTEGER = 2**53
"""Above it a float may stand for more than one whole number."""

AnyStruct = TypeVar("AnyStruct", bound=Struct)


class Misfit(Exception):
    """The body breaks the schema. It carries the faults found, no more than can be read, and whether there are more."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__("; ".join(f"{fault.pointer}: {fault.detail}" for fault in faults))
        self.faults = faults[:MOST_FAULTS]
        self.more = len(faults) > MOST_FAULTS


def fitted(value: object, expected: type[AnyStruct]) -> AnyStruct:
    """Decoded JSON as the type. Raises Misfit with every fault; 1.0 is a whole number, as JSON Schema has it."""
    try:
        return convert(_with_whole_numbers(value), expected, strict=True)
    except ValidationError as refused:
        found = faults_in(value, expected) or [Fault("", cleaned(str(refused), 200))]
    raise Misfit(*found)


def faults_in(value: object, expected: type[Struct]) -> list[Fault]:
    """What keeps decoded JSON from being the type, and which of its quantities lie outside their field's range too.

    A range alone is no fault of the schema; but who is told of the schema's faults wants to know all. One more than
    `MOST_FAULTS` is found at the most: it tells that there are more.
    """
    return list(islice(_faults(value, _shape(expected), ""), MOST_FAULTS + 1))


def _with_whole_numbers(value: Any) -> Any:
    match value:
        case float():
            return int(value) if value.is_integer() and abs(value) < _GREATEST_EXACT_INTEGER else value
        case dict():
            return {key: _with_whole_numbers(item) for key, item in value.items()}
        case list():
            return [_with_whole_numbers(item) for item in value]
    return value


_shape = cache(inspect.type_info)


def _faults(value: object, expected: inspect.Type, pointer: str) -> Iterable[Fault]:
    match expected:
        case inspect.Metadata():
            return _faults(value, expected.type, pointer)
        case inspect.StructType():
            return _in_object(value, expected, pointer)
        case inspect.UnionType():
            return _in_union(value, expected, pointer)
        case inspect.ListType():
            return _in_array(value, expected, pointer)
    return (Fault(pointer, detail) for detail in _wrong_leaf(value, expected))


def _in_object(value: object, struct: inspect.StructType, pointer: str) -> Iterator[Fault]:
    if not isinstance(value, dict):
        yield Fault(pointer, unexpected(struct, value))
        return
    fields = {field.encode_name: field for field in struct.fields}
    for key, item in value.items():
        place = pointer_to(pointer, key)
        if key in fields:
            yield from _in_field(item, fields[key], struct.cls, place)
        elif key != struct.tag_field:
            yield Fault(place, f"unknown field `{cleaned(key)}`{perhaps(key, fields)}")
        elif item != struct.tag:
            yield Fault(place, f"expected `{struct.tag}`")
    for name, field in fields.items():
        if field.required and name not in value:
            yield Fault(pointer_to(pointer, name), f"required, but missing: expected {wanted(field.type)}")


def _in_field(value: object, field: inspect.Field, struct: type[Struct], place: str) -> Iterator[Fault]:
    if value is None and not field.required:
        yield Fault(place, f"null is no value here: leave the field out, or give {wanted(field.type)}")
        return
    if issubclass(struct, Quantity) and field.name == "unit":
        yield from _in_unit(value, struct.__name__, place)
        return
    found = list(islice(_faults(value, field.type, place), MOST_FAULTS + 1))
    yield from found
    within = _ranges(struct).get(field.name)
    if within is not None and not found:
        yield from _outside(value, within, place)


def _in_unit(unit: object, dimension: str, place: str) -> Iterator[Fault]:
    units = wire_units(dimension)
    if not isinstance(unit, str):
        yield Fault(place, f"expected a unit of {dimension}, one of {listed(units)}")
    elif unit not in units:
        yield Fault(place, unit_fault(unit, dimension))


def _in_union(value: object, union: inspect.UnionType, pointer: str) -> Iterable[Fault]:
    tagged = {m.tag: m for m in union.types if isinstance(m, inspect.StructType) and m.tag is not None}
    if tagged and isinstance(value, dict):
        return _in_tagged(value, tagged, pointer)
    if any(not list(_faults(value, member, pointer)) for member in union.types):
        return []
    return [Fault(pointer, unexpected(union, value))]


def _in_tagged(value: dict[str, object], tagged: dict[Any, inspect.StructType], pointer: str) -> Iterable[Fault]:
    tag_field = str(next(iter(tagged.values())).tag_field)
    place = pointer_to(pointer, tag_field)
    if tag_field not in value:
        return [Fault(place, f"required, but missing: expected one of {listed(tagged)}")]
    tag = value[tag_field]
    if not isinstance(tag, str) or tag not in tagged:
        return [Fault(place, detail) for detail in _wrong_choice(tag, inspect.LiteralType(tuple(tagged)))]
    return _in_object(value, tagged[tag], pointer)


def _in_array(value: object, array: inspect.ListType, pointer: str) -> Iterator[Fault]:
    if not isinstance(value, list):
        yield Fault(pointer, unexpected(array, value))
        return
    for detail in _wrong_length(len(value), array, "item"):
        yield Fault(pointer, detail)
    for index, item in enumerate(value[: array.max_length]):
        yield from _faults(item, array.item_type, pointer_to(pointer, index))


def _outside(value: object, within: Within, pointer: str) -> Iterator[Fault]:
    if isinstance(value, list):
        for index, item in enumerate(value):
            yield from _outside(item, within, pointer_to(pointer, index))
    elif isinstance(value, dict):
        low, high = within.ends_in(value["unit"])
        if not low <= value["value"] <= high:
            yield Fault(pointer, outside(value["value"], value["unit"], within.spelled(value["unit"])))


@cache
def _ranges(struct: type[Struct]) -> dict[str, Within]:
    hints = get_type_hints(struct, include_extras=True)
    found = {field.name: range_in(hints[field.name]) for field in structs.fields(struct)}
    return {name: quantity_and_range[1] for name, quantity_and_range in found.items() if quantity_and_range}


def _wrong_leaf(value: Any, expected: inspect.Type) -> Iterator[str]:
    match expected:
        case inspect.FloatType() | inspect.IntType():
            return _wrong_number(value, expected)
        case inspect.StrType():
            return _wrong_text(value, expected)
        case inspect.LiteralType():
            return _wrong_choice(value, expected)
        case inspect.BoolType():
            return iter(() if isinstance(value, bool) else (unexpected(expected, value),))
    return iter(())


_BOUNDS: tuple[tuple[str, Callable[[Any, Any], bool], str], ...] = (
    ("ge", operator.ge, "at least"),
    ("gt", operator.gt, "greater than"),
    ("le", operator.le, "at most"),
    ("lt", operator.lt, "less than"),
)


def _wrong_number(value: Any, number: inspect.FloatType | inspect.IntType) -> Iterator[str]:
    if isinstance(value, bool) or not isinstance(value, int | float):
        yield unexpected(number, value)
    elif isinstance(value, float) and not math.isfinite(value):
        yield "expected a finite number within the reach of a double"
    elif isinstance(value, float) and isinstance(number, inspect.IntType) and not value.is_integer():
        yield unexpected(number, value)
    else:
        for name, holds, words in _BOUNDS:
            bound = getattr(number, name)
            if bound is not None and not holds(value, bound):
                yield f"must be {words} {plain(bound)}, but is {cleaned(str(value))}"


def _wrong_text(value: object, text: inspect.StrType) -> Iterator[str]:
    if not isinstance(value, str):
        yield unexpected(text, value)
        return
    wrong_length = list(_wrong_length(len(value), text, "character"))
    yield from wrong_length
    if not wrong_length and text.pattern is not None and not re.search(text.pattern, value):
        yield unmatched(text.pattern, value)


def _wrong_choice(value: object, choice: inspect.LiteralType) -> Iterator[str]:
    if isinstance(value, bool) or value not in choice.values:
        yield f"{unexpected(choice, value)}{perhaps(value, choice.values)}"


def _wrong_length(length: int, limits: inspect.ListType | inspect.StrType, counted: str) -> Iterator[str]:
    if limits.min_length is not None and length < limits.min_length:
        yield f"must hold at least {limits.min_length} {counted}(s), holds {length}"
    if limits.max_length is not None and length > limits.max_length:
        yield f"must hold at most {limits.max_length} {counted}(s), holds {length}"
