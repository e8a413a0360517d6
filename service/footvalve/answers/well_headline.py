"""The figures of `well-recovery`, in SI."""

from footvalve.answers.headline import Headline, held
from footvalve.answers.well_inflow import Inflow
from footvalve.answers.well_state import WellState, well_state
from footvalve.contract.well_recovery import WellRecoveryRequest


def well_headline(request: WellRecoveryRequest, known: Inflow | None = None) -> Headline:
    """The inflow for each length of drawdown, and what it and the casing give at the flow and the limit; `known` is the
    inflow by the readings, where it was found already."""
    return headline_of(well_state(request, known))


def headline_of(state: WellState) -> Headline:
    """The same of a well whose state is known already."""
    figures = {
        "/specific_capacity": state.specific_capacity,
        "/time_constant": state.time_constant,
        "/inflow_at_limit": state.inflow_at_limit,
        "/pumping_depth": state.pumping_depth,
        "/storage": state.storage,
        "/time_to_limit": state.time_to_limit,
    }
    return Headline(held(figures))
