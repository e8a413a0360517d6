"""The range that a field takes, in SI: published with the field, and checked over a whole body at once."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Context
from functools import cache
from typing import Annotated, Any, get_args, get_origin, get_type_hints

import msgspec

from footvalve.contract.fault_wording import plain
from footvalve.contract.problem import Fault
from footvalve.contract.quantities import Quantity
from footvalve.quantity import DIMENSIONS, from_base

_Limits = dict[str, tuple[float, float, str]]
"""For each wire unit the ends of a range, and the range in words."""


@dataclass(frozen=True, slots=True)
class Within:
    """The range of a quantity, ends included, in the unit of physics. Put it into the field's `Annotated`."""

    low: float
    high: float

    def ends_in(self, unit: str) -> tuple[float, float]:
        """The ends in a wire unit, without the last digits of the conversion, so that an end itself is inside."""
        low, high = (float(f"{from_base(end, unit):.12g}") for end in (self.low, self.high))
        return low, high

    def told_ends(self, unit: str, digits: int = 6) -> tuple[str, str]:
        """The ends as they are told in a wire unit, cut inward to so many digits: each is still inside."""
        low, high = self.ends_in(unit)
        return _cut(low, digits, ROUND_CEILING), _cut(high, digits, ROUND_FLOOR)

    def spelled(self, unit: str) -> str:
        """The range in words, in the given wire unit."""
        return "from {} to {} {unit}".format(*self.told_ends(unit), unit=unit)


def _cut(value: float, digits: int, direction: str) -> str:
    return plain(float(Context(prec=digits, rounding=direction).create_decimal(repr(value))))


def outside(value: float, unit: str, spelled: str) -> str:
    """What is said of a quantity outside its range, which is given in words."""
    return f"{plain(value)} {unit} is outside the range {spelled}"


def range_in(annotation: Any) -> tuple[type[Quantity], Within] | None:
    """The quantity type and range of a field's annotation, found through `Annotated`, unions and lists."""
    if get_origin(annotation) is Annotated:
        inner, *notes = get_args(annotation)
        within = next((note for note in notes if isinstance(note, Within)), None)
        if within is not None:
            return _quantity_type(inner), within
        return range_in(inner)
    for argument in get_args(annotation):
        found = range_in(argument)
        if found is not None:
            return found
    return None


def _quantity_type(annotation: Any) -> type[Quantity]:
    candidates = (annotation, *get_args(annotation))
    return next(c for c in candidates if isinstance(c, type) and issubclass(c, Quantity))


@cache
def _limits(struct: type[msgspec.Struct]) -> tuple[tuple[str, str, _Limits | None], ...]:
    """For each field its name here and on the wire, and its range in each unit that it may come in."""
    hints = get_type_hints(struct, include_extras=True)
    rows = []
    for field in msgspec.structs.fields(struct):
        found = range_in(hints[field.name])
        limits = None
        if found is not None:
            quantity, within = found
            units = get_args(DIMENSIONS[quantity.__name__][0])
            limits = {unit: (*within.ends_in(unit), within.spelled(unit)) for unit in units}
        rows.append((field.name, field.encode_name, limits))
    return tuple(rows)


def outside_ranges(body: msgspec.Struct, pointer: str = "") -> Iterator[Fault]:
    """Every quantity of a decoded body that lies outside its field's range, with a JSON Pointer to it."""
    for name, wire_name, limits in _limits(type(body)):
        value = getattr(body, name)
        if isinstance(value, Quantity):
            if limits is not None:
                yield from _outside(value, limits, f"{pointer}/{wire_name}")
        elif isinstance(value, msgspec.Struct):
            yield from outside_ranges(value, f"{pointer}/{wire_name}")
        elif isinstance(value, list):
            yield from _outside_in_list(value, limits, f"{pointer}/{wire_name}")


def _outside_in_list(items: list[Any], limits: _Limits | None, pointer: str) -> Iterator[Fault]:
    for index, item in enumerate(items):
        if isinstance(item, Quantity):
            if limits is not None:
                yield from _outside(item, limits, f"{pointer}/{index}")
        elif isinstance(item, msgspec.Struct):
            yield from outside_ranges(item, f"{pointer}/{index}")


def _outside(quantity: Quantity, limits: _Limits, pointer: str) -> Iterator[Fault]:
    low, high, spelled = limits[quantity.unit]
    if not low <= quantity.value <= high:
        yield Fault(pointer, outside(quantity.value, quantity.unit, spelled))
