"""An answer with the uncertainties that its inputs bring."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from operator import methodcaller
from typing import Any, TypeVar

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.basis import basis_step
from footvalve.answers.chance import Chance, chance_feasible
from footvalve.answers.headline import Headline
from footvalve.answers.propagation import FIRST_ORDER, Effect, Propagated, effects, propagated
from footvalve.answers.propagation_doubts import propagation_doubts
from footvalve.answers.suction_chance import SuctionChance
from footvalve.answers.suction_state import FAILURES
from footvalve.answers.sure_enough import ALL_BUT_SURE, SURE_ENOUGH, told_chance
from footvalve.answers.uncertain_inputs import UncertainInput
from footvalve.contract.answer import Answer, BasisStep, Contribution, Share, Warning
from footvalve.contract.pointed import changed_at, changed_together, tokens, value_at
from footvalve.contract.quantities import Length, rounded
from footvalve.contract.ranges import Stated

Answered = TypeVar("Answered", bound=Answer)

LAST_DIGITS = 1e-8
"""Part of a figure below which its uncertainty is not told: the figure itself has six digits, and a root that is sought
has ten."""

LEAST_SHARE = 1e-9
"""Part of a variance below which an input is not told to have a share in it."""

HARDLY_ANYTHING = 1e-3
"""Part of a margin below which its uncertainty is not told as a figure: what is not counted is far more."""

COUNTED = (
    "Counting only the uncertainties that are stated and the scatter of readings, "
    "and neither the weather nor the methods' own error"
)


@dataclass(frozen=True, slots=True)
class Uncertain:
    """What is uncertain about one request, and what that does to the headline of its answer."""

    centre: Headline
    found: Sequence[Effect]
    told: Mapping[str, Propagated]
    chance: Chance | None


def uncertain(
    request: Any,
    inputs: Sequence[UncertainInput],
    headline: Callable[[Any], Headline],
    *,
    stated: Sequence[Stated],
    suction: SuctionChance | None,
    spares: Callable[[Any], Headline],
) -> Uncertain:
    """The uncertainties of an answer's figures. `stated` are all the request's quantities, `suction` is how the chance
    of its suction line is found, where it has one, and `spares` its function."""
    centre = headline(request)
    found = effects(request, inputs, headline)
    chance = None if suction is None else _chance(request, centre, found, stated, suction, spares)
    return Uncertain(centre, found, _telling(centre, propagated(centre, found)), chance)


def _telling(centre: Headline, told: Mapping[str, Propagated]) -> dict[str, Propagated]:
    """The uncertainties without those that are nothing but the rounding of what is solved for step by step."""
    return {
        pointer: figure
        for pointer, figure in told.items()
        if figure.uncertainty > LAST_DIGITS * abs(centre.figures[pointer])
    }


def _chance(
    request: Any,
    centre: Headline,
    found: Sequence[Effect],
    stated: Sequence[Stated],
    suction: SuctionChance,
    spares: Callable[[Any], Headline],
) -> Chance | None:
    """None where the answer holds no suction line, or nothing that bears on it is uncertain."""
    bearing = [effect for effect in found if suction.bears(effect.input.pointer)]
    if not bearing or suction.margin not in centre.figures:
        return None
    size = sum(suction.bears(at.pointer) for at in stated)
    return chance_feasible(request, centre, bearing, spares, size=size, most_draws=suction.most_draws)


def with_uncertainties(
    answer: Answered, known: Uncertain, *, contributions: bool, suction: SuctionChance | None
) -> Answered:
    """The answer with them. `suction` tells where it speaks of its suction line, if it does."""
    told = known.told.items()
    answer = changed_together(
        answer, [(tokens(place), methodcaller("with_uncertainty", figure.uncertainty)) for place, figure in told]
    )
    if known.chance is not None and suction is not None:
        answer = suction.summed_up(_with_chance(answer, known.chance, suction.pointer))
    return replace(
        answer,
        basis=[*answer.basis, *_basis(known)],
        warnings=[*answer.warnings, *propagation_doubts(known.centre, known.found, known.told)],
        contributions=_contributions(known) if contributions else UNSET,
    )


def _basis(known: Uncertain) -> list[BasisStep]:
    scatters = dict.fromkeys(effect.input.method for effect in known.found if effect.input.method)
    return [
        *(basis_step("Scatter of readings", method) for method in scatters),
        basis_step("Uncertainties", FIRST_ORDER),
        *([basis_step("Chance of being feasible", known.chance.method)] if known.chance else []),
    ]


def _contributions(known: Uncertain) -> list[Contribution]:
    return [
        Contribution(quantity=pointer, inputs=_shares(known.found, figure)) for pointer, figure in known.told.items()
    ]


def _shares(found: Sequence[Effect], figure: Propagated) -> list[Share]:
    shares = [
        Share(
            pointer=found[index].input.pointer,
            kind=found[index].input.kind,
            effect="raises" if change > 0.0 else "lowers",
            variance_fraction=rounded(figure.variance_fraction(index)),
        )
        for index, change in figure.changes.items()
        if figure.variance_fraction(index) > LEAST_SHARE
    ]
    return sorted(shares, key=lambda share: -share.variance_fraction)


def _with_chance(answer: Answered, chance: Chance, suction: str) -> Answered:
    told = value_at(answer, suction)
    value = rounded(chance.value)
    reason = _reason(told.margin, value, chance.condition)
    changed = replace(told, chance_feasible=value, reasons=[*told.reasons, reason])
    answer = changed_at(answer, tokens(suction), lambda _: changed)
    return replace(answer, warnings=[*answer.warnings, *_chance_doubts(told.verdict, value, chance)])


def _reason(margin: Length, chance: float, condition: int) -> str:
    told = f"the chance that the line is feasible is {told_chance(chance)}"
    if chance <= ALL_BUT_SURE:
        told += f"; what is likeliest to fail: {FAILURES[condition]}"
    if margin.uncertainty:
        spread = _spread(margin, margin.uncertainty)
        told = f"the margin is {margin}, give or take {spread}, and {told}"
    return f"{COUNTED}, {told}."


def _spread(margin: Length, uncertainty: float) -> str:
    if uncertainty < HARDLY_ANYTHING * abs(margin.value):
        return "hardly anything"
    return str(Length(uncertainty, margin.unit))


def _chance_doubts(verdict: str, value: float, chance: Chance) -> Iterator[Warning]:
    """Warnings of a chance that is rough, and at the input that matters most of a yes that is far from sure."""
    pointer = chance.decisive.pointer
    if not chance.is_sure:
        yield Warning(pointer, f"the chance of being feasible may be off by more than 0.03: {chance.doubt}")
    if verdict == "feasible" and value < SURE_ENOUGH:
        text = f"as stated the line is feasible, but with their uncertainties the chance is {told_chance(value)}"
        fails = f"what is likeliest to fail: {FAILURES[chance.condition]}"
        yield Warning(pointer, f"{text}; {fails}. This input matters most to that, so make sure of it first")
