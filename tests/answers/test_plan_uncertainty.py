"""A plan carries the uncertainty of its inputs through all its steps, and tells how sure its suction side is."""

from copy import deepcopy
from math import sqrt
from statistics import NormalDist, stdev

import msgspec
import pytest

from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.plan_duty import pump_duty
from footvalve.answers.plan_state import plan_state
from footvalve.answers.plan_steps import step_requests
from footvalve.contract.examples import examples
from footvalve.contract.pointed import value_at
from footvalve.contract.quantities import Quantity

UNSET = msgspec.UNSET
PLAN = ENDPOINT["site-plan"]


def of(value, unit, uncertainty=None):
    return {"value": value, "unit": unit} | ({} if uncertainty is None else {"uncertainty": uncertainty})


def example(which, **changes):
    """An example of a plan with other fields; None leaves a field out."""
    body = deepcopy(next(each.request for each in examples("site-plan") if each.name == which)) | changes
    return {name: value for name, value in body.items() if value is not None}


def told(**changes):
    """The first example with the depth told, so that no reading scatters."""
    return example("us", sounding=None, depth_to_water=of(13.5, "ft"), **changes)


def at(body, pointer, **fields):
    body = deepcopy(body)
    part = body
    for step in pointer.split("/")[1:]:
        part = part[int(step) if isinstance(part, list) else step]
    part |= fields
    return body


def decoded(body):
    return msgspec.convert(body, PLAN.request)


def ask(body):
    return PLAN(decoded(body))


def uncertainties(body, answer, pointer=""):
    """Every uncertain quantity in a part of an answer."""
    for field in msgspec.structs.fields(body):
        value, place = getattr(body, field.name), f"{pointer}/{field.encode_name}"
        if isinstance(value, Quantity):
            if value.uncertainty:
                yield place, value.uncertainty
        elif isinstance(value, msgspec.Struct):
            yield from uncertainties(value, answer, place)


def uncertain_in(answer):
    return dict(uncertainties(answer, answer))


# --- through the steps


def test_the_depth_to_the_water_flows_into_all_that_hangs_on_it():
    """With the well's yield told. A test that was read from the same ground would say that much less of a drawdown."""
    body = told(well={"specific_capacity": of(1.5, "gal/min/ft")})
    found = ask(at(body, "/depth_to_water", uncertainty=0.5))
    suction, half_a_foot = found.suction_feasibility, pytest.approx(0.5, rel=0.05)
    assert suction.margin.uncertainty == half_a_foot
    assert suction.static_lift.uncertainty == half_a_foot
    assert suction.npsh_available.uncertainty == suction.margin.uncertainty
    assert not suction.npsh_required.uncertainty
    assert found.duty.cut_in.flow.uncertainty > 0.0, "the deeper water is lifted at a little less flow"
    assert found.battery_runtime.water_per_charge.uncertainty > 0.0


ALONE = {
    "tank-cycle": {"/tanks/0/volume": 1.0, "/tanks/0/precharge": 0.1},
    "battery-runtime": {"/wire/length": 0.1, "/battery/capacity": 3.0},
    "suction-feasibility": {"/pump/rated_suction_lift": 0.1, "/pump/npsh_required": 0.1},
}
"""What acts on one step alone, with a standard uncertainty in whatever unit an example tells it."""


@pytest.mark.parametrize(
    "body", [told(), example("metric-marginal", well={"drawdown": of(0.5, "m")})], ids=["us", "metric"]
)
@pytest.mark.parametrize(("step", "pointer"), [(step, pointer) for step, inputs in ALONE.items() for pointer in inputs])
def test_a_step_on_which_an_input_acts_alone_is_as_uncertain_as_its_endpoint_says(body, step, pointer):
    if value_at(decoded(body), pointer) is UNSET:
        return  # a pump tells one of the two, and each example another
    body = at(body, pointer, uncertainty=ALONE[step][pointer])
    request = decoded(body)
    state = plan_state(request)
    asked = step_requests(state, pump_duty(state))
    question = {"tank-cycle": asked.tank, "battery-runtime": asked.battery, "suction-feasibility": asked.suction}[step]
    alone, answer = ENDPOINT[step](question), PLAN(request)
    within = value_at(answer, f"/{step}")
    assert uncertain_in(within) == uncertain_in(alone) != {}
    assert getattr(within, "chance_feasible", None) == getattr(alone, "chance_feasible", None)


def test_a_tanks_volume_makes_its_drawdown_uncertain_in_proportion():
    found = ask(at(told(), "/tanks/0/volume", uncertainty=2.2))
    tank = found.tank_cycle
    assert tank.drawdown.uncertainty == pytest.approx(tank.drawdown.value * 2.2 / 44, rel=1e-5)
    assert set(uncertain_in(found)) == {
        "/tank-cycle/drawdown",
        "/tank-cycle/run_time",
        "/tank-cycle/rest_time",
        "/tank-cycle/shortest_run",
    }


def test_what_no_quantity_bears_on_is_as_it_was():
    """But for the uncertainties, and what is said of them, the plan is the same."""
    body = told()
    plain, found = ask(body), ask(at(body, "/depth_to_water", uncertainty=0.5))
    for name in ("verdict", "summary", "to_do", "materials", "cautions", "levers", "manifold_check"):
        assert getattr(plain, name) == getattr(found, name)


# --- readings that scatter


def test_the_readings_of_the_sounding_scatter():
    body = example("us", contributions=True)
    found = ask(body)
    pairs = body["sounding"]["measurement"]["pairs"]
    mean_of = stdev(pair["held"]["value"] - pair["cut"]["value"] for pair in pairs) / sqrt(len(pairs))
    assert found.sounding.depth_below_ground.uncertainty == pytest.approx(mean_of, rel=1e-5)
    row = next(row for row in found.contributions if row.quantity == "/suction-feasibility/margin")
    assert [(share.pointer, share.kind, share.effect) for share in row.inputs] == [
        ("/sounding/measurement/pairs", "scatter", "lowers")
    ]


def test_the_readings_of_a_recovery_scatter_as_the_wells_own_endpoint_says():
    request = decoded(example("metric-marginal", contributions=True))
    found = PLAN(request)
    state = plan_state(request)
    alone = ENDPOINT["well-recovery"](step_requests(state, pump_duty(state)).well)
    capacity = found.well_recovery.specific_capacity
    assert (
        capacity.uncertainty
        == alone.fit.standard_uncertainty.value
        == found.well_recovery.fit.standard_uncertainty.value
    )
    row = next(row for row in found.contributions if row.quantity == "/well-recovery/specific_capacity")
    assert [(share.pointer, share.kind) for share in row.inputs] == [("/well/recovery/readings", "scatter")]


# --- how sure a yes is


def test_the_chance_is_the_normal_one_where_the_margin_runs_straight():
    """The margin that the policy asks for is put so that little is to spare."""
    margin = ask(told()).suction_feasibility.margin
    body = at(told(policy={"margin": of(margin.value - 0.4, "ft")}), "/seasonal_fall", uncertainty=0.5)
    suction = ask(body).suction_feasibility
    assert suction.chance_feasible == pytest.approx(NormalDist().cdf(0.4 / suction.margin.uncertainty), abs=0.002)
    assert "give or take" in suction.reasons[-1]


def test_a_yes_that_is_far_from_sure_is_warned_of_at_what_matters_most():
    margin = ask(told()).suction_feasibility.margin
    body = told(policy={"margin": of(margin.value - 0.1, "ft")})
    found = ask(at(at(body, "/seasonal_fall", uncertainty=0.5), "/suction_line/3/length", uncertainty=0.1))
    assert found.suction_feasibility.verdict == "feasible"
    assert found.suction_feasibility.chance_feasible == pytest.approx(0.58, abs=0.02)
    plain = PLAN.compute(decoded(body))
    assert [warning.pointer for warning in found.warnings if warning not in plain.warnings] == ["/seasonal_fall"]


@pytest.mark.parametrize(
    "pointer", ["/tanks/0/volume", "/battery/capacity", "/loads/0/current", "/daily_water", "/wire/length"]
)
def test_what_does_not_bear_on_the_suction_side_brings_no_chance(pointer):
    found = ask(at(told(), pointer, uncertainty=0.01))
    assert uncertain_in(found)
    assert found.suction_feasibility.chance_feasible is UNSET
    assert not any(place.startswith("/suction-feasibility") for place in uncertain_in(found))


def test_what_does_not_bear_on_the_suction_side_does_not_make_its_chance_unsure():
    """A battery whose uncertainty cannot be reckoned is warned of, and the chance is as it was."""
    body = told(well={"specific_capacity": of(1.5, "gal/min/ft")}, policy={"margin": of(5, "ft")})
    body = at(body, "/depth_to_water", uncertainty=3.0)
    with_battery = at(body, "/battery/capacity", uncertainty=1e6)
    one, other = ask(body), ask(with_battery)
    assert one.suction_feasibility.chance_feasible == other.suction_feasibility.chance_feasible
    new = set(other.warnings) - set(one.warnings)
    assert [warning.pointer for warning in new] == ["/battery/capacity"]


def test_a_pump_that_may_not_reach_cut_in_is_unlikely_to_be_feasible():
    """Half of the draws bring no water at all: no draw breaks the answer, and none of those counts as feasible."""
    most = ask(told()).duty.greatest_tank_pressure
    body = told(switch={"cut_in": of(most.value - 0.5, "psi", 2.0), "cut_out": of(most.value + 20, "psi")})
    found = ask(body)
    assert found.duty.cut_in is not UNSET
    assert found.suction_feasibility.chance_feasible == pytest.approx(NormalDist().cdf(0.25), abs=0.03)


def test_a_plan_without_a_suction_side_has_no_chance():
    most = ask(told()).duty.greatest_tank_pressure
    body = told(switch={"cut_in": of(most.value + 5, "psi"), "cut_out": of(most.value + 20, "psi")})
    found = ask(at(body, "/depth_to_water", uncertainty=0.5))
    assert found.suction_feasibility is UNSET
    assert found.duty.greatest_tank_pressure.uncertainty > 0.0
    assert not any("Chance" in step.step for step in found.basis)


def test_a_plan_in_metric_is_as_sure():
    us = at(
        at(told(policy={"margin": of(5, "ft")}), "/depth_to_water", uncertainty=1.5), "/seasonal_fall", uncertainty=1.0
    )
    one, other = ask(us), ask(us | {"units": "metric"})
    assert one.suction_feasibility.chance_feasible == pytest.approx(other.suction_feasibility.chance_feasible, abs=1e-6)
    assert set(uncertain_in(one)) == set(uncertain_in(other))


def test_the_first_sentence_tells_a_chance_that_is_far_from_sure_and_none_that_is_sure():
    body = told(well={"specific_capacity": of(1.5, "gal/min/ft")})
    unsure, sure = (ask(at(body, "/depth_to_water", uncertainty=uncertainty)) for uncertainty in (4.0, 0.1))
    assert (unsure.verdict, sure.verdict) == ("feasible", "feasible")
    chance = unsure.suction_feasibility.chance_feasible
    assert 0.5 < chance < 0.95 < sure.suction_feasibility.chance_feasible
    assert unsure.summary[0].endswith(f"the chance that the suction side is feasible is {100 * chance:.0f} %.")
    assert sure.summary[0] == ask(body).summary[0]
    assert [len(found.summary) for found in (unsure, sure)] == [5, 5]


UNPROVEN = "that the well sustains the pump is not proven"


@pytest.mark.parametrize(
    ("well", "most"),
    [
        ({"specific_capacity": of(1.5, "gal/min/ft", 0.3)}, "/well/specific_capacity"),
        ({"drawdown": of(2.0, "ft", 0.5)}, "/well/drawdown"),
        ({"drawdown": of(2.0, "ft")}, "/well/limit_depth"),
    ],
)
def test_a_stated_yield_whose_level_may_well_fall_below_the_limit_is_not_proven(well, most):
    level = ask(told(well=well)).suction_feasibility.pumping_depth
    sigma = level.uncertainty or 0.5
    for sigmas, proven in [(1.0, False), (3.0, True)]:
        limit = of(level.value + sigmas * sigma, "ft", None if level.uncertainty else sigma)
        found = ask(told(well=well | {"limit_depth": limit}))
        assert found.verdict == "feasible"
        doubts = [warning.pointer for warning in found.warnings if UNPROVEN in warning.detail]
        assert doubts == ([] if proven else [most])
        assert found.summary[0].endswith(f"{UNPROVEN}.") != proven
