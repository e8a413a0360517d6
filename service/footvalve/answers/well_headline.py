"""The figures of `well-recovery`, in SI."""

from footvalve.answers.headline import Headline, held
from footvalve.answers.well_state import well_state
from footvalve.contract.well_recovery import WellRecoveryRequest


def well_headline(request: WellRecoveryRequest) -> Headline:
    """The inflow for each length of drawdown, and what it and the casing give at the flow and the limit."""
    state = well_state(request)
    figures = {
        "/specific_capacity": state.specific_capacity,
        "/time_constant": state.time_constant,
        "/inflow_at_limit": state.inflow_at_limit,
        "/pumping_depth": state.pumping_depth,
        "/storage": state.storage,
        "/time_to_limit": state.time_to_limit,
    }
    return Headline(held(figures))
