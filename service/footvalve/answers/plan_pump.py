"""The plan's pump: its flow and current over the rise from inlet to outlet."""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from msgspec import UNSET, UnsetType

from footvalve.answers.battery_bank import bank_voltage
from footvalve.answers.plan_pointers import PUMP_POINTS
from footvalve.contract.battery_runtime import Battery
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import Flow, Voltage
from footvalve.contract.site_plan import LEAST_PLANNED_FLOW, PumpedPoint, PumpPlan
from footvalve.physics.pump_curve import PumpCurve

LEAST_STEP = 1.0
"""Pa from a point of the pump to the next: with less there is no curve (own choice)."""

LEAST_FIRST_FLOW = 2.0 * LEAST_PLANNED_FLOW
"""m^3/s at the first point, so that there is a curve above the least flow that counts (own choice)."""

AGREEING_VOLTAGE = 0.25
"""Part by which a battery's nominal voltage may lie off the pump's: a 12 V pump runs on a bank of 10 to 14.4 V, and
its points may be told at either end (own choice)."""


@dataclass(frozen=True, slots=True)
class PlannedPump:
    """A pump by its points, as far as it gives a flow: rises in Pa, and currents in A where they are told."""

    curve: PumpCurve
    rises: tuple[float, ...]
    currents: tuple[float, ...] | None

    def current_at(self, rise: float) -> float | None:
        """The current in A at a rise within the points, straight between them."""
        if self.currents is None:
            return None
        index = min(bisect_right(self.rises, rise), len(self.rises) - 1) - 1
        (low, high), (at_low, at_high) = self.rises[index : index + 2], self.currents[index : index + 2]
        return at_low + (at_high - at_low) * (rise - low) / (high - low)


def planned_pump(pump: PumpPlan) -> PlannedPump:
    """The pump of a request. Raises Refused with every fault of its points."""
    faults = (*_order_faults(pump.points), *_current_faults(pump.points))
    if faults:
        raise Refused(*faults)
    rises = tuple(point.pressure.base for point in pump.points)
    flows = tuple(point.flow.base for point in pump.points)
    currents = tuple(point.current.base for point in pump.points if point.current is not UNSET)
    return PlannedPump(_flowing(PumpCurve(rises, flows)), rises, currents or None)


def _flowing(curve: PumpCurve) -> PumpCurve:
    """The curve up to the least flow that counts, where its points go on to shut-off."""
    if curve.flows[-1] > 0.0:
        return curve
    end = curve.pressure_at(LEAST_PLANNED_FLOW)
    kept = [(rise, flow) for rise, flow in zip(curve.pressures, curve.flows, strict=True) if rise < end]
    rises, flows = zip(*kept, (end, LEAST_PLANNED_FLOW), strict=True)
    return PumpCurve(rises, flows)


def _order_faults(points: Sequence[PumpedPoint]) -> Iterator[Fault]:
    if points[0].flow.base < LEAST_FIRST_FLOW:
        least = Flow.from_base(LEAST_FIRST_FLOW, points[0].flow.unit)
        yield Fault(f"{PUMP_POINTS}/0/flow", f"at its lowest rise the pump must give {least} or more")
    for index, (before, point) in enumerate(pairwise(points), start=1):
        if point.pressure.base - before.pressure.base < LEAST_STEP:
            yield Fault(f"{PUMP_POINTS}/{index}/pressure", "must be above the pressure of the point before")
        if point.flow.base > before.flow.base:
            yield Fault(f"{PUMP_POINTS}/{index}/flow", "must not be above the flow of the point before")
        if 0.0 < point.flow.base < LEAST_PLANNED_FLOW:
            least = Flow.from_base(LEAST_PLANNED_FLOW, point.flow.unit)
            yield Fault(f"{PUMP_POINTS}/{index}/flow", f"must be 0, or at least {least}")


def _current_faults(points: Sequence[PumpedPoint]) -> Iterator[Fault]:
    silent = [index for index, point in enumerate(points) if point.current is UNSET]
    if len(silent) < len(points):
        for index in silent:
            yield Fault(
                f"{PUMP_POINTS}/{index}/current", "the other points tell the current: give it at each, or at none"
            )


def voltage_faults(voltage: Voltage | UnsetType, battery: Battery | UnsetType) -> Iterator[Fault]:
    """A fault where the battery's voltage is not the pump's."""
    if voltage is UNSET or battery is UNSET:
        return
    bank = bank_voltage(battery)
    if abs(bank - voltage.base) > AGREEING_VOLTAGE * voltage.base:
        detail = f"the battery has {bank:.4g} V: a pump for {voltage} does not run on it"
        yield Fault("/pump/voltage", detail)
