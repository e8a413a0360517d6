"""Scales: from a number to a place in the drawing, and the round numbers that are written beside it."""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Scale:
    """A straight scale: `low` of the values lies at `start` of the drawing, `high` at `end`."""

    low: float
    high: float
    start: float
    end: float

    def __call__(self, value: float) -> float:
        """Where the value lies; what is off the scale lies at its end."""
        share = (value - self.low) / (self.high - self.low)
        return self.start + min(max(share, 0.0), 1.0) * (self.end - self.start)


def round_step(span: float, most: int) -> float:
    """The smallest step of 1, 2 or 5 times a power of ten that divides the span into no more than `most` parts.

    >>> round_step(75.0, 6)
    20.0
    """
    least = span / most
    power = 10.0 ** math.floor(math.log10(least))
    return next(power * factor for factor in (1.0, 2.0, 5.0, 10.0) if power * factor >= least * (1 - 1e-9))


def ticks(low: float, high: float, most: int) -> list[float]:
    """The round numbers from `low` to `high`, no more than `most` and one.

    >>> ticks(-63.0, 12.0, 6)
    [-60.0, -40.0, -20.0, 0.0]
    """
    step = round_step(high - low, most)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [round(number * step, 9) for number in range(first, last + 1)]
