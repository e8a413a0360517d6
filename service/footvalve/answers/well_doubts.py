"""Where a well's answer goes beyond what was tested, or hangs by a thread."""

from collections.abc import Iterator

from footvalve.answers.unit_system import UnitSystem
from footvalve.answers.well_readings import READINGS
from footvalve.answers.well_state import PROVEN_AT, WellState
from footvalve.answers.well_units import specific_capacity
from footvalve.contract.answer import Warning

BEYOND_TEST = 1.05
"""Drawdown over the tested one from which it is said to lie beyond: readings and flows are hardly surer."""


def well_doubts(state: WellState, units: UnitSystem) -> list[Warning]:
    """Doubts about the flow and the limit that the well is asked for; those about the readings come with them."""
    return [
        *state.inflow.warnings,
        *_scatter(state, units),
        *_limit_not_below_rest(state, units),
        *_flow_beyond_test(state, units),
        *_limit_beyond_test(state, units),
        *_narrowly(state, units),
    ]


def _scatter(state: WellState, units: UnitSystem) -> Iterator[Warning]:
    if state.unproven == "scatter":
        found, sigma = (
            specific_capacity(value, units) for value in (state.specific_capacity, state.inflow.standard_uncertainty)
        )
        text = f"scatter so much that the specific capacity of {found} is uncertain by {sigma}: they tell no inflow"
        yield Warning(READINGS, text)


def _limit_not_below_rest(state: WellState, units: UnitSystem) -> Iterator[Warning]:
    if state.drawdown_at_limit == 0.0:
        text = f"does not lie below `static_depth`, {units.length(state.static_depth)}: all depths start at one point"
        yield Warning("/limit_depth", text)


def _flow_beyond_test(state: WellState, units: UnitSystem) -> Iterator[Warning]:
    tested = state.inflow.tested_drawdown
    if state.pumping_depth is None or (state.limit_depth is not None and not state.seems_to_sustain):
        return
    drawdown = state.pumping_depth - state.static_depth
    if drawdown <= BEYOND_TEST * tested:
        return
    needs, seen = units.length(drawdown), units.length(tested)
    text = f"draws the level down by {needs}, more than the {seen} that was tested: the specific capacity falls as the"
    yield Warning("/design_flow", f"{text} flow grows, and below the tested level inflow may grow no more")


def _limit_beyond_test(state: WellState, units: UnitSystem) -> Iterator[Warning]:
    drawdown, tested = state.drawdown_at_limit, state.inflow.tested_drawdown
    if not state.inflow_at_limit or drawdown is None or drawdown <= BEYOND_TEST * tested:
        return
    text = f"lies {units.length(drawdown)} below the water at rest, and only {units.length(tested)} were tested"
    yield Warning("/limit_depth", f"{text}: `inflow_at_limit` is the most that can be hoped for, and nothing shows it")


def _narrowly(state: WellState, units: UnitSystem) -> Iterator[Warning]:
    """A warning where what seems a yes would turn into a no within two standard uncertainties of the inflow."""
    if state.unproven == "uncertain":
        sigma = specific_capacity(state.inflow.standard_uncertainty, units)
        text = f"is carried with less to spare than {PROVEN_AT:g} standard uncertainties, each {sigma}"
        yield Warning("/design_flow", f"{text}: doubtful, and not taken for sustained")
