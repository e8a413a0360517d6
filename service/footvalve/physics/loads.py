"""What the loads of a day draw from a battery, step by step."""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from footvalve.physics.method import Method, OutsideDomain
from footvalve.physics.si import AmpereHours, Amperes, Hours

HOURS_A_DAY = 24

LAYERED_DAY = Method(
    name="loads run together as far as their hours of the day allow (the greatest currents)",
    source="own choice, the hardest day on the battery: Hardy, Littlewood, Polya, Inequalities (1952), ch. X",
    note="loads that keep their current while they run",
)


class Load(NamedTuple):
    """A load with the hours that it runs in a day."""

    current: Amperes
    hours: Hours


class Step(NamedTuple):
    """A part of the day in which the current stays the same."""

    hours: Hours
    current: Amperes


def layered_day(loads: Sequence[Load]) -> tuple[Step, ...]:
    """The day in which the loads start together and each runs its hours on end, greatest current first.

        i(t) = sum of the currents of all loads with hours > t, 0 <= t < 24

    Among all ways to lay the same hours over a day this one draws the most from a battery whose loss grows
    with the current ever faster (a convex function), so no other order of the day empties it sooner.
    The last step has no current, unless a load runs all day.

    Valid for: loads that keep their current while they run.
    Source: own choice; that this order is the worst: Hardy, Littlewood, Polya, Inequalities (1952), ch. X.
    Raises: OutsideDomain for a negative current, or hours outside 0 to 24.

    >>> layered_day([Load(current=8.0, hours=3.0), Load(current=0.5, hours=24.0)])
    (Step(hours=3.0, current=8.5), Step(hours=21.0, current=0.5))
    """
    for load in loads:
        if not load.current >= 0 or not 0 <= load.hours <= HOURS_A_DAY:
            raise OutsideDomain(f"a load of {load.current} A for {load.hours} h of a day")
    edges = sorted({0.0, float(HOURS_A_DAY), *(load.hours for load in loads)})
    return tuple(
        Step(end - start, sum(load.current for load in loads if load.hours >= end)) for start, end in pairwise(edges)
    )


def charge_of_day(day: Sequence[Step]) -> AmpereHours:
    """The charge that the loads take in a day.

        Q = sum of h_i I_i

    Valid for: any day.
    Source: definition of charge.

    >>> charge_of_day(layered_day([Load(current=8.0, hours=3.0), Load(current=0.5, hours=24.0)]))
    36.0
    """
    return sum(step.hours * step.current for step in day)


def average_current(day: Sequence[Step]) -> Amperes:
    """The current that would take the day's charge if it flowed all day.

        I = Q / 24 h

    Valid for: any day.
    Source: definition of charge.

    >>> average_current(layered_day([Load(current=8.0, hours=3.0), Load(current=0.5, hours=24.0)]))
    1.5
    """
    return charge_of_day(day) / HOURS_A_DAY


def greatest_current(day: Sequence[Step]) -> Amperes:
    """The largest current of the day: what the wire and the fuse must carry.

    >>> greatest_current(layered_day([Load(current=8.0, hours=3.0), Load(current=0.5, hours=24.0)]))
    8.5
    """
    return max((step.current for step in day), default=0.0)
