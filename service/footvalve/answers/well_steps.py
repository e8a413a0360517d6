"""The steps of a well's answer, and how far readings, flow and limit lie within what their methods know."""

from collections.abc import Iterator

from msgspec import UNSET

from footvalve.answers.basis import At, Reckoned, reckoned
from footvalve.answers.unit_system import UnitSystem
from footvalve.answers.well_readings import READINGS, TAPE_ERROR
from footvalve.answers.well_state import WellState
from footvalve.answers.well_units import fine_length
from footvalve.contract.quantities import figure
from footvalve.contract.well_recovery import PumpingTest, WellRecoveryRequest
from footvalve.physics.casing_storage import CASING_STORAGE
from footvalve.physics.well_drawdown import PUMPING_TEST, WELL_DRAWDOWN
from footvalve.physics.well_recovery import WELL_RECOVERY

MOST_CASING_SHARE = 1.1
"""Casing's share in a test's water above which the readings contradict each other, errors of reading allowed for."""


def well_steps(request: WellRecoveryRequest, state: WellState, units: UnitSystem) -> Iterator[Reckoned]:
    """The casing, the inflow, and what the well is asked for."""
    yield reckoned("Water in each length of the casing", CASING_STORAGE)
    yield _recovery_step(state, units) if request.pumping_test is UNSET else _test_step(request.pumping_test, state)
    if state.design_flow is not None or state.limit_depth is not None:
        beyond = [*_flow_over_tested(state, units), *_limit_over_tested(state, units)]
        yield reckoned("Level, inflow and time while it is drawn", WELL_DRAWDOWN, drawdown_over_the_tested=beyond)


def _recovery_step(state: WellState, units: UnitSystem) -> Reckoned:
    """A recovery of which nothing was seen counts as none, and says so in its own words."""

    def unseen() -> str:
        text = f"the level does not rise by more than a tape's error of {fine_length(TAPE_ERROR, units)}: no inflow"
        return f"{text} is seen. Wait longer, and see that nothing was drawn meanwhile"

    found = state.inflow
    is_seen = found.specific_capacity > 0.0 and found.recovered_fraction is not None
    recovered = At(READINGS, found.recovered_fraction or 0.0) if is_seen else At(READINGS, 0.0, unseen)
    r_squared = None if found.fit is None or not is_seen else found.fit.r_squared
    return reckoned(
        "Specific capacity by the recovery",
        WELL_RECOVERY,
        recovered_fraction=recovered,
        r_squared=() if r_squared is None else At(READINGS, r_squared),
    )


def _test_step(test: PumpingTest, state: WellState) -> Reckoned:
    """A test that the casing alone gave counts as that, and says so in its own words."""
    water = state.inflow.casing_water
    share = 1.0 if water is None else water.fraction

    def emptied() -> str:
        if share > MOST_CASING_SHARE:
            text = f"the level fell by {figure(share)} times what {test.flow} over {test.duration} takes out of the"
            return f"{text} casing: one of flow, depths, duration and diameters is wrong"
        return "the test only emptied the casing: the level fell as if nothing flowed in; pump longer, or at less flow"

    flows_in = state.inflow.specific_capacity > 0.0
    of_casing = At("/pumping_test/duration", share) if flows_in else At("/pumping_test", max(share, 1.0), emptied)
    return reckoned("Specific capacity by the pumping test", PUMPING_TEST, casing_water_fraction=of_casing)


def _flow_over_tested(state: WellState, units: UnitSystem) -> Iterator[At]:
    tested = state.inflow.tested_drawdown
    if state.pumping_depth is None or (state.limit_depth is not None and not state.seems_to_sustain):
        return
    drawdown = state.pumping_depth - state.static_depth

    def told() -> str:
        needs, seen = units.length(drawdown), units.length(tested)
        text = f"draws the level down by {needs}, more than the {seen} that was tested: the specific capacity falls as"
        return f"{text} the flow grows, and below the tested level inflow may grow no more"

    yield At("/design_flow", drawdown / tested, told)


def _limit_over_tested(state: WellState, units: UnitSystem) -> Iterator[At]:
    drawdown, tested = state.drawdown_at_limit, state.inflow.tested_drawdown
    if not state.inflow_at_limit or drawdown is None:
        return

    def told() -> str:
        text = f"lies {units.length(drawdown)} below the water at rest, and only {units.length(tested)} were tested"
        return f"{text}: `inflow_at_limit` is the most that can be hoped for, and nothing shows it"

    yield At("/limit_depth", drawdown / tested, told)
