"""A well of which nothing was read: its yield is stated, and the limit to its level is held against that."""

from collections.abc import Iterator
from typing import Final

from msgspec import UNSET

from footvalve.answers.line_elevations import SAME_PLACE
from footvalve.answers.plan_duty import PumpDuty
from footvalve.answers.plan_finding import Finding
from footvalve.answers.plan_state import PlanState
from footvalve.contract.answer import Warning

_OF_READINGS: Final = ("static_depth", "casing_diameter", "drop_pipe_diameter")
"""What is asked of a well for its recovery or pumping test alone."""


def dry_well(state: PlanState, limit: float) -> Finding:
    """That the water at rest does not stand above the limit, a depth in m."""
    rest, lowest = (state.units.length(depth) for depth in (state.well.resting_depth, limit))
    return Finding("infeasible", f"The well is dry: its water rests at {rest}, not above the limit of {lowest}.")


def stated_yield_findings(state: PlanState, duty: PumpDuty) -> Iterator[Finding]:
    """Where the level settles below a stated limit. The pump is not taken to stop there: what stands above the limit
    is not known without the casing, and so not for how long it can be drawn."""
    asked = state.request.well
    if asked is UNSET or state.well.question is not None or asked.limit_depth is UNSET:
        return
    limit = asked.limit_depth.base
    if state.well.resting_depth >= limit:
        yield dry_well(state, limit)
    elif duty.cut_in is not None:
        flow = duty.cut_in.flow
        level = state.well.resting_depth + state.well.level.drawdown_at(flow)
        if level - limit > SAME_PLACE:
            settles = f"At {state.units.flow(flow)} the level would settle at {state.units.length(level)}"
            below = f"{state.units.length(level - limit)} below the limit of {state.units.length(limit)}"
            yield Finding("marginal", f"The well does not sustain the pump. {settles}, {below}.")


def unused_readings(state: PlanState) -> Iterator[Warning]:
    """A warning for each input that only a recovery or a pumping test makes use of, where there is none."""
    asked = state.request.well
    if asked is UNSET or state.well.question is not None:
        return
    for name in _OF_READINGS:
        if getattr(asked, name) is not UNSET:
            text = "not used: it belongs to a `recovery` or a `pumping_test`, and the well's yield is stated instead"
            yield Warning(f"/well/{name}", text)
