"""A change of the level at which the pump is stopped, where the well does not sustain it and falls that far."""

from collections.abc import Iterator
from dataclasses import replace

from msgspec import UNSET, structs

from footvalve.answers.plan_lever import suction_after
from footvalve.answers.plan_state import PlanState
from footvalve.answers.plan_well import told_level
from footvalve.answers.suction_lever import DIGITS, HOPELESS, Change, LastAsked
from footvalve.answers.suction_state import SuctionState
from footvalve.answers.turning_point import last_enough
from footvalve.contract.quantities import Length
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.quantity import from_base


def higher_limit(state: PlanState, now: SuctionState) -> Iterator[Change[SitePlanRequest]]:
    """The lowest level from which the pump still draws, where the limit stops the fall at a lower one."""
    if state.well.level.drawdown_at(now.flow) < state.well.level.limit:
        return
    unit = state.units.length_unit
    after_limit = LastAsked[Length, SuctionState | None](lambda limit: suction_after(_limited(state, limit)))
    found = last_enough(
        lambda depth: _wanting(after_limit(Length(depth, unit))),
        short=from_base(state.well.limit_depth, unit),
        enough=from_base(state.well.resting_depth, unit),
        digits=DIGITS,
    )
    if found is None:
        return
    limit = Length(found, unit)
    after = after_limit(limit)
    if after is not None and limit.base > state.well.resting_depth:
        text = f"Stop the pump with the water {told_level(limit)}: there is less to draw at once, but it is drawn."
        yield Change(text, "/well/limit_depth", _limited(state, limit).request, after)


def _wanting(after: SuctionState | None) -> float:
    return HOPELESS if after is None else after.shortfall


def _limited(state: PlanState, limit: Length) -> PlanState:
    """The plan with another limit, and the well's question with it."""
    well, asked = state.well, state.request.well
    assert asked is not UNSET, "only a well that is told of has a limit to its fall"
    assert well.question is not None, "only a well that is read has a limit to its fall"
    planned = replace(
        well,
        limit_depth=limit.base,
        level=replace(well.level, limit=max(limit.base - well.resting_depth, 0.0)),
        question=structs.replace(well.question, limit_depth=limit),
    )
    request = structs.replace(state.request, well=structs.replace(asked, limit_depth=limit))
    return replace(state, request=request, well=planned)
