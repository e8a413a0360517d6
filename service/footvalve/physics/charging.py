"""How long a charger takes to fill a battery, with the slow last part."""

import math
from dataclasses import dataclass

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import AmpereHours, Amperes, Fraction, Hours

EXPONENTIAL_TIME_CONSTANTS = 3.0
"""So long the acceptance falls with the charge that is wanting. It is then e^-3, 5 %, of what it was at the taper's
start, and stays there for one more time constant, in which the battery becomes full (own choice)."""

CHARGE_WITH_TAPER = Method(
    name="constant current until the battery accepts less, then an acceptance that falls exponentially",
    source="own model of the trade's rule that the last fifth takes as long as the first four (no source), taken to "
    "hold at the current that the taper's start is told for",
    ranges=(Range("taper_start", 0.5, 0.98),),
    note="a slower charger meets the taper later; range: own choice",
)


@dataclass(frozen=True, slots=True)
class ChargedBattery:
    """A battery on a charger; `net_current` is what the charger has left for it beside the standing loads, and
    `taper_current` the one with which the taper begins at the state of charge `taper_start`."""

    capacity: AmpereHours
    net_current: Amperes
    efficiency: Fraction
    taper_start: Fraction
    taper_current: Amperes

    def __post_init__(self) -> None:
        if min(self.capacity, self.net_current, self.taper_current) <= 0:
            raise OutsideDomain("the capacity and the currents must be positive")
        if not 0 < self.efficiency <= 1 or not 0 < self.taper_start < 1:
            raise OutsideDomain("the efficiency must lie above 0 to 1, the taper's start between 0 and 1")

    @property
    def bulk_rate(self) -> float:
        """The state of charge that is won in an hour before the taper: eta I / C, in 1/h."""
        return self.efficiency * self.net_current / self.capacity

    @property
    def tapering_gap(self) -> Fraction:
        """What is wanting of a full charge where the battery begins to accept less than the charger gives."""
        return (1 - self.taper_start) * self.net_current / self.taper_current

    @property
    def last_gap(self) -> Fraction:
        """What is wanting where the acceptance falls no further."""
        return (1 - self.taper_start) * math.exp(-EXPONENTIAL_TIME_CONSTANTS)


def taper_time_constant(battery: ChargedBattery) -> Hours:
    """The time constant with which the acceptance falls: the battery's, whatever the charger.

        tau = (1 - s0) C / (eta I0)

    What a battery accepts is in proportion to the charge that is wanting: I = I0 (1 - s) / (1 - s0), where I0 is the
    current with which the taper starts at s0. So in the taper 1 - s falls as exp(-t / tau).

    Valid for: CHARGE_WITH_TAPER.ranges.
    Source: derived here.
    Raises: nothing; `ChargedBattery` refuses what has no meaning.

    >>> battery = ChargedBattery(100, net_current=10, efficiency=0.8, taper_start=0.8, taper_current=10)
    >>> round(taper_time_constant(battery), 6)
    2.5
    """
    return (1 - battery.taper_start) * battery.capacity / (battery.efficiency * battery.taper_current)


def recharge_hours(battery: ChargedBattery, *, start: Fraction) -> Hours:
    """The time from a state of charge to full.

        g = 1 - s       wanting at the start
        g1 = (1 - s0) I / I0      where the acceptance meets the charger's current
        g2 = (1 - s0) e^-3        where it falls no further
        t = (g - g1) C / (eta I) + tau ln(g1 / g2) + tau    for g > g1 > g2
        t = tau ln(g / g2) + tau                            for g1 > g > g2
        t = tau g / g2                                      for g1 > g2 > g
        t = g C / (eta I)                                   for g2 > g1: the charger never leaves its current

    The last current, g2 C / (eta tau), is what fills the last of it in one tau; each branch goes over into the next.
    At no current is the time less than that of the charge that is wanting, over the efficiency. For I = I0 the taper
    takes 4 (1 - s0) / s0 times as long as the charge from empty up to it: for s0 = 0.8 exactly as long.

    Valid for: CHARGE_WITH_TAPER.ranges; a charger that holds its current until the battery accepts less.
    Source: derived here and in `taper_time_constant`.
    Raises: OutsideDomain for a start outside 0 to 1.

    >>> battery = ChargedBattery(100, net_current=10, efficiency=0.8, taper_start=0.8, taper_current=10)
    >>> round(recharge_hours(battery, start=0), 6), round(recharge_hours(battery, start=0.8), 6)
    (20.0, 10.0)
    """
    if not 0 <= start <= 1:
        raise OutsideDomain("a state of charge lies from 0 to 1")
    wanting, tapering, last = 1 - start, battery.tapering_gap, battery.last_gap
    if tapering <= last:
        return wanting / battery.bulk_rate
    bulk_hours = max(0.0, wanting - tapering) / battery.bulk_rate
    share = min(wanting, tapering) / last
    return bulk_hours + taper_time_constant(battery) * (1 + math.log(share) if share > 1 else share)


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
