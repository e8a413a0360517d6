"""What a battery loses while nobody draws on it."""

from math import inf

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import AmpereHours, Amperes, Fraction

HOURS_A_MONTH = 365.25 / 12 * 24
"""The mean month, of 730.5 h."""

SELF_DISCHARGE = Method(
    name="self-discharge as a constant current",
    source="common practice, no source; the month's fraction belongs to the chemistry at 25 degC",
    ranges=(Range("temperature", -inf, 303.15, "K"),),
    note="each 10 K more about double it, the cold spares it; range: own choice",
)


def self_discharge_current(*, capacity: AmpereHours, fraction_per_month: Fraction) -> Amperes:
    """The steady current that would take what a resting battery loses by itself.

        I = f C / 730.5 h

    Valid for: the temperature that the month's fraction was given for; about doubled by each 10 K more.
    Source: definition of the mean month; common practice, no source for the steady loss.
    Raises: OutsideDomain for a capacity that is not positive or a fraction outside 0 to 1.

    >>> round(self_discharge_current(capacity=200, fraction_per_month=0.05), 4)
    0.0137
    """
    if capacity <= 0 or not 0 <= fraction_per_month <= 1:
        raise OutsideDomain("the capacity must be positive and the month's fraction from 0 to 1")
    return fraction_per_month * capacity / HOURS_A_MONTH
