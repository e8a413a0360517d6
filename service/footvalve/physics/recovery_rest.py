"""Where the level of a recovering well would come to rest, by how its readings bend away from an exponential."""

import math
from collections.abc import Sequence

from msgspec import Struct

from footvalve.physics.method import OutsideDomain
from footvalve.physics.si import Metres, Seconds, SquareMetres
from footvalve.physics.well_recovery import FittedRecovery, residual_drawdown


class RestOffset(Struct, frozen=True):
    """How much deeper than the assumed rest the level comes to rest (below zero: less deep), and one sigma of it by
    a given error of each reading."""

    offset: Metres
    standard_uncertainty: Metres


def rest_offset(
    *,
    times: Sequence[Seconds],
    drawdowns: Sequence[Metres],
    fit: FittedRecovery,
    area: SquareMetres,
    reading_error: Metres,
) -> RestOffset:
    """The offset of the rest that would take the bend out of a fitted recovery, to first order.

        s = r + s0 exp(-k t),    ds = dr + (f / s0) ds0 - t f dk,    f being the fit at dr = 0

    by least squares of the readings' residuals s - f, equally weighted; what the constant has beyond the two other
    terms decides. The scatter of what is then left sets the uncertainty, or the reading error where that is greater.

    Valid for: an offset of a twentieth of the drawdown, to a tenth of it; a larger one is seen, but roughly. Ground
    that refills slowly bends the readings as a deeper rest does.
    Source: linearised least squares (one Gauss-Newton step); derived here.
    Raises: OutsideDomain for fewer than four readings, or readings too alike to tell.

    >>> from footvalve.physics.well_recovery import fit_recovery
    >>> times = [0.0, 300.0, 600.0, 1200.0, 2400.0]
    >>> drawdowns = [0.05 + 4.0 * math.exp(-time / 600.0) for time in times]
    >>> fit = fit_recovery(times=times, drawdowns=drawdowns, area=0.018)
    >>> found = rest_offset(times=times, drawdowns=drawdowns, fit=fit, area=0.018, reading_error=0.003)
    >>> round(found.offset, 3), round(found.standard_uncertainty, 3)
    (0.051, 0.003)
    """
    if len(times) < 4:
        raise OutsideDomain("the rest is told by four readings or more")
    start = min(times)
    fitted = [
        residual_drawdown(
            initial_drawdown=fit.initial_drawdown,
            specific_capacity=fit.specific_capacity,
            area=area,
            time=time - start,
        )
        for time in times
    ]
    slower = _beyond([f * (time - start) for f, time in zip(fitted, times, strict=True)], fitted)
    constant = _beyond(_beyond([1.0] * len(times), fitted), slower)
    size = _product(constant, constant)
    if not size > 1e-12:
        raise OutsideDomain("the readings do not tell where the level comes to rest")
    left = _beyond(_beyond([s - f for s, f in zip(drawdowns, fitted, strict=True)], fitted), slower)
    offset = _product(left, constant) / size
    scatter = _beyond(left, constant)
    error = max(math.sqrt(_product(scatter, scatter) / (len(times) - 3)), reading_error)
    return RestOffset(offset, error / math.sqrt(size))


def _product(one: Sequence[float], other: Sequence[float]) -> float:
    return math.fsum([a * b for a, b in zip(one, other, strict=True)])


def _beyond(column: Sequence[float], term: Sequence[float]) -> list[float]:
    """What a column has beyond its share of a term: orthogonal to it."""
    size = _product(term, term)
    share = _product(column, term) / size if size else 0.0
    return [a - share * b for a, b in zip(column, term, strict=True)]
