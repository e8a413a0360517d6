"""A stone's times as depths, and how much a hand-held watch lets one believe of them."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from msgspec import UNSET

from footvalve.answers.basis import basis_step, doubts
from footvalve.answers.sounding_readings import Agreement, Readings
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.request import Site
from footvalve.contract.sounding import ASSUMED_STONE, StoneDrop
from footvalve.physics.atmosphere import (
    AIR_DENSITY,
    SPEED_OF_SOUND,
    STANDARD_ATMOSPHERE,
    air_density,
    atmospheric_pressure,
    speed_of_sound,
)
from footvalve.physics.stone_fall import (
    RULE_OF_THUMB,
    STONE_DROP,
    TERMINAL_SPEED,
    rule_of_thumb_depth,
    stone_drop_depth,
    terminal_speed,
)

WATCH_ERROR = 0.1
"""Seconds by which two times of one fall, taken by hand, may well differ. Common practice, no source."""

LEAST_TELLING_TIME = 0.4
"""Seconds below which `WATCH_ERROR` is worth more than half of the depth."""

_TIMES = "/measurement/times"
_STONE = "/measurement/stone_diameter"

_STEPS = {
    "Pressure of the air at this altitude": STANDARD_ATMOSPHERE,
    "Density of the air": AIR_DENSITY,
    "Speed of sound in the air": SPEED_OF_SOUND,
    "Terminal speed of the stone": TERMINAL_SPEED,
    "Depth by each time": STONE_DROP,
    "The trade's rule, for comparison only": RULE_OF_THUMB,
}


@dataclass(frozen=True, slots=True)
class Fall:
    """A stone of one size in the air of one place."""

    terminal_speed: float
    speed_of_sound: float

    def depth(self, time: float) -> float:
        """Depth in m at which a stone strikes that is heard after so many seconds."""
        return stone_drop_depth(time=time, terminal_speed=self.terminal_speed, speed_of_sound=self.speed_of_sound)

    def watch_error(self, time: float) -> float:
        """Depth in m that `WATCH_ERROR` more on the watch is worth."""
        return self.depth(time + WATCH_ERROR) - self.depth(time)


def fall_at(site: Site, diameter: float) -> Fall:
    """The fall of a stone of this diameter in m, in the air of the site."""
    temperature = site.air_temperature.base
    density = air_density(pressure=atmospheric_pressure(altitude=site.altitude.base), temperature=temperature)
    return Fall(
        terminal_speed=terminal_speed(stone_diameter=diameter, air_density=density),
        speed_of_sound=speed_of_sound(temperature=temperature),
    )


def readings_by_stone(drop: StoneDrop, site: Site, units: UnitSystem) -> Readings:
    """The depth by each stone. Raises Refused for a delay that leaves no time to fall."""
    times = _undelayed(drop)
    diameter = _diameter(drop)
    fall = fall_at(site, diameter)
    worth = fall.watch_error(fmean(times))
    return Readings(
        depths=tuple(map(fall.depth, times)),
        pointer=_TIMES,
        agreement=Agreement(worth, f"what {WATCH_ERROR} s on a hand-held watch is worth here"),
        basis=tuple(basis_step(step, method, units) for step, method in _STEPS.items()),
        cautions=("open-shaft", "mains-electricity", "well-opened", "stone-in-well"),
        warnings=(
            *_single(times, worth, units),
            *_short(times, fall, units),
            *_unknown_size(drop, site, fall, max(times), units),
            *_beyond_range(times, diameter, fall, units),
        ),
        rule_of_thumb=fmean(rule_of_thumb_depth(time=time) for time in times),
    )


def _undelayed(drop: StoneDrop) -> list[float]:
    delay = drop.reaction_delay.base
    times = [time.base - delay for time in drop.times]
    if min(times) <= 0.0:
        shortest = min(drop.times, key=lambda time: time.base)
        raise Refused(Fault("/measurement/reaction_delay", f"must be less than the shortest time, {shortest}"))
    return times


def _diameter(drop: StoneDrop) -> float:
    return ASSUMED_STONE.base if drop.stone_diameter is UNSET else drop.stone_diameter.base


def _single(times: Sequence[float], worth: float, units: UnitSystem) -> list[Warning]:
    if len(times) > 1:
        return []
    text = f"one stone alone shows no slip of the hand, and {WATCH_ERROR} s on the watch is worth {units.length(worth)}"
    return [Warning(_TIMES, f"{text} here: drop three or more, and tape the well if much depends on it")]


def _short(times: Sequence[float], fall: Fall, units: UnitSystem) -> list[Warning]:
    return [
        Warning(
            f"{_TIMES}/{index}",
            f"so short a time tells almost nothing: {WATCH_ERROR} s on the watch is worth "
            f"{units.length(fall.watch_error(time))} of depth, on a reading of {units.length(fall.depth(time))}",
        )
        for index, time in enumerate(times)
        if time < LEAST_TELLING_TIME
    ]


def _unknown_size(drop: StoneDrop, site: Site, fall: Fall, time: float, units: UnitSystem) -> list[Warning]:
    """A warning where half or twice the assumed stone would move the depth by more than the watch does."""
    if drop.stone_diameter is not UNSET:
        return []
    half, twice = (fall_at(site, factor * ASSUMED_STONE.base).depth(time) for factor in (0.5, 2.0))
    if twice - half <= fall.watch_error(time):
        return []
    text = f"no size is given and {ASSUMED_STONE} is assumed; half of that would put the deepest reading at"
    return [Warning(_STONE, f"{text} {units.length(half)}, twice of it at {units.length(twice)}")]


def _beyond_range(times: Sequence[float], diameter: float, fall: Fall, units: UnitSystem) -> list[Warning]:
    found = doubts(TERMINAL_SPEED, _STONE, units, stone_diameter=diameter)
    found += doubts(STONE_DROP, _STONE, units, terminal_speed=fall.terminal_speed)
    found += doubts(STONE_DROP, "/site/air_temperature", units, speed_of_sound=fall.speed_of_sound)
    for index, time in enumerate(times):
        found += doubts(STONE_DROP, f"{_TIMES}/{index}", units, time=time)
    return found
