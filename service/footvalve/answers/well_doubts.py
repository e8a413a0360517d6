"""Where a well's answer hangs by a thread, besides the ranges of its methods."""

from collections.abc import Iterator

from footvalve.answers.coverage import factor_of_one
from footvalve.answers.unit_system import UnitSystem
from footvalve.answers.well_inflow import LEAST_DISTINCT
from footvalve.answers.well_inflow_doubts import inflow_doubts
from footvalve.answers.well_readings import READINGS
from footvalve.answers.well_state import WellState
from footvalve.answers.well_units import specific_capacity
from footvalve.contract.answer import Warning
from footvalve.contract.well_recovery import WellRecoveryRequest


def well_doubts(request: WellRecoveryRequest, state: WellState, units: UnitSystem) -> list[Warning]:
    """Doubts about the readings, and about the flow and the limit that the well is asked for."""
    return [
        *inflow_doubts(request, state, units),
        *_scatter(state, units),
        *_few(state),
        *_limit_not_below_rest(state, units),
        *_narrowly(state, units),
    ]


def _scatter(state: WellState, units: UnitSystem) -> Iterator[Warning]:
    if state.unproven == "scatter":
        found, sigma = (
            specific_capacity(value, units) for value in (state.specific_capacity, state.inflow.standard_uncertainty)
        )
        text = f"scatter so much that the specific capacity of {found} is uncertain by {sigma}: they tell no inflow"
        yield Warning(READINGS, text)


def _few(state: WellState) -> Iterator[Warning]:
    """A warning where three or four readings tell by their scatter how sure they are."""
    readings = state.inflow.distinct_readings
    factor = None if readings is None or readings < LEAST_DISTINCT else factor_of_one(readings - 2)
    if factor is not None:
        text = (
            f"{readings} readings hardly tell how far they scatter: what is uncertain about the inflow, and any chance"
        )
        yield Warning(READINGS, f"{text} that rests on it, is less sure than it is told; read six times or more")


def _limit_not_below_rest(state: WellState, units: UnitSystem) -> Iterator[Warning]:
    if state.drawdown_at_limit == 0.0:
        text = f"does not lie below `static_depth`, {units.length(state.static_depth)}: all depths start at one point"
        yield Warning("/limit_depth", text)


def _narrowly(state: WellState, units: UnitSystem) -> Iterator[Warning]:
    """A warning where what seems a yes would turn into a no within what is uncertain about the inflow."""
    if state.unproven == "uncertain":
        found, least = (
            specific_capacity(value, units) for value in (state.specific_capacity, state.least_specific_capacity)
        )
        text = f"is carried by {found}, as was found, but {len(state.inflow.used)} readings are sure of {least} only"
        yield Warning("/design_flow", f"{text}: doubtful, and not taken for sustained")
