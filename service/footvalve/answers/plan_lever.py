"""One change to a plan, and how the suction side stands after it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import ROUND_CEILING, ROUND_FLOOR, Context

from fluids.numerics import brenth
from msgspec import structs

from footvalve.answers.line_elements import resolve_line
from footvalve.answers.plan_duty import greatest_flow
from footvalve.answers.plan_requests import suction_request
from footvalve.answers.plan_state import PlanState
from footvalve.answers.suction_state import SuctionState, suction_state
from footvalve.contract.line import LinePart
from footvalve.contract.problem import Refused
from footvalve.contract.quantities import Flow, Length
from footvalve.contract.site_plan import PumpPlan, SitePlanRequest

DIGITS = 3
"""Significant digits of a change that is sought, rounded to the side on which it suffices."""


HOPELESS = 1e3
"""m of head that a change is taken to want which cannot be reckoned at all."""


@dataclass(frozen=True, slots=True)
class Change:
    """A change in words, where it is in the request, the request with it, and the suction side after it.

    A change of the flow alone leaves the request as it is: no field of the plan tells the flow.
    """

    text: str
    pointer: str
    request: SitePlanRequest
    after: SuctionState
    flow: Flow | None = None


def suction_at(state: PlanState, flow: float) -> SuctionState:
    """The suction side at a flow in m^3/s."""
    return suction_state(suction_request(state.request, state.well, flow))


def wanting_after(changed: PlanState) -> float:
    """Head in m that the suction side of a changed plan wants; a change that cannot be reckoned wants a great deal."""
    after = suction_after(changed)
    return HOPELESS if after is None else after.shortfall


def suction_after(changed: PlanState) -> SuctionState | None:
    """The suction side of a changed plan at the pump's new greatest flow; None for a change that cannot be reckoned."""
    try:
        flow = greatest_flow(changed)
        return None if flow is None else suction_at(changed, flow)
    except Refused:
        return None


def with_line(state: PlanState, line: list[LinePart]) -> PlanState | None:
    """The plan with another suction line from the same intake; None for one that does not fit together."""
    request = structs.replace(state.request, suction_line=line, intake_elevation=Length(state.intake, "m"))
    try:
        return replace(
            state, request=request, suction=resolve_line(line, "darcy-weisbach", state.units, "/suction_line")
        )
    except Refused:
        return None


def with_pump(state: PlanState, pump: PumpPlan) -> PlanState:
    """The plan with another pump on the same line."""
    return replace(state, request=structs.replace(state.request, pump=pump))


def turning_point(wanting: Callable[[float], float], *, short: float, enough: float) -> float | None:
    """Where a shortfall ends on the way from what is too little to what may be enough; None where it does not end."""
    at_short, at_enough = wanting(short), wanting(enough)
    if at_enough > 0.0 or at_short <= 0.0:
        return None
    return float(brenth(wanting, short, enough, fa=at_short, fb=at_enough, xtol=abs(enough - short) * 1e-9))


def rounded_up(value: float) -> float:
    """To the digits of a change, never below the value."""
    return float(Context(prec=DIGITS, rounding=ROUND_CEILING).create_decimal(repr(value)))


def rounded_down(value: float) -> float:
    """To the digits of a change, never above the value."""
    return float(Context(prec=DIGITS, rounding=ROUND_FLOOR).create_decimal(repr(value)))
