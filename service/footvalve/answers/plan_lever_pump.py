"""Changes of the pump: less flow, a lower place, a pump that needs less NPSH."""

from collections.abc import Iterator

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.plan_lever import (
    Change,
    rounded_down,
    rounded_up,
    suction_after,
    suction_at,
    turning_point,
    wanting_after,
    with_line,
    with_pump,
)
from footvalve.answers.plan_state import PlanState
from footvalve.answers.suction_state import SuctionState
from footvalve.contract.line import LinePart, Pipe
from footvalve.contract.quantities import Flow, Length
from footvalve.contract.site_plan import LEAST_PLANNED_FLOW, PumpPlan
from footvalve.physics.net_positive_suction_head import npsh_required_of_rated_lift
from footvalve.quantity import from_base

GREATEST_RATED_LIFT = 10.0
"""m: the most that the contract takes for a rated suction lift."""


def less_flow(state: PlanState, now: SuctionState) -> Iterator[Change]:
    """The greatest flow at which the line is feasible, whatever the pump's own would be."""

    found = turning_point(lambda flow: suction_at(state, flow).shortfall, short=now.flow, enough=LEAST_PLANNED_FLOW)
    if found is None:
        return
    flow = Flow(rounded_down(from_base(found, state.units.flow_unit)), state.units.flow_unit)
    text = f"Draw no more than {flow}, by a smaller pump or a valve behind it."
    yield Change(text, "/pump/points", state.request, suction_at(state, flow.base), flow)


def lower_pump(state: PlanState, now: SuctionState) -> Iterator[Change]:
    """How much lower the pump has to stand, at the most down at the pumping level."""

    if now.static_lift <= 0.0:
        return
    found = turning_point(lambda by: wanting_after(_lowered(state, by)), short=0.0, enough=now.static_lift)
    if found is None:
        return
    by = Length(rounded_up(from_base(found, state.units.length_unit)), state.units.length_unit)
    changed = _lowered(state, by.base)
    after = suction_after(changed)
    if after is not None:
        inlet = state.units.length(changed.request.pump.inlet_elevation.base)
        text = f"Set the pump {by} lower, its inlet at an elevation of {inlet}, with as much more of the last pipe."
        yield Change(text, "/pump/inlet_elevation", changed.request, after)


def _lowered(state: PlanState, by: float) -> PlanState:
    """The plan with its pump so many m lower, the last pipe longer by as much, and all before it where it was."""
    inlet = Length(state.request.pump.inlet_elevation.base - by, "m")
    line: list[LinePart] = list(state.request.suction_line)
    last, pipe = next((i, part) for i, part in reversed(list(enumerate(line))) if isinstance(part, Pipe))
    end = pipe.end_elevation if pipe.end_elevation is UNSET else inlet
    line[last] = replace(pipe, length=Length(pipe.length.base + by, "m"), end_elevation=end)
    lowered = with_pump(state, replace(state.request.pump, inlet_elevation=inlet))
    changed = with_line(lowered, line)
    assert changed is not None, "a longer pipe fits where a shorter one did"
    return changed


def easier_pump(state: PlanState, now: SuctionState) -> Iterator[Change]:
    """The most NPSH that a pump may need here, told as the plan tells it of its own."""
    allowed = now.npsh_required + now.margin_at_worst - now.policy_margin
    if allowed <= 0.0:
        return
    pump, text = _easier(state, allowed)
    after = suction_after(with_pump(state, pump))
    if after is not None:
        field = "npsh_required" if pump.rated_suction_lift is UNSET else "rated_suction_lift"
        yield Change(text, f"/pump/{field}", replace(state.request, pump=pump), after)


def _easier(state: PlanState, allowed: float) -> tuple[PumpPlan, str]:
    pump, unit = state.request.pump, state.units.length_unit
    lift = npsh_required_of_rated_lift(rated_suction_lift=0.0) - allowed
    if pump.rated_suction_lift is not UNSET and lift < GREATEST_RATED_LIFT:
        rated = Length(rounded_up(from_base(lift, unit)), unit)
        text = f"Take a pump with a rated suction lift of {rated} or more."
        return replace(pump, rated_suction_lift=rated), text
    needed = Length(rounded_down(from_base(allowed, unit)), unit)
    text = f"Take a pump that needs no more than {needed} of NPSH."
    return replace(pump, npsh_required=needed, rated_suction_lift=UNSET), text
