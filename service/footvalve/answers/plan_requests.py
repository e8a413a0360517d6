"""What the plan asks of the other endpoints, with what it has worked out itself put in."""

from collections.abc import Sequence

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers import unrounded
from footvalve.answers.plan_well import PlannedWell
from footvalve.answers.unit_system import unit_system
from footvalve.contract.battery_runtime import Battery, BatteryRuntimeRequest, ElectricLoad
from footvalve.contract.friction import FrictionRequest
from footvalve.contract.line import LinePart
from footvalve.contract.manifold_check import ManifoldCheckRequest, ManifoldQuestion
from footvalve.contract.quantities import Flow, Pressure, Volume
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.contract.sounding import SoundingQuestion, SoundingRequest
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest
from footvalve.contract.tank_cycle import PumpPoint, Tank, TankCycleRequest, TankPump
from footvalve.contract.well_recovery import WellRecoveryRequest

PUMP = "pump"
"""The pump's name among the loads of the battery."""


def sounding_request(request: SitePlanRequest, asked: SoundingQuestion) -> SoundingRequest:
    """How far down the water is."""
    return SoundingRequest(
        units=request.units,
        site=request.site,
        measurement=asked.measurement,
        measuring_point_height=asked.measuring_point_height,
    )


def well_request(well: PlannedWell, flow: float | None, request: SitePlanRequest) -> WellRecoveryRequest | None:
    """What the well gives at a flow in m^3/s, as in the dry season; None where no readings tell."""
    if well.question is None or flow is None:
        return well.question
    return replace(well.question, design_flow=unrounded.flow(flow, unit_system(request.units)))


def suction_request(request: SitePlanRequest, well: PlannedWell, flow: float) -> SuctionFeasibilityRequest:
    """Whether a flow in m^3/s can be drawn from up here.

    The drawdown goes on as it is known, but where a limit stops the fall it is the drawdown at the limit.
    """
    units = unit_system(request.units)
    depth = request.depth_to_water
    if depth is UNSET:
        depth = unrounded.length(well.resting_depth - request.seasonal_fall.base, units)
    drawdown, capacity = well.level.drawdown_at(flow), well.level.specific_capacity
    settles = capacity is not None and drawdown < well.level.limit
    return SuctionFeasibilityRequest(
        units=request.units,
        site=request.site,
        depth_to_water=depth,
        seasonal_fall=request.seasonal_fall,
        drawdown=UNSET if settles or request.well is UNSET else unrounded.length(drawdown, units),
        specific_capacity=unrounded.specific_capacity(capacity, units) if settles and capacity else UNSET,
        flow=unrounded.flow(flow, units),
        pump=request.pump,
        intake_elevation=request.intake_elevation,
        line=request.suction_line,
        policy=request.policy,
    )


def friction_request(request: SitePlanRequest, line: list[LinePart], flow: float) -> FrictionRequest:
    """What the delivery line costs at a flow in m^3/s."""
    units = unit_system(request.units)
    return FrictionRequest(units=request.units, site=request.site, flow=unrounded.flow(flow, units), line=line)


def tank_request(request: SitePlanRequest, given: Sequence[tuple[Pressure, Flow]]) -> TankCycleRequest:
    """How often the pump starts, by what it gives into the tank at some pressures."""
    return TankCycleRequest(
        units=request.units,
        site=request.site,
        tanks=_tanks(request),
        switch=request.switch,
        pump=TankPump(points=[PumpPoint(pressure=pressure, flow=flow) for pressure, flow in given]),
        demand=demand_of_plan(request),
        least_run=request.least_run,
        gas_exponent=request.gas_exponent,
    )


def _tanks(request: SitePlanRequest) -> list[Tank]:
    """The tanks, or one charged to cut-in, whose filling takes the same share of time at each pressure in any size."""
    if request.tanks is not UNSET:
        return request.tanks
    return [Tank(volume=Volume(100.0, "L"), precharge=request.switch.cut_in)]


def demand_of_plan(request: SitePlanRequest) -> Flow:
    """What the house draws: as stated, or the day's water evenly over the day, or nothing."""
    if request.demand is not UNSET:
        return request.demand
    if request.daily_water is UNSET:
        return Flow(0.0, "L/s")
    return unrounded.flow(request.daily_water.base / 86_400.0, unit_system(request.units))


def battery_request(
    request: SitePlanRequest,
    battery: Battery,
    *,
    flow: float,
    current: float,
    greatest: float | None = None,
    hours: float | None = None,
) -> BatteryRuntimeRequest:
    """How long the battery lasts with a pump of a mean flow in m^3/s, and its mean and its greatest current in A: for
    the day's water, or so many hours a day."""
    pump = ElectricLoad(
        name=PUMP,
        current=unrounded.current(current),
        greatest_current=UNSET if greatest is None else unrounded.current(max(current, greatest)),
        hours_per_day=UNSET if hours is None else hours,
        draws_water=True,
    )
    asked = BatteryRuntimeRequest(
        units=request.units,
        site=request.site,
        battery=battery,
        loads=[pump, *(request.loads or ())],
        pump_flow=unrounded.flow(flow, unit_system(request.units)),
        daily_water=request.daily_water if hours is None else UNSET,
        wire=request.wire,
        charger=request.charger,
        solar=request.solar,
    )
    return asked if request.days is UNSET else replace(asked, days=request.days)


def manifold_request(request: SitePlanRequest, asked: ManifoldQuestion) -> ManifoldCheckRequest:
    """Whether the water goes where it should."""
    return ManifoldCheckRequest(
        units=request.units,
        site=request.site,
        nodes=asked.nodes,
        elements=asked.elements,
        source=asked.source,
        house=asked.house,
        modes=asked.modes,
    )
