"""Changes of the pump: less flow, a lower place, a pump that needs less NPSH."""

from collections.abc import Iterator
from decimal import ROUND_FLOOR, Decimal

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.suction_lever import DIGITS, Change, SuctionSide
from footvalve.answers.suction_lift import LEAST_LIKELY_NPSH
from footvalve.answers.turning_point import last_enough
from footvalve.contract.line import LinePart, Pipe
from footvalve.contract.quantities import Flow, Length
from footvalve.contract.ranges import range_of
from footvalve.contract.suction_feasibility import CentrifugalPump, SuctionFeasibilityRequest, SuctionPump
from footvalve.physics.net_positive_suction_head import npsh_required_of_rated_lift
from footvalve.quantity import from_base

GREATEST_RATED_LIFT = range_of(SuctionPump, "rated_suction_lift").high
"""m: the most that the contract takes."""

LEAST_USEFUL_FLOW = Flow(0.25, "gal/min").base
"""m^3/s. Who draws less has hardly any water: it is no advice. Own choice."""

SAME_PLACE = Decimal("1e-6")
"""Part of the last place told by which an elevation may be short of a whole one, for what the conversion takes off."""

PumpChange = Change[SuctionFeasibilityRequest]


def less_flow(side: SuctionSide) -> Iterator[PumpChange]:
    """The greatest flow at which the line is feasible, whatever the pump's own would be."""
    if side.now.flow <= LEAST_USEFUL_FLOW:
        return
    unit = side.units.flow_unit
    found = last_enough(
        lambda value: side.at_flow(Flow(value, unit)).shortfall,
        short=from_base(side.now.flow, unit),
        enough=from_base(LEAST_USEFUL_FLOW, unit),
        digits=DIGITS,
    )
    if found is not None:
        flow = Flow(found, unit)
        text = f"Draw no more than {flow}, {_how_to_draw_less(side.request.pump)}."
        yield Change(text, "/flow", replace(side.request, flow=flow), side.at_flow(flow))


def _how_to_draw_less(pump: SuctionPump) -> str:
    """By a valve only at a pump that gives less against it: a displacement pump gives hardly less, and its pressure and
    its current rise until something opens, stalls or bursts. Common practice, no source."""
    smaller = "by a smaller or slower pump"
    return f"{smaller}, or a valve behind it" if isinstance(pump, CentrifugalPump) else smaller


def lower_pump(side: SuctionSide) -> Iterator[PumpChange]:
    """How much lower the pump has to stand, at the most down at the pumping level."""
    if side.now.static_lift <= 0.0:
        return
    unit = side.units.length_unit
    found = last_enough(
        lambda value: side.wanting_after(_lowered(side, Length(value, unit))),
        short=0.0,
        enough=from_base(side.now.static_lift, unit),
        digits=DIGITS,
    )
    if found is None:
        return
    by = Length(found, unit)
    request = _lowered(side, by)
    after = side.after(request)
    if after is not None:
        text = f"Set the pump {by} lower{_told_inlet(side, by)}, with as much more of the last pipe."
        yield Change(text, "/pump/inlet_elevation", request, after)


def _told_inlet(side: SuctionSide, by: Length) -> str:
    """Where the inlet comes to stand, in as many places as `by` has and rounded down; nothing where that is not enough
    when it is fed back."""
    stood = Decimal(from_base(side.request.pump.inlet_elevation.base, by.unit))
    least = Decimal(repr(by.value)).normalize()
    place = Decimal(1).scaleb(least.adjusted() - DIGITS + 1)
    told = (stood - least + SAME_PLACE * place).quantize(place, ROUND_FLOOR)
    there = Length(float(told), by.unit)
    if side.wanting_after(_lowered(side, by, there)) > 0.0:
        return ""
    digits = f"{told:f}"
    plain = digits.rstrip("0").rstrip(".") if "." in digits else digits
    return f", its inlet at an elevation of {plain} {by.unit}"


def _lowered(side: SuctionSide, by: Length, to: Length | None = None) -> SuctionFeasibilityRequest:
    """The request with its pump so much lower, the last pipe longer by as much, and all before it where it was; the
    inlet at an elevation, where one is told."""
    request = side.request
    inlet = to or Length(request.pump.inlet_elevation.base - by.base, "m")
    line: list[LinePart] = list(request.line)
    last, pipe = next((i, part) for i, part in reversed(list(enumerate(line))) if isinstance(part, Pipe))
    end = pipe.end_elevation if pipe.end_elevation is UNSET else inlet
    line[last] = replace(pipe, length=Length(pipe.length.base + by.base, "m"), end_elevation=end)
    pump = replace(request.pump, inlet_elevation=inlet)
    return replace(request, line=line, pump=pump, intake_elevation=Length(side.now.elevations.intake, "m"))


def easier_pump(side: SuctionSide) -> Iterator[PumpChange]:
    """The most NPSH that a pump may need here, told as the request tells it of its own."""
    told = _by_rated_lift(side) or _by_npsh(side)
    if told is not None:
        request, text, field = told
        change = side.changed(request, text, f"/pump/{field}")
        if change is not None:
            yield change


def _wanting_of_the_pump(side: SuctionSide, npsh_required: float) -> float:
    """Head in m that is wanting by what a pump needs, and by how high it draws a dry line."""
    easier = replace(side.now, npsh_required=npsh_required)
    return max(easier.policy_margin - easier.margin_at_worst, easier.summit - easier.reach)


def _by_rated_lift(side: SuctionSide) -> tuple[SuctionFeasibilityRequest, str, str] | None:
    pump, unit = side.request.pump, side.units.length_unit
    if pump.rated_suction_lift is UNSET:
        return None

    def wanting(lift: float) -> float:
        needed = npsh_required_of_rated_lift(rated_suction_lift=Length(lift, unit).base)
        return _wanting_of_the_pump(side, needed)

    stated, most = (from_base(lift, unit) for lift in (pump.rated_suction_lift.base, GREATEST_RATED_LIFT))
    found = last_enough(wanting, short=stated, enough=most, digits=DIGITS)
    if found is None or found > most:
        return None
    lift = Length(found, unit)
    text = f"Take a pump with a rated suction lift of {lift} or more."
    return replace(side.request, pump=replace(pump, rated_suction_lift=lift)), text, "rated_suction_lift"


def _by_npsh(side: SuctionSide) -> tuple[SuctionFeasibilityRequest, str, str] | None:
    unit = side.units.length_unit
    found = last_enough(
        lambda value: _wanting_of_the_pump(side, Length(value, unit).base),
        short=from_base(side.now.npsh_required, unit),
        enough=0.0,
        digits=DIGITS,
    )
    if found is None:
        return None
    needed = Length(found, unit)
    few = ", which few do" if needed.base < LEAST_LIKELY_NPSH else ""
    is_rated = side.request.pump.rated_suction_lift is not UNSET
    instead = "; state that in place of the rated suction lift" if is_rated else ""
    pump = replace(side.request.pump, npsh_required=needed, rated_suction_lift=UNSET)
    return (
        replace(side.request, pump=pump),
        f"Take a pump that needs no more than {needed} of NPSH{few}{instead}.",
        "rated_suction_lift" if is_rated else "npsh_required",
    )
