"""The figures of `suction-feasibility`, in SI."""

from footvalve.answers.headline import Headline
from footvalve.answers.suction_state import SuctionState, suction_state
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest


def suction_headline(request: SuctionFeasibilityRequest) -> Headline:
    """The heads and depths of a suction line, and what each condition of its verdict has to spare."""
    return headline_of(suction_state(request))


def headline_of(state: SuctionState) -> Headline:
    """The same of a line that was reckoned already."""
    figures = {
        "/npsh_available": state.npsh_available,
        "/npsh_required": state.npsh_required,
        "/margin": state.margin,
        "/pumping_depth": state.pumping_depth,
        "/static_lift": state.static_lift,
        "/losses": state.nodes[-1].losses,
        "/acceleration_head": state.nodes[-1].acceleration_head,
    }
    return Headline(figures, spares=state.spares)
