"""Single changes that would better a suction side: each fed back gives what was told, and a hair less does not."""

import math
import re
from copy import deepcopy

import msgspec
import pytest

from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.plan_duty import pump_duty
from footvalve.answers.plan_levers import changes
from footvalve.answers.plan_requests import suction_request
from footvalve.answers.plan_state import plan_state
from footvalve.answers.site_plan import site_plan
from footvalve.contract.examples import examples
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.quantity import to_base

EXAMPLES = {example.name: example.request for example in examples("site-plan")}
SUCTION = ENDPOINT["suction-feasibility"]


def of(value, unit):
    return {"value": value, "unit": unit}


def decoded(body):
    return msgspec.json.decode(msgspec.json.encode(body), type=SitePlanRequest)


def narrow(**more):
    """The example out of reach, with other fields."""
    return deepcopy(EXAMPLES["out-of-reach"]) | more


RATED = EXAMPLES["us"] | {"pump": EXAMPLES["us"]["pump"] | {"rated_suction_lift": of(16, "ft")}}
SLOW_WELL = EXAMPLES["us"] | {
    "well": {
        "casing_diameter": of(36, "in"),
        "pumping_test": {
            "flow": of(4, "gal/min"),
            "pumping_depth": of(53, "ft"),
            "duration": of(10, "h"),
        },
    },
    "pump": EXAMPLES["us"]["pump"]
    | {
        "points": [
            {"pressure": of(10, "psi"), "flow": of(5.2, "gal/min"), "current": of(9, "A")},
            {"pressure": of(90, "psi"), "flow": of(5, "gal/min"), "current": of(20, "A")},
        ]
    },
}
SITES = {
    "marginal": EXAMPLES["metric-marginal"],
    "infeasible": EXAMPLES["out-of-reach"],
    "by rated lift": RATED,
    "a well that falls to its limit": SLOW_WELL,
    "boiling at a crest": narrow(depth_to_water=of(17, "ft")),
}
POINTERS = {
    "marginal": {
        "/suction_line/1/size/nominal",
        "/suction_line/4/dirty_drop",
        "/pump/inlet_elevation",
        "/pump/points",
        "/pump/npsh_required",
    },
    "infeasible": {
        "/suction_line/1/size/nominal",
        "/pump/inlet_elevation",
        "/pump/points",
    },
    "by rated lift": {
        "/pump/inlet_elevation",
        "/pump/points",
        "/pump/rated_suction_lift",
    },
}


def found(body):
    state = plan_state(decoded(body))
    return state, changes(state, pump_duty(state))


@pytest.mark.parametrize("site", POINTERS)
def test_every_kind_of_change_that_betters_the_site_is_told(site):
    answer = site_plan(decoded(SITES[site]))
    assert {lever.pointer for lever in answer.levers} == POINTERS[site]


@pytest.mark.parametrize("body", SITES.values(), ids=SITES.keys())
def test_a_change_fed_back_into_the_plan_gives_the_margin_and_the_verdict_that_were_told(body):
    state, tried = found(body)
    levers = site_plan(state.request).levers
    assert len(levers) == len(tried) > 0
    for lever, change in zip(levers, tried, strict=True):
        if change.pointer == "/pump/points":
            suction = SUCTION(suction_request(change.request, state.well, change.after.flow))
        else:
            suction = site_plan(change.request).suction_feasibility
        assert suction.margin == lever.margin, lever
        assert suction.verdict == lever.verdict, lever


@pytest.mark.parametrize("body", SITES.values(), ids=SITES.keys())
def test_the_sufficient_changes_come_first_and_all_of_them_help(body):
    answer = site_plan(decoded(body))
    verdicts = [lever.verdict == "feasible" for lever in answer.levers]
    assert verdicts == sorted(verdicts, reverse=True)
    assert all(lever.margin.base > answer.suction_feasibility.margin.base for lever in answer.levers)


def sufficient(body, pointer):
    (change,) = (change for change in found(body)[1] if change.pointer == pointer)
    assert change.after.verdict == "feasible"
    return change


@pytest.mark.parametrize("site", ["marginal", "infeasible", "by rated lift"])
def test_a_pump_that_stands_a_hair_higher_than_told_is_not_feasible(site):
    """Rounded up to three digits: a hundredth of the way less is short in any case."""
    request = decoded(SITES[site])
    change = sufficient(SITES[site], "/pump/inlet_elevation")
    told, stood = change.request.pump.inlet_elevation.base, request.pump.inlet_elevation.base
    by = 0.985 * (stood - told)
    line = list(request.suction_line)
    last = max(index for index, part in enumerate(line) if hasattr(part, "length"))
    end = {"end_elevation": msgspec.structs.replace(line[last].length, value=stood - by, unit="m")}
    line[last] = msgspec.structs.replace(
        line[last],
        length=msgspec.structs.replace(line[last].length, value=line[last].length.base + by, unit="m"),
        **end,
    )
    pump = msgspec.structs.replace(request.pump, inlet_elevation=end["end_elevation"])
    higher = msgspec.structs.replace(change.request, suction_line=line, pump=pump)
    assert site_plan(higher).suction_feasibility.verdict != "feasible"


@pytest.mark.parametrize("site", ["marginal", "infeasible", "by rated lift"])
def test_a_hair_more_flow_than_told_is_not_feasible(site):
    state, _ = found(SITES[site])
    change = sufficient(SITES[site], "/pump/points")
    more = suction_request(change.request, state.well, 1.011 * change.after.flow)
    assert SUCTION(more).verdict != "feasible"
    assert SUCTION(suction_request(change.request, state.well, change.after.flow)).verdict == "feasible"


def test_less_flow_is_the_flow_that_the_words_tell():
    change = sufficient(SITES["marginal"], "/pump/points")
    value, unit = re.search(r"no more than ([\d.]+) (\S+),", change.text).groups()
    assert change.after.flow == pytest.approx(to_base(float(value), unit), rel=1e-12)


@pytest.mark.parametrize("style", ["rotary", "centrifugal"])
def test_a_valve_behind_the_pump_is_told_of_a_centrifugal_one_alone(style):
    """A displacement pump gives hardly less against a valve, and its pressure rises. Common practice, no source."""
    body = narrow()
    body["pump"]["style"] = style
    assert ("a valve behind it" in sufficient(body, "/pump/points").text) == (style == "centrifugal")


def test_a_pump_that_needs_a_hair_more_is_not_feasible():
    change = sufficient(SITES["marginal"], "/pump/npsh_required")
    needed = change.request.pump.npsh_required
    harder = msgspec.structs.replace(
        change.request.pump, npsh_required=msgspec.structs.replace(needed, value=1.011 * needed.value)
    )
    request = msgspec.structs.replace(change.request, pump=harder)
    assert site_plan(request).suction_feasibility.verdict == "marginal"


def test_a_pump_with_a_hair_less_rated_lift_is_not_feasible():
    change = sufficient(RATED, "/pump/rated_suction_lift")
    lift = change.request.pump.rated_suction_lift
    harder = msgspec.structs.replace(
        change.request.pump, rated_suction_lift=msgspec.structs.replace(lift, value=0.99 * lift.value)
    )
    request = msgspec.structs.replace(change.request, pump=harder)
    assert site_plan(request).suction_feasibility.verdict != "feasible"


def test_the_wider_pipe_is_the_first_size_that_suffices():
    """1 in makes the marginal site feasible; a site that no size makes so is told of the largest."""
    assert sufficient(EXAMPLES["metric-marginal"], "/suction_line/1/size/nominal").text.startswith("Take 1 in instead")
    (largest,) = (c for c in found(EXAMPLES["out-of-reach"])[1] if c.pointer.endswith("nominal"))
    assert largest.text.startswith("Take 2 in instead of 3/4 in for the 79 ft")
    assert largest.after.verdict != "feasible"


def test_all_pipes_of_the_size_are_widened():
    change = sufficient(EXAMPLES["metric-marginal"], "/suction_line/1/size/nominal")
    sizes = [part.size.nominal for part in change.request.suction_line if hasattr(part, "size")]
    assert sizes == ["1", "1"]


def test_a_measured_bore_is_widened_as_far_as_it_has_to_be():
    """With the flow that the pump gives through it; a hair narrower, at the third digit, falls short."""
    body = deepcopy(EXAMPLES["metric-marginal"])
    for part in body["suction_line"]:
        if part["part"] == "pipe":
            del part["size"]
            part["bore"] = {"diameter": of(20.9, "mm"), "roughness": of(0.0015, "mm")}
    change = sufficient(body, "/suction_line/1/bore/diameter")
    pipes = [index for index, part in enumerate(body["suction_line"]) if part["part"] == "pipe"]
    told = {change.request.suction_line[index].bore.diameter for index in pipes}
    assert len(told) == 1
    wider = told.pop()
    assert f"Take pipe with a bore of {wider} or more instead of 20.9 mm" in change.text
    for index in pipes:
        body["suction_line"][index]["bore"]["diameter"] = of(0.989 * wider.value, wider.unit)
    assert site_plan(decoded(body)).suction_feasibility.verdict != "feasible"


def test_an_intake_that_hangs_from_the_pipe_stays_where_it_was():
    """A longer last pipe would let it hang deeper, and the well's limit with it."""
    body = narrow()
    body["suction_line"] = [body["suction_line"][1]]
    del body["intake_elevation"], body["suction_line"][0]["end_elevation"]
    body["pump"]["npsh_required"] = of(14, "ft")
    change = sufficient(body, "/pump/inlet_elevation")
    assert change.request.intake_elevation.base == pytest.approx(to_base(1 - 49, "ft"))
    assert change.request.pump.inlet_elevation.base < 0.0


def test_all_pipes_of_one_size_are_widened_together_and_others_are_left():
    body = deepcopy(EXAMPLES["metric-marginal"])
    body["suction_line"][3]["size"]["nominal"] = "1"
    tried = [change for change in found(body)[1] if change.pointer.endswith("nominal")]
    assert {change.pointer for change in tried} == {"/suction_line/1/size/nominal", "/suction_line/3/size/nominal"}
    for change in tried:
        widened = int(change.pointer.split("/")[2])
        other = 4 - widened
        assert change.request.suction_line[other] == decoded(body).suction_line[other]


def test_a_well_that_falls_to_its_limit_is_told_where_to_stop():
    """A foot over the intake at 64 ft nothing draws; from the level that is told the pump does, and from a hair lower
    it does not."""
    change = sufficient(SLOW_WELL, "/well/limit_depth")
    limit = change.request.well.limit_depth
    assert 14.6 < limit.value < 30
    lower = msgspec.structs.replace(
        change.request.well, limit_depth=msgspec.structs.replace(limit, value=1.011 * limit.value)
    )
    request = msgspec.structs.replace(change.request, well=lower)
    assert site_plan(request).suction_feasibility.verdict != "feasible"


def test_a_pump_at_the_water_does_not_mend_a_crest():
    """Where the water boils at the well's top, standing lower behind it wins nothing: it is not told."""
    body = narrow(depth_to_water=of(23, "ft"))
    answer = site_plan(decoded(body))
    assert answer.suction_feasibility.reasons[0].startswith("The water boils")
    assert "/pump/inlet_elevation" not in {lever.pointer for lever in answer.levers}


def test_a_change_that_leaves_the_pump_short_however_far_it_goes_is_no_lever():
    """No size of pipe and no clean filter wins the 4.65 ft that are wanting; at 12 ft of depth they help."""
    vain = {"/suction_line/1/size/nominal", "/suction_line/4/dirty_drop"}
    for depth, helps in [(12, True), (14, False)]:
        levers = site_plan(decoded(narrow(depth_to_water=of(depth, "ft")))).levers
        assert vain.isdisjoint(lever.pointer for lever in levers) != helps
        assert all(lever.verdict != "infeasible" for lever in levers)


def test_a_feasible_site_has_no_levers():
    assert site_plan(decoded(EXAMPLES["us"])).levers == []


def test_a_lever_is_told_in_numbers_that_can_be_read():
    for lever in site_plan(decoded(EXAMPLES["out-of-reach"])).levers:
        assert lever.change.endswith(".")
        assert math.isfinite(lever.margin.value)
        assert len(lever.change) < 140
