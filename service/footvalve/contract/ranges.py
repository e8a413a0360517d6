"""The range that a field takes, in SI: published with the field, and checked over a whole body at once."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, get_args, get_origin, get_type_hints

import msgspec

from footvalve.contract.problem import Fault
from footvalve.contract.quantities import Quantity
from footvalve.quantity import DIMENSIONS, from_base


@dataclass(frozen=True, slots=True)
class Within:
    """The range of a quantity, ends included, in the unit of physics. Put it into the field's `Annotated`."""

    low: float
    high: float

    def spelled(self, unit: str) -> str:
        """The range in words, in the given wire unit."""
        return f"from {from_base(self.low, unit):.6g} to {from_base(self.high, unit):.6g} {unit}"


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
def _limits(struct: type[msgspec.Struct]) -> tuple[tuple[str, str, dict[str, tuple[float, float]] | None], ...]:
    """For each field its name here and on the wire, and its range in each unit that it may come in."""
    hints = get_type_hints(struct, include_extras=True)
    rows = []
    for field in msgspec.structs.fields(struct):
        found = range_in(hints[field.name])
        limits = None
        if found is not None:
            quantity, within = found
            units = get_args(DIMENSIONS[quantity.__name__][0])
            limits = {unit: _ends_in(within, unit) for unit in units}
        rows.append((field.name, field.encode_name, limits))
    return tuple(rows)


def _ends_in(within: Within, unit: str) -> tuple[float, float]:
    """The ends of a range in a unit, without the last digits of the conversion, so that an end itself is inside."""
    low, high = (float(f"{from_base(end, unit):.12g}") for end in (within.low, within.high))
    return low, high


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


def _outside_in_list(items: list[Any], limits: dict[str, tuple[float, float]] | None, pointer: str) -> Iterator[Fault]:
    for index, item in enumerate(items):
        if isinstance(item, Quantity):
            if limits is not None:
                yield from _outside(item, limits, f"{pointer}/{index}")
        elif isinstance(item, msgspec.Struct):
            yield from outside_ranges(item, f"{pointer}/{index}")


def _outside(quantity: Quantity, limits: dict[str, tuple[float, float]], pointer: str) -> Iterator[Fault]:
    low, high = limits[quantity.unit]
    if not low <= quantity.value <= high:
        yield Fault(pointer, f"must lie from {low:.6g} to {high:.6g} {quantity.unit}")
