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
    units, filling, most = state.units, duty.filling, duty.greatest_tank_pressure
    hours = filling.run_hours(state.request) if filling else None
    amperes = filling.mean_current if filling else None
    return Duty(
        cut_in=_point(duty.cut_in, units) if duty.cut_in else UNSET,
        mean=_mean(filling, units) if filling else UNSET,
        cut_out=_point(filling.cut_out, units) if filling else UNSET,
        greatest_tank_pressure=UNSET if most < 0.0 else units.pressure(most),
        tap_pressure=_tap_pressure(state),
        run_hours_per_day=UNSET if hours is None else rounded(hours),
        charge_per_volume=_charge_per_volume(filling, units),
        charge_per_day=UNSET if hours is None or amperes is None else charge(amperes * hours),
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


def _charge_per_volume(filling: Filling | None, units: UnitSystem) -> ChargePerVolume | UnsetType:
    if filling is None or filling.mean_current is None:
        return UNSET
    water = Volume(SOME_WATER, units.volume_unit)
    hours = water.base / filling.mean_flow / 3600.0
    return ChargePerVolume(charge=charge(filling.mean_current * hours), volume=water)


def _tap_pressure(state: PlanState) -> TapPressure:
    lost = head_pressure(head=tap_height(state), density=state.drawn.density)
    switch, units = state.request.switch, state.units
    return TapPressure(
        at_cut_in=units.pressure(switch.cut_in.base - lost), at_cut_out=units.pressure(switch.cut_out.base - lost)
    )
