"""The suction side of a plan after a change: what the pump draws then is worked out again."""

from dataclasses import replace
from functools import partial

from msgspec import structs

from footvalve.answers.line_elements import resolve_line
from footvalve.answers.plan_duty import greatest_flow
from footvalve.answers.plan_requests import suction_request
from footvalve.answers.plan_state import PlanState
from footvalve.answers.suction_lever import SuctionSide
from footvalve.answers.suction_state import SuctionState, suction_state
from footvalve.contract.problem import Refused
from footvalve.contract.quantities import Length
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest


def planned_side(state: PlanState, flow: float) -> SuctionSide:
    """The suction side of a plan, at its pump's greatest flow in m^3/s."""
    return SuctionSide(
        request=suction_request(state.request, state.well, flow),
        now=suction_at(state, flow),
        after=partial(_after, state),
        at_flow=lambda flow: suction_at(state, flow.base),
    )


def suction_at(state: PlanState, flow: float) -> SuctionState:
    """The suction side at a flow in m^3/s."""
    return suction_state(suction_request(state.request, state.well, flow))


def suction_after(changed: PlanState) -> SuctionState | None:
    """The suction side of a changed plan at the pump's new greatest flow; None for a change that cannot be reckoned."""
    try:
        flow = greatest_flow(changed)
        return None if flow is None else suction_at(changed, flow)
    except Refused:
        return None


def _after(state: PlanState, question: SuctionFeasibilityRequest) -> SuctionState | None:
    try:
        return suction_after(with_side(state, question))
    except Refused:
        return None


def with_side(state: PlanState, question: SuctionFeasibilityRequest) -> PlanState:
    """The plan with the line and the pump of a question on its suction side, and the intake where it was. Raises
    Refused for a line that does not fit together."""
    request = structs.replace(
        state.request,
        suction_line=question.line,
        intake_elevation=Length(state.intake, "m"),
        pump=question.pump,
    )
    suction = resolve_line(question.line, "darcy-weisbach", state.units, "/suction_line")
    return replace(state, request=request, suction=suction)
