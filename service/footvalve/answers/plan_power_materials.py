"""The electrical pieces of a plan: battery, fuse, wire, charger, array."""

from collections.abc import Iterator

from msgspec import UNSET

from footvalve.answers.plan_duty import Filling, PumpDuty
from footvalve.answers.plan_state import PlanState
from footvalve.answers.unit_system import UnitSystem, current
from footvalve.contract.battery_runtime import Battery, BatteryRuntimeAnswer, Recharge, Wire
from footvalve.contract.quantities import Current
from footvalve.contract.site_plan import Material
from footvalve.tables.chemistries import chemistry
from footvalve.tables.fuses import fuse_rating

FUSE_RESERVE = 1.25
"""Rating of a fuse over the greatest current that flows for long. Source: NFPA 70 (NEC) 210.20(A), 430.22, from
memory."""


def power_materials(state: PlanState, duty: PumpDuty, answer: BatteryRuntimeAnswer | None) -> Iterator[Material]:
    """The pieces, as far as they are chosen and their currents are known."""
    request = state.request
    if request.battery is UNSET:
        return
    yield _battery(request.battery)
    if answer is not None and duty.filling is not None:
        yield _fuse(greatest_current(duty.filling, answer))
    if request.wire is not UNSET:
        yield _wire(request.wire, state.units)
    charger = _charger(answer.recharge or [] if answer is not None else [])
    if charger is not None:
        yield Material(item="Charger", size=str(charger.current), count=1, purpose="battery")
    if request.solar is not UNSET:
        yield Material(item="Solar array", size=str(request.solar.array_power), count=1, purpose="battery")


def greatest_current(filling: Filling, answer: BatteryRuntimeAnswer) -> float:
    """The greatest current in A of the whole day, where the pump's is not its mean but its greatest."""
    over_mean = 0.0
    if filling.mean_current is not None and filling.greatest_current is not None:
        over_mean = filling.greatest_current - filling.mean_current
    return answer.daily_draw.greatest_current.base + over_mean


def _battery(battery: Battery) -> Material:
    kind = chemistry(battery.chemistry).title
    size = f"{battery.capacity} at {battery.rated_hours:g} h, {battery.voltage}"
    rows = f"{battery.series} in series, {battery.parallel} in parallel"
    return Material(
        item=f"Battery, {kind}", size=size, count=battery.series * battery.parallel, purpose=f"pump and loads, {rows}"
    )


def _fuse(amperes: float) -> Material:
    rating = fuse_rating(FUSE_RESERVE * amperes)
    size = UNSET if rating is None else f"{Current(rating, 'A')} or more, but no more than the wire carries"
    return Material(
        item="Fuse or breaker for direct current",
        size=size,
        count=1,
        purpose=f"wire at the battery, which carries up to {current(amperes)}",
    )


def _wire(wire: Wire, units: UnitSystem) -> Material:
    size = f"{wire.gauge} AWG" if wire.gauge is not UNSET else str(wire.area)
    there_and_back = units.length(2.0 * wire.length.base)
    return Material(
        item=f"Wire, {wire.material}", size=size, length=there_and_back, purpose="battery to pump, both conductors"
    )


def _charger(rows: list[Recharge]) -> Recharge | None:
    """The smallest of the chargers that holds."""
    return min((row for row in rows if row.holds), key=lambda row: row.current.base, default=None)
