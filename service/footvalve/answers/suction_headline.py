"""The figures of `suction-feasibility`, in SI."""

from collections.abc import Callable

from footvalve.answers.headline import Headline
from footvalve.answers.suction_state import SuctionState, has_the_same_line, on_the_same_line, suction_state
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest


def suction_headline(request: SuctionFeasibilityRequest) -> Headline:
    """The heads and depths of a suction line, and what each condition of its verdict has to spare."""
    return headline_of(suction_state(request))


def headlines_near(
    request: SuctionFeasibilityRequest, state: SuctionState
) -> Callable[[SuctionFeasibilityRequest], Headline]:
    """The same function for requests near one whose state is known: a line that is left as it was is not looked up
    again."""

    def headline(other: SuctionFeasibilityRequest) -> Headline:
        if other is request:
            return headline_of(state)
        if has_the_same_line(request, other):
            return headline_of(on_the_same_line(state, other))
        return suction_headline(other)

    return headline


def headline_of(state: SuctionState) -> Headline:
    """The same of a line that was reckoned already."""
    figures = {
        "/npsh_available": state.npsh_available,
        "/npsh_required": state.npsh_required,
        "/margin": state.margin,
        "/pumping_depth": state.pumping_depth,
        "/static_lift": state.static_lift,
        "/losses": state.losses,
        "/acceleration_head": state.acceleration_head,
    }
    return Headline(figures, spares=state.spares)
