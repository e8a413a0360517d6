"""Why the verdict is what it is, in the trade's words and with numbers."""

from collections.abc import Iterator

from footvalve.answers.suction_state import SuctionState
from footvalve.answers.unit_system import UnitSystem
from footvalve.physics.head import pressure_head


def suction_reasons(state: SuctionState, units: UnitSystem) -> list[str]:
    """The reasons, the deciding ones first."""
    return [
        *_dry_intake(state, units),
        *_boiling(state, units),
        _margin(state, units),
        _balance(state, units),
        *_greatest_loss(state, units),
        *_tightest(state, units),
    ]


def _dry_intake(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    if state.submergence < 0.0:
        pumping = units.length(state.pumping_depth)
        intake = units.length(-state.elevations.intake)
        yield f"The water falls to {pumping} below the ground, under the intake at {intake} at the most: it draws air."


def _boiling(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    index = state.tightest
    short = -state.above_vapour(state.nodes[index])
    if short > 0.0:
        yield f"The water boils at {_place(state, index)}, which is short of {units.length(short)} of head."


def _margin(state: SuctionState, units: UnitSystem) -> str:
    margin, policy = units.length(abs(state.margin)), units.length(state.policy_margin)
    needs = f"the pump needs {units.length(state.npsh_required)} of head at its inlet"
    has = f"{units.length(state.npsh_available)} are there"
    if state.margin < 0.0:
        return f"Of NPSH, {needs} and {has}: {margin} are wanting."
    reaches = "which reaches" if state.margin >= state.policy_margin else "which falls short of"
    return f"Of NPSH, {needs} and {has}: {margin} are to spare, {reaches} the {policy} of the policy."


def _balance(state: SuctionState, units: UnitSystem) -> str:
    air = units.length(pressure_head(pressure=state.air_pressure, density=state.drawn.density))
    vapour = units.length(pressure_head(pressure=state.drawn.vapour_pressure, density=state.drawn.density))
    lift = f"the lift takes {units.length(state.static_lift)}"
    if state.static_lift < 0.0:
        lift = f"the water above the inlet adds {units.length(-state.static_lift)}"
    last = state.nodes[-1]
    terms = [lift, f"the line {units.length(last.losses)}", f"the water's vapour {vapour}"]
    if last.acceleration_head:
        terms.insert(2, f"the pump's strokes {units.length(last.acceleration_head)}")
    return f"The air carries {air} of water at this altitude; {', '.join(terms[:-1])} and {terms[-1]}."


def _greatest_loss(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    losses = [after.losses - before.losses for before, after in zip(state.nodes, state.nodes[1:], strict=False)]
    greatest = max(range(len(losses)), key=losses.__getitem__)
    yield f"The greatest loss on the way is {units.length(losses[greatest])} in {state.parts[greatest].name}."


def _tightest(state: SuctionState, units: UnitSystem) -> Iterator[str]:
    index = state.tightest
    left = state.above_vapour(state.nodes[index])
    on_the_way = index != len(state.nodes) - 1
    if on_the_way and left >= 0.0 and state.nodes[index].absolute_pressure < state.air_pressure:
        place = _place(state, index)
        yield f"The tightest place is not the pump inlet but {place}, with {units.length(left)} before it boils."


def _place(state: SuctionState, index: int) -> str:
    return f"the end of {state.parts[index - 1].name}" if index else "the intake"
