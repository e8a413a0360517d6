"""How long a charger takes to fill a battery, with the slow last part."""

import math
from dataclasses import dataclass

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import AmpereHours, Amperes, Fraction, Hours

TAPER_TIME_CONSTANTS = 4.0
"""The taper is held so many time constants: the current is then e^-4, 1.8 % of the charger's (own choice)."""

CHARGE_WITH_TAPER = Method(
    name="constant current to the taper's start, then an acceptance that falls exponentially",
    source="own model of the trade's rule that the last fifth takes as long as the first four (no source)",
    ranges=(Range("taper_start", 0.5, 0.98),),
    note="range: own choice",
)


@dataclass(frozen=True, slots=True)
class ChargedBattery:
    """A battery on a charger; `net_current` is what the charger has left for it beside the standing loads."""

    capacity: AmpereHours
    net_current: Amperes
    efficiency: Fraction
    taper_start: Fraction

    def __post_init__(self) -> None:
        if self.capacity <= 0 or self.net_current <= 0:
            raise OutsideDomain("the capacity and the net current must be positive")
        if not 0 < self.efficiency <= 1 or not 0 < self.taper_start < 1:
            raise OutsideDomain("the efficiency must lie above 0 to 1, the taper's start between 0 and 1")

    @property
    def bulk_rate(self) -> float:
        """The state of charge that is won in an hour before the taper: eta I / C, in 1/h."""
        return self.efficiency * self.net_current / self.capacity


def taper_time_constant(battery: ChargedBattery) -> Hours:
    """The time constant with which the acceptance falls, so that the current has no step.

        tau = (1 - s0) C / (eta I)

    In the taper 1 - s = (1 - s0) exp(-t / tau), whose rate at t = 0 is (1 - s0) / tau = eta I / C, that of
    the bulk charge. The bulk charge from empty takes s0 C / (eta I) = s0 / (1 - s0) tau. With n = 4 time
    constants the taper takes n (1 - s0) / s0 times as long as the bulk charge from empty: for s0 = 0.8
    exactly as long, so the last fifth takes as long as the first four; for s0 = 0.95 about a fifth as long.

    Valid for: CHARGE_WITH_TAPER.ranges.
    Source: derived here.
    Raises: nothing; `ChargedBattery` refuses what has no meaning.

    >>> round(taper_time_constant(ChargedBattery(100, net_current=10, efficiency=0.8, taper_start=0.8)), 6)
    2.5
    """
    return (1 - battery.taper_start) / battery.bulk_rate


def recharge_hours(battery: ChargedBattery, *, start: Fraction) -> Hours:
    """The time from a state of charge to full.

        t = (s0 - s) C / (eta I) + 4 tau                   for s < s0
        t = tau (4 - ln((1 - s0) / (1 - s))), at least 0,  for s >= s0

    "Full" is 1 - (1 - s0) e^-4, at which the charger is taken to end: 99.6 % for s0 = 0.8.

    Valid for: CHARGE_WITH_TAPER.ranges; a charger that holds its current up to the taper's start.
    Source: derived in `taper_time_constant`.
    Raises: OutsideDomain for a start outside 0 to 1.

    >>> battery = ChargedBattery(100, net_current=10, efficiency=0.8, taper_start=0.8)
    >>> round(recharge_hours(battery, start=0), 6), round(recharge_hours(battery, start=0.8), 6)
    (20.0, 10.0)
    """
    if not 0 <= start <= 1:
        raise OutsideDomain("a state of charge lies from 0 to 1")
    tau = taper_time_constant(battery)
    if start < battery.taper_start:
        return (battery.taper_start - start) / battery.bulk_rate + TAPER_TIME_CONSTANTS * tau
    gap_left = (1 - start) / (1 - battery.taper_start)
    if gap_left <= math.exp(-TAPER_TIME_CONSTANTS):
        return 0.0
    return tau * (TAPER_TIME_CONSTANTS + math.log(gap_left))


def charged_fraction(battery: ChargedBattery, *, start: Fraction, hours: Hours) -> Fraction:
    """The state of charge after some hours on the charger.

        s = start + eta I t / C                              up to the taper's start s0
        s = 1 - (1 - max(s0, start)) exp(-(t - t0) / tau)    from then on

    Valid for: as `recharge_hours`.
    Source: derived in `taper_time_constant`.
    Raises: OutsideDomain for negative hours or a start outside 0 to 1.

    >>> battery = ChargedBattery(100, net_current=10, efficiency=0.8, taper_start=0.8)
    >>> round(charged_fraction(battery, start=0, hours=10), 6)
    0.8
    """
    if hours < 0 or not 0 <= start <= 1:
        raise OutsideDomain("hours must not be negative; a state of charge lies from 0 to 1")
    bulk_hours = max(0.0, (battery.taper_start - start) / battery.bulk_rate)
    if hours < bulk_hours:
        return start + battery.bulk_rate * hours
    gap = 1 - max(battery.taper_start, start)
    return 1 - gap * math.exp(-(hours - bulk_hours) / taper_time_constant(battery))


def holds(
    *, charger_current: Amperes, standing_current: Amperes, efficiency: Fraction, self_discharge: Amperes
) -> bool:
    """Whether a charger outruns what stands on the battery day and night and what it loses by itself.

        eta (I - I_standing) > I_self

    Valid for: a charger that runs all the time.
    Source: balance of charge.
    Raises: OutsideDomain for a negative current, or an efficiency outside 0 to 1.

    >>> holds(charger_current=1.0, standing_current=0.9, efficiency=0.85, self_discharge=0.1)
    False
    """
    if min(charger_current, standing_current, self_discharge) < 0 or not 0 < efficiency <= 1:
        raise OutsideDomain("currents must not be negative, the efficiency above 0 to 1")
    return efficiency * (charger_current - standing_current) > self_discharge
