"""What would better a suction side that is not feasible: single changes, the sufficient ones first."""

from collections.abc import Iterable, Iterator
from functools import partial
from itertools import chain

from msgspec.structs import replace

from footvalve.answers.suction_lever import Asked, Change, LastAsked, SuctionSide
from footvalve.answers.suction_lever_line import cleaned_strainers, wider_bores, wider_pipes
from footvalve.answers.suction_lever_pump import easier_pump, less_flow, lower_pump
from footvalve.answers.suction_state import SuctionState, in_other_bores, on_the_same_line, suction_state
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.contract.problem import Refused
from footvalve.contract.quantities import Flow
from footvalve.contract.suction_feasibility import Lever, SuctionFeasibilityRequest

TELLING = 0.01
"""m of what is wanting that an insufficient change wins back at least, to be worth a word (own choice)."""


def suction_levers(request: SuctionFeasibilityRequest, state: SuctionState) -> list[Lever]:
    """The levers of a request whose state is known; none where it is feasible."""
    if state.verdict == "feasible":
        return []
    return told_levers(helpful(state, suction_changes(stated_side(request, state))), unit_system(request.units))


def stated_side(request: SuctionFeasibilityRequest, state: SuctionState) -> SuctionSide:
    """The suction side of a request of its own, at whatever flow it states."""

    def at_flow(flow: Flow) -> SuctionState:
        return on_the_same_line(state, replace(request, flow=flow))

    return SuctionSide(request, state, after=LastAsked(partial(_after, request, state)), at_flow=LastAsked(at_flow))


def _after(
    request: SuctionFeasibilityRequest, state: SuctionState, changed: SuctionFeasibilityRequest
) -> SuctionState | None:
    """A change of the line alone leaves its places where they are, and the pump moves along with the last pipe."""
    try:
        if changed.line is request.line:
            return on_the_same_line(state, changed)
        return in_other_bores(state, changed) if changed.pump is request.pump else suction_state(changed)
    except Refused:
        return None


def suction_changes(side: SuctionSide) -> Iterator[Change[SuctionFeasibilityRequest]]:
    """Every kind of change, tried as far as it goes."""
    return chain(
        wider_pipes(side),
        wider_bores(side),
        cleaned_strainers(side),
        lower_pump(side),
        less_flow(side),
        easier_pump(side),
    )


def helpful(now: SuctionState, tried: Iterable[Change[Asked]]) -> list[Change[Asked]]:
    """The changes that make a suction side feasible, then those that only bring it nearer. What leaves it infeasible
    is no help: each kind of change is tried as far as it goes."""
    enough, nearer = [], []
    for change in tried:
        if change.after.verdict == "feasible":
            enough.append(change)
        elif change.after.verdict == "marginal" and now.shortfall - change.after.shortfall >= TELLING:
            nearer.append(change)
    return enough + nearer


def told_levers(changes: Iterable[Change[Asked]], units: UnitSystem) -> list[Lever]:
    """The changes as the answer tells them."""
    return [
        Lever(
            change=change.text,
            pointer=change.pointer,
            margin=units.length(change.after.margin),
            verdict=change.after.verdict,
        )
        for change in changes
    ]
