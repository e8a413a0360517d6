"""What a well gives at a flow and down to a limit, in SI, before it is told in anybody's units."""

from typing import Literal

from msgspec import UNSET, Struct

from footvalve.answers.coverage import NORMAL
from footvalve.answers.well_faults import well_faults
from footvalve.answers.well_inflow import LEAST_DISTINCT, Inflow, inflow
from footvalve.answers.well_readings import residual_drawdowns
from footvalve.contract.problem import Refused
from footvalve.contract.well_recovery import DEEPEST, WellRecoveryRequest, WellVerdict
from footvalve.physics.casing_storage import casing_storage_area
from footvalve.physics.well_drawdown import PUMPING_TEST, time_to_drawdown

PROVEN_AT = NORMAL
"""Standard uncertainties by which the inflow must carry a flow before it is called proven: 97 % of a normal spread."""

FURTHEST = 2.0
"""Tested drawdowns beyond which nothing is called sustained: own choice, no source. Inflow in line with the drawdown is
shown only as far as it was seen. A screen's loss, a water-bearing layer that falls dry, and in an unconfined layer its
thinning all take from it, and rarely half of it before the drawdown has doubled."""

MOST_CASING_WATER = PUMPING_TEST.range_of("casing_water_fraction").high
"""Share of a test's water that may come out of the casing: with more, the test tells of the casing, not the ground."""

LEAST_RECOVERED = 0.1
"""Share of the drawdown that has to come back while a recovery is read, or its end is guessed from its beginning: own
choice, no source."""

Unproven = Literal["scatter", "too-few", "too-brief", "uncertain", "beyond-test", "casing-water"]
"""Why a flow that the inflow seems to carry is not proven: the readings' scatter is as great as what they show, or
there are but two, which any inflow fits, or they end long before the level is back, or what is sure of it does not
carry it, or it takes far more drawdown than was tested, or the casing gave most of the test's water."""


class WellState(Struct, frozen=True, eq=False):
    """A well at its rest, with its inflow, and what that comes to at a flow and a limit. Depths in m, the casing's area
    in m^2; None for what is not asked.

    In `time_constant` 63 % of a drawdown is made up; None where nothing flows in. `drawdown_at_limit` is from rest down
    to the limit, zero where the limit does not lie below the water at rest; `inflow_at_limit` flows in there, and
    `storage` is the casing's water above. The level settles at `pumping_depth` with the design flow; None where no
    depth of the contract brings that flow. `least_specific_capacity` is with the certainty that is asked for.
    `seems_to_sustain` says whether the inflow carries the design flow above the limit, taken as it was found and in
    line with the drawdown however deep that is, and `unproven` why that is not proven; None where it is, or does not
    seem so. For `time_to_limit` the design flow can be drawn from rest; None where it can be for good, or is not asked.
    """

    static_depth: float
    area: float
    inflow: Inflow
    design_flow: float | None
    limit_depth: float | None
    specific_capacity: float
    time_constant: float | None
    drawdown_at_limit: float | None
    inflow_at_limit: float | None
    storage: float | None
    pumping_depth: float | None
    least_specific_capacity: float
    seems_to_sustain: bool
    unproven: Unproven | None
    verdict: WellVerdict | None
    time_to_limit: float | None


def well_state(request: WellRecoveryRequest, known: Inflow | None = None) -> WellState:
    """The state of the well that a request describes; `known` is the inflow by its readings, where it was found
    already. Raises Refused for what cannot be."""
    rest = request.static_depth.base
    used = () if request.recovery is UNSET else residual_drawdowns(request.recovery.readings, rest)
    faults = tuple(well_faults(request, used))
    if faults:
        raise Refused(*faults)
    area = casing_storage_area(
        casing_diameter=request.casing_diameter.base,
        drop_pipe_diameter=0.0 if request.drop_pipe_diameter is UNSET else request.drop_pipe_diameter.base,
    )
    found = inflow(request, used, area) if known is None else known
    flow = None if request.design_flow is UNSET else request.design_flow.base
    limit = None if request.limit_depth is UNSET else request.limit_depth.base
    return _drawn_on(found, area=area, rest=rest, flow=flow, limit=limit)


def _drawn_on(found: Inflow, *, area: float, rest: float, flow: float | None, limit: float | None) -> WellState:
    """A well that rests at a depth, with what its inflow comes to at a flow and a limit."""
    capacity = found.specific_capacity
    drawdown = None if limit is None else max(limit - rest, 0.0)
    most = None if drawdown is None else capacity * drawdown
    least = found.least_specific_capacity
    seems_to_sustain = most is not None and flow is not None and flow <= most
    unproven = _unproven(found, least, flow, drawdown, seems_to_sustain=seems_to_sustain)
    verdict = _verdict(capacity, flow, drawdown, unproven, seems_to_sustain=seems_to_sustain)
    lasting = least if unproven else capacity
    return WellState(
        static_depth=rest,
        area=area,
        inflow=found,
        design_flow=flow,
        limit_depth=limit,
        specific_capacity=capacity,
        time_constant=area / capacity if capacity else None,
        drawdown_at_limit=drawdown,
        inflow_at_limit=most,
        storage=None if drawdown is None else area * drawdown,
        pumping_depth=_pumping_depth(capacity, rest, flow),
        least_specific_capacity=least,
        seems_to_sustain=seems_to_sustain,
        unproven=unproven,
        verdict=verdict,
        time_to_limit=_time_to_limit(lasting, area, flow, drawdown) if verdict == "storage-limited" else None,
    )


def _pumping_depth(capacity: float, rest: float, flow: float | None) -> float | None:
    if flow is None or capacity * (DEEPEST - rest) < flow:
        return None
    return rest + flow / capacity


def _unproven(
    found: Inflow, least: float, flow: float | None, drawdown: float | None, *, seems_to_sustain: bool
) -> Unproven | None:
    """Why a flow that seems to be sustained with a drawdown is not proven to be. `least` is what the specific capacity
    is at least."""
    capacity, water = found.specific_capacity, found.casing_water
    if capacity and found.standard_uncertainty >= capacity:
        return "scatter"
    if not seems_to_sustain or flow is None or drawdown is None:
        return None
    if (why := _too_little(found)) is not None:
        return why
    if flow > least * drawdown:
        return "uncertain"
    if flow > FURTHEST * capacity * found.tested_drawdown:
        return "beyond-test"
    return "casing-water" if water is not None and water.fraction > MOST_CASING_WATER else None


def _too_little(found: Inflow) -> Unproven | None:
    """Why a recovery was read too seldom or too briefly to prove anything; None for a test."""
    if found.distinct_readings is not None and found.distinct_readings < LEAST_DISTINCT:
        return "too-few"
    if found.recovered_fraction is not None and found.recovered_fraction < LEAST_RECOVERED:
        return "too-brief"
    return None


def _verdict(
    capacity: float, flow: float | None, drawdown: float | None, unproven: Unproven | None, *, seems_to_sustain: bool
) -> WellVerdict | None:
    """As the contract defines it."""
    if drawdown == 0.0:
        return "dry"
    if capacity == 0.0:
        return "storage-limited"
    if drawdown is None or flow is None or unproven not in {None, "uncertain"}:
        return None
    return "sustains" if seems_to_sustain and unproven is None else "storage-limited"


def _time_to_limit(capacity: float, area: float, flow: float | None, drawdown: float | None) -> float | None:
    """How long a flow can be drawn from rest. Where it only seems that it can be for good, the specific capacity is
    what it is at least."""
    if flow is None or drawdown is None:
        return None
    return time_to_drawdown(flow=flow, specific_capacity=capacity, area=area, drawdown=drawdown)
