"""Tanks, switch and pump on the wire as a system of physics, or every fault that keeps them from being one."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import UNSET

from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import Flow, Pressure
from footvalve.contract.tank_cycle import (
    LEAST_DEMAND,
    LEAST_PUMP_FLOW,
    PumpPoint,
    Switch,
    TankCycleRequest,
    TankPump,
)
from footvalve.physics.pump_curve import PumpCurve
from footvalve.physics.pump_cycle import PressureSystem
from footvalve.physics.tank_bank import PrechargedTank, TankBank, bank_drawdown

LEAST_DRAWDOWN_FRACTION = 1e-4
"""Share of the tanks' volume that they give at least: with less there is no cycle worth the name (own choice)."""


LEAST_SPAN = 1000.0
"""Pa from cut-in to cut-out: with less there is no switch (own choice)."""

LEAST_STEP = 1.0
"""Pa from a point of the pump to the next: with less there is no curve (own choice)."""


def pressure_system(request: TankCycleRequest, atmosphere: float) -> PressureSystem:
    """The system between absolute pressures, under an atmosphere in Pa. Raises Refused with every fault."""
    faults = (*_switch_faults(request.switch), *_pump_faults(request.pump, request.switch), *_demand_faults(request))
    if faults:
        raise Refused(*faults)
    bank = TankBank(
        tanks=tuple(
            PrechargedTank(tank.volume.base, tank.precharge.base + atmosphere, tank.count) for tank in request.tanks
        ),
        cut_in_absolute=request.switch.cut_in.base + atmosphere,
        cut_out_absolute=request.switch.cut_out.base + atmosphere,
        gas_exponent=request.gas_exponent,
    )
    if bank_drawdown(bank) < LEAST_DRAWDOWN_FRACTION * bank.volume:
        raise Refused(Fault("/tanks", "the tanks take no water to speak of between these precharges and cut-out"))
    return PressureSystem(bank, _pump_curve(request.pump, atmosphere))


def _pump_curve(pump: TankPump, atmosphere: float) -> PumpCurve:
    if pump.flow is not UNSET:
        return PumpCurve.constant(pump.flow.base)
    points = pump.points or []
    return PumpCurve(
        pressures=tuple(point.pressure.base + atmosphere for point in points),
        flows=tuple(point.flow.base for point in points),
    )


def _switch_faults(switch: Switch) -> Iterator[Fault]:
    if switch.cut_out.base - switch.cut_in.base < LEAST_SPAN:
        span = Pressure.from_base(LEAST_SPAN, switch.cut_out.unit)
        yield Fault("/switch/cut_out", f"must be above cut-in, {switch.cut_in}, by {span} at least")


def _pump_faults(pump: TankPump, switch: Switch) -> Iterator[Fault]:
    if (pump.flow is UNSET) == (pump.points is UNSET):
        yield Fault("/pump", "give `flow` or `points`: one of the two")
    elif pump.points is not UNSET:
        yield from tuple(_order_faults(pump.points)) or _reach_faults(pump.points, switch)


def _demand_faults(request: TankCycleRequest) -> Iterator[Fault]:
    if (request.demand is UNSET) == (request.demands is UNSET):
        yield Fault("/demand", "give `demand` or `demands`: one of the two")
    elif request.demand is not UNSET:
        yield from _least_flow_fault("/demand", request.demand, LEAST_DEMAND)
    for index, demand in enumerate(request.demands or ()):
        yield from _least_flow_fault(f"/demands/{index}", demand, LEAST_DEMAND)


def _least_flow_fault(pointer: str, flow: Flow, least: float) -> Iterator[Fault]:
    if 0 < flow.base < least:
        yield Fault(pointer, f"must be 0, or at least {Flow.from_base(least, flow.unit)}")


def _order_faults(points: Sequence[PumpPoint]) -> Iterator[Fault]:
    if points[0].flow.base == 0:
        yield Fault("/pump/points/0/flow", "the pump gives nothing at its lowest pressure")
    for index, point in enumerate(points):
        yield from _least_flow_fault(f"/pump/points/{index}/flow", point.flow, LEAST_PUMP_FLOW)
    for index, (before, point) in enumerate(pairwise(points), start=1):
        if point.pressure.base - before.pressure.base < LEAST_STEP:
            yield Fault(f"/pump/points/{index}/pressure", "must be above the pressure of the point before")
        if point.flow.base > before.flow.base:
            yield Fault(f"/pump/points/{index}/flow", "must not be above the flow of the point before")


def _reach_faults(points: Sequence[PumpPoint], switch: Switch) -> Iterator[Fault]:
    if points[0].pressure.base > switch.cut_in.base:
        yield Fault("/pump/points/0/pressure", f"the points must begin at cut-in, {switch.cut_in}, or below")
    last = len(points) - 1
    if points[last].pressure.base < switch.cut_out.base and points[last].flow.base > 0:
        detail = f"the points must reach cut-out, {switch.cut_out}, or shut-off"
        yield Fault(f"/pump/points/{last}/pressure", detail)
