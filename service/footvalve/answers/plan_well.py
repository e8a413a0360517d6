"""The water in the plan's well: where it rests in the dry season, how far it falls, and how far it may."""

from collections.abc import Iterator
from dataclasses import dataclass

from msgspec import UNSET, UnsetType
from msgspec.structs import replace

from footvalve.answers import unrounded
from footvalve.answers.plan_pointers import well_pointers
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.answers.well_inflow import Inflow
from footvalve.answers.well_state import well_state
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import Length
from footvalve.contract.site_plan import SitePlanRequest, WellPlan
from footvalve.contract.well_recovery import PumpingTest, Recovery, WellRecoveryRequest
from footvalve.physics.pumping_level import PumpingLevel

WATER_OVER_INTAKE = Length(1.0, "ft").base
"""m of water that is left over the intake, lest a vortex draws air. Common practice, no source."""

YIELDS = ("recovery", "pumping_test", "specific_capacity", "drawdown")


@dataclass(frozen=True, slots=True)
class PlannedWell:
    """Depths in m below the ground, in the dry season; `question` is what the well's own endpoint is asked, but for
    the flow, where the readings of a recovery or a test are there, and `inflow` what they say."""

    resting_depth: float
    limit_depth: float
    level: PumpingLevel
    question: WellRecoveryRequest | None
    inflow: Inflow | None = None


def well_faults(well: WellPlan | UnsetType) -> Iterator[Fault]:
    """What keeps the well's part from being asked: none or several yields, readings without the casing."""
    if well is UNSET:
        return
    given = [name for name in YIELDS if getattr(well, name) is not UNSET]
    if len(given) != 1:
        yield Fault("/well", f"give one of {', '.join(f'`{name}`' for name in YIELDS)}")
    if _is_read(well) and well.casing_diameter is UNSET:
        yield Fault("/well/casing_diameter", "a recovery or a pumping test tells nothing without it")


def planned_well(request: SitePlanRequest, depth: float, intake: float) -> PlannedWell:
    """The well of a sounded depth in m and an intake at an elevation in m. Raises Refused for what no well is."""
    well = request.well
    resting = resting_depth(request, depth)
    limit = _limit_depth(well, intake)
    if well is UNSET:
        return PlannedWell(resting, limit, PumpingLevel(), None)
    if well.drawdown is not UNSET:
        return PlannedWell(resting, limit, PumpingLevel(fixed=well.drawdown.base), None)
    if well.specific_capacity is not UNSET:
        return PlannedWell(resting, limit, PumpingLevel(specific_capacity=well.specific_capacity.base), None)
    question = _question(request, well, depth, resting, limit)
    state = well_pointers(request).answered(lambda: well_state(question))
    level = PumpingLevel(specific_capacity=state.specific_capacity, limit=max(limit - resting, 0.0))
    return PlannedWell(resting, limit, level, question, state.inflow)


def resting_depth(request: SitePlanRequest, depth: float) -> float:
    """Depth in m to the water at rest in the dry season, by the depth to it now."""
    return depth + request.seasonal_fall.base


def is_flooded(request: SitePlanRequest, resting: float) -> bool:
    """Whether the pump's inlet stands below the water at rest, at that depth in m."""
    return request.pump.inlet_elevation.base < -resting


def told_level(depth: Length) -> str:
    """A depth of the water in words; that of a flowing well lies above the ground."""
    if depth.value < 0.0:
        return f"at {Length(-depth.value, depth.unit)} above the ground"
    return f"at {depth} below the ground"


def _is_read(well: WellPlan) -> bool:
    return well.recovery is not UNSET or well.pumping_test is not UNSET


def _limit_depth(well: WellPlan | UnsetType, intake: float) -> float:
    over_intake = -intake - WATER_OVER_INTAKE
    if well is UNSET or well.limit_depth is UNSET:
        return over_intake
    return min(well.limit_depth.base, over_intake)


def _question(
    request: SitePlanRequest, well: WellPlan, depth: float, resting: float, limit: float
) -> WellRecoveryRequest:
    """The readings as they would be in the dry season and from the ground: moved until their rest is the plan's."""
    if well.casing_diameter is UNSET:
        raise Refused(*well_faults(well))
    units = unit_system(request.units)
    by = resting - _read_rest(request, well, depth)
    return WellRecoveryRequest(
        units=request.units,
        site=request.site,
        static_depth=unrounded.length(resting, units),
        casing_diameter=well.casing_diameter,
        drop_pipe_diameter=well.drop_pipe_diameter,
        recovery=UNSET if well.recovery is UNSET else _moved_recovery(well.recovery, by, units),
        pumping_test=UNSET if well.pumping_test is UNSET else _moved_test(well.pumping_test, by, units),
        limit_depth=unrounded.length(limit, units),
    )


def _read_rest(request: SitePlanRequest, well: WellPlan, depth: float) -> float:
    """The water at rest in m below the point that the well's readings start from, when they were read."""
    if well.static_depth is not UNSET:
        return well.static_depth.base
    return depth if request.sounding is UNSET else depth + request.sounding.measuring_point_height.base


def _moved_recovery(recovery: Recovery, by: float, units: UnitSystem) -> Recovery:
    return Recovery(
        readings=[replace(reading, depth=_moved(reading.depth, by, units)) for reading in recovery.readings]
    )


def _moved_test(test: PumpingTest, by: float, units: UnitSystem) -> PumpingTest:
    return replace(test, pumping_depth=_moved(test.pumping_depth, by, units))


def _moved(depth: Length, by: float, units: UnitSystem) -> Length:
    return depth if by == 0.0 else unrounded.length(depth.base + by, units)
