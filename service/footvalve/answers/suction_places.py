"""The places of a suction line when one of them is moved: what must go along, or the line would be torn.

The pump's inlet is where the last pipe ends, and may be told twice. A pipe that is just as long as it is high tells
its height twice: it stretches with its ends.
"""

import re
from collections.abc import Iterator, Sequence
from typing import Any

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.line_elevations import SAME_PLACE
from footvalve.contract.line import LinePart, Pipe
from footvalve.contract.ranges import Stated, range_of

INLET = "/pump/inlet_elevation"
INTAKE = "/intake_elevation"

LEAST_LENGTH = range_of(Pipe, "length").low
"""m. No pipe of the contract is shorter."""

_LINES = ("suction_line", "line")
_PART = rf"(?P<part>/(?:{'|'.join(_LINES)})/\d+)"
_LENGTH, _END = re.compile(f"{_PART}/length"), re.compile(f"{_PART}/end_elevation")


def told_twice(stated: Sequence[Stated]) -> list[Stated]:
    """The inlet, and the end of the last pipe where that is stated as well and is the same place; else nothing."""
    at = {each.pointer: each for each in stated}
    pipes = [found["part"] for each in stated if (found := _LENGTH.fullmatch(each.pointer))]
    inlet, end = at.get(INLET), at.get(f"{pipes[-1]}/end_elevation") if pipes else None
    if inlet is None or end is None or abs(end.quantity.base - inlet.quantity.base) > SAME_PLACE:
        return []
    return [inlet, end]


def suction_places(stated: Sequence[Stated]) -> set[str]:
    """The pointers to all elevations on the way from the intake to the pump; none without a pump."""
    found = {each.pointer for each in stated if each.pointer in (INLET, INTAKE) or _END.fullmatch(each.pointer)}
    return found if INLET in found else set()


def stretched(before: Any, after: Any) -> Any:
    """A request some place of which was moved, with the pipes of its suction line as long as they must be: one that
    was just as long as it is high still is, and any other reaches its end."""
    field = next(name for name in _LINES if hasattr(after, name))
    longer: dict[int, Pipe] = {}
    for (index, rise, length), (_, rise_before, _) in zip(_runs(after, field), _runs(before, field), strict=True):
        hangs_straight = length - rise_before <= SAME_PLACE
        if hangs_straight or rise > length:
            longer[index] = _longer(getattr(after, field)[index], rise - (rise_before if hangs_straight else length))
    if not longer:
        return after
    return replace(after, **{field: [longer.get(index, part) for index, part in enumerate(getattr(after, field))]})


def _longer(pipe: Pipe, by: float) -> Pipe:
    return replace(pipe, length=pipe.length.moved(max(by, LEAST_LENGTH - pipe.length.base)))


def _runs(request: Any, field: str) -> Iterator[tuple[int, float, float]]:
    """For each run of pipes between two places that are told: its last pipe's place in the line, how far its ends are
    apart in height, and its length, in m."""
    line: list[LinePart] = getattr(request, field)
    last = max(index for index, part in enumerate(line) if isinstance(part, Pipe))
    level = None if request.intake_elevation is UNSET else request.intake_elevation.base
    length = 0.0
    for index, part in enumerate(line):
        if not isinstance(part, Pipe):
            continue
        length += part.length.base
        end = request.pump.inlet_elevation if index == last else part.end_elevation
        if end is not UNSET:
            if level is not None:
                yield index, abs(end.base - level), length
            level, length = end.base, 0.0
