"""How the pump runs between cut-in and cut-out, and on the mean over a filling."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Self

from msgspec import UNSET, Struct

from footvalve.answers import unrounded
from footvalve.answers.plan_pointers import PUMP_POINTS, tank_pointers
from footvalve.answers.plan_pump import PlannedPump
from footvalve.answers.plan_requests import tank_request
from footvalve.answers.plan_state import PlanState
from footvalve.answers.tank_system import pressure_system
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import Flow, Pressure
from footvalve.contract.site_plan import MOST_PUMP_POINTS, SitePlanRequest
from footvalve.contract.tank_cycle import Switch, TankCycleRequest
from footvalve.physics.filling_mean import mean_flow_while_filling, mean_while_filling
from footvalve.physics.operating_point import PumpedSystem, operating_point, tank_pressure, tank_pressure_span
from footvalve.physics.pump_cycle import PressureSystem

STEPS = 16
"""Stretches from cut-in to cut-out on which flow and current are taken as straight over the tank's pressure: they bend
by so little that the means are good to about 1e-5."""

LEAST_RISE_OF_TANK = 2.0
"""Pa from one of those to the next, more than `tank-cycle` asks of the points of a pump."""


@dataclass(frozen=True, slots=True)
class RunningPoint:
    """Where the pump runs: pressures in Pa, flow in m^3/s, current in A where it is told."""

    tank_pressure: float
    rise: float
    flow: float
    current: float | None


@dataclass(frozen=True, slots=True)
class Filling:
    """One filling of the tanks from cut-in to cut-out: what the tanks' endpoint is asked, that as a system of physics,
    and the means in time."""

    cut_out: RunningPoint
    question: TankCycleRequest
    system: PressureSystem
    mean_flow: float
    mean_current: float | None
    greatest_current: float | None

    def run_hours(self, request: SitePlanRequest) -> float | None:
        """Hours a day for the day's water, where that is told."""
        return None if request.daily_water is UNSET else self._hours_for(request.daily_water.base)

    def charge_for(self, water: float) -> float | None:
        """The charge in Ah that so many m^3 take, where the current is told."""
        return None if self.mean_current is None else self.mean_current * self._hours_for(water)

    def _hours_for(self, water: float) -> float:
        return water / self.mean_flow / 3600.0


class PumpCourse(Struct, frozen=True):
    """What a pump works against, and where it then runs: at `cut_in`, and with `points` from there to cut-out. Without
    `cut_in` it gives nothing there, without points it does not reach cut-out."""

    system: PumpedSystem
    pump: PlannedPump
    switch: Switch
    greatest_tank_pressure: float
    cut_in: RunningPoint | None
    points: Sequence[RunningPoint]

    def is_of(self, state: PlanState) -> bool:
        """Whether it is that of a plan."""
        return (self.system, self.pump, self.switch) == (state.system, state.pump, state.request.switch)


@dataclass(frozen=True, slots=True)
class PumpDuty:
    """The pump's duty; without `filling` it does not reach cut-out."""

    course: PumpCourse
    filling: Filling | None

    @property
    def cut_in(self) -> RunningPoint | None:
        """Where the pump starts; None where it gives nothing there."""
        return self.course.cut_in

    @property
    def greatest_tank_pressure(self) -> float:
        """Up to which the pump's points tell that it fills the tank, in Pa; below zero it does not lift the water up
        to the tank at all."""
        return self.course.greatest_tank_pressure

    @property
    def fills_up_to(self) -> float | None:
        """The greatest pressure in the tank; None where the water is not lifted up to the tank at all."""
        return None if self.greatest_tank_pressure < 0.0 else self.greatest_tank_pressure


def greatest_flow(state: PlanState) -> float | None:
    """The flow in m^3/s at cut-in, the greatest while the tank is filled; None where the pump gives none there.

    Raises Refused where the pump's points begin above the rise that cut-in takes.
    """
    point = _starting_point(_Pumping.of(state))
    return None if point is None else point.flow


def pump_duty(state: PlanState, near: PumpDuty | None = None) -> PumpDuty:
    """The duty of the plan's pump. `near` is that of another plan, of which is taken what is the same in both. Raises
    Refused as `greatest_flow`."""
    course = near.course if near and near.course.is_of(state) else _pump_course(state)
    kept = near.filling if near and near.course is course else None
    return PumpDuty(course, _filling(state, course.points, kept) if course.points else None)


def _pump_course(state: PlanState) -> PumpCourse:
    pumping = _Pumping.of(state)
    start, (_, greatest) = _starting_point(pumping), pumping.span
    switch, points = state.request.switch, list[RunningPoint]()
    if start is not None and switch.cut_out.base <= greatest:
        points = _course(pumping, start, pumping.running_at(switch.cut_out.base))
    return PumpCourse(pumping.system, state.pump, switch, greatest, start, points)


class _Pumping(Struct, frozen=True):
    """A plan with what its pump works against, and the tank pressures that the pump's points tell of in Pa."""

    state: PlanState
    system: PumpedSystem
    span: tuple[float, float]

    @classmethod
    def of(cls, state: PlanState) -> Self:
        """That of a plan."""
        system = state.system
        return cls(state, system, tank_pressure_span(system, state.pump.curve))

    def running_at(self, pressure: float) -> RunningPoint:
        """Where the pump runs against a pressure in the tank."""
        pump = self.state.pump
        found = operating_point(self.system, pump.curve, pressure=pressure, span=self.span)
        return RunningPoint(pressure, found.rise, found.flow, pump.current_at(found.rise))


def _starting_point(pumping: _Pumping) -> RunningPoint | None:
    state, (least, greatest) = pumping.state, pumping.span
    cut_in = state.request.switch.cut_in.base
    if cut_in < least:
        first = state.pump.curve.pressures[0]
        needed = state.units.pressure(first - (least - cut_in))
        detail = f"at cut-in the pump has to raise the pressure by less than {needed}, where it gives more than here"
        raise Refused(Fault(f"{PUMP_POINTS}/0/pressure", f"{detail}: begin with a point below that"))
    return pumping.running_at(cut_in) if cut_in <= greatest else None


def _filling(state: PlanState, course: Sequence[RunningPoint], kept: Filling | None) -> Filling:
    """The filling of a course; the kept one of this course where the tanks are asked the same."""
    question = tank_request(state.request, _given(state, course))
    if kept is not None and kept.question == question:
        return kept
    system = tank_pointers(state.request).answered(lambda: pressure_system(question, state.air_pressure))
    currents = [point.current for point in course if point.current is not None]
    return Filling(
        cut_out=course[-1],
        question=question,
        system=system,
        mean_flow=mean_flow_while_filling(system),
        mean_current=mean_while_filling(system, pressures=system.pump.pressures, values=currents) if currents else None,
        greatest_current=max(currents, default=None),
    )


def _course(pumping: _Pumping, start: RunningPoint, end: RunningPoint) -> list[RunningPoint]:
    """Where the pump runs on its way from cut-in to cut-out, at the points of its curve and evenly between."""
    pump, system = pumping.state.pump, pumping.system
    corners = [rise for rise in pump.rises if start.rise < rise < end.rise]
    steps = min(STEPS, MOST_PUMP_POINTS - 1 - len(corners))
    evenly = [start.rise + (end.rise - start.rise) * step / steps for step in range(1, steps)]
    course = [start]
    for rise in sorted({*corners, *evenly}):
        pressure, flow = tank_pressure(system, pump.curve, rise=rise), pump.curve.flow_at(rise)
        if course[-1].tank_pressure + LEAST_RISE_OF_TANK <= pressure <= end.tank_pressure - LEAST_RISE_OF_TANK:
            course.append(RunningPoint(pressure, rise, flow, pump.current_at(rise)))
    return [*course, end]


def _given(state: PlanState, course: Sequence[RunningPoint]) -> list[tuple[Pressure, Flow]]:
    """What the pump gives into the tank: the ends are the switch's own pressures to the last digit, and no flow rises
    by a last digit either."""
    switch, units = state.request.switch, state.units
    inside = [unrounded.pressure(point.tank_pressure, units) for point in course[1:-1]]
    flows = accumulate((point.flow for point in course), min)
    told = [unrounded.flow(flow, units) for flow in flows]
    return list(zip([switch.cut_in, *inside, switch.cut_out], told, strict=True))
