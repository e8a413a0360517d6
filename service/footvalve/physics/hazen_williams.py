"""Head lost to friction after Hazen and Williams: the pipe trade's formula for water near room temperature."""

from math import inf

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import CubicMetresPerSecond, Metres, Number

HAZEN_WILLIAMS = Method(
    "Hazen-Williams",
    "Williams and Hazen, Hydraulic Tables, 3rd ed., Wiley 1920: V = 1.318 C R^0.63 S^0.54 (ft, s)",
    (
        Range("diameter", 0.05, 1.85, "m"),
        Range("velocity", 0.0, 3.0, "m/s"),
        Range("water_temperature", 278.15, 298.15, "K"),
        Range("reynolds", 4000.0, inf),
    ),
    "turbulent flow; ranges: common practice, no source",
)

_FOOT = 0.3048
_SI_CONSTANT = 1.318 * _FOOT ** (1.0 - 0.63)
_FLOW_CONSTANT = _SI_CONSTANT * 0.7853981633974483 * 0.25**0.63
"""V = k C R^0.63 S^0.54 with R = d/4 gives Q = k (pi/4) (1/4)^0.63 C d^2.63 S^0.54."""


def hazen_williams_head_loss(
    *, flow: CubicMetresPerSecond, length: Metres, diameter: Metres, coefficient: Number
) -> Metres:
    """Head lost to friction, h = L (Q / (k' C d^2.63))^(1/0.54), k' = 1.318 ft^0.37/s in SI over a round bore.

    Valid for: turbulent flow of water at 5 to 25 degC, bores above 50 mm, velocities to 3 m/s; in the smaller
    bores of a house it reckons less than Darcy-Weisbach does.
    Source: Williams and Hazen, Hydraulic Tables, 3rd ed., Wiley 1920.
    Raises: OutsideDomain for a diameter or a coefficient that is not above zero, or a flow below zero.

    >>> round(hazen_williams_head_loss(flow=0.0005, length=30.0, diameter=0.025, coefficient=150.0), 5)
    1.46248
    """
    if diameter <= 0 or coefficient <= 0 or flow < 0:
        raise OutsideDomain("the diameter and the coefficient must be above zero, the flow not below it")
    slope = (flow / (_FLOW_CONSTANT * coefficient * diameter**2.63)) ** (1.0 / 0.54)
    return float(length * slope)
