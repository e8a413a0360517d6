"""The uncertain inputs of a request: those whose uncertainty is stated, and readings that scatter."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from math import inf
from typing import Any, Literal

from footvalve.answers.suction_places import stretched, suction_places, told_twice
from footvalve.contract.pointed import changed_at, tokens
from footvalve.contract.problem import Fault
from footvalve.contract.quantities import Quantity
from footvalve.contract.ranges import Stated
from footvalve.physics.method import Method

MOST_UNCERTAIN = 50
"""Inputs with an uncertainty that a request may have: each is reckoned twice more (own choice)."""


class OutOfRange(ValueError):
    """A shifted input is none that the contract takes."""


@dataclass(frozen=True, slots=True)
class UncertainInput:
    """An input that is uncertain: where it stands, where its uncertainty comes from, and the request with this input
    so many standard uncertainties further up. That raises OutOfRange for what the contract does not take. A scatter has
    the method by which it was found. The ends are those of its field, in standard uncertainties from where it is."""

    pointer: str
    kind: Literal["stated", "scatter"]
    shifted: Callable[[Any, float], Any]
    method: Method | None = None
    ends: tuple[float, float] = (-inf, inf)


def stated_inputs(stated: Sequence[Stated]) -> list[UncertainInput]:
    """The inputs that carry an uncertainty of their own. A place that is told twice is one input, and is moved by the
    uncertainty with which it is told first."""
    uncertain = [at for at in stated if at.quantity.uncertainty]
    if not uncertain:
        return []
    twice = told_twice(stated)
    first = next((at for at in twice if at.quantity.uncertainty), None)
    places = suction_places(stated)
    return [
        _input(at, twice if at is first else [at], stretched if at.pointer in places else _as_it_is)
        for at in uncertain
        if at is first or at not in twice
    ]


def _input(at: Stated, together: Sequence[Stated], follow: Callable[[Any, Any], Any]) -> UncertainInput:
    moved = [(tokens(each.pointer), each) for each in together]
    shifted = partial(_shifted, moved, at.quantity.base_uncertainty, follow)
    return UncertainInput(at.pointer, "stated", shifted, ends=_ends(at))


def _ends(at: Stated) -> tuple[float, float]:
    if at.limits is None or not at.quantity.uncertainty:
        return -inf, inf
    low, high, _ = at.limits[at.quantity.unit]
    return (low - at.quantity.value) / at.quantity.uncertainty, (high - at.quantity.value) / at.quantity.uncertainty


def _shifted(
    moved: Sequence[tuple[tuple[str, ...], Stated]],
    uncertainty: float,
    follow: Callable[[Any, Any], Any],
    request: Any,
    sigmas: float,
) -> Any:
    after = request
    for path, at in moved:
        after = changed_at(after, path, partial(_further_up, at=at, by=sigmas * uncertainty))
    return follow(request, after)


def _as_it_is(_: Any, after: Any) -> Any:
    return after


def too_many(inputs: Sequence[UncertainInput]) -> Iterator[Fault]:
    """A fault at the first input that is one too many."""
    if len(inputs) > MOST_UNCERTAIN:
        text = f"{len(inputs)} inputs carry an uncertainty, and at most {MOST_UNCERTAIN} may: keep those that matter"
        yield Fault(f"{inputs[MOST_UNCERTAIN].pointer}/uncertainty", text)


def _further_up(quantity: Quantity, *, at: Stated, by: float) -> Quantity:
    moved = quantity.moved(by)
    if not at.allows(moved):
        raise OutOfRange(at.pointer)
    return moved
