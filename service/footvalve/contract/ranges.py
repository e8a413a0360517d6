"""The range that a field takes, in SI: published with the field, and checked over a whole body at once."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Context
from functools import cache
from typing import Annotated, Any, NamedTuple, get_args, get_origin, get_type_hints

import msgspec
from msgspec import UNSET

from footvalve.contract.fault_wording import plain
from footvalve.contract.problem import Fault
from footvalve.contract.quantities import Quantity
from footvalve.quantity import DIMENSIONS, from_base

Limits = dict[str, tuple[float, float, str]]
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


def range_of(struct: type[msgspec.Struct], field: str) -> Within:
    """The range of a Struct's field by its name. The field has one."""
    found = range_in(get_type_hints(struct, include_extras=True)[field])
    assert found is not None, f"{field} has no range"
    return found[1]


def _quantity_type(annotation: Any) -> type[Quantity]:
    candidates = (annotation, *get_args(annotation))
    return next(c for c in candidates if isinstance(c, type) and issubclass(c, Quantity))


@cache
def limits_of(struct: type[msgspec.Struct]) -> tuple[tuple[str, str, Limits | None], ...]:
    """For each field that may hold quantities its name here and on the wire, and its range in each unit that it may
    come in."""
    hints = get_type_hints(struct, include_extras=True)
    rows = []
    for field in msgspec.structs.fields(struct):
        found = range_in(hints[field.name])
        limits = None
        if found is not None:
            quantity, within = found
            units = get_args(DIMENSIONS[quantity.__name__][0])
            limits = {unit: (*within.ends_in(unit), within.spelled(unit)) for unit in units}
        if _may_hold_quantities(hints[field.name]):
            rows.append((field.name, field.encode_name, limits))
    return tuple(rows)


def _may_hold_quantities(annotation: Any) -> bool:
    if isinstance(annotation, type) and issubclass(annotation, msgspec.Struct):
        return True
    return any(_may_hold_quantities(argument) for argument in get_args(annotation))


class Stated(NamedTuple):
    """A quantity of a decoded body with the JSON Pointer to it, and its field's range where there is one."""

    pointer: str
    quantity: Quantity
    limits: Limits | None

    @property
    def is_inside(self) -> bool:
        """Whether the quantity lies in its field's range."""
        return self.allows(self.quantity)

    def allows(self, quantity: Quantity) -> bool:
        """Whether the field takes another quantity of the same unit."""
        if self.limits is None:
            return True
        low, high, _ = self.limits[quantity.unit]
        return low <= quantity.value <= high

    @property
    def fault(self) -> Fault:
        """What is said of a quantity outside its range."""
        assert self.limits is not None, "without a range nothing is outside"
        _, _, spelled = self.limits[self.quantity.unit]
        return Fault(self.pointer, outside(self.quantity.value, self.quantity.unit, spelled))


def stated_quantities(body: msgspec.Struct, pointer: str = "") -> list[Stated]:
    """Every quantity of a decoded body, in the order of its fields."""
    found: list[Stated] = []
    _gather(body, pointer, found)
    return found


def _gather(body: msgspec.Struct, pointer: str, found: list[Stated]) -> None:
    for name, wire_name, limits in limits_of(type(body)):
        value = getattr(body, name)
        if value is UNSET:
            continue
        if isinstance(value, Quantity):
            found.append(Stated(f"{pointer}/{wire_name}", value, limits))
        elif isinstance(value, msgspec.Struct):
            _gather(value, f"{pointer}/{wire_name}", found)
        elif isinstance(value, list):
            for index, item in enumerate(value):
                if isinstance(item, Quantity):
                    found.append(Stated(f"{pointer}/{wire_name}/{index}", item, limits))
                elif isinstance(item, msgspec.Struct):
                    _gather(item, f"{pointer}/{wire_name}/{index}", found)


def outside_ranges(body: msgspec.Struct, pointer: str = "") -> Iterator[Fault]:
    """Every quantity of a decoded body that lies outside its field's range, with a JSON Pointer to it."""
    return (stated.fault for stated in stated_quantities(body, pointer) if not stated.is_inside)
