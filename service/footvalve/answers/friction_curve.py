"""The methods of a curve's points, and where one of them leaves its range that holds at the reckoned flow."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import pi

from footvalve.answers.alike_doubts import Doubt
from footvalve.answers.basis import Reckoned, range_doubts
from footvalve.answers.line_basis import place_of, place_steps
from footvalve.answers.line_elements import ResolvedPart, name_in_line
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.physics.pipe_flow import LAMINAR_LIMIT
from footvalve.physics.water import Water


@dataclass(frozen=True, slots=True)
class CurvePlace:
    """The steps of a part at one flow of a curve: the part's place in the line, and the flow's in the list."""

    part: int
    flow: int
    steps: tuple[Reckoned, ...]


def curve_places(
    parts: Sequence[ResolvedPart], flows: Sequence[float], reckoned_flow: float, water: Water, units: UnitSystem
) -> list[CurvePlace]:
    """Each part at the flows in m^3/s that tell whether a range is left: the least, the least that is not laminar, and
    the greatest; but for the flow that the parts are reckoned at anyhow."""
    rising = sorted(range(len(flows)), key=flows.__getitem__)
    return [
        CurvePlace(index, number, tuple(place_steps(place_of(index, part, flows[number], water, units))))
        for index, part in enumerate(parts)
        for number in _telling(part, rising, flows, water)
        if flows[number] != reckoned_flow
    ]


def _telling(part: ResolvedPart, rising: Sequence[int], flows: Sequence[float], water: Water) -> Iterator[int]:
    telling = {0: None, len(rising) - 1: None}
    if part.diameter is not None:
        turning = LAMINAR_LIMIT * water.kinematic_viscosity * part.diameter * pi / 4.0
        telling[min(bisect_left(rising, turning, key=flows.__getitem__), len(rising) - 1)] = None
    return (rising[rank] for rank in telling)


def curve_doubts(
    places: Sequence[CurvePlace], parts: Sequence[ResolvedPart], told: Sequence[Doubt], units: UnitSystem
) -> list[Warning]:
    """One warning, at the flow, for each kind of doubt that a curve adds to those that are told already."""
    kinds = {doubt.kind for doubt in told}
    found = []
    for place in places:
        for doubt in range_doubts(place.steps, units):
            if doubt.kind not in kinds:
                kinds.add(doubt.kind)
                text = f"at this flow, in {name_in_line(parts, place.part)}: {doubt.warning.detail}"
                found.append(Warning(f"/flows/{place.flow}", text))
    return found
