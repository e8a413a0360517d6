"""What a comparison with an engine of others has found."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

RELATIVE = "relative"

SIX_DIGITS = 5e-6
"""What rounding to six digits takes off a number at most, as a part of it."""


@dataclass(frozen=True)
class Comparison:
    """The worst deviation of many cases with its bound, and the inputs of that case.

    `unit` is that of `worst` and `bound`: `relative`, or what an absolute deviation is measured in.
    """

    phenomenon: str
    engine: str
    cases: int
    worst: float
    bound: float
    at: Mapping[str, Any]
    unit: str = RELATIVE


def compared(
    phenomenon: str,
    engine: str,
    deviations: Iterable[tuple[float, Mapping[str, Any]]],
    *,
    bound: float,
    unit: str = RELATIVE,
) -> Comparison:
    """The worst of the deviations, each with its inputs. One that is no number is beyond any bound, and so are none."""
    found = [(math.inf if math.isnan(deviation) else deviation, inputs) for deviation, inputs in deviations]
    worst, at = max(found, key=lambda case: case[0], default=(math.inf, {}))
    return Comparison(phenomenon, engine, len(found), worst, bound, at, unit)


def apart(ours: float, theirs: float) -> float:
    """By which part of theirs the two differ."""
    if theirs == 0.0:
        return 0.0 if ours == 0.0 else math.inf
    return abs(ours / theirs - 1.0)
