"""The trade's rule of thumb for how high a pump may stand over the water."""

from footvalve.physics.method import Method, Range
from footvalve.physics.si import Metres

SUCTION_LIFT_RULE = Method(
    "Rule of thumb: 25 ft at sea level, 1 ft less for each 1000 ft of altitude",
    "US Army FM 5-484 (1994), para 4-2: practical lift 22 to 25 ft, about 1 ft less for each 1000 ft",
    (Range("altitude", 0.0, 3000.0, "m"),),
    "it knows neither flow nor line; range: own choice",
)

SEA_LEVEL_LIFT: Metres = 25 * 0.3048
LOSS_WITH_ALTITUDE = 1.0 / 1000.0


def rule_of_thumb_lift(*, altitude: Metres) -> Metres:
    """Lift that the rule allows, 25 ft less one thousandth of the altitude. It knows neither flow nor line.

    Valid for: altitudes from sea level to 3000 m.
    Source: US Army FM 5-484 (1994), para 4-2, upper end of its 22 to 25 ft.

    >>> round(rule_of_thumb_lift(altitude=1524.0), 3)
    6.096
    """
    return SEA_LEVEL_LIFT - LOSS_WITH_ALTITUDE * altitude
