"""Where a shortfall ends between two values, told in so many digits as a value that still suffices."""

from collections.abc import Callable, Iterable
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from functools import cache

from fluids.numerics import brenth

Wanting = Callable[[float], float]
"""What is wanting at a value; zero or less where it suffices."""

FURTHER_DIGITS = 2
"""To how many digits more than are told the root is found."""

CLOSE_TO_NOUGHT = 1e-12
"""How close a root is found that is nearly nought: far below the finest place."""

FINEST_PLACE = -9
"""Power of ten of the last place that is told of a value near nought."""

MOST_STEPS = 500
"""Steps to a root. A bracketed one takes ten; where the shortfall jumps it is halved thirty times and more."""

STEPS_BACK = 3
"""Last digits to go back where the root itself was met a hair on the short side."""


def last_enough(wanting: Wanting, *, short: float, enough: float, digits: int) -> float | None:
    """The last value that suffices on the way from what may be enough to what is too little, cut to so many digits
    on the side on which it suffices, and tried again so; None where there is none between the two."""
    known = cache(wanting)
    at_short, at_enough = known(short), known(enough)
    if at_enough > 0.0 or at_short <= 0.0:
        return None
    root = brenth(
        known,
        short,
        enough,
        fa=at_short,
        fb=at_enough,
        xtol=CLOSE_TO_NOUGHT,
        rtol=10.0 ** -(digits + FURTHER_DIGITS),
        maxiter=MOST_STEPS,
    )
    return _cut(known, root, digits, rising=enough > short)


def _cut(wanting: Wanting, root: float, digits: int, *, rising: bool) -> float | None:
    exact = Decimal(root)
    place = max(exact.adjusted() - digits + 1, FINEST_PLACE) if exact else FINEST_PLACE
    step = Decimal(1).scaleb(place)
    told = (exact / step).to_integral_value(ROUND_CEILING if rising else ROUND_FLOOR) * step
    for _ in range(STEPS_BACK + 1):
        if wanting(float(told)) <= 0.0:
            return float(told)
        told += step if rising else -step
    return None


def greatest_enough(
    wanting: Wanting, *, start: float, low: float, high: float, digits: int, marks: Iterable[float] = ()
) -> float | None:
    """The greatest value from `low` to `high` up to which it suffices, sought from `start`; None where `low` itself is
    too much. `marks` are values above the start at which to look first, in order."""
    known = cache(wanting)
    if known(start) > 0.0:
        found = last_enough(known, short=start, enough=low, digits=digits)
        return None if found is None else max(found, low)
    enough = start
    for mark in (*marks, high):
        if known(mark) > 0.0:
            found = last_enough(known, short=mark, enough=enough, digits=digits)
            return None if found is None else max(found, low)
        enough = mark
    return high
