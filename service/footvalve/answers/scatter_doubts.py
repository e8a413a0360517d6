"""Readings that are too few for their scatter to tell how sure their mean is."""

from typing import Any, Final, TypeVar

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.coverage import factor_of_one
from footvalve.answers.reading_scatter import BY_HAND, is_by_hand
from footvalve.answers.uncertain_answer import Uncertain
from footvalve.contract.answer import Answer, Warning
from footvalve.contract.pointed import tokens, value_at
from footvalve.contract.quantities import Length

Answered = TypeVar("Answered", bound=Answer)

LEAST_DOUBTED: Final = 0.03
"""m by which a mean may be off before few readings are doubted: a tenth of a foot decides nothing. Own choice."""

_COUNTED: Final = {1: "two", 2: "three"}


def with_scatter_doubts(answer: Answered, known: Uncertain, place: str, request: Any) -> Answered:
    """The answer with a warning where two or three readings of a sounding tell the uncertainty of their mean, which may
    be far greater, or where they are too few to tell it at all. `place` is the pointer to the sounding, in the request
    and in the answer."""
    asked = value_at(request, place)
    depth = f"{place}/depth_to_water"
    if asked is UNSET or depth not in known.centre.figures:
        return answer
    unit = value_at(answer, depth).unit
    found = (
        Warning(effect.input.pointer, text)
        for effect in known.found
        if effect.input.kind == "scatter" and tokens(effect.input.pointer)[:-1] == (*tokens(place), "measurement")
        for text in _doubt(
            freedom=len(value_at(request, effect.input.pointer)) - 1,
            sigma=abs(effect.change(depth, known.centre) or 0.0),
            by_hand=is_by_hand(asked.measurement),
            unit=unit,
        )
    )
    return replace(answer, warnings=[*answer.warnings, *found])


def _doubt(*, freedom: int, sigma: float, by_hand: bool, unit: str) -> list[str]:
    """What is said of a mean that is uncertain by so many m, by the degrees of freedom of its readings; nothing where
    they are enough, or lie close together, and of one alone, which the sounding itself doubts."""
    factor = factor_of_one(freedom) if freedom else None
    if factor is None or (sigma if by_hand else factor * sigma) <= LEAST_DOUBTED:
        return []
    few, told = f"{_COUNTED[freedom]} readings hardly tell how far readings scatter:", Length.from_base(sigma, unit)
    if by_hand:
        why = f"a hand's {BY_HAND:.2f} s, more than these show, makes their mean uncertain by {told}"
    else:
        why = (
            f"the uncertainty of their mean, {told} by their scatter, holds as often as it seems to only if it is "
            f"taken {factor:g} times as great, and any chance of success is less sure than it is told"
        )
    return [f"{few} {why}: read five times or more"]
