"""A stone's times as depths, and how much a hand-held watch lets one believe of them."""

from collections.abc import Iterator, Sequence
from statistics import fmean

from msgspec import UNSET, Struct

from footvalve.answers.basis import At, Reckoned, reckoned
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
    DRAG_COEFFICIENT,
    RULE_OF_THUMB,
    STONE_DENSITY,
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

USUAL_DELAY = 0.15
"""Seconds by which a hand may well stop a watch late that waits for a sound. Common practice, no source."""

_TIMES = "/measurement/times"
_DELAY = "/measurement/reaction_delay"
_STONE = "/measurement/stone_diameter"


class Fall(Struct, frozen=True):
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


def depths_by_stone(drop: StoneDrop, site: Site) -> list[float]:
    """The depth in m by each stone, alone. Raises Refused as `readings_by_stone`."""
    return list(map(fall_at(site, _diameter(drop)).depth, _undelayed(drop)))


def readings_by_stone(drop: StoneDrop, site: Site, units: UnitSystem) -> Readings:
    """The depth by each stone. Raises Refused for a delay that leaves no time to fall."""
    times = _undelayed(drop)
    diameter = _diameter(drop)
    fall = fall_at(site, diameter)
    worth = fall.watch_error(fmean(times))
    return Readings(
        depths=list(map(fall.depth, times)),
        pointer=_TIMES,
        agreement=Agreement(worth, f"what {WATCH_ERROR} s on a hand-held watch is worth here"),
        steps=tuple(_steps(times, site, diameter, fall)),
        cautions=("open-shaft", "mains-electricity", "well-opened", "stone-in-well"),
        warnings=(
            *_single(times, worth, units),
            *_hand_not_told(drop, times, fall, units),
            *_short(times, fall, units),
            *_unknown_size(drop, site, fall, max(times), units),
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


def _hand_not_told(drop: StoneDrop, times: Sequence[float], fall: Fall, units: UnitSystem) -> list[Warning]:
    """A warning where nothing is said of the hand's delay, which all drops share and no mean takes away."""
    delay = drop.reaction_delay
    mean = fmean(times)
    if delay.value or delay.uncertainty or mean <= USUAL_DELAY:
        return []
    by = fall.depth(mean) - fall.depth(mean - USUAL_DELAY)
    text = "no delay of the hand is told, and one that all drops share does not show in their scatter: as much as"
    return [
        Warning(_DELAY, f"{text} {USUAL_DELAY} s would put the water {units.length(by)} less deep than is told here")
    ]


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


def _steps(times: Sequence[float], site: Site, diameter: float, fall: Fall) -> Iterator[Reckoned]:
    altitude, warmth = At("/site/altitude", site.altitude.base), "/site/air_temperature"
    pressure = At("/site/altitude", atmospheric_pressure(altitude=site.altitude.base))
    temperature = At(warmth, site.air_temperature.base)
    yield reckoned("Pressure of the air at this altitude", STANDARD_ATMOSPHERE, altitude=altitude)
    yield reckoned("Density of the air", AIR_DENSITY, pressure=pressure, temperature=temperature)
    yield reckoned("Speed of sound in the air", SPEED_OF_SOUND, temperature=temperature)
    yield reckoned(
        "Terminal speed of the stone",
        TERMINAL_SPEED,
        stone_diameter=At(_STONE, diameter),
        stone_density=At(_STONE, STONE_DENSITY),
        drag_coefficient=At(_STONE, DRAG_COEFFICIENT),
    )
    yield reckoned(
        "Depth by each time",
        STONE_DROP,
        time=[At(f"{_TIMES}/{index}", time) for index, time in enumerate(times)],
        terminal_speed=At(_STONE, fall.terminal_speed),
        speed_of_sound=At(warmth, fall.speed_of_sound),
    )
    yield reckoned("The trade's rule, for comparison only", RULE_OF_THUMB)
