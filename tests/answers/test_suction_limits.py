"""How far one figure may go: each limit fed back is `feasible`, a hair more is not, and nothing turns back below it."""

import math
from typing import get_args

import msgspec
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers import suction_limits as limits_module
from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.suction_state import in_other_bores, on_the_same_line, suction_state
from footvalve.contract.examples import examples
from footvalve.contract.line import NominalSize
from footvalve.contract.problem import Refused
from footvalve.contract.suction_feasibility import LimitName, SuctionFeasibilityRequest
from footvalve.quantity import from_base
from footvalve.tables.pipes import pipe_size

SUCTION = ENDPOINT["suction-feasibility"]
NAMES = get_args(LimitName)
SIZES = get_args(NominalSize)
EXAMPLES = {example.name: example.request for example in examples("suction-feasibility")}


def of(value, unit):
    return {"value": value, "unit": unit}


def decoded(body):
    return msgspec.json.decode(msgspec.json.encode(body), type=SuctionFeasibilityRequest)


def stated(request, name):
    return limits_module.LIMITED[name].stated(request)


def with_value(request, name, value, unit):
    kind = type(stated(request, name))
    return limits_module.LIMITED[name].changed(request, kind(value, unit))


def verdict(request):
    return SUCTION(replace(request, limits=False)).verdict


def limits(request):
    return SUCTION(replace(request, limits=True))


# Lines

SMOOTH = of(0.0015, "mm")
drops = st.floats(100.0, 2e4)
locals_ = st.one_of(
    st.sampled_from(["elbow-90", "tee-branch", "pitless-adapter"]).map(
        lambda name: {"part": "fitting", "fitting": name}
    ),
    st.sampled_from(["swing-check", "gate", "lift-check"]).map(lambda name: {"part": "valve", "valve": name}),
    drops.map(lambda drop: {"part": "valve", "valve": "spring-check", "cracking_pressure": of(drop / 4, "Pa")}),
    drops.map(lambda drop: {"part": "strainer", "rated_flow": of(30, "L/min"), "clean_drop": of(drop, "Pa")}),
    drops.map(lambda drop: {"part": "idle-pump", "flow": of(20, "L/min"), "drop": of(drop, "Pa")}),
    st.floats(1, 50).map(lambda kv: {"part": "resistance", "flow_coefficient": kv, "basis": "Kv"}),
)
bores = st.floats(12, 52).map(lambda mm: {"bore": {"diameter": of(mm, "mm"), "roughness": SMOOTH}})
sizes = st.builds(
    lambda product, nominal: {"size": {"product": product, "nominal": nominal}},
    st.sampled_from(["pvc-sch-40", "copper-l", "pe-sidr-15"]),
    st.sampled_from(SIZES),
)


walls_of_both_kinds = st.one_of(bores, sizes)


@st.composite
def pipes(draw, start, end, walls):
    length = abs(end - start) + draw(st.floats(0.5, 30))
    return {"part": "pipe", "length": of(length, "m"), "end_elevation": of(end, "m"), **draw(walls)}


@st.composite
def bodies(draw, walls=walls_of_both_kinds):
    """Sites near the edge of what can be drawn, each given in metres."""
    depth, inlet, fall = draw(st.floats(-1, 7)), draw(st.floats(-4, 2)), draw(st.floats(0, 2))
    intake = -(depth + fall) - draw(st.floats(0.1, 15))
    crest = draw(st.floats(max(inlet, -3), 2.5))
    level = draw(
        st.sampled_from([{}, {"drawdown": of(fall, "m")}, {"specific_capacity": of(draw(st.floats(0.05, 5)), "L/s/m")}])
    )
    needs = {"npsh_required": of(draw(st.floats(0.5, 4)), "m")}
    if draw(st.booleans()):
        needs = {"rated_suction_lift": of(draw(st.floats(5, 9)), "m")}
    style = {"style": "rotary"}
    if draw(st.integers(0, 3)) == 0:
        style = {"style": "reciprocating", "strokes_per_minute": 200, "chambers": 3, "gas_cushion": True}
    return {
        "units": draw(st.sampled_from(["us", "metric"])),
        "site": {
            "altitude": of(draw(st.floats(-400, 3000)), "m"),
            "water_temperature": of(draw(st.floats(2, 30)), "degC"),
        },
        "depth_to_water": of(depth, "m"),
        "flow": of(draw(st.floats(2, 60)), "L/min"),
        **level,
        "pump": {"inlet_elevation": of(inlet, "m"), **needs, **style},
        "intake_elevation": of(intake, "m"),
        "line": [
            draw(pipes(intake, crest, walls)),
            *draw(st.lists(locals_, max_size=3)),
            draw(pipes(crest, inlet, walls)),
        ],
    }


sites = bodies().map(decoded)


def told_end(request, name, end):
    """The least (0) or the most (1) that a field takes, as it can be told in the unit of the answer."""
    unit = told_unit(request, name)
    return float(limits_module.LIMITED[name].within.told_ends(unit)[end])


def told_unit(request, name):
    us = request.units == "us"
    if name == "greatest_flow":
        return "gal/min" if us else "L/min"
    return "ft" if us else "m"


# The verdict turns at each limit


@settings(max_examples=150)
@given(sites, st.sampled_from(NAMES))
def test_a_limit_fed_back_is_feasible_and_a_hair_more_is_not(request_, name):
    """A hair: a ten-thousandth, far less than anybody can measure."""
    found = limits(request_)
    limit = getattr(found, name)
    assume(limit is not UNSET)
    assert limit.unit == told_unit(request_, name)
    assert limit.value == pytest.approx(float(f"{limit.value:.6g}"), rel=1e-15)
    assert verdict(with_value(request_, name, limit.value, limit.unit)) == "feasible"
    if name not in found.limits_at_range_end:
        hair = limit.value + 1e-4 * abs(limit.value) + 1e-6
        assert verdict(with_value(request_, name, hair, limit.unit)) != "feasible"


@settings(max_examples=150)
@given(sites, st.sampled_from(NAMES), st.floats(0, 1))
def test_all_that_is_less_is_feasible_and_nothing_that_is_more(request_, name, share):
    """Down to the least that the field takes and up to the most: nothing turns back, though friction jumps where the
    flow turns turbulent and a small flow does not lift a check valve's disc."""
    found = limits(request_)
    limit = getattr(found, name)
    assume(limit is not UNSET)
    low, high = (told_end(request_, name, end) for end in (0, 1))
    less, more = (between(end, limit.value, share, name) for end in (low, high))
    assert verdict(with_value(request_, name, less, limit.unit)) == "feasible"
    if more > limit.value * (1 + math.copysign(1e-4, limit.value)) + 1e-6:
        assert verdict(with_value(request_, name, more, limit.unit)) != "feasible"


def between(end, limit, share, name):
    if name == "greatest_flow":
        return min(max(end ** (1 - share) * limit**share, min(end, limit)), max(end, limit))
    return end + (limit - end) * share


@settings(max_examples=100)
@given(sites, st.sampled_from(NAMES))
def test_a_limit_is_absent_only_where_the_least_that_the_field_takes_is_too_much(request_, name):
    least = with_value(request_, name, told_end(request_, name, 0), told_unit(request_, name))
    assert (getattr(limits(request_), name) is UNSET) == (verdict(least) != "feasible")


@settings(max_examples=100)
@given(sites, st.sampled_from(NAMES))
def test_a_limit_at_the_end_of_its_range_is_said_to_be_one(request_, name):
    found = limits(request_)
    most = told_end(request_, name, 1)
    allowed = verdict(with_value(request_, name, most, told_unit(request_, name))) == "feasible"
    assert (name in found.limits_at_range_end) == allowed
    if allowed:
        assert getattr(found, name).value == most


@settings(max_examples=60)
@given(sites, st.sampled_from(NAMES), st.floats(0, 1))
def test_a_limit_does_not_hang_on_what_was_stated_of_its_own_field(request_, name, share):
    """From wherever it is sought it is the same, to its last digit."""
    unit = told_unit(request_, name)
    low, high = told_end(request_, name, 0), told_end(request_, name, 1)
    elsewhere = with_value(request_, name, between(low, high, share, name), unit)
    one, other = (getattr(limits(asked), name) for asked in (request_, elsewhere))
    if one is UNSET:
        assert other is UNSET
    else:
        assert other.value == pytest.approx(one.value, rel=2.1e-5, abs=1e-8)


@settings(max_examples=60)
@given(sites)
def test_the_limits_are_the_same_in_either_system(request_):
    us, metric = (limits(replace(request_, units=units)) for units in ("us", "metric"))
    assert us.limits_at_range_end == metric.limits_at_range_end
    for name in NAMES:
        in_feet, in_metres = getattr(us, name), getattr(metric, name)
        if in_feet is UNSET:
            assert in_metres is UNSET
        else:
            assert in_feet.base == pytest.approx(in_metres.base, rel=2.1e-5, abs=1e-8)
    assert (us.smallest_size is UNSET) == (metric.smallest_size is UNSET)
    if us.smallest_size is not UNSET:
        assert us.smallest_size.nominal == metric.smallest_size.nominal
        assert us.smallest_size.bore.base == pytest.approx(metric.smallest_size.bore.base, rel=1e-5)


@settings(max_examples=150)
@given(sites)
def test_a_line_wants_nothing_where_it_is_feasible_and_only_there(request_):
    """The limits are sought by the shortfall: it must be of one mind with the verdict."""
    state = suction_state(request_)
    assert (state.shortfall <= 0.0) == (state.verdict == "feasible")


# By hand


def site(**changes):
    """4 m to the water, half a metre of drawdown, 12 L/min through 26 mm, the pump on the ground."""
    wall = {"bore": {"diameter": of(26, "mm"), "roughness": SMOOTH}}
    sound = {
        "units": "metric",
        "depth_to_water": of(4, "m"),
        "drawdown": of(0.5, "m"),
        "flow": of(12, "L/min"),
        "pump": {"style": "rotary", "inlet_elevation": of(0, "m"), "npsh_required": of(3, "m")},
        "intake_elevation": of(-9.5, "m"),
        "line": [{"part": "pipe", "length": of(20, "m"), "end_elevation": of(0, "m"), **wall}],
    }
    return decoded(sound | changes)


def test_the_water_may_stand_deeper_by_what_the_margin_has_to_spare():
    state = suction_state(site())
    spare = state.margin - state.policy_margin
    assert limits(site()).greatest_depth_to_water.value == pytest.approx(4.0 + spare, abs=1e-5)


def test_the_water_may_fall_to_a_foot_over_the_intake():
    """Where that comes before the margin: 0.3 m over 6 m, with half a metre of drawdown."""
    assert limits(site(intake_elevation=of(-6, "m"))).greatest_depth_to_water.value == pytest.approx(5.2, abs=1e-5)


def test_in_a_wide_line_the_wells_yield_ends_the_flow():
    """Of the drawdown: 0.01 L/s for each metre of what is to spare."""
    wide = {"part": "pipe", "length": of(20, "m"), "end_elevation": of(0, "m")}
    wide |= {"bore": {"diameter": of(500, "mm"), "roughness": SMOOTH}}
    poor = site(line=[wide], drawdown=of(0, "m"))
    state = suction_state(poor)
    poor = decoded(msgspec.to_builtins(replace(poor, drawdown=UNSET)) | {"specific_capacity": of(0.01, "L/s/m")})
    expected = 0.01 * 60 * (state.margin - state.policy_margin)
    assert limits(poor).greatest_flow.value == pytest.approx(expected, rel=1e-4)


def test_a_limit_where_the_flow_turns_turbulent_is_told_on_the_laminar_side():
    """300 m of 12 mm: at Re 2040 the friction jumps from 1.76 to 2.76 m, and between them lies what may be taken."""
    wall = {"bore": {"diameter": of(12, "mm"), "roughness": SMOOTH}}
    line = [{"part": "pipe", "length": of(300, "m"), "end_elevation": of(0, "m"), **wall}]
    thin = site(line=line, flow=of(0.5, "L/min"), depth_to_water=of(4, "m"), drawdown=of(0, "m"))
    limit = limits(thin).greatest_flow
    at, after = (
        suction_state(with_value(thin, "greatest_flow", flow, "L/min")) for flow in (limit.value, 1.00001 * limit.value)
    )
    assert after.nodes[-1].losses > at.nodes[-1].losses + 0.5
    reynolds = 4 * limit.base / (math.pi * 0.012 * at.drawn.kinematic_viscosity)
    assert reynolds == pytest.approx(2040, rel=1e-5)
    assert reynolds < 2040
    assert (at.verdict, after.verdict) == ("feasible", "marginal")


def test_a_disc_that_hangs_counts_at_any_small_flow():
    """What it may take does not fall with the flow, so that no flow is feasible where a smaller one is not."""
    valve = {"part": "valve", "valve": "lift-check", "bore": {"diameter": of(26, "mm")}}
    policy = suction_state(site()).margin - 0.2
    hanging = site(line=[valve, *msgspec.to_builtins(site()).get("line")], policy={"margin": of(policy, "m")})
    assert limits(hanging).greatest_flow is UNSET
    assert suction_state(with_value(hanging, "greatest_flow", 0.01, "L/min")).verdict == "marginal"


# Size


@settings(max_examples=80)
@given(bodies(walls=sizes).map(decoded))
def test_the_smallest_size_is_feasible_and_no_smaller_one_is(request_):
    smallest = limits(request_).smallest_size
    by_size = {nominal: verdict(in_size(request_, nominal)) for nominal in SIZES}
    assert (smallest is UNSET) == ("feasible" not in by_size.values())
    if smallest is not UNSET:
        at = SIZES.index(smallest.nominal)
        assert [by_size[nominal] == "feasible" for nominal in SIZES] == [index >= at for index in range(len(SIZES))]
        products = [part.size.product for part in request_.line if hasattr(part, "size")]
        narrowest = min(pipe_size(product=product, nominal=smallest.nominal).inside_diameter for product in products)
        assert smallest.bore.base == pytest.approx(narrowest, rel=1e-5)


def in_size(request, nominal):
    def sized(part):
        if not hasattr(part, "size") or part.size is UNSET:
            return part
        return replace(part, size=replace(part.size, nominal=nominal))

    return replace(request, line=[sized(part) for part in request.line])


def test_pipes_that_are_given_by_their_bore_have_no_size():
    assert limits(site()).smallest_size is UNSET


def test_a_change_of_bore_that_no_size_leaves_in_place_leaves_no_smallest_size():
    """Two pipes of one product are alike in every size."""
    narrow, wide = (
        {"part": "pipe", "length": of(12, "m"), "size": {"product": "copper-l", "nominal": nominal}}
        for nominal in ("1", "2")
    )
    stepped = site(line=[wide, {"part": "fitting", "fitting": "sudden-contraction"}, narrow])
    assert limits(stepped).smallest_size is UNSET
    assert limits(site(line=[wide, narrow])).smallest_size.nominal == "3/4"


# What is asked and what is told


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_is_told_that_was_not_asked_for(name):
    """And nothing else of the answer changes by the asking."""
    plain = SUCTION(replace(decoded(EXAMPLES[name]), limits=False))
    asked = SUCTION(replace(decoded(EXAMPLES[name]), limits=True))
    assert plain.greatest_flow is plain.limits_at_range_end is plain.levers is UNSET
    told = dict.fromkeys((*NAMES, "smallest_size", "limits_at_range_end", "levers"), UNSET)
    assert replace(asked, **told) == plain


@pytest.mark.parametrize("end", ["low", "high"])
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_field_that_stands_at_an_end_of_its_range_has_its_limit_as_well(name, end, units):
    """In the answer's unit the end may have more digits than are told."""
    base = getattr(limits_module.LIMITED[name].within, end)
    unit = stated(site(), name).unit
    at_end = replace(with_value(site(), name, float(f"{from_base(base, unit):.12g}"), unit), units=units)
    one, other = (getattr(limits(request), name) for request in (at_end, replace(site(), units=units)))
    assert other.value == pytest.approx(one.value, rel=2.1e-5)


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_line_is_reckoned_only_a_few_times(name, monkeypatch):
    """Fewer than 35 times for all limits, most of them without looking the line up again."""
    reckoned = []

    def counted(function):
        return lambda *args: reckoned.append(function.__name__) or function(*args)

    for function in (on_the_same_line, in_other_bores):
        monkeypatch.setattr(limits_module, function.__name__, counted(function))
    limits(decoded(EXAMPLES[name]))
    assert len(reckoned) < 35
    assert reckoned.count("in_other_bores") <= 7


@settings(max_examples=60)
@given(sites, sites)
def test_a_line_that_is_kept_gives_the_same_as_one_that_is_looked_up_again(one, other):
    """With another's flow, level, site and policy."""
    changed = replace(one, flow=other.flow, depth_to_water=other.depth_to_water, site=other.site, policy=other.policy)
    assert on_the_same_line(suction_state(one), changed) == suction_state(changed)


@pytest.mark.parametrize("name", EXAMPLES)
@pytest.mark.parametrize("nominal", ["1/2", "1", "2"])
def test_other_bores_give_the_same_as_a_line_that_is_looked_up_again(name, nominal):
    request = decoded(EXAMPLES[name])
    line = [
        replace(part, size=replace(part.size, nominal=nominal)) if getattr(part, "size", UNSET) is not UNSET else part
        for part in request.line
    ]
    changed = replace(request, line=line)
    assert in_other_bores(suction_state(request), changed) == suction_state(changed)


def test_a_request_that_is_refused_is_refused_with_limits_too():
    with pytest.raises(Refused):
        SUCTION(replace(site(pump={"style": "rotary", "inlet_elevation": of(0, "m")}), limits=True))
