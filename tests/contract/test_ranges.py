"""The ranges of the fields: each end is inside in every unit, and what lies beyond is named with its place."""

from typing import get_args, get_origin, get_type_hints

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.contract import friction, line, ranges, request, suction_feasibility
from footvalve.contract.friction import FrictionRequest
from footvalve.contract.quantities import Quantity
from footvalve.contract.ranges import Within, outside_ranges, range_in
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest
from footvalve.quantity import wire_units


def ranged_fields():
    """Every field with a range, of every structure of these requests, once with each unit."""
    for module in (request, line, friction, suction_feasibility):
        for name, struct in vars(module).items():
            if isinstance(struct, type) and issubclass(struct, msgspec.Struct) and struct.__module__ == module.__name__:
                for field, annotation in get_type_hints(struct, include_extras=True).items():
                    found = range_in(annotation)
                    if found and field in struct.__annotations__:
                        for unit in wire_units(found[0].__name__):
                            yield pytest.param(annotation, *found, unit, id=f"{name}.{field} in {unit}")


FIELDS = list(ranged_fields())


def is_list(annotation):
    return get_origin(annotation) is list or any(is_list(inner) for inner in get_args(annotation))


def faults(annotation, quantity, value, unit):
    """What is outside in a body with one field of this kind."""
    body = msgspec.defstruct("Body", [("field", annotation)])
    item = quantity(value, unit)
    return list(outside_ranges(body([item] if is_list(annotation) else item)))


@pytest.mark.parametrize(("annotation", "quantity", "within", "unit"), FIELDS)
def test_the_ends_of_a_range_are_inside_and_what_lies_beyond_is_not(annotation, quantity, within, unit):
    """203 degF are the 95 degC of the range, whatever the last digit of the conversion says."""
    low, high = within.ends_in(unit)
    step = 1e-9 * (high - low)
    pointer = "/field/0" if is_list(annotation) else "/field"
    for inside in (low, high, (low + high) / 2):
        assert faults(annotation, quantity, inside, unit) == []
    for outside in (low - step, high + step):
        (fault,) = faults(annotation, quantity, outside, unit)
        assert fault.pointer == pointer


@pytest.mark.parametrize(("annotation", "quantity", "within", "unit"), FIELDS)
def test_the_ends_that_a_caller_is_told_are_inside(annotation, quantity, within, unit):
    """Who sends back the number that the refusal named must not be refused again."""
    words = within.spelled(unit).split()
    assert (words[0], words[2], words[4]) == ("from", "to", unit)
    for told in (float(words[1]), float(words[3])):
        assert faults(annotation, quantity, told, unit) == []


@pytest.mark.parametrize(("quantity", "within", "unit"), [field.values[1:] for field in FIELDS])
def test_the_ends_are_those_of_physics(quantity, within, unit):
    """To the twelve digits that an end is told with."""
    for told, base in zip(within.ends_in(unit), (within.low, within.high), strict=True):
        assert quantity(told, unit).base == pytest.approx(base, rel=1e-11, abs=1e-9)


@pytest.mark.parametrize(
    ("field", "value", "unit"),
    [
        ("water_temperature", 32, "degF"),
        ("water_temperature", 203, "degF"),
        ("air_temperature", 140, "degF"),
        ("air_temperature", -58, "degF"),
        ("altitude", 5000, "m"),
        ("altitude", -500, "m"),
    ],
)
def test_round_ends_are_taken(field, value, unit):
    annotation = get_type_hints(request.Site, include_extras=True)[field]
    quantity, _ = range_in(annotation)
    assert faults(annotation, quantity, value, unit) == []


def test_every_quantity_of_these_requests_has_a_range():
    """A field without one takes whatever the wire takes: give it a Within."""
    for module in (request, line, friction, suction_feasibility):
        for struct in vars(module).values():
            if isinstance(struct, type) and issubclass(struct, msgspec.Struct) and _is_asked(struct):
                for field, annotation in get_type_hints(struct, include_extras=True).items():
                    if _holds_quantity(annotation):
                        assert range_in(annotation), f"{struct.__name__}.{field}"


def _is_asked(struct):
    return getattr(struct.__struct_config__, "forbid_unknown_fields", False) and not issubclass(struct, Quantity)


def _holds_quantity(annotation):
    if isinstance(annotation, type):
        return issubclass(annotation, Quantity)
    return any(_holds_quantity(inner) for inner in get_args(annotation))


def of(value, unit):
    return {"value": value, "unit": unit}


def test_a_place_deep_in_a_body_is_pointed_at():
    body = {
        "flows": [of(1, "L/s"), of(1, "m^3/h"), of(400, "m^3/h")],
        "site": {"water_temperature": of(-1, "degC")},
        "line": [
            {
                "part": "pipe",
                "length": of(1, "ft"),
                "bore": {"diameter": of(2, "m"), "roughness": of(-1, "mm")},
            },
            {"part": "idle-pump", "flow": of(1, "L/s"), "drop": of(-5, "kPa")},
        ],
    }
    found = {fault.pointer for fault in outside_ranges(msgspec.convert(body, FrictionRequest))}
    assert found == {
        "/flows/2",
        "/site/water_temperature",
        "/line/0/bore/diameter",
        "/line/0/bore/roughness",
        "/line/1/drop",
    }


def test_the_pump_and_the_policy_are_looked_into():
    body = {
        "depth_to_water": of(2000, "m"),
        "flow": of(1, "L/s"),
        "pump": {"style": "rotary", "inlet_elevation": of(2000, "m"), "npsh_required": of(-1, "m")},
        "line": [{"part": "fitting", "fitting": "exit"}],
        "policy": {"margin": of(20, "m")},
    }
    found = {fault.pointer for fault in outside_ranges(msgspec.convert(body, SuctionFeasibilityRequest))}
    assert found == {"/depth_to_water", "/pump/inlet_elevation", "/pump/npsh_required", "/policy/margin"}


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_what_lies_outside_is_told_in_as_few_digits_as_json_takes_or_hardly_more(value):
    """1e-300 has 300 noughts in plain digits; what is told is the very number that was sent."""
    told, _ = ranges.outside(value, "m", "from 1 to 2 m").split(" m is outside", 1)
    assert float(told) == value
    assert len(told) <= len(repr(value)) + 5
    assert ("e" in told) == (value != 0.0 and not 1e-6 <= abs(value) < 1e16)


def test_a_range_in_words_is_cut_inward():
    """-100 m are -328.08399 ft: -328.084 would be outside."""
    assert Within(-100.0, 1000.0).spelled("ft") == "from -328.083 to 3280.83 ft"
    assert Within(273.15, 368.15).spelled("degF") == "from 32 to 203 degF"
    assert Within(1e-7, 0.1).spelled("L/s") == "from 0.0001 to 100 L/s"
