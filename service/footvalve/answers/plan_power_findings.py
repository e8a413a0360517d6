"""What speaks against a plan's battery, its chargers and its wire."""

from collections.abc import Iterator

from msgspec import UNSET

from footvalve.answers.battery_bank import bank_voltage, told_temperature
from footvalve.answers.battery_charging import is_too_strong
from footvalve.answers.battery_wire import loop_resistance
from footvalve.answers.battery_wire_doubts import (
    GREATEST_DROP,
    USUAL_DROP,
    is_air_too_warm,
    stated_too_warm,
    told_ampacity,
    too_warm_for_wire,
    wire_ampacity,
)
from footvalve.answers.plan_duty import PumpDuty
from footvalve.answers.plan_finding import Finding
from footvalve.answers.plan_power_materials import LONGEST_RECHARGE, fuse_rating_for, greatest_draw
from footvalve.answers.plan_state import PlanState
from footvalve.answers.unit_system import current, unit_system, voltage
from footvalve.contract.battery_runtime import Battery, BatteryRuntimeAnswer, Wire
from footvalve.contract.quantities import figure
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.physics.conductor import INSULATION_TEMPERATURE, voltage_drop
from footvalve.tables.chemistries import chemistry


def power_findings(state: PlanState, duty: PumpDuty, answer: BatteryRuntimeAnswer | None) -> Iterator[Finding]:
    """All of them; none where the plan has no battery."""
    request = state.request
    if request.battery is UNSET:
        return
    yield from wire_heat_findings(request)
    amperes = greatest_draw(duty, answer)
    if amperes is not None:
        yield from wire_findings(request, request.battery, amperes)
        yield from _rate(request.battery, amperes)
    if answer is not None:
        yield from _days(request, answer)
        yield from _charging(request, request.battery, answer)


def wire_findings(request: SitePlanRequest, battery: Battery, amperes: float) -> Iterator[Finding]:
    """What a thicker wire would mend, at a current in A."""
    wire = request.wire
    if wire is UNSET:
        return
    if not is_air_too_warm(request.site):
        yield from _ampacity_findings(request, wire, amperes)
    volts = voltage_drop(current=amperes, resistance=loop_resistance(wire))
    fraction = volts / bank_voltage(battery)
    if fraction > GREATEST_DROP:
        text = f"The wire takes {voltage(volts)} at {current(amperes)}, {figure(100 * fraction)} % of the battery's"
        yield Finding(
            "marginal",
            f"{text} voltage: over {GREATEST_DROP:.0%} the pump is weak or does not start, and {USUAL_DROP:.0%} is "
            "usual.",
        )


def _ampacity_findings(request: SitePlanRequest, wire: Wire, amperes: float) -> Iterator[Finding]:
    ampacity, draws = wire_ampacity(wire, request.site), f"draw up to {current(amperes)}"
    carries = f"the wire may carry {told_ampacity(ampacity, request.site, unit_system(request.units))}"
    fuse = fuse_rating_for(amperes)
    if amperes > ampacity:
        text = f"The pump and all else {draws}, and {carries}"
        yield Finding("infeasible", f"{text}: it overheats, and may start a fire.", is_danger=True)
    elif fuse is not None and fuse > ampacity:
        text = f"The pump and all else {draws}, which takes a fuse of {current(fuse)}"
        yield Finding("marginal", f"{text}, and {carries}: that fuse does not guard it.")


def wire_heat_findings(request: SitePlanRequest) -> Iterator[Finding]:
    """What warmth takes from a wire, so that no current in A need be known."""
    wire, units = request.wire, unit_system(request.units)
    if wire is UNSET:
        return
    if is_air_too_warm(request.site):
        text = too_warm_for_wire(units)
        yield Finding("infeasible", f"{text[0].upper()}{text[1:]}.", is_danger=True)
    stated = stated_too_warm(wire)
    if stated is not None:
        told, most = (told_temperature(kelvins, units) for kelvins in (stated, INSULATION_TEMPERATURE))
        text = f"The loaded wire is said to be at {told}, and what it may carry is told for"
        yield Finding("marginal", f"{text} insulation that bears {most}.", is_danger=True)


def _rate(battery: Battery, amperes: float) -> Iterator[Finding]:
    """A current that would empty the whole capacity in less than an hour, 1C."""
    in_an_hour = battery.capacity.base * battery.parallel
    if amperes > in_an_hour:
        text = f"The pump and all else draw up to {current(amperes)}, and the battery's whole capacity is"
        yield Finding("marginal", f"{text} {current(in_an_hour)} for one hour: it is too small for such a current.")


def _days(request: SitePlanRequest, answer: BatteryRuntimeAnswer) -> Iterator[Finding]:
    days = request.days
    if days is not UNSET and answer.days_of_autonomy < days:
        yield Finding(
            "marginal", f"A full battery lasts {figure(answer.days_of_autonomy)} days, not the {days} wanted."
        )


def _charging(request: SitePlanRequest, battery: Battery, answer: BatteryRuntimeAnswer) -> Iterator[Finding]:
    if not _is_charged(answer):
        yield Finding("marginal", _uncharged(answer))
    kind, capacity = chemistry(battery.chemistry), battery.capacity.base * battery.parallel
    for output in () if request.charger is UNSET else request.charger.currents:
        if is_too_strong(output.base / capacity, kind):
            most = current(kind.greatest_charge_rate * capacity)
            text = f"A charger of {output} is more than this battery should take, {most}"
            yield Finding("marginal", f"{text}: limit it.")
    hours = min((row.hours for row in answer.recharge or () if row.hours is not UNSET), default=None)
    if hours is not None and hours > LONGEST_RECHARGE and not _is_sunny(answer):
        told = f"The best of the chargers takes {figure(hours / 24.0)} days to fill the battery"
        yield Finding("marginal", f"{told}, more than {LONGEST_RECHARGE / 24.0:g}.")


def _is_sunny(answer: BatteryRuntimeAnswer) -> bool:
    """Whether the sun of every month covers the need."""
    rows = answer.solar_balance or ()
    return bool(rows) and all(row.covers_fraction >= 1.0 for row in rows)


def _is_charged(answer: BatteryRuntimeAnswer) -> bool:
    """Whether one of the chargers holds, or the sun of every month covers the need; so too where none is told of."""
    by_charger = [row.holds for row in answer.recharge or ()]
    return any(by_charger) or _is_sunny(answer) or not (by_charger or answer.solar_balance)


def _uncharged(battery: BatteryRuntimeAnswer) -> str:
    if not battery.solar_balance:
        notes = dict.fromkeys(row.rate_note for row in battery.recharge or ())
        return f"No charger outruns the battery's own loss and the loads that run day and night: {'; '.join(notes)}."
    worst = min(battery.solar_balance, key=lambda row: row.covers_fraction)
    when = "The sun" if worst.month == "every" else f"In {worst.month.capitalize()} the sun"
    return (
        f"{when} covers {worst.covers_fraction:.0%} of what the loads need, and no charger that holds stands beside it."
    )
