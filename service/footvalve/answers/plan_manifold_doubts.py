"""Where the piping and the suction line of a plan tell of different pumps."""

from collections.abc import Iterator

from msgspec import UNSET

from footvalve.answers.manifold_wording import quoted
from footvalve.answers.plan_state import PlanState
from footvalve.contract.answer import Warning
from footvalve.contract.line import IdlePump
from footvalve.contract.manifold_check import ManifoldMode, ModeOutcome, PumpElement


def manifold_doubts(state: PlanState) -> Iterator[Warning]:
    """A warning where only one of the two has a stopped pump that the water is drawn through: a loss that is not
    counted, or two pumps whose doings are not checked."""
    asked, manifold = state.request.manifold, state.manifold
    if asked is UNSET or manifold is None:
        return
    pumps = {element.id for element in asked.elements if isinstance(element, PumpElement)}
    drawn = [name for pair in zip(asked.modes, manifold.modes, strict=True) for name in _drawn_through(*pair, pumps)]
    is_listed = any(isinstance(part, IdlePump) for part in state.request.suction_line)
    if drawn and not is_listed:
        text = f"the manifold has the water drawn through {quoted(drawn[0])} while that stands still, and the line"
        yield Warning(
            "/suction_line", f"{text} lists no stopped pump: add it as `idle-pump`, for its loss is not counted"
        )
    elif is_listed and not drawn:
        text = "the suction line lists a stopped pump, and no mode of the manifold draws the water through one: what"
        yield Warning("/manifold/elements", f"{text} it and the booster do to each other is not checked")


def _drawn_through(mode: ManifoldMode, outcome: ModeOutcome, pumps: set[str]) -> Iterator[str]:
    """The stopped pumps on the way to the first pump that runs."""
    for name in outcome.path:
        if name in mode.running:
            return
        if name in pumps:
            yield name
