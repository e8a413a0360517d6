"""Draws of uncertain inputs, spread evenly: far fewer do than of draws by chance."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from random import Random
from statistics import NormalDist

Ends = tuple[float, float]
"""Standard uncertainties between which an input may be moved."""

EVEN_TOGETHER = 3
"""Inputs whose draws are spread evenly over one another as well; over more dimensions the sequence thins out."""

_GOLDEN = 1.2207440846057596
"""The root of x^4 = x + 1, whose powers spread points over three dimensions as the golden section does over one."""

_NORMAL = NormalDist()


def normal_draws(inputs: Sequence[Ends], draws: int, turn: int = 0) -> Iterator[tuple[float, ...]]:
    """Standard normal draws of the inputs, each cut off at its ends, the same at every call but others at each turn: of
    each input one in each of so many equally likely strata. The first three inputs are spread over one another by a
    sequence, the others are shuffled."""
    columns = []
    for place, ends in enumerate(inputs):
        levels = _levels(ends, draws)
        columns.append([levels[stratum] for stratum in _order(place, draws, turn)])
    return zip(*columns, strict=True)


@lru_cache(maxsize=64)
def _levels(ends: Ends, draws: int) -> Sequence[float]:
    """The middle of each stratum."""
    low, high = map(_NORMAL.cdf, ends)
    return [_NORMAL.inv_cdf(low + (high - low) * (stratum + 0.5) / draws) for stratum in range(draws)]


@lru_cache(maxsize=64)
def _order(place: int, draws: int, turn: int) -> Sequence[int]:
    """The stratum of each draw of the input at a place."""
    if place >= EVEN_TOGETHER:
        return Random(f"{place} {turn}").sample(range(draws), draws)
    step = _GOLDEN ** -(place + 1)
    points = [(turn * draws + draw + 1) * step % 1.0 for draw in range(draws)]
    strata = [0] * draws
    for stratum, draw in enumerate(sorted(range(draws), key=points.__getitem__)):
        strata[draw] = stratum
    return strata
