"""How far flow, depth, altitude and pipe size may go, one at a time, with the verdict still `feasible`.

Nothing turns back on the way: what the line takes, what a hanging disc may take and the drawdown never fall as the flow
grows; depth takes its own length of head, and altitude takes air. So each limit is the end of one range that reaches
down to the least that the field takes.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import TypedDict, get_args

from msgspec import UNSET, UnsetType
from msgspec.structs import replace

from footvalve.answers.suction_state import SuctionState, in_other_bores, on_the_same_line
from footvalve.answers.turning_point import greatest_enough
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.contract.line import LinePart, NominalSize, Pipe, PipeSize
from footvalve.contract.problem import Refused
from footvalve.contract.quantities import SIGNIFICANT_DIGITS, Flow, Length, Quantity
from footvalve.contract.ranges import Within, range_of
from footvalve.contract.request import Site
from footvalve.contract.suction_feasibility import (
    LimitName,
    SmallestSize,
    SuctionFeasibilityRequest,
    Verdict,
)
from footvalve.quantity import from_base
from footvalve.tables.pipes import pipe_size

GROWTH = 4.0
"""How much farther each look ahead goes: six powers of ten are too wide a range of flows to be searched at once."""


def _growing(start: float, high: float) -> Iterator[float]:
    while (start := start * GROWTH) < high:
        yield start


def _at_once(_start: float, _high: float) -> Iterator[float]:
    return iter(())


@dataclass(frozen=True, slots=True)
class LimitedField:
    """A field of the request whose greatest value is sought: its range, what it holds, the request with another value
    in it, and where to look on the way to the end of the range."""

    within: Within
    stated: Callable[[SuctionFeasibilityRequest], Quantity]
    changed: Callable[[SuctionFeasibilityRequest, Quantity], SuctionFeasibilityRequest]
    marks: Callable[[float, float], Iterator[float]] = _at_once


LIMITED: Mapping[LimitName, LimitedField] = MappingProxyType(
    {
        "greatest_flow": LimitedField(
            range_of(SuctionFeasibilityRequest, "flow"),
            lambda request: request.flow,
            lambda request, flow: replace(request, flow=flow),
            _growing,
        ),
        "greatest_depth_to_water": LimitedField(
            range_of(SuctionFeasibilityRequest, "depth_to_water"),
            lambda request: request.depth_to_water,
            lambda request, depth: replace(request, depth_to_water=depth),
        ),
        "greatest_altitude": LimitedField(
            range_of(Site, "altitude"),
            lambda request: request.site.altitude,
            lambda request, altitude: replace(request, site=replace(request.site, altitude=altitude)),
        ),
    }
)


class SuctionLimits(TypedDict, total=False):
    """The fields of the answer that tell the limits."""

    greatest_flow: Flow | UnsetType
    greatest_depth_to_water: Length | UnsetType
    greatest_altitude: Length | UnsetType
    smallest_size: SmallestSize | UnsetType
    limits_at_range_end: list[LimitName]


def suction_limits(request: SuctionFeasibilityRequest, state: SuctionState) -> SuctionLimits:
    """The limits of a request whose state is known, in the units of its answer."""
    units = unit_system(request.units)
    found = {name: _greatest(field, request, state, units) for name, field in LIMITED.items()}
    return SuctionLimits(  # type: ignore[no-any-return]
        **{name: limit for name, (limit, _) in found.items()},  # type: ignore[typeddict-item]
        smallest_size=_smallest_size(request, state, units),
        limits_at_range_end=[name for name, (_, is_range_end) in found.items() if is_range_end],
    )


def _greatest(
    field: LimitedField, request: SuctionFeasibilityRequest, state: SuctionState, units: UnitSystem
) -> tuple[Quantity | UnsetType, bool]:
    """The greatest value of a field that suffices, and whether that is only the end of the field's range."""
    stated = units.told(field.stated(request))
    kind, unit = type(stated), stated.unit
    low, high = _ends(field.within, unit)
    start = min(max(from_base(field.stated(request).base, unit), low), high)

    def wanting(value: float) -> float:
        sought = kind(value, unit)
        if sought.base == field.stated(request).base:
            return state.shortfall
        return on_the_same_line(state, field.changed(request, sought)).shortfall

    found = greatest_enough(
        wanting,
        start=start,
        low=low,
        high=high,
        digits=SIGNIFICANT_DIGITS,
        marks=field.marks(start, high),
    )
    return (UNSET, False) if found is None else (kind(found, unit), found == high)


@cache
def _ends(within: Within, unit: str) -> tuple[float, float]:
    low, high = within.told_ends(unit, SIGNIFICANT_DIGITS)
    return float(low), float(high)


def _smallest_size(
    request: SuctionFeasibilityRequest, state: SuctionState, units: UnitSystem
) -> SmallestSize | UnsetType:
    """The largest size is tried first: where it does not make it feasible no other does."""
    products = [part.size.product for part in request.line if isinstance(part, Pipe) and part.size is not UNSET]
    sizes: tuple[NominalSize, ...] = get_args(NominalSize)
    if not products or _verdict_in_size(request, state, sizes[-1]) in ("marginal", "infeasible"):
        return UNSET
    for nominal in sizes:
        if _verdict_in_size(request, state, nominal) == "feasible":
            bores = (pipe_size(product=product, nominal=nominal).inside_diameter for product in products)
            return SmallestSize(nominal=nominal, bore=units.bore(min(bores)))
    return UNSET


def _verdict_in_size(request: SuctionFeasibilityRequest, state: SuctionState, nominal: NominalSize) -> Verdict | None:
    """With all the pipes of the table in one nominal size; None for a line that does not fit together so."""
    line = [_in_size(part, nominal) for part in request.line]
    if line == request.line:
        return state.verdict
    try:
        return in_other_bores(state, replace(request, line=line)).verdict
    except Refused:
        return None


def _in_size(part: LinePart, nominal: NominalSize) -> LinePart:
    if not isinstance(part, Pipe) or part.size is UNSET:
        return part
    return replace(part, size=PipeSize(part.size.product, nominal))
