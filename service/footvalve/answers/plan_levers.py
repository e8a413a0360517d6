"""What would better a plan's suction side that is not feasible, each with the flow that the pump then gives."""

from footvalve.answers.plan_duty import PumpDuty
from footvalve.answers.plan_lever import planned_side, with_side
from footvalve.answers.plan_lever_level import higher_limit
from footvalve.answers.plan_pointers import suction_pointers
from footvalve.answers.plan_state import PlanState
from footvalve.answers.plan_steps import PlanSteps
from footvalve.answers.suction_lever import Change
from footvalve.answers.suction_levers import helpful, suction_changes, told_levers
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.contract.suction_feasibility import Lever, SuctionFeasibilityRequest


def plan_levers(state: PlanState, duty: PumpDuty, steps: PlanSteps) -> list[Lever]:
    """The levers; none where the suction side is feasible, or the pump gives nothing to ask it with."""
    if steps.suction is None or steps.suction.verdict == "feasible":
        return []
    return told_levers(changes(state, duty), state.units)


def changes(state: PlanState, duty: PumpDuty) -> list[Change[SitePlanRequest]]:
    """The changes behind the levers, each with the plan's request and the suction side that it makes.

    A change of the flow alone leaves the request as it is: no field of the plan tells the flow.
    """
    if duty.cut_in is None:
        return []
    side = planned_side(state, duty.cut_in.flow)
    of_the_side = (_of_the_plan(state, change) for change in suction_changes(side))
    return helpful(side.now, [*of_the_side, *higher_limit(state, side.now)])


def _of_the_plan(state: PlanState, change: Change[SuctionFeasibilityRequest]) -> Change[SitePlanRequest]:
    pointer = suction_pointers(state.request)(change.pointer)
    return Change(change.text, pointer, with_side(state, change.request), change.after)
