"""`suction-feasibility`: what must hold for any site, in whatever units it is told."""

import math
from dataclasses import dataclass
from itertools import pairwise

import msgspec
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.suction_state import suction_state
from footvalve.contract.problem import Refused
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest
from footvalve.quantity import to_base

SUCTION = ENDPOINT["suction-feasibility"]
FOOT, INCH = 0.3048, 0.0254
GALLON_PER_MINUTE = 231 * INCH**3 / 60
PSI = 4.4482216152605 / INCH**2


def of(value, unit):
    return {"value": value, "unit": unit}


def decoded(body):
    return msgspec.json.decode(msgspec.json.encode(body), type=SuctionFeasibilityRequest)


@dataclass(frozen=True)
class Units:
    """How to write a number in SI for the wire."""

    length: tuple[str, float]
    bore: tuple[str, float]
    flow: tuple[str, float]
    pressure: tuple[str, float]
    yields: tuple[str, float]
    fahrenheit: bool
    name: str

    def write(self, dimension, value):
        unit, size = getattr(self, dimension)
        return of(value / size, unit)

    def temperature(self, kelvins):
        return of(kelvins * 1.8 - 459.67, "degF") if self.fahrenheit else of(kelvins, "K")


METRIC = Units(
    ("m", 1.0),
    ("mm", 1e-3),
    ("L/s", 1e-3),
    ("Pa", 1.0),
    ("L/s/m", 1e-3),
    False,
    "metric",
)
FEET = Units(
    ("ft", FOOT),
    ("in", INCH),
    ("gal/min", GALLON_PER_MINUTE),
    ("psi", PSI),
    ("gal/min/ft", GALLON_PER_MINUTE / FOOT),
    True,
    "us",
)


@dataclass(frozen=True)
class Piece:
    """A part of a site in SI: a pipe with its end, or something without length."""

    kind: str
    bore: float
    length: float = 0.0
    roughness: float = 0.0
    end: float = 0.0
    drop: float = 0.0
    rated: float = 1e-3
    name: str = ""


@dataclass(frozen=True)
class Place:
    """A site in SI."""

    altitude: float
    temperature: float
    depth: float
    drawdown: float
    flow: float
    inlet: float
    intake: float
    required: float
    pieces: tuple[Piece, ...]
    specific_capacity: float | None = None
    seasonal_fall: float = 0.0
    policy: float = 1.0


def part(piece, units):
    bore = {"diameter": units.write("bore", piece.bore)}
    match piece.kind:
        case "pipe":
            return {
                "part": "pipe",
                "bore": bore | {"roughness": units.write("bore", piece.roughness)},
                "length": units.write("length", piece.length),
                "end_elevation": units.write("length", piece.end),
            }
        case "fitting":
            return {"part": "fitting", "fitting": piece.name, "bore": bore}
        case "valve":
            spring = units.write("pressure", piece.drop)
            return {"part": "valve", "valve": piece.name, "cracking_pressure": spring, "bore": bore}
        case "strainer":
            rating = {"rated_flow": units.write("flow", piece.rated), "bore": bore}
            return {"part": "strainer", "clean_drop": units.write("pressure", piece.drop), **rating}
        case "idle-pump":
            known = {"flow": units.write("flow", piece.rated), "bore": bore}
            return {"part": "idle-pump", "drop": units.write("pressure", piece.drop), **known}


def body(place, units=METRIC, **more):
    level = {"drawdown": units.write("length", place.drawdown)}
    if place.specific_capacity is not None:
        level = {"specific_capacity": units.write("yields", place.specific_capacity)}
    pump = {
        "style": "rotary",
        "inlet_elevation": units.write("length", place.inlet),
        "npsh_required": units.write("length", place.required),
    }
    return {
        "units": units.name,
        "site": {
            "altitude": units.write("length", place.altitude),
            "water_temperature": units.temperature(place.temperature),
        },
        "depth_to_water": units.write("length", place.depth),
        "seasonal_fall": units.write("length", place.seasonal_fall),
        **level,
        "flow": units.write("flow", place.flow),
        "pump": pump | more.pop("pump", {}),
        "intake_elevation": units.write("length", place.intake),
        "line": [part(piece, units) for piece in place.pieces],
        "policy": {"margin": units.write("length", place.policy)},
        **more,
    }


def state(place, units=METRIC, **more):
    return suction_state(decoded(body(place, units, **more)))


# Sites

bores = st.floats(0.012, 0.055)
FITTINGS = ("elbow-90", "elbow-45", "tee-branch", "return-bend-180", "entrance-sharp", "entrance-inward-projecting")
VALVES = ("swing-check", "lift-check-angle", "foot-valve-poppet")

locals_ = st.one_of(
    st.builds(Piece, st.just("fitting"), bores, name=st.sampled_from(FITTINGS)),
    st.builds(
        Piece,
        st.just("valve"),
        bores,
        drop=st.floats(0, 6000),
        name=st.sampled_from(VALVES),
    ),
    st.builds(
        Piece,
        st.sampled_from(["strainer", "idle-pump"]),
        bores,
        drop=st.floats(0, 2e4),
        rated=st.floats(1e-4, 2e-3),
    ),
)


@st.composite
def pipes(draw, start, end):
    length = abs(end - start) + draw(st.floats(0.5, 25))
    wall = draw(st.sampled_from([0.0, 1.5e-6, 1.5e-4]))
    return Piece("pipe", draw(bores), length=length, roughness=wall, end=end)


@st.composite
def places(draw):
    depth, drawdown = draw(st.floats(-1, 9)), draw(st.floats(0, 3))
    intake = -(depth + drawdown) - draw(st.floats(0, 20))
    inlet = draw(st.floats(-6, 3))
    stops = [intake, *draw(st.lists(st.floats(-6, 3), max_size=2)), inlet]
    pieces = draw(st.lists(locals_, max_size=2))
    for start, end in pairwise(stops):
        pieces = [*pieces, draw(pipes(start, end)), *draw(st.lists(locals_, max_size=2))]
    return Place(
        altitude=draw(st.floats(-400, 4500)),
        temperature=draw(st.floats(273.65, 340)),
        depth=depth,
        drawdown=drawdown,
        flow=draw(st.floats(2e-5, 1.5e-3)),
        inlet=inlet,
        intake=intake,
        required=draw(st.floats(0, 6)),
        pieces=tuple(pieces),
    )


# The same site in other units


def numbers(found):
    nodes = [number for node in found.nodes for number in (node.elevation, node.losses, node.absolute_pressure / 1e4)]
    return [
        *nodes,
        found.npsh_available,
        found.npsh_required,
        found.margin,
        found.pumping_depth,
        found.static_lift,
        found.submergence,
    ]


def beside_a_change_of_law(place):
    """Whether the last digit of a flow may decide which law of friction holds."""
    at = ("T", place.temperature, "P|liquid", 101325, "Water")
    viscosity = PropsSI("V", *at) / PropsSI("D", *at)
    bores = [piece.bore for piece in place.pieces if piece.kind == "pipe"]
    return any(abs(4 * place.flow / (math.pi * bore * viscosity) - 2040) < 0.01 for bore in bores)


@settings(max_examples=80, deadline=None)
@given(places(), st.one_of(st.none(), st.floats(1e-4, 1e-2)))
def test_the_same_site_in_feet_and_in_metres_gives_the_same_answer(place, capacity):
    """To 1e-9 before it is told, and to the six digits that it is told with."""
    place = Place(**{**vars(place), "specific_capacity": capacity})
    assume(not beside_a_change_of_law(place))
    metres, feet = state(place, METRIC), state(place, FEET)
    assert numbers(feet) == pytest.approx(numbers(metres), rel=1e-9, abs=1e-9)
    edges = (
        metres.margin,
        metres.margin - metres.policy_margin,
        metres.margin_at_worst - metres.policy_margin,
        metres.above_vapour_at_worst,
        metres.submergence - 1e-6,
        metres.submergence - 0.3 + 1e-6,
    )
    if min(map(abs, edges)) > 1e-9:
        assert feet.verdict == metres.verdict
    told_in_metres, told_in_feet = (SUCTION(decoded(body(place, units))) for units in (METRIC, FEET))
    for name in ("npsh_available", "npsh_required", "margin", "pumping_depth", "static_lift", "losses"):
        by_metres, by_feet = getattr(told_in_metres, name), getattr(told_in_feet, name)
        assert by_feet.base == pytest.approx(by_metres.base, rel=1.1e-5, abs=1e-7), name
    air_by_feet, air_by_metres = told_in_feet.priming, told_in_metres.priming
    assert air_by_feet.line_volume.base == pytest.approx(air_by_metres.line_volume.base, rel=1.1e-5, abs=1e-9)
    if msgspec.UNSET not in (air_by_feet.time, air_by_metres.time):
        assert air_by_feet.time.base == pytest.approx(air_by_metres.time.base, rel=1.1e-5, abs=1e-4)


@settings(max_examples=40, deadline=None)
@given(places())
def test_units_change_only_the_units(place):
    """The same body asked in either system: each quantity is the same, and so is all else but the words."""
    us, metric = (msgspec.to_builtins(SUCTION(decoded(body(place) | {"units": units}))) for units in ("us", "metric"))
    _same(us, metric, "")


def _same(us, metric, place):
    if isinstance(us, dict) and us.keys() == {"value", "unit"}:
        assert to_base(**us) == pytest.approx(to_base(**metric), rel=1.1e-5, abs=1e-9), place
    elif isinstance(us, dict):
        assert us.keys() == metric.keys(), place
        for key in us:
            if key not in ("reasons", "detail", "method", "valid_for"):
                _same(us[key], metric[key], f"{place}/{key}")
    elif isinstance(us, list):
        assert len(us) == len(metric), place
        for index, pair in enumerate(zip(us, metric, strict=True)):
            _same(*pair, f"{place}/{index}")
    else:
        assert us == metric, place


# More of this, less of that


def changed(place, **fields):
    return Place(**{**vars(place), **fields})


@settings(max_examples=40, deadline=None)
@given(places(), st.floats(0.01, 5))
def test_more_lift_leaves_less_margin(place, more):
    """By deeper water, or by a higher pump, metre for metre."""
    margin = state(place).margin
    deeper = state(changed(place, depth=place.depth + more, intake=place.intake)).margin
    assert deeper == pytest.approx(margin - more, abs=1e-9)
    last = max(index for index, piece in enumerate(place.pieces) if piece.kind == "pipe")
    longer = Piece(
        **{**vars(place.pieces[last]), "length": place.pieces[last].length + more, "end": place.inlet + more}
    )
    pieces = (*place.pieces[:last], longer, *place.pieces[last + 1 :])
    assert state(changed(place, inlet=place.inlet + more, pieces=pieces)).margin <= margin - more + 1e-9


@settings(max_examples=40, deadline=None)
@given(places(), st.floats(1.001, 4), st.one_of(st.none(), st.floats(1e-4, 1e-2)))
def test_more_flow_leaves_less_margin(place, growth, capacity):
    """By friction, and by the drawdown where the well's yield is told."""
    place = changed(place, specific_capacity=capacity)
    assert state(changed(place, flow=place.flow * growth)).margin < state(place).margin


@settings(max_examples=40, deadline=None)
@given(places(), st.floats(1, 400))
def test_a_higher_site_leaves_less_margin(place, more):
    assert state(changed(place, altitude=place.altitude + more)).margin < state(place).margin


@settings(max_examples=40, deadline=None)
@given(places(), st.data())
def test_a_longer_line_leaves_less_margin(place, data):
    pipes = [index for index, piece in enumerate(place.pieces) if piece.kind == "pipe"]
    index = data.draw(st.sampled_from(pipes))
    more = data.draw(st.floats(0.1, 100))
    longer = Piece(**{**vars(place.pieces[index]), "length": place.pieces[index].length + more})
    pieces = (*place.pieces[:index], longer, *place.pieces[index + 1 :])
    assert state(changed(place, pieces=pieces)).margin < state(place).margin


@settings(max_examples=40, deadline=None)
@given(places(), st.data())
def test_a_part_less_never_lowers_the_margin(place, data):
    """Where each part has its bore and each pipe its end, so that nothing else hangs on it."""
    assume(len(place.pieces) > 1)
    index = data.draw(st.integers(0, len(place.pieces) - 1))
    pieces = (*place.pieces[:index], *place.pieces[index + 1 :])
    try:
        less = state(changed(place, pieces=pieces))
    except Refused:  # what is left does not reach, or is no line
        assume(False)
    assert less.margin >= state(place).margin - 1e-9


@settings(max_examples=40, deadline=None)
@given(places(), st.lists(locals_, min_size=2, max_size=5), st.randoms())
def test_the_order_of_local_losses_does_not_change_what_is_available(place, losses, random):
    """Only where on the way the pressure falls."""
    shuffled = random.sample(losses, len(losses))
    one, other = (
        state(changed(place, pieces=(*place.pieces[:1], *order, *place.pieces[1:]))) for order in (losses, shuffled)
    )
    assert other.npsh_available == pytest.approx(one.npsh_available, rel=1e-9, abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(places(), st.floats(0.1, 20))
def test_warmer_water_leaves_less_margin_where_the_pipe_costs_nothing(place, more):
    """By its vapour; its lesser weight gives back a small part."""
    wide = tuple(Piece(**{**vars(piece), "bore": 0.9}) if piece.kind == "pipe" else piece for piece in place.pieces)
    place = changed(place, pieces=wide, flow=min(place.flow, 3e-4))
    assert state(changed(place, temperature=place.temperature + more)).margin < state(place).margin


def test_warmer_water_may_leave_more_margin_in_a_long_line():
    """It is thinner: from 1 to 6 degC the viscosity falls by 15 %, the vapour takes 3 cm of head."""
    line = (Piece("pipe", 0.02, length=120.0, end=0.0),)
    place = Place(0.0, 274.15, 3.0, 0.0, 2.5e-4, 0.0, -8.0, 1.0, line)
    assert state(changed(place, temperature=279.15)).margin > state(place).margin + 0.1


@settings(max_examples=30, deadline=None)
@given(places(), st.floats(0, 1))
def test_the_dry_seasons_fall_counts_as_depth(place, share):
    fall = share * 2.0
    deep = state(changed(place, depth=place.depth + fall))
    fallen = state(changed(place, seasonal_fall=fall))
    assert numbers(fallen) == pytest.approx(numbers(deep), rel=1e-9, abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(places(), st.floats(10, 1000), st.sampled_from([1, 2, 3, 4, 5, 6, 7, 9]))
def test_strokes_take_margin_and_a_cushion_gives_most_of_it_back(place, strokes, chambers):
    beat = {"style": "reciprocating", "strokes_per_minute": strokes, "chambers": chambers}
    steady = state(place)
    beating = state(place, pump=beat)
    cushioned = state(place, pump=beat | {"gas_cushion": True})
    assert beating.margin < cushioned.margin + 1e-12
    assert cushioned.margin < steady.margin
    for found in (beating, cushioned):
        taken = found.nodes[-1].acceleration_head
        assert found.margin == pytest.approx(steady.margin - taken, rel=1e-9, abs=1e-9)
