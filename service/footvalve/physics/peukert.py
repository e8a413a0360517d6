"""How a battery's charge shrinks with the current that is drawn: Peukert's law."""

import math
from collections.abc import Sequence

from footvalve.physics.loads import Step, charge_of_day
from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import AmpereHours, Amperes, Hours, Number

PEUKERT = Method(
    name="Peukert's law, referred to the rated hours",
    source="W. Peukert, Elektrotechnische Zeitschrift 20 (1897); t = H (C / (I H))^k",
    ranges=(
        Range("exponent", 1.0, 1.6),
        Range("rated_hours", 1.0, 100.0, "h"),
        Range("hours", 0.5, 100.0, "h"),
    ),
    note="below the rated current no more than the rated charge is counted; ranges: common practice, no source",
)
"""`hours` are those that the law gives. Outside the ranges few ratings lie, and at less than half an hour the battery
heats, which the law does not know."""


def peukert_exponent(
    *, capacity: AmpereHours, rated_hours: Hours, second_capacity: AmpereHours, second_rated_hours: Hours
) -> Number:
    """The exponent of Peukert's law that leads through two ratings of one battery.

        k = ln(H1 / H2) / ln(I2 / I1), with I = C / H

    Valid for: two ratings of the same battery at one temperature; between them better than beyond them.
    Source: W. Peukert (1897), solved for the exponent.
    Raises: OutsideDomain for ratings that are not positive, or that have the same hours or the same current,
    or that give an exponent below 1 (more charge at the larger current).

    >>> round(peukert_exponent(capacity=100, rated_hours=20, second_capacity=80, second_rated_hours=5), 4)
    1.1918
    """
    if min(capacity, rated_hours, second_capacity, second_rated_hours) <= 0:
        raise OutsideDomain("a rating must be positive")
    current_ratio = second_capacity / second_rated_hours * rated_hours / capacity
    if rated_hours == second_rated_hours or current_ratio == 1:
        raise OutsideDomain("the two ratings must differ in hours and in current")
    exponent = math.log(rated_hours / second_rated_hours) / math.log(current_ratio)
    if exponent < 1:
        raise OutsideDomain(f"the two ratings give an exponent of {exponent:.3g}, below 1")
    return exponent


def peukert_hours(*, capacity: AmpereHours, rated_hours: Hours, current: Amperes, exponent: Number) -> Hours:
    """The time in which a constant current empties a full battery.

        t = H (C / (I H))^k

    Valid for: PEUKERT.ranges; a steady current at the temperature of the rating.
    Source: W. Peukert (1897), in the form referred to the rated hours H (not to the charge at 1 A).
    Raises: OutsideDomain for a capacity, hours or current that is not positive, or an exponent below 1.

    >>> round(peukert_hours(capacity=100, rated_hours=20, current=10, exponent=1.2), 4)
    8.7055
    """
    if capacity <= 0 or rated_hours <= 0 or current <= 0 or exponent < 1:
        raise OutsideDomain("capacity, rated hours and current must be positive, the exponent at least 1")
    return rated_hours * math.pow(capacity / (current * rated_hours), exponent)


def effective_current(*, current: Amperes, rated_current: Amperes, exponent: Number) -> Amperes:
    """The current that a battery loses when it delivers another, measured in charge at the rated current.

        I_eff = I (I / I_H)^(k - 1) for I > I_H = C / H
        I_eff = I                   for I <= I_H

    Below the rated current the law would promise more than the rated charge. Nobody has measured that for
    the battery in hand, and an outage is no time to find out: no more than the rating is counted.

    Valid for: PEUKERT.ranges.
    Source: W. Peukert (1897); the cap is a choice on the safe side.
    Raises: OutsideDomain for a negative current, a rated current not positive, or an exponent below 1.

    >>> round(effective_current(current=10, rated_current=5, exponent=1.2), 4)
    11.487
    >>> effective_current(current=2, rated_current=5, exponent=1.2)
    2
    """
    if not current >= 0 or rated_current <= 0 or exponent < 1:
        raise OutsideDomain("a current must not be negative, the rated current positive, the exponent at least 1")
    if current <= rated_current:
        return current
    return current * math.pow(current / rated_current, exponent - 1)


def effective_charge_of_day(
    day: Sequence[Step], *, capacity: AmpereHours, rated_hours: Hours, exponent: Number
) -> AmpereHours:
    """The charge, measured at the rated current, that a day's loads take out of a battery.

        Q_eff = sum of h_i I_eff(I_i)

    Valid for: PEUKERT.ranges; each step is charged as if its current flowed from full to empty, which
    overstates the loss a little where rests lie between, since a resting battery recovers.
    Source: W. Peukert (1897), step by step; limits in D. Doerffel, S. Abu Sharkh, Journal of Power Sources
    155 (2006) 395-400.
    Raises: OutsideDomain as in `effective_current`, and for rated hours that are not positive.

    >>> day = [Step(hours=3.0, current=10.0), Step(hours=21.0, current=0.5)]
    >>> round(effective_charge_of_day(day, capacity=100, rated_hours=20, exponent=1.2), 3)
    44.961
    """
    if rated_hours <= 0:
        raise OutsideDomain("the rated hours must be positive")
    rated_current = capacity / rated_hours
    return sum(
        step.hours * effective_current(current=step.current, rated_current=rated_current, exponent=exponent)
        for step in day
    )


def deliverable_capacity(
    day: Sequence[Step], *, capacity: AmpereHours, rated_hours: Hours, exponent: Number
) -> AmpereHours:
    """The charge that a full battery delivers to its end when it is drawn on day by day in one pattern.

        C' = C Q / Q_eff

    What Peukert's law withholds is not consumed: it stays in the battery. So this is the capacity to reckon
    with where charge goes out and comes back, in place of charging the difference as if it were lost.

    Valid for: as `effective_charge_of_day`.
    Source: W. Peukert (1897), step by step.
    Raises: OutsideDomain as `effective_charge_of_day`.

    >>> day = [Step(hours=24.0, current=10.0)]
    >>> round(deliverable_capacity(day, capacity=100, rated_hours=20, exponent=1.2), 3)
    87.055
    """
    lost = effective_charge_of_day(day, capacity=capacity, rated_hours=rated_hours, exponent=exponent)
    return capacity if lost == 0 else capacity * charge_of_day(day) / lost
