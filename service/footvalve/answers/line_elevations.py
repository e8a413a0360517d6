"""How high each part of a suction line ends, and what of that had to be assumed."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from msgspec import UNSET

from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.contract.line import Pipe
from footvalve.contract.problem import Fault, Refused

SAME_PLACE = 0.01
"""m. Two statements of one elevation that differ by less are one."""


@dataclass(frozen=True, slots=True)
class LineElevations:
    """The intake's elevation and each part's end, in m above the ground."""

    intake: float
    ends: list[float]
    warnings: list[Warning]


@dataclass(slots=True)
class _Run:
    """The pipes of a line: places in the line, lengths, and ends as far as they are stated."""

    places: list[int]
    lengths: list[float]
    ends: list[float | None]


def line_elevations(
    parts: Sequence[ResolvedPart], *, intake: float | None, inlet: float, units: UnitSystem, pointer: str = "/line"
) -> LineElevations:
    """Elevations along a line, in m. Raises Refused for a line without a pipe, and for a pipe that is too short."""
    run = _run(parts)
    if not run.places:
        raise Refused(Fault(pointer, "a suction line has at least one pipe"))
    hangs = intake is None and run.ends[0] is None
    warnings = _set_last_end(run, inlet, units, f"{pointer}/{run.places[-1]}/end_elevation")
    if hangs:
        text = "without `intake_elevation`, or the first pipe's `end_elevation`, it is not known whether the intake"
        warnings.append(Warning("/intake_elevation", f"{text} stays under water"))
    start = _hanging(run) if intake is None else intake
    _check_reach(run, start, units, pointer)
    warnings += _unstated(run, pointer)
    ends = _part_ends(len(parts), run.places, _filled(run, start), start)
    return LineElevations(start, ends, warnings)


def _run(parts: Sequence[ResolvedPart]) -> _Run:
    run = _Run([], [], [])
    for place, resolved in enumerate(parts):
        part = resolved.part
        if isinstance(part, Pipe):
            run.places.append(place)
            run.lengths.append(resolved.length)
            run.ends.append(None if part.end_elevation is UNSET else part.end_elevation.base)
    return run


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


def _check_reach(run: _Run, start: float, units: UnitSystem, pointer: str) -> None:
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
    if faults:
        raise Refused(*faults)


def _unstated(run: _Run, pointer: str) -> list[Warning]:
    text = "`end_elevation` is not stated and taken in a straight slope: a crest on the way would not be seen"
    return [Warning(f"{pointer}/{place}", text) for place, end in zip(run.places, run.ends, strict=True) if end is None]


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
