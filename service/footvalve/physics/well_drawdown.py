"""How the level in a well falls while it is pumped: first the casing gives the water, then the ground.

The casing holds A of water for each length, and the ground gives C (the specific capacity) for each length of
drawdown, so that A ds/dt = Q - C s.
"""

import math

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import CubicMetresPerSecond, Fraction, Metres, Seconds, SquareMetres, SquareMetresPerSecond

_NOT_IN_IT = (
    "hours, not days: the slow fall of the ground water around the well (C. V. Theis, 1935; Cooper & Jacob, 1946) is "
    "not in it, nor the loss at the screen that grows with the square of the flow"
)

WELL_DRAWDOWN = Method(
    "Drawdown of a pumped well whose inflow grows with its drawdown",
    "Water balance A ds/dt = Q - C s",
    (Range("drawdown_over_the_tested", 0.0, 1.05),),
    f"{_NOT_IN_IT}; range: own choice, since below the tested level inflow may grow no more",
)
"""The twentieth over the tested drawdown is for readings and flows, which are hardly surer."""

PUMPING_TEST = Method(
    "Specific capacity by the drawdown of a pumping test, the casing's own water taken off",
    "Water balance A ds/dt = Q - C s; the casing's part: I. S. Papadopulos & H. H. Cooper, Water Resources Research 3 "
    "(1967) 241-244",
    (Range("casing_water_fraction", 0.0, 0.5),),
    f"{_NOT_IN_IT}; range: own choice, since from there on an error in the drawdown grows by 1.7 and more",
)


def pumped_drawdown(
    *, flow: CubicMetresPerSecond, specific_capacity: SquareMetresPerSecond, area: SquareMetres, time: Seconds
) -> Metres:
    """How far the level has fallen after a time of steady pumping from rest.

        s = (Q / C) (1 - exp(-C t / A)),    s = Q t / A where nothing flows in

    Valid for: WELL_DRAWDOWN.
    Source: A ds/dt = Q - C s, integrated from s = 0.
    Raises: OutsideDomain for an area that is not positive, or a flow, specific capacity or time below zero.

    >>> round(pumped_drawdown(flow=0.0003, specific_capacity=0.0001, area=0.017, time=300.0), 4)
    2.4863
    """
    _require(flow=flow, specific_capacity=specific_capacity, area=area, time=time)
    if specific_capacity == 0.0:
        return flow * time / area
    return -flow / specific_capacity * math.expm1(-specific_capacity * time / area)


def casing_water_fraction(
    *, flow: CubicMetresPerSecond, drawdown: Metres, duration: Seconds, area: SquareMetres
) -> Fraction:
    """Share of the pumped water that came out of the casing and not out of the ground, y = A s / (Q t).

    Above 1 the level fell by more than the water that was pumped can account for.

    Valid for: any well of one bore.
    Source: water balance.
    Raises: OutsideDomain for a flow, duration or area that is not positive, or a drawdown below zero.

    >>> round(casing_water_fraction(flow=0.0003, drawdown=2.4863, duration=300.0, area=0.017), 4)
    0.4696
    """
    if min(flow, duration) <= 0.0:
        raise OutsideDomain("a pumping test has a flow and a duration above zero")
    _require(drawdown=drawdown, area=area)
    return area * drawdown / (flow * duration)


def specific_capacity_of_test(
    *, flow: CubicMetresPerSecond, drawdown: Metres, duration: Seconds, area: SquareMetres
) -> SquareMetresPerSecond:
    """Specific capacity by the drawdown at the end of a pumping test, without the water that the casing gave.

        (1 - exp(-x)) / x = y,    y = A s / (Q t),    C = x A / t

    solved for x by Newton's method. Flow over drawdown alone, Q / s, is C / (1 - exp(-x)): too much, and without end
    in a short test. Where the casing's share y is 1 or more, nothing flowed in that the test can show, and C is 0.

    Valid for: PUMPING_TEST.
    Source: `pumped_drawdown`, solved for C.
    Raises: OutsideDomain for a flow, drawdown, duration or area that is not positive.

    >>> round(specific_capacity_of_test(flow=0.0003, drawdown=2.4863, duration=300.0, area=0.017), 7)
    0.0001
    >>> specific_capacity_of_test(flow=0.0003, drawdown=5.3, duration=300.0, area=0.017)
    0.0
    """
    if drawdown <= 0.0:
        raise OutsideDomain("a test without drawdown does not tell the specific capacity")
    share = casing_water_fraction(flow=flow, drawdown=drawdown, duration=duration, area=area)
    return _time_constants(share) * area / duration if share < 1.0 else 0.0


def _time_constants(share: Fraction) -> float:
    # 1 - exp(-x) - x y curves downward, so from a start above its root Newton's steps run down onto it and need no
    # bracket. Both starts lie above: 1/y because exp(-x) > 0, the other by (2 + x) exp(-x) > 2 - x. Rounding ends the
    # descent at the latest.
    x = min(1.0 / share, 2.0 * (1.0 - share) / share)
    for _ in range(60):
        lower = x - (-math.expm1(-x) - x * share) / (math.exp(-x) - share)
        if not 0.0 < lower < x * (1.0 - 1e-15):
            break
        x = lower
    return x


def time_to_drawdown(
    *, flow: CubicMetresPerSecond, specific_capacity: SquareMetresPerSecond, area: SquareMetres, drawdown: Metres
) -> Seconds | None:
    """Time that a well at rest can be pumped before a drawdown is reached, or None where it never is.

        t = -(A / C) ln(1 - C s / Q),    t = A s / Q where nothing flows in

    Valid for: WELL_DRAWDOWN.
    Source: `pumped_drawdown`, solved for the time.
    Raises: OutsideDomain for an area that is not positive, or a flow, specific capacity or drawdown below zero.

    >>> time = time_to_drawdown(flow=0.0003, specific_capacity=0.0001, area=0.017, drawdown=2.4863)
    >>> round(time, 1)
    300.0
    >>> time_to_drawdown(flow=0.0003, specific_capacity=0.0001, area=0.017, drawdown=3.0)
    """
    _require(flow=flow, specific_capacity=specific_capacity, area=area, drawdown=drawdown)
    inflow = specific_capacity * drawdown
    if flow <= inflow:
        return None
    # Below this share the logarithm's first term is the whole of it, to more digits than a float has.
    if inflow < 1e-17 * flow:
        return area * drawdown / flow
    return -area / specific_capacity * math.log1p(-inflow / flow)


def _require(*, area: SquareMetres, **not_negative: float) -> None:
    if not 0.0 < area < math.inf:
        raise OutsideDomain("the casing's area must be above zero")
    for name, value in not_negative.items():
        if not 0.0 <= value < math.inf:
            raise OutsideDomain(f"the {name.replace('_', ' ')} must not be negative")
