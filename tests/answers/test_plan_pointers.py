"""Where a fault or a warning of a step stands in the plan's own request."""

import msgspec
import pytest

from footvalve.answers.plan_pointers import (
    PointerMap,
    battery_pointers,
    friction_pointers,
    manifold_pointers,
    sounding_pointers,
    suction_pointers,
    tank_pointers,
    well_pointers,
)
from footvalve.contract.answer import Warning
from footvalve.contract.examples import examples
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.site_plan import SitePlanRequest


def plan(**changes):
    body = examples("site-plan")[0].request | changes
    return msgspec.convert({name: value for name, value in body.items() if value is not None}, SitePlanRequest)


WITH_DEPTH = plan(sounding=None, depth_to_water={"value": 12, "unit": "ft"})


@pytest.mark.parametrize(
    ("pointers", "of_step", "of_plan"),
    [
        (sounding_pointers(), "/measurement/pairs/1/cut", "/sounding/measurement/pairs/1/cut"),
        (sounding_pointers(), "/site/altitude", "/site/altitude"),
        (manifold_pointers(), "/elements/3/from", "/manifold/elements/3/from"),
        (well_pointers(plan()), "/pumping_test/duration", "/well/pumping_test/duration"),
        (well_pointers(plan()), "/static_depth", "/sounding"),
        (well_pointers(WITH_DEPTH), "/static_depth", "/depth_to_water"),
        (well_pointers(plan()), "/limit_depth", "/intake_elevation"),
        (well_pointers(plan(well={"limit_depth": {"value": 9, "unit": "ft"}})), "/limit_depth", "/well/limit_depth"),
        (well_pointers(plan()), "/design_flow", "/pump/points"),
        (suction_pointers(plan()), "/line/7/dirty_drop", "/suction_line/7/dirty_drop"),
        (suction_pointers(plan()), "/line", "/suction_line"),
        (suction_pointers(plan()), "/flow", "/pump/points"),
        (suction_pointers(plan()), "/depth_to_water", "/sounding"),
        (suction_pointers(WITH_DEPTH), "/depth_to_water", "/depth_to_water"),
        (suction_pointers(plan()), "/drawdown", "/well"),
        (suction_pointers(plan(well={"drawdown": {"value": 9, "unit": "ft"}})), "/drawdown", "/well/drawdown"),
        (suction_pointers(plan()), "/pump/style", "/pump/style"),
        (friction_pointers(), "/line/0", "/delivery_line/0"),
        (friction_pointers(), "/flow", "/pump/points"),
        (tank_pointers(plan()), "/tanks/0/precharge", "/tanks/0/precharge"),
        (tank_pointers(plan()), "/pump/points/4/flow", "/pump/points"),
        (tank_pointers(plan()), "/demand", "/daily_water"),
        (tank_pointers(plan(demand={"value": 1, "unit": "gal/min"})), "/demand", "/demand"),
        (battery_pointers(plan()), "/loads/0/current", "/pump/points"),
        (battery_pointers(plan()), "/loads/1/current", "/loads/0/current"),
        (battery_pointers(plan()), "/loads", "/loads"),
        (battery_pointers(plan(loads=None)), "/loads", "/daily_water"),
        (battery_pointers(plan()), "/battery/temperature", "/battery/temperature"),
    ],
)
def test_a_steps_pointer_becomes_the_plans(pointers, of_step, of_plan):
    assert pointers(of_step) == of_plan


def test_a_beginning_is_whole_names_only():
    """`/line` is not the beginning of `/liner`."""
    assert PointerMap({"/line": "/suction_line"})("/liner/3") == "/liner/3"


def test_warnings_and_faults_keep_their_words():
    pointers = friction_pointers()
    assert pointers.warnings([Warning("/line/2", "is rusty")]) == [Warning("/delivery_line/2", "is rusty")]

    def refuse():
        raise Refused(Fault("/line/0/bore", "state it"), Fault("/flow", "too much"))

    with pytest.raises(Refused) as refused:
        pointers.answered(refuse)
    assert refused.value.faults == (Fault("/delivery_line/0/bore", "state it"), Fault("/pump/points", "too much"))
