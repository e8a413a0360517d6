"""All of a plan that is known before the pump's duty is: the water, the lines and the pump, in SI."""

from collections.abc import Callable
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

from msgspec import UNSET

from footvalve.answers.gathering import gathered
from footvalve.answers.line_elements import ResolvedPart, resolve_line, resolve_suction_line
from footvalve.answers.line_elevations import line_elevations
from footvalve.answers.manifold_check import manifold_check
from footvalve.answers.plan_checks import later_checks
from footvalve.answers.plan_moved import ALL_FIELDS, DELIVERY, INTAKE, PUMP, SOUNDING, SUCTION, WELL, moved_fields
from footvalve.answers.plan_pointers import manifold_pointers, sounding_pointers
from footvalve.answers.plan_pump import PlannedPump, planned_pump, voltage_faults
from footvalve.answers.plan_requests import manifold_request, sounding_request
from footvalve.answers.plan_well import PlannedWell, is_flooded, planned_well, resting_depth, well_faults
from footvalve.answers.sounding import depth_below_ground, depth_readings
from footvalve.answers.sounding_readings import Readings
from footvalve.answers.suction_lift import npsh_required
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.contract.manifold_check import ManifoldCheckAnswer
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.contract.sounding import SoundingRequest
from footvalve.physics.atmosphere import atmospheric_pressure
from footvalve.physics.operating_point import PumpedSystem
from footvalve.physics.water import Water, water


@dataclass(frozen=True, slots=True)
class Sounded:
    """Depth to the water in m below the ground, with the sounding's question and its readings, where there was one."""

    depth: float
    question: SoundingRequest | None = None
    readings: Readings | None = None


@dataclass(frozen=True, slots=True)
class PlanState:
    """A site's water, lines and pump. Lengths in m, pressures in Pa, elevations above the ground."""

    request: SitePlanRequest
    sounded: Sounded
    well: PlannedWell
    suction: list[ResolvedPart]
    delivery: list[ResolvedPart]
    intake: float
    pump: PlannedPump
    drawn: Water
    air_pressure: float
    manifold: ManifoldCheckAnswer | None

    @property
    def units(self) -> UnitSystem:
        """The units in which the plan speaks."""
        return unit_system(self.request.units)

    @property
    def tank_elevation(self) -> float:
        """Where the tank and its switch stand: at the highest tap unless it is told."""
        stated = self.request.tank_elevation
        return (self.request.house_elevation if stated is UNSET else stated).base

    @property
    def system(self) -> PumpedSystem:
        """What the pump works against besides the tank's pressure."""
        return PumpedSystem(
            elements=tuple(part.element for part in (*self.suction, *self.delivery)),
            water=self.drawn,
            level=self.well.level,
            static_head=self.tank_elevation + self.well.resting_depth,
        )


Part = TypeVar("Part")


def plan_state(request: SitePlanRequest, near: PlanState | None = None) -> PlanState:
    """The state of the site that a request describes. `near` is that of another request: what depends on none of the
    fields in which they differ is taken from there. Raises Refused with every fault that can be told before the pump's
    duty is known."""
    moved = ALL_FIELDS if near is None else moved_fields(near.request, request)
    faults = [*well_faults(request.well), *voltage_faults(request.pump.voltage, request.battery)]

    def part(kept: Part | None, fields: AbstractSet[str], resolve: Callable[[], Part]) -> Part | None:
        if kept is None or not moved.isdisjoint(fields):
            return gathered(faults, resolve)
        return kept

    sounded = part(near.sounded if near else None, SOUNDING, partial(_sounded, request))
    suction = part(near.suction if near else None, SUCTION, partial(_suction, request))
    delivery = part(near.delivery if near else None, DELIVERY, partial(_delivery, request))
    pump = part(near.pump if near else None, PUMP, partial(_pump, request))
    intake = (
        None if suction is None else part(near.intake if near else None, INTAKE, partial(_intake, request, suction))
    )
    for check in later_checks(request, moved):
        gathered(faults, check)
    manifold = gathered(faults, partial(_manifold, request, sounded))
    well = None
    if sounded is not None and intake is not None and not any(well_faults(request.well)):
        kept = near.well if near and sounded is near.sounded and intake == near.intake else None
        well = part(kept, WELL, partial(planned_well, request, sounded.depth, intake))
    if faults or sounded is None or suction is None or delivery is None or pump is None or intake is None or not well:
        raise Refused(*dict.fromkeys(faults))
    return PlanState(
        request=request,
        sounded=sounded,
        well=well,
        suction=suction,
        delivery=delivery,
        intake=intake,
        pump=pump,
        drawn=water(temperature=request.site.water_temperature.base),
        air_pressure=atmospheric_pressure(altitude=request.site.altitude.base),
        manifold=manifold,
    )


def _sounded(request: SitePlanRequest) -> Sounded:
    if (request.sounding is UNSET) == (request.depth_to_water is UNSET):
        raise Refused(Fault("/depth_to_water", "give `sounding` or `depth_to_water`: one of the two"))
    if request.sounding is UNSET:
        assert request.depth_to_water is not UNSET
        return Sounded(request.depth_to_water.base)
    question = sounding_request(request, request.sounding)
    readings = sounding_pointers().answered(lambda: depth_readings(question, unit_system(request.units)))
    return Sounded(depth_below_ground(question, readings), question, readings)


def _suction(request: SitePlanRequest) -> list[ResolvedPart]:
    return resolve_suction_line(request.suction_line, unit_system(request.units), "/suction_line")


def _delivery(request: SitePlanRequest) -> list[ResolvedPart]:
    if request.delivery_line is UNSET:
        return []
    return resolve_line(request.delivery_line, "darcy-weisbach", unit_system(request.units), "/delivery_line")


def _pump(request: SitePlanRequest) -> PlannedPump:
    """The pump, once it is sure that what it needs at its inlet is told."""
    faults: list[Fault] = []
    gathered(faults, partial(npsh_required, request.pump))
    pump = gathered(faults, partial(planned_pump, request.pump))
    if pump is None or faults:
        raise Refused(*faults)
    return pump


def _intake(request: SitePlanRequest, suction: list[ResolvedPart]) -> float:
    return line_elevations(
        suction,
        intake=None if request.intake_elevation is UNSET else request.intake_elevation.base,
        inlet=request.pump.inlet_elevation.base,
        units=unit_system(request.units),
        pointer="/suction_line",
    ).intake


def _manifold(request: SitePlanRequest, sounded: Sounded | None) -> ManifoldCheckAnswer | None:
    if request.manifold is UNSET:
        return None
    question = manifold_request(request, request.manifold)
    flooded = sounded is not None and is_flooded(request, resting_depth(request, sounded.depth))
    return manifold_pointers().answered(lambda: manifold_check(question, flooded=flooded))
