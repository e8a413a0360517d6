"""The electrical pieces of a plan: battery, fuse, wire, charger, array."""

from collections.abc import Iterator

from msgspec import UNSET, UnsetType

from footvalve.answers.battery_wire_doubts import is_air_too_warm, told_ampacity, wire_ampacity
from footvalve.answers.plan_duty import PumpDuty
from footvalve.answers.plan_state import PlanState
from footvalve.answers.unit_system import UnitSystem, current
from footvalve.contract.battery_runtime import Battery, BatteryRuntimeAnswer, Recharge, Wire
from footvalve.contract.quantities import Current
from footvalve.contract.request import Site
from footvalve.contract.site_plan import Material
from footvalve.tables.chemistries import chemistry
from footvalve.tables.fuses import fuse_rating

FUSE_RESERVE = 1.25
"""Rating of a fuse over the greatest current that flows for long. Source: NFPA 70 (NEC) 210.20(A), 430.22, from
memory."""

LONGEST_RECHARGE = 72.0
"""Hours from the floor to full that a charger may take, three days (own choice)."""


def power_materials(state: PlanState, answer: BatteryRuntimeAnswer | None) -> Iterator[Material]:
    """The pieces, as far as they are chosen and their currents are known."""
    request = state.request
    if request.battery is UNSET:
        return
    yield _battery(request.battery)
    if answer is not None:
        yield _fuse(answer.daily_draw.greatest_current.base, request.wire, request.site, state.units)
    if request.wire is not UNSET:
        yield _wire(request.wire, state.units)
    charger = _charger(answer.recharge or [] if answer is not None else [])
    if charger is not None:
        yield Material(item="Charger", size=str(charger.current), count=1, purpose="battery")
    if request.solar is not UNSET:
        yield Material(item="Solar array", size=str(request.solar.array_power), count=1, purpose="battery")


def greatest_draw(duty: PumpDuty, answer: BatteryRuntimeAnswer | None) -> float | None:
    """The greatest current in A that is known of: of the whole day, or of the pump alone; None where neither is."""
    if answer is not None:
        return answer.daily_draw.greatest_current.base
    return None if duty.filling is None else duty.filling.greatest_current


def _battery(battery: Battery) -> Material:
    kind = chemistry(battery.chemistry).title
    size = f"{battery.capacity} at {battery.rated_hours:g} h, {battery.voltage}"
    rows = f"{battery.series} in series, {battery.parallel} in parallel"
    return Material(
        item=f"Battery, {kind}", size=size, count=battery.series * battery.parallel, purpose=f"pump and loads, {rows}"
    )


def fuse_rating_for(amperes: float) -> float | None:
    """The smallest rating in A of a fuse that a current in A does not blow; None where the table ends below it."""
    return fuse_rating(FUSE_RESERVE * amperes)


def _fuse(amperes: float, wire: Wire | UnsetType, site: Site, units: UnitSystem) -> Material:
    return Material(
        item="Fuse or breaker for direct current",
        size=_fuse_size(amperes, wire, site, units),
        count=1,
        purpose=f"wire at the battery, which carries up to {current(amperes)}",
    )


def _fuse_size(amperes: float, wire: Wire | UnsetType, site: Site, units: UnitSystem) -> str | UnsetType:
    rating = fuse_rating_for(amperes)
    if rating is None:
        return UNSET
    least = Current(rating, "A")
    if wire is UNSET:
        return f"{least} or more, but no more than the wire carries"
    if is_air_too_warm(site):
        return f"{least}, once the wire lies cooler or bears more heat: this one carries nothing"
    ampacity = wire_ampacity(wire, site)
    carried = told_ampacity(ampacity, site, units)
    if rating > ampacity:
        return f"{least}, once the wire is thicker: this one carries {carried}"
    return f"{least} or more, but no more than the wire carries: {carried}"


def _wire(wire: Wire, units: UnitSystem) -> Material:
    size = f"{wire.gauge} AWG" if wire.gauge is not UNSET else str(wire.area)
    there_and_back = units.length(2.0 * wire.length.base)
    return Material(
        item=f"Wire, {wire.material}", size=size, length=there_and_back, purpose="battery to pump, both conductors"
    )


def _charger(rows: list[Recharge]) -> Recharge | None:
    """The smallest of the chargers that hold and are quick enough; where none is, the greatest that holds."""
    holding = sorted((row for row in rows if row.holds), key=lambda row: row.current.base)
    quick = (row for row in holding if row.hours is not UNSET and row.hours <= LONGEST_RECHARGE)
    return next(quick, holding[-1] if holding else None)
