"""How the level in a well comes back once pumping stops, and what its readings tell of the inflow.

The casing holds A of water for each length, and the ground gives C (the specific capacity) for each length of
drawdown, so that A ds/dt = -C s.
"""

import math
from collections.abc import Sequence

from msgspec import Struct

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import Metres, MetresPerSecond, Number, Seconds, SquareMetres, SquareMetresPerSecond

WELL_RECOVERY = Method(
    "Exponential recovery of a well whose inflow grows with its drawdown, fitted on the logarithm of the drawdown",
    "M. J. Hvorslev, US Army Waterways Experiment Station, Bulletin 36 (1951), basic time lag; of dug wells: the "
    "recuperation test, K. Subramanya, Engineering Hydrology, section Open Wells",
    (Range("recovered_fraction", 0.63, 1.0), Range("r_squared", 0.95, 1.0)),
    "hours, not days: the slow fall of the ground water around the well (C. V. Theis, 1935; Cooper & Jacob, 1946) is "
    "not in it; the bore is the same wherever the level moves; 63 % is one basic time lag, which Hvorslev asks to be "
    "observed; r squared: common practice, no source",
)


class FittedRecovery(Struct, frozen=True):
    """What the readings of a recovery come to; the initial drawdown is the fit's at the first of them. `r_squared` and
    `standard_uncertainty` (of the specific capacity, from the readings' scatter) are None for two readings, which any
    exponential fits. `by_reading_error` is how uncertain each metre of uncertainty of a reading would make the specific
    capacity."""

    specific_capacity: SquareMetresPerSecond
    initial_drawdown: Metres
    points: int
    r_squared: Number | None
    standard_uncertainty: SquareMetresPerSecond | None
    by_reading_error: MetresPerSecond


def residual_drawdown(
    *, initial_drawdown: Metres, specific_capacity: SquareMetresPerSecond, area: SquareMetres, time: Seconds
) -> Metres:
    """What is left of a drawdown a time after pumping stopped, s = s0 exp(-C t / A).

    Valid for: WELL_RECOVERY.
    Source: Hvorslev (1951), with the basic time lag T = A / C.
    Raises: OutsideDomain for an area that is not positive, or a specific capacity below zero.

    >>> round(residual_drawdown(initial_drawdown=3.0, specific_capacity=0.0001, area=0.017, time=170.0), 4)
    1.1036
    """
    if not (area > 0.0 and specific_capacity >= 0.0):
        raise OutsideDomain("the area must be above zero, and the specific capacity not below it")
    return initial_drawdown * math.exp(-specific_capacity * time / area)


def fit_recovery(*, times: Sequence[Seconds], drawdowns: Sequence[Metres], area: SquareMetres) -> FittedRecovery:
    """Specific capacity and initial drawdown by least squares on the logarithm, of readings with equal errors.

        ln s = ln s0 - (C / A) (t - t0),    weights w = s^(1/2) f^(3/2), f being the fit's own drawdown

    An error e of a reading is an error of about e / f - e^2 / (2 f^2) in its logarithm, so weights of f^2 make all
    readings count as they deserve. Taken from the readings, w = s^2 pulls the fit by + 3/2 e^2 at each (s and w err
    together), from the fit, w = f^2, by - 1/2 e^2: late readings of little drawdown are many, and the pull is always
    the same way. The mean weight above brings in + 1/2 e^2 and cancels it. f comes from a first fit with w = s^2, and
    nowhere counts for more than the greatest reading.

    A level that does not rise fits best with C = 0. The weighted r squared says which share of the spread of ln s the
    fit explains; the uncertainty comes from the residuals, sum of w (ln s - ln f)^2 / (n - 2), and is one sigma. An
    error of a reading that is known beforehand stands for their root, as w is all but the drawdown's square.

    Valid for: WELL_RECOVERY; readings whose errors do not depend on the depth.
    Source: weighted linear regression (JCGM 100:2008, H.3, with weights); the weights are derived here.
    Raises: OutsideDomain for fewer than two readings, or all at one time, or a drawdown or area that is not positive,
    or readings so far from an exponential that it would start at a hundred times the greatest of them.

    >>> fit = fit_recovery(times=[0.0, 60.0, 120.0], drawdowns=[4.0, 2.0, 1.0], area=0.018)
    >>> round(fit.specific_capacity, 8), round(fit.initial_drawdown, 6), round(fit.r_squared, 6)
    (0.00020794, 4.0, 1.0)
    """
    _require(times, drawdowns, area)
    logs = [math.log(drawdown) for drawdown in drawdowns]
    first = _fit_line(times, logs, [drawdown * drawdown for drawdown in drawdowns])
    greatest = max(logs)
    fitted = [min(first.log_at(time), greatest) for time in times]
    line = _fit_line(times, logs, [math.exp(0.5 * log + 1.5 * fit) for log, fit in zip(logs, fitted, strict=True)])
    initial_log = line.log_at(min(times))
    if initial_log > greatest + math.log(100.0):
        raise OutsideDomain("the readings do not come back from a drawdown as an exponential does")
    scattered = len(times) > 2
    return FittedRecovery(
        specific_capacity=line.rate * area,
        initial_drawdown=math.exp(initial_log),
        points=len(times),
        r_squared=line.r_squared if scattered else None,
        standard_uncertainty=area * line.rate_uncertainty(len(times) - 2) if scattered else None,
        by_reading_error=area / math.sqrt(line.time_spread),
    )


class _Line(Struct, frozen=True):
    """A falling straight line through weighted points; `rate` is how fast it falls."""

    rate: float
    mean_time: float
    mean_log: float
    time_spread: float
    residual: float
    r_squared: float

    def log_at(self, time: Seconds) -> float:
        return self.mean_log - self.rate * (time - self.mean_time)

    def rate_uncertainty(self, degrees_of_freedom: int) -> float:
        return math.sqrt(self.residual / (degrees_of_freedom * self.time_spread))


def _fit_line(times: Sequence[Seconds], logs: Sequence[float], weights: Sequence[float]) -> _Line:
    points = list(zip(times, logs, weights, strict=True))
    whole = math.fsum(weights)
    mean_time = math.fsum([w * t for t, _, w in points]) / whole
    mean_log = math.fsum([w * y for _, y, w in points]) / whole
    from_mean = [(t - mean_time, y - mean_log, w) for t, y, w in points]
    time_spread = math.fsum([w * t**2 for t, _, w in from_mean])
    if not time_spread > 0.0:
        raise OutsideDomain("readings that count must lie at different times")
    rate = max(-math.fsum([w * t * y for t, y, w in from_mean]) / time_spread, 0.0)
    residual = math.fsum([w * (y + rate * t) ** 2 for t, y, w in from_mean])
    explained = rate * rate * time_spread
    r_squared = explained / (explained + residual) if explained else 0.0
    return _Line(rate, mean_time, mean_log, time_spread, residual, r_squared)


def _require(times: Sequence[Seconds], drawdowns: Sequence[Metres], area: SquareMetres) -> None:
    if len(times) != len(drawdowns) or len(times) < 2:
        raise OutsideDomain("a recovery takes two readings or more, each with its time")
    if not 0.0 < area < math.inf:
        raise OutsideDomain("the casing's area must be above zero")
    if not 0.0 < min(drawdowns) <= max(drawdowns) < math.inf:
        raise OutsideDomain("a drawdown must be above zero to have a logarithm")
