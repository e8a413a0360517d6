"""Requests from the whole of the schema, ends and all: an answer that fits the contract, or a refusal with places."""

import math
from types import UnionType
from typing import Annotated, Literal, Union, get_args, get_origin, get_type_hints

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from footvalve.answers.endpoints import ENDPOINT
from footvalve.contract.line import Bore
from footvalve.contract.problem import Refused
from footvalve.contract.quantities import Quantity
from footvalve.contract.ranges import Within
from footvalve.quantity import from_base, to_base, wire_units

LABELS = st.text(
    st.characters(min_codepoint=32, exclude_categories=["Cc", "Cf", "Cs", "Zl", "Zp"]),
    min_size=1,
    max_size=80,
)


def quantities(kind, within):
    """Over the whole range, both ends often, and small numbers as often as large ones."""

    def told(base, unit):
        low, high = within.ends_in(unit)
        return {"value": min(max(from_base(base, unit), low), high), "unit": unit}

    smallest = max(within.low, 1e-9)
    bases = [st.floats(within.low, within.high), st.sampled_from([within.low, within.high])]
    if within.high > smallest:
        bases.append(st.floats(math.log(smallest), math.log(within.high)).map(math.exp))
    return st.builds(told, st.one_of(bases), st.sampled_from(wire_units(kind.__name__)))


def numbers(kind, metas):
    limits = {name: bound for meta in metas for name in ("ge", "le") if (bound := getattr(meta, name)) is not None}
    if kind is int:
        return st.integers(limits["ge"], limits["le"])
    return st.one_of(
        st.floats(limits["ge"], limits["le"]),
        st.floats(math.log(limits["ge"]), math.log(limits["le"])).map(math.exp),
    ).map(lambda number: min(max(number, limits["ge"]), limits["le"]))


def wire_values(annotation, notes=()):
    """Anything that the schema takes for an annotation, as it stands on the wire."""
    origin, inner = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        values = wire_values(inner[0], (*notes, *inner[1:]))
    elif origin in (Union, UnionType):
        values = st.one_of([wire_values(one, notes) for one in inner if one is not msgspec.UnsetType])
    elif origin is Literal:
        values = st.sampled_from(inner)
    elif origin is list:
        values = st.lists(wire_values(inner[0]), min_size=1, max_size=6)
    elif issubclass(annotation, Quantity):
        values = quantities(annotation, next(note for note in notes if isinstance(note, Within)))
    elif issubclass(annotation, msgspec.Struct):
        values = objects(annotation)
    elif annotation in (bool, str):
        values = {bool: st.booleans(), str: LABELS}[annotation]
    else:
        values = numbers(annotation, [note for note in notes if isinstance(note, msgspec.Meta)])
    return values


def objects(struct):
    """A structure with all that is required and any of the rest."""
    hints = get_type_hints(struct, include_extras=True)
    required, optional = {}, {}
    for field in msgspec.structs.fields(struct):
        group = required if field.required else optional
        group[field.encode_name] = wire_values(hints[field.name])
    tag = struct.__struct_config__
    if tag.tag_field:
        required[tag.tag_field] = st.just(tag.tag)
    return st.fixed_dictionaries(required, optional=optional)


def either(draw, holder, one, other, make):
    """Leaves one of two fields, and makes it where there is neither."""
    if one in holder and other in holder:
        del holder[draw(st.sampled_from([one, other]))]
    elif one not in holder and other not in holder:
        holder[one] = make()


ROUGHNESS = wire_values(get_type_hints(Bore, include_extras=True)["roughness"])


def settle_part(draw, part):
    """What a line may not be is mostly put right, so that most requests are answered."""
    if part["part"] == "pipe":
        either(draw, part, "size", "bore", lambda: {"product": "copper-l", "nominal": "1"})
        if "bore" in part:
            bore = part["bore"]
            bore.setdefault("hazen_williams_coefficient", 140)
            diameter = to_base(**bore["diameter"])
            rough = to_base(**draw(ROUGHNESS))
            bore["roughness"] = {"value": min(rough, 0.0499 * diameter), "unit": "m"}
    elif part["part"] == "strainer":
        part.pop("dirty_drop", None)
    elif part["part"] == "fitting" and part["fitting"].startswith("sudden"):
        part["fitting"] = "coupling"
    if part["part"] in ("fitting", "valve"):
        part.setdefault("bore", {"diameter": {"value": 26, "unit": "mm"}})


@st.composite
def friction_requests(draw):
    body = draw(objects(ENDPOINT["friction"].request))
    if draw(st.integers(0, 9)):
        body.setdefault("flow", {"value": 10, "unit": "L/min"})
        for part in body["line"]:
            settle_part(draw, part)
    return body


def settle_elevations(draw, body):
    """Each pipe ends somewhere that it reaches; the pump stands at the last end."""
    metres = st.floats(-1000, 1000)
    level = draw(metres)
    body["intake_elevation"] = {"value": level, "unit": "m"}
    for part in body["line"]:
        if part["part"] == "pipe":
            reach = to_base(**part["length"])
            level = min(max(level + draw(st.floats(-1, 1)) * reach, -1000.0), 1000.0)
            part["end_elevation"] = {"value": level, "unit": "m"}
            if draw(st.booleans()):
                del part["end_elevation"]
    body["pump"]["inlet_elevation"] = {"value": level, "unit": "m"}


@st.composite
def suction_requests(draw):
    body = draw(objects(ENDPOINT["suction-feasibility"].request))
    if draw(st.integers(0, 9)):
        either(draw, body["pump"], "npsh_required", "rated_suction_lift", lambda: {"value": 2, "unit": "m"})
        if "drawdown" in body:
            body.pop("specific_capacity", None)
        if not any(part["part"] == "pipe" for part in body["line"]):
            body["line"].append({"part": "pipe", "length": {"value": 1500, "unit": "m"}})
        for part in body["line"]:
            settle_part(draw, part)
        settle_elevations(draw, body)
    return body


def points_into(pointer, body):
    """Whether the place exists, or is a field that its object lacks."""
    *parents, last = pointer.split("/")[1:]
    for step in parents:
        if isinstance(body, dict) and step not in body:
            return False
        body = body[int(step)] if isinstance(body, list) else body[step]
    return isinstance(body, dict) or int(last) < len(body)


def outcome(name, body):
    """What the endpoint does with a body: an answer that fits the contract, or a refusal that points into it."""
    endpoint = ENDPOINT[name]
    request = msgspec.json.decode(msgspec.json.encode(body), type=endpoint.request)
    try:
        answer = endpoint(request)
    except Refused as refused:
        faults = refused.faults
    except ArithmeticError as beyond:
        if "more than the contract takes" not in str(beyond):
            raise
        return "beyond the wire"
    else:
        return checked(endpoint, answer, body)
    assert faults
    for fault in faults:
        assert fault.detail
        assert points_into(fault.pointer, body), fault
    return "refused"


def checked(endpoint, answer, body):
    """The answer, if it fits the contract and its warnings point into the body."""
    wire = msgspec.json.encode(answer)
    assert b":null" not in wire
    assert msgspec.json.decode(wire, type=endpoint.answer) == answer
    for warning in answer.warnings:
        assert points_into(warning.pointer, body), warning
    return answer


THOROUGH = settings(
    max_examples=250,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def share_answered(outcomes):
    return sum(not isinstance(found, str) for found in outcomes) / len(outcomes)


def test_friction_answers_or_refuses_whatever_the_schema_takes():
    outcomes = []

    @THOROUGH
    @given(friction_requests())
    def holds(body):
        answer = outcome("friction", body)
        outcomes.append(answer)
        if not isinstance(answer, str):
            assert answer.total_head_loss.value >= 0
            assert len(answer.parts) == len(body["line"])
            assert all(part.head_loss.value >= 0 for part in answer.parts)

    holds()
    assert share_answered(outcomes) > 0.3, "most requests are refused: the strategy tests too little"


def test_suction_feasibility_answers_or_refuses_whatever_the_schema_takes():
    outcomes = []

    @THOROUGH
    @given(suction_requests())
    def holds(body):
        answer = outcome("suction-feasibility", body)
        outcomes.append(answer)
        if not isinstance(answer, str):
            assert len(answer.profile) == len(body["line"]) + 1
            lowest = min(node.absolute_pressure.value for node in answer.profile)
            assert answer.tightest.absolute_pressure.value == lowest
            assert (answer.verdict == "infeasible") >= (answer.margin.value < 0)
            assert (answer.verdict == "feasible") <= (answer.tightest.above_vapour.value >= 0)
            assert answer.losses.value >= 0
            assert answer.priming.time is msgspec.UNSET or answer.priming.time.value >= 0
            assert answer.reasons

    holds()
    assert share_answered(outcomes) > 0.3, "most requests are refused: the strategy tests too little"


def of(value, unit):
    return {"value": value, "unit": unit}


def bored(millimetres, roughness=0.0):
    return {"diameter": of(millimetres, "mm"), "roughness": of(roughness, "mm")}


CORNERS = {
    "the smallest flow in the widest pipe": (of(1e-4, "L/s"), bored(1000)),
    "the smallest flow in the narrowest pipe": (of(1e-4, "L/s"), bored(1)),
    "the greatest flow in the widest pipe": (of(100, "L/s"), bored(1000)),
    "the greatest flow in the narrowest pipe": (of(100, "L/s"), bored(1)),
    "the roughest wall": (of(1, "L/s"), bored(26, 1.3)),
}


@pytest.mark.parametrize(("flow", "bore"), CORNERS.values(), ids=CORNERS.keys())
@pytest.mark.parametrize("temperature", [0, 95])
@pytest.mark.parametrize("altitude", [-500, 5000])
def test_the_corners_of_the_schema_are_reckoned(flow, bore, temperature, altitude):
    """Ice cold and near boiling, below the sea and high up."""
    site = {"altitude": of(altitude, "m"), "water_temperature": of(temperature, "degC")}
    line = [{"part": "pipe", "length": of(10, "m"), "bore": bore}]
    assert outcome("friction", {"flow": flow, "line": line, "site": site}) != "refused"
    pump = {
        "style": "reciprocating",
        "strokes_per_minute": 6000,
        "chambers": 1,
        "inlet_elevation": of(0, "m"),
        "npsh_required": of(0, "m"),
    }
    body = {"depth_to_water": of(3, "m"), "flow": flow, "pump": pump, "line": line, "site": site}
    assert outcome("suction-feasibility", body) != "refused"


def test_a_thousand_parts_are_reckoned():
    """The longest line, with a pipe in every second place."""
    line = [
        {"part": "pipe", "length": of(0.01, "m"), "bore": bored(26)},
        {"part": "fitting", "fitting": "coupling"},
    ]
    pump = {"style": "rotary", "inlet_elevation": of(0, "m"), "rated_suction_lift": of(8, "m")}
    body = {"depth_to_water": of(3, "m"), "flow": of(10, "L/min"), "pump": pump, "line": line * 500}
    answer = outcome("suction-feasibility", body)
    assert len(answer.profile) == 1001
