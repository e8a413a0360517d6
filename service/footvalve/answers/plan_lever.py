"""The suction side of a plan after a change: what the pump draws then is worked out again."""

from dataclasses import replace
from functools import partial

from msgspec import structs

from footvalve.answers.line_elements import resolve_suction_line
from footvalve.answers.plan_duty import greatest_flow
from footvalve.answers.plan_requests import suction_request
from footvalve.answers.plan_state import PlanState
from footvalve.answers.suction_lever import LastAsked, SuctionSide
from footvalve.answers.suction_state import SuctionState, on_the_same_line, suction_state
from footvalve.contract.problem import Refused
from footvalve.contract.quantities import Flow, Length
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest


def planned_side(state: PlanState, flow: float) -> SuctionSide:
    """The suction side of a plan, at its pump's greatest flow in m^3/s."""
    request, now = suction_request(state.request, state.well, flow), suction_at(state, flow)

    def at_flow(other: Flow) -> SuctionState:
        return on_the_same_line(now, suction_request(state.request, state.well, other.base))

    return SuctionSide(request, now, after=LastAsked(partial(_after, state, flow)), at_flow=LastAsked(at_flow))


def suction_at(state: PlanState, flow: float) -> SuctionState:
    """The suction side at a flow in m^3/s."""
    return suction_state(suction_request(state.request, state.well, flow), state.suction)


def suction_after(changed: PlanState) -> SuctionState | None:
    """The suction side of a changed plan at the pump's new greatest flow; None for a change that cannot be reckoned."""
    try:
        flow = greatest_flow(changed)
        return None if flow is None else suction_at(changed, flow)
    except Refused:
        return None


def _after(state: PlanState, flow: float, question: SuctionFeasibilityRequest) -> SuctionState | None:
    """Another pump on the same line is one that needs less at its inlet: it gives the same flow."""
    changed = replace(state, request=with_side(state, question))
    try:
        if question.line is state.request.suction_line:
            return suction_at(changed, flow)
        suction = resolve_suction_line(question.line, state.units, "/suction_line")
        return suction_after(replace(changed, suction=suction))
    except Refused:
        return None


def with_side(state: PlanState, question: SuctionFeasibilityRequest) -> SitePlanRequest:
    """The plan's request with the line and the pump of a question on its suction side, and the intake where it was."""
    return structs.replace(
        state.request,
        suction_line=question.line,
        intake_elevation=Length(state.intake, "m"),
        pump=question.pump,
    )
