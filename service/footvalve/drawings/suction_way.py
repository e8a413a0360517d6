"""The places of a suction line by the way along it, with the levels that belong to each."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Final

from footvalve.contract.line import LinePart, Pipe
from footvalve.contract.suction_feasibility import ProfileNode, SuctionFeasibilityAnswer
from footvalve.drawings.clipping import Point
from footvalve.quantity import from_base

_WEIGHT_OF_WATER: Final = 9806.65
"""Pa/m, conventional; for lines whose own answer does not tell it."""

_TELLING_HEAD: Final = 0.5
"""m. Nodes that differ by less tell the weight of their water too roughly, as an answer has but six digits."""


@dataclass(frozen=True, slots=True)
class Place:
    """The intake, or the end of a part. All lengths in the answer's unit, elevations above the ground."""

    number: int
    """Of the part in the line, from 1; 0 at the intake."""
    name: str
    way: float
    """Length of pipe from the intake."""
    elevation: float
    gauge_head: float
    """The pressure against the air's, as a height of this water; below zero the place is under vacuum."""
    above_vapour: float
    """Head that is left before the water boils."""

    @property
    def hydraulic_level(self) -> float:
        """As high as the water would stand in an open pipe here."""
        return self.elevation + self.gauge_head

    @property
    def vapour_limit(self) -> float:
        """As high as the pressure here carries the water before it boils."""
        return self.elevation + self.above_vapour


def suction_way(answer: SuctionFeasibilityAnswer, line: Sequence[LinePart]) -> list[Place]:
    """The places in the water's order, for the line that the answer is about."""
    unit = answer.margin.unit
    lengths = [from_base(part.length.base, unit) if isinstance(part, Pipe) else 0.0 for part in line]
    weight = _weight_of_water(answer.profile)
    return [
        Place(
            number=number,
            name=node.name,
            way=way,
            elevation=node.elevation.value,
            gauge_head=from_base(node.gauge_pressure.base / weight, unit),
            above_vapour=node.above_vapour.value,
        )
        for number, (node, way) in enumerate(zip(answer.profile, accumulate(lengths, initial=0.0), strict=True))
    ]


def _weight_of_water(profile: Sequence[ProfileNode]) -> float:
    """Pa/m, from the two nodes whose pressures differ most: it is warm water's own."""
    low, high = (choose(profile, key=lambda node: node.absolute_pressure.base) for choose in (min, max))
    head = high.above_vapour.base - low.above_vapour.base
    if head < _TELLING_HEAD:
        return _WEIGHT_OF_WATER
    return (high.absolute_pressure.base - low.absolute_pressure.base) / head


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of the line: points of way and elevation, and of way and hydraulic level over the same way."""

    pipe: list[Point]
    level: list[Point]


def stretches_under_vacuum(places: Sequence[Place]) -> list[Stretch]:
    """Where the line stands under vacuum, which is where it lies above the hydraulic level."""
    return _stretches(places, lambda place: place.gauge_head)


def stretches_that_boil(places: Sequence[Place]) -> list[Stretch]:
    """Where the line lies above the vapour limit."""
    return _stretches(places, lambda place: place.above_vapour)


def _stretches(places: Sequence[Place], head: Callable[[Place], float]) -> list[Stretch]:
    """Where a head is below zero; in each part it runs straight from end to end."""
    found: list[Stretch] = []
    for before, after in pairwise(places):
        ends = [before, after]
        if head(before) >= 0.0 and head(after) >= 0.0:
            continue
        if head(before) >= 0.0:
            ends[0] = _crossing(before, after, head)
        elif head(after) >= 0.0:
            ends[1] = _crossing(before, after, head)
        pipe = [(place.way, place.elevation) for place in ends]
        level = [(place.way, place.hydraulic_level) for place in ends]
        if found and head(before) < 0.0:
            found[-1].pipe.extend(pipe)
            found[-1].level.extend(level)
        else:
            found.append(Stretch(pipe, level))
    return found


def _crossing(before: Place, after: Place, head: Callable[[Place], float]) -> Place:
    """The place between two where the head is nil."""
    share = head(before) / (head(before) - head(after))
    values = (
        (getattr(before, name), getattr(after, name)) for name in ("way", "elevation", "gauge_head", "above_vapour")
    )
    way, elevation, gauge_head, above_vapour = (one + (other - one) * share for one, other in values)
    return Place(after.number, after.name, way, elevation, gauge_head, above_vapour)
