"""What a head profile says in words: its title, and the text that stands for it where it cannot be seen."""

from collections.abc import Iterator, Sequence

from msgspec import UNSET

from footvalve.contract.suction_feasibility import SuctionFeasibilityAnswer
from footvalve.drawings.figures import chance_told, figure, told, unit_as_written
from footvalve.drawings.suction_way import Place, stretches_under_vacuum


def profile_title(answer: SuctionFeasibilityAnswer) -> str:
    """The verdict on the suction side in a few words."""
    verdict = f"{answer.verdict}, margin {told(answer.margin)}"
    if answer.chance_feasible is UNSET:
        return f"Head profile of the suction line: {verdict}"
    return f"Head profile: {verdict}, chance of being feasible {chance_told(answer.chance_feasible)}"


def profile_description(answer: SuctionFeasibilityAnswer, places: Sequence[Place]) -> str:
    """The drawing in words, with its numbers."""
    return " ".join(_sentences(answer, places))


def _sentences(answer: SuctionFeasibilityAnswer, places: Sequence[Place]) -> Iterator[str]:
    unit = unit_as_written(answer.margin.unit)
    first, last = places[0], places[-1]
    yield (
        f"{len(places) - 1} parts with {figure(last.way)} {unit} of pipe lead from the intake at "
        f"{figure(first.elevation)} {unit} to the pump inlet at {figure(last.elevation)} {unit}, "
        "both above the ground at the wellhead."
    )
    yield f"The pumping level lies {told(answer.pumping_depth)} below the ground."
    yield (
        f"The pump needs {told(answer.npsh_required)} of NPSH, {told(answer.npsh_available)} are there: "
        f"the margin is {told(answer.margin)}, which is {answer.verdict}."
    )
    yield f"The tightest place is {tightest_told(answer)}."
    stretches = [f"{figure(s.pipe[0][0])} to {figure(s.pipe[-1][0])} {unit}" for s in stretches_under_vacuum(places)]
    if stretches:
        yield f"Under vacuum, by the way along the line: {', '.join(stretches)}."
    else:
        yield "No part stands under vacuum."


def tightest_told(answer: SuctionFeasibilityAnswer) -> str:
    """The tightest place with what is left there."""
    return f"{answer.tightest.name}, {left_told(answer)}"


def left_told(answer: SuctionFeasibilityAnswer) -> str:
    """What is left at the tightest place before the water boils."""
    left = answer.tightest.above_vapour
    if left.value < 0:
        return f"short of {told(type(left)(-left.value, left.unit))}: the water boils"
    return f"{told(left)} left before it boils"
