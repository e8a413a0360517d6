"""The pump's duty as it is told: in the caller's units, by the day and by the water."""

from msgspec import UNSET, UnsetType

from footvalve.answers.plan_duty import Filling, PumpDuty, RunningPoint
from footvalve.answers.plan_findings import tap_height
from footvalve.answers.plan_state import PlanState
from footvalve.answers.unit_system import UnitSystem, charge, current
from footvalve.contract.quantities import Current, Volume, rounded
from footvalve.contract.site_plan import ChargePerVolume, Duty, DutyPoint, MeanDuty, TapPressure
from footvalve.physics.head import head_pressure

SOME_WATER = 100.0
"""In the units of the answer: the water that a charge is told for."""


def told_duty(state: PlanState, duty: PumpDuty) -> Duty:
    """The duty on the wire."""
    units, filling, most = state.units, duty.filling, duty.fills_up_to
    hours = filling.run_hours(state.request) if filling else None
    a_day = charge_a_day(state, filling)
    return Duty(
        cut_in=_point(duty.cut_in, units) if duty.cut_in else UNSET,
        mean=_mean(filling, units) if filling else UNSET,
        cut_out=_point(filling.cut_out, units) if filling else UNSET,
        greatest_tank_pressure=UNSET if most is None else units.pressure(most),
        tap_pressure=_tap_pressure(state),
        run_hours_per_day=UNSET if hours is None else rounded(hours),
        charge_per_volume=_charge_per_volume(filling, units),
        charge_per_day=UNSET if a_day is None else charge(a_day),
    )


def _point(point: RunningPoint, units: UnitSystem) -> DutyPoint:
    return DutyPoint(
        tank_pressure=units.pressure(point.tank_pressure),
        pump_rise=units.pressure(point.rise),
        flow=units.flow(point.flow),
        current=_current(point.current),
    )


def _mean(filling: Filling, units: UnitSystem) -> MeanDuty:
    return MeanDuty(flow=units.flow(filling.mean_flow), current=_current(filling.mean_current))


def _current(amperes: float | None) -> Current | UnsetType:
    return UNSET if amperes is None else current(amperes)


def charge_a_day(state: PlanState, filling: Filling | None) -> float | None:
    """The charge in Ah that the pump takes for the day's water, where current and water are told."""
    needed = state.request.daily_water
    return None if filling is None or needed is UNSET else filling.charge_for(needed.base)


def some_water(units: UnitSystem) -> Volume:
    """The water that a charge is told for."""
    return Volume(SOME_WATER, units.volume_unit)


def _charge_per_volume(filling: Filling | None, units: UnitSystem) -> ChargePerVolume | UnsetType:
    water = some_water(units)
    taken = None if filling is None else filling.charge_for(water.base)
    return UNSET if taken is None else ChargePerVolume(charge=charge(taken), volume=water)


def tap_pressures(state: PlanState) -> tuple[float, float]:
    """The pressure in Pa at the highest tap at cut-in, and at cut-out."""
    lost = head_pressure(head=tap_height(state), density=state.drawn.density)
    switch = state.request.switch
    return switch.cut_in.base - lost, switch.cut_out.base - lost


def _tap_pressure(state: PlanState) -> TapPressure:
    at_cut_in, at_cut_out = map(state.units.pressure, tap_pressures(state))
    return TapPressure(at_cut_in=at_cut_in, at_cut_out=at_cut_out)
