"""How high each part of a suction line ends, and what of that had to be assumed."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from msgspec import UNSET, Struct

from footvalve.answers.alike_doubts import Doubt, few_of_each
from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.contract.line import Pipe
from footvalve.contract.problem import Fault, Refused

SAME_PLACE = 0.01
"""m. Two statements of one elevation that differ by less are one."""


class LineElevations(Struct, frozen=True):
    """The elevations of a line's nodes, the intake and each part's end, in m above the ground; an inferred intake is
    the deepest that the line can reach."""

    nodes: list[float]
    highest: float
    intake_is_inferred: bool
    warnings: list[Warning]

    @property
    def intake(self) -> float:
        """Where the line takes the water in."""
        return self.nodes[0]

    @property
    def ends(self) -> list[float]:
        """Where each part ends."""
        return self.nodes[1:]


@dataclass(slots=True)
class _Run:
    """The pipes of a line: places in the line, lengths, and ends as far as they are stated."""

    places: list[int]
    lengths: list[float]
    ends: list[float | None]


def line_elevations(
    parts: Sequence[ResolvedPart], *, intake: float | None, inlet: float, units: UnitSystem, pointer: str = "/line"
) -> LineElevations:
    """Elevations along a line with a pipe, in m. Raises Refused for a pipe that is too short, and for a last pipe that
    is told to end above the inlet, since what leads down from there is not in the line."""
    run = _run(parts)
    last_end = f"{pointer}/{run.places[-1]}/end_elevation"
    faults = _crest_faults(run, inlet, units, last_end)
    warnings = [] if faults else _set_last_end(run, inlet, units, last_end)
    start = intake
    if start is None:
        start = _hanging(run)
        warnings.append(_inferred_intake(start, units))
    faults += _reach_faults(run, start, units, pointer)
    if faults:
        raise Refused(*faults)
    warnings += _unstated(run, pointer)
    nodes = [start, *_part_ends(len(parts), run.places, _filled(run, start), start)]
    return LineElevations(nodes, max(nodes), intake is None, warnings)


def _run(parts: Sequence[ResolvedPart]) -> _Run:
    run = _Run([], [], [])
    for place, resolved in enumerate(parts):
        part = resolved.part
        if isinstance(part, Pipe):
            run.places.append(place)
            run.lengths.append(resolved.length)
            run.ends.append(None if part.end_elevation is UNSET else part.end_elevation.base)
    return run


def _crest_faults(run: _Run, inlet: float, units: UnitSystem, pointer: str) -> list[Fault]:
    """A crest that is told of as the last pipe's end must not be lost by taking the inlet for it."""
    stated = run.ends[-1]
    if stated is None or stated - inlet <= SAME_PLACE:
        return []
    text = f"the last pipe ends at {units.length(stated)}, above the pump inlet at {units.length(inlet)}"
    return [Fault(pointer, f"{text}: add the pipe down to the inlet, so that the crest counts")]


def _set_last_end(run: _Run, inlet: float, units: UnitSystem, pointer: str) -> list[Warning]:
    """The last pipe ends at the pump, whatever else was said of it."""
    stated, run.ends[-1] = run.ends[-1], inlet
    if stated is None or abs(stated - inlet) <= SAME_PLACE:
        return []
    text = f"the last pipe ends at {units.length(stated)} and the pump inlet lies at {units.length(inlet)}"
    return [Warning(pointer, f"{text}: the inlet counts")]


def _hanging(run: _Run) -> float:
    """Where the intake is when everything up to the first known end hangs straight down from it."""
    first = next(index for index, end in enumerate(run.ends) if end is not None)
    end = run.ends[first]
    assert end is not None
    return end - sum(run.lengths[: first + 1])


def _inferred_intake(start: float, units: UnitSystem) -> Warning:
    """A warning where a well that is less deep, or pipe that lies level, would leave the intake dry unseen."""
    text = f"not stated, and taken as {units.length(start)}, the deepest that the line can reach"
    return Warning("/intake_elevation", f"{text}: state it, or nothing shows that the intake stays under water")


def _reach_faults(run: _Run, start: float, units: UnitSystem, pointer: str) -> list[Fault]:
    faults = []
    level, length = start, 0.0
    for place, stretch, end in zip(run.places, run.lengths, run.ends, strict=True):
        length += stretch
        if end is not None:
            if abs(end - level) > length + SAME_PLACE:
                height = units.length(abs(end - level))
                reach = f"{units.length(length)} of pipe cannot reach over {height} of height"
                faults.append(Fault(f"{pointer}/{place}/length", reach))
            level, length = end, 0.0
    return faults


def _unstated(run: _Run, pointer: str) -> list[Warning]:
    text = "`end_elevation` is not stated and taken in a straight slope: a crest on the way would not be seen"
    found = (
        Doubt("`end_elevation` is not stated", Warning(f"{pointer}/{place}", text))
        for place, end in zip(run.places, run.ends, strict=True)
        if end is None
    )
    return few_of_each(found, pointer)


def _filled(run: _Run, start: float) -> list[float]:
    """Each pipe's end: as stated, or on a straight slope between the stated ones."""
    filled: list[float] = []
    level, waiting = start, list[float]()
    for length, end in zip(run.lengths, run.ends, strict=True):
        waiting.append(length)
        if end is not None:
            slope = (end - level) / sum(waiting)
            filled += [level + slope * gone for gone in accumulate(waiting)]
            level, waiting = end, []
    return filled


def _part_ends(count: int, places: Sequence[int], ends: Sequence[float], start: float) -> list[float]:
    """Each part's end: a pipe's own, and for what lies between pipes that of the pipe before."""
    pipes = dict(zip(places, ends, strict=True))
    level, found = start, []
    for place in range(count):
        level = pipes.get(place, level)
        found.append(level)
    return found
