"""What must hold of every plan, over random sites: an answer that fits the contract, or a refusal with places."""

import math
from itertools import pairwise

import msgspec
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from footvalve.answers.site_plan import site_plan
from footvalve.contract.problem import Refused
from footvalve.contract.ranges import outside_ranges
from footvalve.contract.site_plan import SitePlanAnswer, SitePlanRequest

THOROUGH = settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
CENTRAL = settings(THOROUGH, max_examples=40)


def of(value, unit):
    return {"value": value, "unit": unit}


def decoded(body):
    request = msgspec.json.decode(msgspec.json.encode(body), type=SitePlanRequest)
    assert not list(outside_ranges(request)), "the strategy leaves the contract's ranges"
    return request


def logarithmic(low, high):
    return st.floats(math.log(low), math.log(high)).map(lambda power: min(max(math.exp(power), low), high))


def metres(low, high):
    return st.floats(low, high).map(lambda value: of(value, "m"))


SIZES = st.fixed_dictionaries(
    {
        "product": st.sampled_from(["pe-sidr-15", "pvc-sch-40", "copper-m", "steel-galvanized-sch-40"]),
        "nominal": st.sampled_from(["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"]),
    }
)
BORES = st.builds(
    lambda bore, rough: {"bore": {"diameter": of(bore, "mm"), "roughness": of(bore * rough, "mm")}},
    logarithmic(8, 150),
    st.floats(0, 0.04),
)
PIPES = st.builds(
    lambda wall, length: {"part": "pipe", "length": of(length, "m"), **wall},
    st.one_of(BORES, SIZES.map(lambda size: {"size": size})),
    logarithmic(0.05, 100),
)
PIECES = st.one_of(
    st.builds(
        lambda name, count: {"part": "fitting", "fitting": name, "count": count},
        st.sampled_from(["elbow-90", "tee-branch", "pitless-adapter", "entrance-sharp", "exit"]),
        st.integers(1, 9),
    ),
    st.builds(
        lambda spring: {"part": "valve", "valve": "spring-check", "cracking_pressure": of(spring, "Pa")},
        st.floats(0, 1e4),
    ),
    st.sampled_from(["foot-valve-hinged", "ball", "globe"]).map(lambda name: {"part": "valve", "valve": name}),
    st.builds(
        lambda flow, clean, more: {
            "part": "strainer",
            "rated_flow": of(flow, "L/min"),
            "clean_drop": of(clean, "Pa"),
            "dirty_drop": of(clean + more, "Pa"),
        },
        logarithmic(5, 100),
        st.floats(0, 5e3),
        st.floats(0, 2e4),
    ),
    st.builds(
        lambda flow, drop: {"part": "idle-pump", "flow": of(flow, "L/min"), "drop": of(drop, "Pa")},
        logarithmic(5, 100),
        st.floats(0, 2e4),
    ),
    st.builds(lambda kv: {"part": "resistance", "flow_coefficient": kv, "basis": "Kv"}, logarithmic(1, 1000)),
)


@st.composite
def suction_lines(draw, intake, inlet):
    """Parts around one to three pipes, each long enough for the way that it goes."""
    levels = [intake, *draw(st.lists(st.floats(min(intake, inlet), max(intake, inlet) + 2), max_size=2)), inlet]
    line = draw(st.lists(PIECES, max_size=2))
    for start, end in pairwise(levels):
        pipe = dict(draw(PIPES))
        pipe["length"] = of(max(pipe["length"]["value"], abs(end - start) + 0.05), "m")
        line += [pipe | ({"end_elevation": of(end, "m")} if draw(st.booleans()) else {})]
        line += draw(st.lists(PIECES, max_size=2))
    if "end_elevation" not in str(line):
        return line
    first = next(part for part in line if part["part"] == "pipe")
    first.setdefault("end_elevation", of(levels[1], "m"))
    for part, end in zip([p for p in line if p["part"] == "pipe"], levels[1:], strict=True):
        part["end_elevation"] = of(end, "m")
    return line


@st.composite
def pumps(draw, inlet):
    """Points from a low rise up to a few bar, the flow falling a little or down to shut-off."""
    inside = sorted(draw(st.lists(st.floats(0.01, 0.99), max_size=5, unique_by=lambda share: round(share, 4))))
    low, high = draw(st.floats(0, 6e4)), draw(st.floats(3e5, 1.2e6))
    rises = [low + (high - low) * share for share in (0.0, *inside, 1.0)]
    greatest, least = draw(logarithmic(5e-6, 5e-3)), draw(st.sampled_from([0.0, 0.5, 1.0]) | st.floats(0, 1))
    falls = sorted((1 - least) * draw(st.floats(0, 1)) for _ in inside)
    flows = [greatest * (1 - fall) for fall in (0.0, *falls, 1 - least)]
    currents = draw(st.none() | st.lists(st.floats(0.5, 60), min_size=len(rises), max_size=len(rises)))
    points = [
        {"pressure": of(rise, "Pa"), "flow": of(flow * 1000 if flow >= 1.001e-6 else 0.0, "L/s")}
        for rise, flow in zip(rises, flows, strict=True)
    ]
    if currents is not None:
        points = [point | {"current": of(amperes, "A")} for point, amperes in zip(points, currents, strict=True)]
    style = draw(
        st.sampled_from(
            [
                {"style": "rotary"},
                {"style": "centrifugal"},
                {"style": "reciprocating", "strokes_per_minute": 300, "chambers": 3, "gas_cushion": True},
            ]
        )
    )
    needs = draw(
        st.one_of(
            metres(0, 8).map(lambda length: {"npsh_required": length}),
            metres(0, 9).map(lambda length: {"rated_suction_lift": length}),
        )
    )
    return {**style, **needs, "inlet_elevation": of(inlet, "m"), "points": points}


@st.composite
def wells(draw, depth):
    """One of the four yields; readings as a well of some time constant gives them."""
    kind = draw(st.sampled_from(["drawdown", "specific_capacity", "recovery", "pumping_test"]))
    if kind == "drawdown":
        return {"drawdown": draw(metres(0, 5))}
    if kind == "specific_capacity":
        return {"specific_capacity": of(draw(logarithmic(1e-3, 10)), "L/s/m")}
    casing = {"casing_diameter": of(draw(logarithmic(0.1, 2)), "m")}
    if kind == "pumping_test":
        test = {
            "flow": of(draw(logarithmic(0.5, 60)), "L/min"),
            "pumping_depth": of(depth + draw(logarithmic(0.05, 10)), "m"),
            "duration": of(draw(logarithmic(0.1, 24)), "h"),
        }
        return casing | {"pumping_test": test}
    initial, constant = draw(logarithmic(0.2, 10)), draw(logarithmic(120, 1e5))
    readings = [
        {"elapsed": of(t, "s"), "depth": of(depth + initial * math.exp(-t / constant), "m")}
        for t in (0, 300, 900, 1800, 3600)
    ]
    return casing | {"recovery": {"readings": readings}}


BATTERIES = st.builds(
    lambda kind, capacity, parallel: {
        "chemistry": kind,
        "capacity": of(capacity, "Ah"),
        "rated_hours": 20,
        "voltage": of(12, "V"),
        "parallel": parallel,
    },
    st.sampled_from(["flooded", "agm", "gel", "lfp"]),
    logarithmic(5, 500),
    st.integers(1, 4),
)
CHARGERS = st.lists(st.floats(0, 60).map(lambda value: of(value, "A")), min_size=1, max_size=3)
SUN = st.one_of(st.lists(st.floats(0, 8), min_size=12, max_size=12), st.lists(st.floats(0, 8), min_size=1, max_size=1))


@st.composite
def plans(draw, whole=False):
    """A site; of the optional parts any, or with `whole` all that the battery takes."""
    depth, intake_below = draw(st.floats(-2, 9)), draw(st.floats(0.2, 40))
    intake, inlet = -depth - intake_below, draw(st.floats(-4, 4))
    pump = draw(pumps(inlet))
    most = pump["points"][-1]["pressure"]["value"]
    cut_in = draw(st.floats(2e4, 0.5 * most))
    body = {
        "units": draw(st.sampled_from(["us", "metric"])),
        "site": {
            "altitude": draw(metres(-400, 4000)),
            "water_temperature": of(draw(st.floats(1, 30)), "degC"),
            "air_temperature": of(draw(st.floats(-10, 40)), "degC"),
        },
        "seasonal_fall": draw(metres(0, 3)),
        "intake_elevation": of(intake, "m"),
        "suction_line": draw(suction_lines(intake, inlet)),
        "pump": pump,
        "switch": {"cut_in": of(cut_in, "Pa"), "cut_out": of(cut_in + draw(logarithmic(2e3, 0.45 * most)), "Pa")},
        "house_elevation": draw(metres(-3, 15)),
    }
    if draw(st.booleans()):
        body["depth_to_water"] = of(depth, "m")
    else:
        body["sounding"] = {"measurement": {"method": "direct", "depths": [of(depth, "m"), of(depth + 0.004, "m")]}}
    tanks = st.lists(
        st.builds(
            lambda volume, share: {"volume": of(volume, "L"), "precharge": of(share * cut_in, "Pa")},
            logarithmic(5, 1000),
            st.floats(0.3, 1.0),
        ),
        min_size=1,
        max_size=3,
    )
    optional = {
        "well": wells(depth),
        "delivery_line": st.lists(PIPES, min_size=1, max_size=3),
        "tanks": tanks,
        "tank_elevation": metres(-3, 5),
        "demand": logarithmic(1e-5, 1).map(lambda value: of(value, "L/s")),
        "least_run": st.floats(5, 600).map(lambda value: of(value, "s")),
        "charger": CHARGERS.map(lambda currents: {"currents": currents}),
        "solar": SUN.map(lambda hours: {"array_power": of(200, "W"), "sun_hours": hours}),
        "days": st.integers(1, 10),
        "loads": st.just([{"name": "lamp", "current": of(0.2, "A"), "hours_per_day": 24}]),
        "wire": st.just({"length": of(2, "m"), "area": of(50, "mm^2")}),
    }
    needed = {"daily_water": logarithmic(0.001, 3).map(lambda value: of(value, "m^3")), "battery": BATTERIES}
    for name, values in (optional | needed).items():
        if (whole and name in needed) or draw(st.booleans()):
            body[name] = draw(values)
    return body


def outcome(body):
    """The answer, or None for a refusal; both keep the contract."""
    try:
        answer = site_plan(decoded(body))
    except Refused as refused:
        faults = refused.faults
        answer = None
    if answer is None:
        assert faults
        for fault in faults:
            assert points_into(fault.pointer, body), fault
        return None
    wire = msgspec.json.encode(answer)
    assert b":null" not in wire
    assert msgspec.json.decode(wire, type=SitePlanAnswer) == answer
    return answer


def points_into(pointer, body):
    """Whether the place exists in the body, or is a field that its object lacks."""
    *parents, last = pointer.split("/")[1:]
    for step in parents:
        if isinstance(body, dict) and step not in body:
            return False
        body = body[int(step)] if isinstance(body, list) else body[step]
    return isinstance(body, dict) or int(last) < len(body)


def near(value, other, tolerance=2e-5):
    """Told to six digits, two numbers of one sum agree to about this."""
    return value == pytest.approx(other, rel=tolerance, abs=1e-9)


def test_a_plan_is_answered_or_refused_whatever_the_site():
    outcomes = []

    @THOROUGH
    @given(plans())
    def holds(body):
        answer = outcome(body)
        outcomes.append(answer)
        if answer is None:
            return
        assert 1 <= len(answer.summary) <= 5
        assert (answer.verdict == "feasible") == (not answer.reasons)
        codes = [caution.code for caution in answer.cautions]
        assert len(set(codes)) == len(codes)
        assert codes[-1] == "local-code"
        for told in (*answer.warnings, *answer.levers):
            assert points_into(told.pointer, body), told
        suction = answer.suction_feasibility
        assert (suction is msgspec.UNSET) == (answer.duty.cut_in is msgspec.UNSET)
        if suction is not msgspec.UNSET:
            assert (answer.verdict == "infeasible") >= (suction.verdict == "infeasible")
            assert not answer.levers or suction.verdict != "feasible"

    holds()
    answered = sum(answer is not None for answer in outcomes) / len(outcomes)
    assert answered > 0.6, "most requests are refused: the strategy tests too little"
    duties = sum(answer is not None and answer.duty.mean is not msgspec.UNSET for answer in outcomes)
    assert duties > 0.25 * len(outcomes), "most pumps do not reach cut-out: the strategy tests too little"


@CENTRAL
@given(plans(whole=True))
def test_water_and_charge_are_conserved_over_the_day(body):
    """Run hours times mean flow is the day's water; times mean current it is the day's charge; and so by the volume."""
    answer = outcome(body)
    assume(answer is not None and answer.duty.mean is not msgspec.UNSET)
    duty = answer.duty
    water = decoded(body).daily_water.base
    seconds = 3600 * duty.run_hours_per_day
    assert near(duty.mean.flow.base * seconds, water)
    if duty.mean.current is msgspec.UNSET:
        assert duty.charge_per_day is msgspec.UNSET
        return
    assert near(duty.mean.current.base * duty.run_hours_per_day, duty.charge_per_day.base)
    per = duty.charge_per_volume
    assert near(per.charge.base * water / per.volume.base, duty.charge_per_day.base)
    if answer.battery_runtime is not msgspec.UNSET:
        assert near(answer.battery_runtime.pump_hours_per_day, duty.run_hours_per_day)


@CENTRAL
@given(plans(whole=True))
def test_the_duty_falls_from_cut_in_to_cut_out_and_the_steps_agree_with_it(body):
    answer = outcome(body)
    assume(answer is not None and answer.duty.mean is not msgspec.UNSET)
    duty, suction = answer.duty, answer.suction_feasibility
    flows = [duty.cut_in.flow.base, duty.mean.flow.base, duty.cut_out.flow.base]
    assert flows[0] * (1 + 1e-5) >= flows[1] >= flows[2] * (1 - 1e-5)
    assert duty.cut_in.pump_rise.base <= duty.cut_out.pump_rise.base
    assert duty.greatest_tank_pressure.base >= duty.cut_out.tank_pressure.base * (1 - 1e-5)
    losses = suction.losses.base
    if answer.friction is not msgspec.UNSET:
        assert answer.friction.flow == duty.cut_in.flow
        losses += answer.friction.total_head_loss.base
    request = decoded(body)
    stands = request.house_elevation if request.tank_elevation is msgspec.UNSET else request.tank_elevation
    head = stands.base + suction.pumping_depth.base + losses
    density = 1000.0 / (1 + 3e-5 * max(request.site.water_temperature.base - 277.15, 0) ** 1.5)
    rise = duty.cut_in.tank_pressure.base + density * 9.80665 * head
    assert duty.cut_in.pump_rise.base == pytest.approx(rise, rel=2e-3, abs=500), "rise is pressure, height and losses"
    tank = answer.tank_cycle
    if tank is not msgspec.UNSET:
        assert near(duty.mean.flow.base * tank.shortest_run.base, tank.drawdown.base, 5e-5)


@CENTRAL
@given(plans())
def test_the_same_site_in_feet_and_in_metres_gets_the_same_plan(body):
    us, metric = (outcome(body | {"units": units}) for units in ("us", "metric"))
    assert (us is None) == (metric is None)
    assume(us is not None)
    assert us.verdict == metric.verdict
    assert len(us.reasons) == len(metric.reasons)
    assert [warning.pointer for warning in us.warnings] == [warning.pointer for warning in metric.warnings]
    pairs = [
        (getattr(us.duty, place), getattr(metric.duty, place), field)
        for place, field in [
            ("cut_in", "flow"),
            ("cut_in", "pump_rise"),
            ("cut_in", "current"),
            ("mean", "flow"),
            ("mean", "current"),
            ("cut_out", "flow"),
        ]
    ]
    for one, other, field in pairs:
        assert (one is msgspec.UNSET) == (other is msgspec.UNSET)
        if one is not msgspec.UNSET and getattr(one, field) is not msgspec.UNSET:
            assert near(getattr(one, field).base, getattr(other, field).base, 1e-5)


def rising(body):
    """The plan of a body whose pump reaches cut-out, or nothing."""
    answer = outcome(body)
    assume(answer is not None and answer.duty.mean is not msgspec.UNSET)
    return answer.duty


@CENTRAL
@given(plans(), st.floats(0.05, 3))
def test_a_higher_tank_means_less_flow(body, more):
    stands = body.get("tank_elevation", body["house_elevation"])["value"]
    low, high = (rising(body | {"tank_elevation": of(stands + by, "m")}) for by in (0.0, more))
    assert high.cut_in.flow.base <= low.cut_in.flow.base * (1 + 1e-5)
    assert high.mean.flow.base <= low.mean.flow.base * (1 + 1e-5)


@CENTRAL
@given(plans(), st.floats(1.05, 3))
def test_a_longer_delivery_line_means_less_flow(body, longer):
    pipe = {"part": "pipe", "size": {"product": "copper-l", "nominal": "1"}}
    short, long = (rising(body | {"delivery_line": [pipe | {"length": of(m, "m")}]}) for m in (10, 10 * longer))
    assert long.cut_in.flow.base <= short.cut_in.flow.base * (1 + 1e-5)


@CENTRAL
@given(plans(), st.floats(0.05, 2))
def test_a_drier_season_means_less_flow_and_less_margin(body, more):
    wetter = rising(body | {"seasonal_fall": of(0, "m")})
    drier = rising(body | {"seasonal_fall": of(more, "m")})
    assert drier.cut_in.flow.base <= wetter.cut_in.flow.base * (1 + 1e-5)
