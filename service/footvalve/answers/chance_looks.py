"""Where to look whether conditions run as the second order says, before a chance is taken from it."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import sqrt
from random import Random

from footvalve.answers.chance_condition import Condition

AWAY = 2.2
"""Standard uncertainties by which an input is moved for a look: what happens farther out has a chance of 0.014."""

LEAST_BEND = 1e-4
"""Bend of a condition, in its standard uncertainties, from which an input does not run straight."""


def looks(conditions: Sequence[Condition], deciding: Condition | None) -> Iterator[Sequence[float]]:
    """Moves of the inputs, in their standard uncertainties: those that do not run straight one by one and two by two,
    where a line may turn turbulent or a disc drop, with all others to random sides, where another place may become the
    tightest; then the way on which the deciding condition falls fastest."""
    count = len(conditions[0].changes)
    bent = tuple(place for place in range(count) if any(_is_bent(condition, place) for condition in conditions))
    yield from _around(count, bent)
    if deciding is not None and deciding.slope:
        for along in (-AWAY, AWAY, -deciding.spare / deciding.slope):
            yield [along * change / deciding.slope for change in deciding.changes]


@lru_cache(maxsize=256)
def _around(count: int, bent: Sequence[int]) -> Sequence[Sequence[float]]:
    """The looks at so many inputs, some of which do not run straight; the same at every call."""
    straight = [place for place in range(count) if place not in bent]
    random, found = Random(0), []
    for moved in (*_one_by_one(len(bent)), *_two_by_two(len(bent))):
        sigmas = [0.0] * count
        for place, sigma in zip(bent, moved, strict=True):
            sigmas[place] = sigma
        for place in straight:
            sigmas[place] = random.choice((-AWAY, AWAY)) / sqrt(len(straight))
        found.append(sigmas)
    return found


def is_cut_off(ends: tuple[float, float]) -> bool:
    """Whether an input cannot be moved that far."""
    low, high = ends
    return low > -AWAY or high < AWAY


def _is_bent(condition: Condition, place: int) -> bool:
    return abs(condition.bends[place]) > LEAST_BEND * condition.slope


def _one_by_one(inputs: int) -> Iterator[list[float]]:
    """Each to both sides; without any two rows of none."""
    for side in (-AWAY, AWAY):
        yield from ([side * (place == moved) for place in range(inputs)] for moved in range(inputs or 1))


def _two_by_two(inputs: int) -> Iterator[list[float]]:
    """All to sides such that any two are moved to each pair of sides: the columns of a Hadamard matrix."""
    if inputs < 2:
        return
    for row in range(1 << inputs.bit_length()):
        yield [AWAY / sqrt(2.0) * (-1) ** (row & (place + 1)).bit_count() for place in range(inputs)]
