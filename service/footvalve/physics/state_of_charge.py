"""A battery's state of charge, hour by hour, through an outage with or without sun."""

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from footvalve.physics.loads import HOURS_A_DAY
from footvalve.physics.method import Method, OutsideDomain
from footvalve.physics.si import AmpereHours, Amperes, Fraction, Hours

STEPS_AN_HOUR = 4

STATE_OF_CHARGE = Method(
    name="balance of charge by quarter hours, loads spread evenly, sun as a half sine about noon",
    source="own model; the half sine's area is the day's harvest",
    note="what a nearly full battery no longer takes is not counted off",
)


@dataclass(frozen=True, slots=True)
class CyclingBattery:
    """A battery whose loads are cut off at the floor and come back at `reconnect`."""

    capacity: AmpereHours
    floor: Fraction
    reconnect: Fraction
    efficiency: Fraction

    def __post_init__(self) -> None:
        if self.capacity <= 0 or not 0 < self.efficiency <= 1:
            raise OutsideDomain("the capacity must be positive, the efficiency above 0 to 1")
        if not 0 <= self.floor < self.reconnect <= 1:
            raise OutsideDomain("fractions must lie in order: 0, floor, reconnect, 1")


@dataclass(frozen=True, slots=True)
class DailySun:
    """What the sun brings each day, and over how many hours about noon."""

    charge: AmpereHours
    daylight: Hours

    def __post_init__(self) -> None:
        if self.charge < 0 or not 0 < self.daylight <= HOURS_A_DAY:
            raise OutsideDomain("the sun's charge must not be negative, and daylight lies within a day")


def sun_charge(sun: DailySun, *, start: Hours, end: Hours) -> AmpereHours:
    """The part of a day's solar charge that falls between two times, both counted from sunrise.

        q = Q/2 (cos(pi t1 / D) - cos(pi t2 / D)), the area of i = Q pi / (2 D) sin(pi t / D), 0 <= t <= D

    Valid for: a clear day's shape; clouds change the course, not the daily sum.
    Source: derived here.
    Raises: nothing; `DailySun` refuses what has no meaning.

    >>> round(sun_charge(DailySun(charge=40.0, daylight=10.0), start=-2.0, end=5.0), 6)
    20.0
    """
    t1, t2 = (min(max(t, 0.0), sun.daylight) * math.pi / sun.daylight for t in (start, end))
    return sun.charge / 2 * (math.cos(t1) - math.cos(t2))


def hourly_state_of_charge(
    battery: CyclingBattery, sun: DailySun, *, load_current: Amperes, days: int, start: Fraction = 1.0
) -> list[Fraction]:
    """The state of charge at each full hour from midnight, the first at hour 0: 24 days + 1 values.

        ds/dt = (eta max(i, 0) - max(-i, 0)) / C, with i = i_sun(t) - i_load, held between floor and 1

    Valid for: loads that spread over the day. The sun that a nearly full battery no longer takes is not
    counted off, so the last fifth fills sooner here than on a charger.
    Source: balance of charge.
    Raises: OutsideDomain for negative days or load, or a start outside the floor to 1.

    >>> battery = CyclingBattery(100, floor=0.5, reconnect=0.6, efficiency=0.85)
    >>> dark = DailySun(charge=0, daylight=10)
    >>> [round(s, 3) for s in hourly_state_of_charge(battery, dark, load_current=5, days=1)][8:12]
    [0.6, 0.55, 0.5, 0.5]
    """
    if days < 0 or load_current < 0 or not battery.floor <= start <= 1:
        raise OutsideDomain("days and load must not be negative, and the start lies from the floor to 1")
    full, efficiency = battery.capacity, battery.efficiency
    floor, reconnect = battery.floor * full, battery.reconnect * full
    load, daily_sun, connected = load_current / STEPS_AN_HOUR, sun.charge, True
    charge, fractions = start * full, [start]
    for _ in range(days):
        for hour in _parts_of_day(sun.daylight):
            for part in hour:
                net = daily_sun * part - (load if connected else 0.0)
                charge += efficiency * net if net > 0 else net
                if charge < floor:
                    charge, connected = floor, False
                elif charge >= reconnect:
                    charge, connected = min(charge, full), True
            fractions.append(charge / full)
    return fractions


@lru_cache
def _parts_of_day(daylight: Hours) -> tuple[tuple[Fraction, ...], ...]:
    """The part of a day's solar charge that falls in each step of each hour from midnight."""
    sun = DailySun(charge=1.0, daylight=daylight)
    sunrise = (HOURS_A_DAY - daylight) / 2
    edges = [step / STEPS_AN_HOUR - sunrise for step in range(HOURS_A_DAY * STEPS_AN_HOUR + 1)]
    parts = [sun_charge(sun, start=start, end=end) for start, end in pairwise(edges)]
    return tuple(tuple(parts[i : i + STEPS_AN_HOUR]) for i in range(0, len(parts), STEPS_AN_HOUR))
