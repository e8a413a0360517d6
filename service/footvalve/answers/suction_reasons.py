"""Why the verdict is what it is, in the trade's words and with numbers."""

from collections.abc import Iterator
from itertools import pairwise

from footvalve.answers.line_elements import name_in_line
from footvalve.answers.suction_state import LEAST_SUBMERGENCE, SAME_LEVEL, SuctionState
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.suction_feasibility import Verdict
from footvalve.physics.head import pressure_head

MOST_NAMED = 3
"""Names that one sentence holds."""


def suction_reasons(state: SuctionState, units: UnitSystem, verdict: Verdict) -> list[str]:
    """The reasons of the verdict on a line, the deciding ones first."""
    margin = _margin(state, units)
    margin_decides = state.margin < state.policy_margin
    return [
        *_dry_intake(state, units),
        *_boiling(state, units),
        *([margin] if margin_decides else []),
        *_shallow_intake(state, units),
        *_tight_way(state, units),
        *_no_priming(state, units),
        *_hanging_discs(state, units),
        *([] if margin_decides else [margin]),
        _balance(state, units),
        *_greatest_loss(state, units),
        *_tightest(state, units),
        *_rule_of_thumb(state, units, verdict),
    ]


def _dry_intake(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    if state.intake_is_dry:
        water, intake = _depth(state.pumping_depth, units), _depth(-state.elevations.intake, units)
        at_the_most = " at the deepest that this line reaches" if state.elevations.intake_is_inferred else ""
        yield f"The water falls to {water} and the intake lies {intake}{at_the_most}: it draws air."


def _shallow_intake(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    if state.intake_is_shallow:
        at_the_most = " at the most" if state.elevations.intake_is_inferred else ""
        over, least = units.length(state.submergence), units.length(LEAST_SUBMERGENCE)
        yield f"Only {over} of water stand over the intake{at_the_most}, less than the {least} that keep air out of it."


def _tight_way(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    if 0.0 <= state.on_the_way < state.policy_margin:
        left, policy = units.length(state.on_the_way), units.length(state.policy_margin)
        yield f"On the way {left} are left before the water boils, less than the {policy} of the policy."


def _no_priming(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    if not state.primes and state.margin >= 0.0:
        summit, reach = units.length(state.summit), units.length(state.reach)
        rises = f"The line rises {summit} over the water at rest"
        yield f"{rises}, and this pump draws a dry line up to {reach}: it may not prime."


def _hanging_discs(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    """Where what the discs may take beyond what is counted would make the verdict worse."""
    if state.verdict_at_worst == state.verdict_as_counted:
        return
    hanging = [index for index, head in enumerate(state.uncounted) if head]
    discs = f"each of {len(hanging)} check valves"
    if len(hanging) <= MOST_NAMED:
        discs = " and of ".join(name_in_line(state.parts, index) for index in hanging)
    more = f"may take {units.length(sum(state.uncounted))} more than is counted"
    ends = f"the margin would then be {units.length(state.margin_at_worst)}"
    if state.margin_at_worst >= 0.0 and state.verdict_at_worst == "infeasible":
        ends = "the water would then boil on the way"
    yield f"This flow does not lift the disc of {discs}, which {more}: {ends}: {state.verdict_at_worst}."


def _boiling(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    index = state.tightest
    short = -state.left[index]
    if short > 0.0:
        yield f"The water boils at {_place(state, index)}, which is short of {units.length(short)} of head."


def _margin(state: SuctionState, units: UnitSystem) -> str:
    margin, policy = units.length(abs(state.margin)), units.length(state.policy_margin)
    needs = f"the pump needs {units.length(state.npsh_required)} of head at its inlet"
    has = f"{units.length(state.npsh_available)} are there"
    if state.margin < 0.0:
        return f"Of NPSH, {needs} and {has}: {margin} are wanting."
    reaches = "which reaches"
    if state.margin < state.policy_margin:
        reaches = "which falls just short of" if str(margin) == str(policy) else "which falls short of"
    return f"Of NPSH, {needs} and {has}: {margin} are to spare, {reaches} the {policy} of the policy."


def _balance(state: SuctionState, units: UnitSystem) -> str:
    air = units.length(pressure_head(pressure=state.air_pressure, density=state.drawn.density))
    vapour = units.length(pressure_head(pressure=state.drawn.vapour_pressure, density=state.drawn.density))
    gives = f"The air carries {air} of water at this altitude"
    takers = {"the lift": state.static_lift, "the line": state.losses, "the pump's strokes": state.acceleration_head}
    if state.static_lift < 0.0:
        gives += f", and the water above the inlet adds {units.length(-state.static_lift)}"
        del takers["the lift"]
    if not state.acceleration_head:
        del takers["the pump's strokes"]
    first, *others = (f"{taker} takes {units.length(head)}" for taker, head in takers.items())
    taken = ", ".join((first, *(other.replace(" takes ", " ") for other in others)))
    return f"{gives}; {taken} and the water's vapour {vapour}."


def _greatest_loss(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    losses = [after - before for before, after in pairwise(state.line.heads.losses)]
    greatest = losses.index(max(losses))
    yield f"The greatest loss on the way is {units.length(losses[greatest])} in {name_in_line(state.parts, greatest)}."


def _tightest(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    index = state.tightest
    left = state.left[index]
    on_the_way = index != len(state.pressures) - 1
    if on_the_way and left >= 0.0 and state.pressures[index] < state.air_pressure:
        place = _place(state, index)
        yield f"The tightest place is not the pump inlet but {place}, with {units.length(left)} before it boils."


def _place(state: SuctionState, index: int) -> str:
    return f"the end of {name_in_line(state.parts, index - 1)}" if index else "the intake"


def _rule_of_thumb(state: SuctionState, units: UnitSystem, verdict: Verdict) -> Iterator[str]:
    if state.rule_agrees(verdict):
        return
    allows = f"it allows {units.length(state.allowed_lift)} of lift at this altitude"
    asked = "the water stands above the inlet"
    if state.static_lift >= 0.0:
        asked = f"{units.length(state.static_lift)} are asked"
    says, advice = "no", "make sure of every figure first"
    if verdict == "infeasible":
        says, advice = "yes", "it knows neither the line nor the pump"
    yield f"The trade's rule of thumb says {says} here, for {allows} and {asked}: {advice}."


def _depth(metres: float, units: UnitSystem) -> str:
    if abs(metres) < SAME_LEVEL:
        return "level with the ground"
    side = "above" if metres < 0.0 else "below"
    return f"{units.length(abs(metres))} {side} the ground"
