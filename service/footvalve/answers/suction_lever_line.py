"""Changes of the suction line: wider pipe, a clean strainer."""

from collections.abc import Callable, Hashable, Iterator
from functools import partial
from itertools import pairwise
from typing import TypeVar

from msgspec import UNSET, UnsetType
from msgspec.structs import replace

from footvalve.answers.suction_lever import DIGITS, Change, SuctionSide
from footvalve.answers.turning_point import last_enough
from footvalve.contract.line import Bore, LinePart, NominalSize, Pipe, PipeSize, Strainer
from footvalve.contract.quantities import Length, Pressure
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest
from footvalve.quantity import LengthUnit, from_base
from footvalve.tables.pipes import nominals, pipe_product

WIDEST_GROWTH = 2.0
"""How many times as wide a bore is sought: at twice the bore the friction is a thirtieth, and little is left to win."""

MOST_TRIED = 5
"""Changes of one kind that are tried: those of what costs most head. A line has up to a thousand parts."""

LineChange = Change[SuctionFeasibilityRequest]
Meant = TypeVar("Meant", bound=Hashable)


def _costliest(side: SuctionSide, meant: Callable[[int, LinePart], Meant | UnsetType]) -> list[Meant]:
    """What the parts have that a change is meant for, the few that cost most head, the costliest first."""
    taken: dict[Meant, float] = {}
    for index, (part, (before, after)) in enumerate(
        zip(side.request.line, pairwise(side.now.line.heads.losses), strict=True)
    ):
        key = meant(index, part)
        if key is not UNSET:
            taken[key] = taken.get(key, 0.0) + after - before
    return sorted(taken, key=taken.__getitem__, reverse=True)[:MOST_TRIED]


def wider_pipes(side: SuctionSide) -> Iterator[LineChange]:
    """For each product and size in the line the next larger size that makes it feasible, else the largest there is."""
    for size in _costliest(side, lambda _, part: part.size if isinstance(part, Pipe) else UNSET):
        change = _wide_enough(side, size)
        if change is not None:
            yield change


def _wide_enough(side: SuctionSide, size: PipeSize) -> LineChange | None:
    """The largest size is tried first: where it does not make it feasible no other does."""
    known = nominals(size.product)
    larger: tuple[NominalSize, ...] = known[known.index(size.nominal) + 1 :]  # type: ignore[assignment]
    largest = _widened(side, size, larger[-1]) if larger else None
    if largest is not None and largest.after.verdict != "feasible":
        return largest
    for nominal in larger[:-1]:
        change = _widened(side, size, nominal)
        if change is not None and change.after.verdict == "feasible":
            return change
    return largest


def _widened(side: SuctionSide, size: PipeSize, nominal: NominalSize) -> LineChange | None:
    wider = PipeSize(size.product, nominal)
    line, first, length = _exchanged(side, lambda part: part.size == size, lambda part: replace(part, size=wider))
    text = f"Take {nominal} in instead of {size.nominal} in for the {length} of {pipe_product(size.product).title}."
    return side.changed(replace(side.request, line=line), text, f"/line/{first}/size/nominal")


def wider_bores(side: SuctionSide) -> Iterator[LineChange]:
    """For each measured bore of the line's pipes the least wider one that makes it feasible, where one does."""
    for bore in _costliest(side, lambda _, part: part.bore if isinstance(part, Pipe) else UNSET):
        unit = side.units.bore_unit
        stated = from_base(bore.diameter.base, unit)
        wanting = partial(_wanting_in_bore, side, bore, unit)
        found = last_enough(wanting, short=stated, enough=WIDEST_GROWTH * stated, digits=DIGITS)
        if found is not None:
            wider = Length(found, unit)
            request, first, length = _in_bore(side, bore, wider)
            narrow = side.units.bore(bore.diameter.base)
            text = f"Take pipe with a bore of {wider} or more instead of {narrow} for the {length} of it."
            change = side.changed(request, text, f"/line/{first}/bore/diameter")
            if change is not None:
                yield change


def _wanting_in_bore(side: SuctionSide, bore: Bore, unit: LengthUnit, value: float) -> float:
    return side.wanting_after(_in_bore(side, bore, Length(value, unit))[0])


def _in_bore(side: SuctionSide, bore: Bore, diameter: Length) -> tuple[SuctionFeasibilityRequest, int, Length]:
    """The request with all pipes of one bore in another, the first of them, and how long they are."""
    wider = replace(bore, diameter=diameter)
    line, first, length = _exchanged(side, lambda part: part.bore == bore, lambda part: replace(part, bore=wider))
    return replace(side.request, line=line), first, length


def _exchanged(
    side: SuctionSide, is_meant: Callable[[Pipe], bool], exchanged: Callable[[Pipe], Pipe]
) -> tuple[list[LinePart], int, Length]:
    """The line with other pipes for some, the place of the first of them, and how long they are together."""
    meant = {index: part for index, part in enumerate(side.request.line) if isinstance(part, Pipe) and is_meant(part)}
    line = [exchanged(meant[index]) if index in meant else part for index, part in enumerate(side.request.line)]
    return line, min(meant), side.units.length(sum(part.length.base for part in meant.values()))


def cleaned_strainers(side: SuctionSide) -> Iterator[LineChange]:
    """Each strainer or filter that is reckoned as dirty, cleaned."""
    told = side.units.told
    for index, part, dirty_drop in _costliest(side, _dirty):
        line = list(side.request.line)
        line[index] = replace(part, dirty_drop=UNSET)
        name = "strainer or filter" if part.name is UNSET else part.name
        drops = f"it then takes {told(part.clean_drop)} in place of {told(dirty_drop)}"
        text = f"Clean the {name} before it is due: {drops} at {told(part.rated_flow)}."
        change = side.changed(replace(side.request, line=line), text, f"/line/{index}/dirty_drop")
        if change is not None:
            yield change


def _dirty(index: int, part: LinePart) -> tuple[int, Strainer, Pressure] | UnsetType:
    if not isinstance(part, Strainer) or part.dirty_drop is UNSET:
        return UNSET
    return index, part, part.dirty_drop
