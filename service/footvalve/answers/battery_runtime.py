"""How long a battery lasts, how much water it gives, and how it comes back: the answer of `battery-runtime`."""

from collections.abc import Iterator

from msgspec import UNSET, UnsetType

from footvalve.answers.basis import Reckoned, basis, range_warnings, reckoned
from footvalve.answers.battery_bank import Bank, bank_doubts, bank_steps, charge_step
from footvalve.answers.battery_charging import charger_steps, recharges, solar_balance, solar_steps
from footvalve.answers.battery_course import charge_course
from footvalve.answers.battery_headline import battery_headline, headline_of
from footvalve.answers.battery_loads import DailyLoads, load_doubts
from footvalve.answers.battery_safety import battery_cautions, ventilation, ventilation_steps
from footvalve.answers.battery_state import BatteryState, battery_state
from footvalve.answers.battery_wire import wire_steps
from footvalve.answers.battery_wire_doubts import wire_doubts
from footvalve.answers.headline import Headline
from footvalve.answers.shared import Shared
from footvalve.answers.unit_system import charge, current, energy, hours, unit_system, voltage
from footvalve.contract.answer import Warning
from footvalve.contract.battery_runtime import (
    BatteryBank,
    BatteryRuntimeAnswer,
    BatteryRuntimeRequest,
    DailyDraw,
    VoltageDrop,
)
from footvalve.contract.quantities import figure, rounded
from footvalve.physics.loads import (
    HOURS_A_DAY,
    LAYERED_DAY,
)
from footvalve.physics.self_discharge import HOURS_A_MONTH
from footvalve.physics.state_of_charge import STATE_OF_CHARGE

REMARKABLE_SELF_DISCHARGE = 0.05
"""Part of the capacity that may go by itself within the runtime before it is remarked (own choice)."""


def battery_runtime(request: BatteryRuntimeRequest) -> BatteryRuntimeAnswer:
    """How long the bank lasts with these loads, and how it is charged again. Raises Refused with every fault."""
    return _told(request, battery_state(request))


def battery_with_headlines(request: BatteryRuntimeRequest) -> Shared[BatteryRuntimeAnswer]:
    """The same with the function for the headlines of this request and of others near it."""
    state = battery_state(request)

    def headline(other: BatteryRuntimeRequest) -> Headline:
        return headline_of(state) if other is request else battery_headline(other)

    return Shared(_told(request, state), headline)


def _told(request: BatteryRuntimeRequest, state: BatteryState) -> BatteryRuntimeAnswer:
    bank, loads, units = state.bank, state.loads, unit_system(request.units)
    solar, charger, drop, water = request.solar, request.charger, _drop(state), state.water_per_charge
    steps = list(_steps(request, bank, loads))
    return BatteryRuntimeAnswer(
        usable_charge=charge(state.usable_charge),
        usable_energy=energy(state.usable_energy),
        runtime=hours(state.runtime),
        days_of_autonomy=rounded(state.days),
        water_per_charge=UNSET if water is None else units.volume(water),
        pump_hours_per_day=UNSET if loads.pump is None else rounded(loads.pump_hours),
        bank=_bank(bank),
        daily_draw=_daily_draw(loads),
        voltage_drop=drop,
        recharge=UNSET if charger is UNSET else recharges(charger, bank, loads, units),
        solar_balance=UNSET if solar is UNSET else solar_balance(solar, bank, loads),
        state_of_charge=charge_course(request, bank, loads, state.deliverable),
        ventilation=ventilation(request.battery, bank, units),
        basis=basis(steps, units),
        cautions=battery_cautions(request, bank),
        warnings=[*_doubts(request, state, drop), *range_warnings(steps, units)],
    )


def _drop(state: BatteryState) -> VoltageDrop | UnsetType:
    if state.drop is None:
        return UNSET
    return VoltageDrop(volts=voltage(state.drop), fraction=rounded(state.drop / state.bank.voltage))


def _bank(bank: Bank) -> BatteryBank:
    return BatteryBank(
        voltage=voltage(bank.voltage),
        capacity=charge(bank.capacity),
        temperature_fraction=rounded(bank.temperature_fraction),
        peukert_exponent=rounded(bank.exponent),
        floor_fraction=rounded(bank.floor),
    )


def _daily_draw(loads: DailyLoads) -> DailyDraw:
    return DailyDraw(
        charge=charge(loads.charge),
        average_current=current(loads.average_current),
        greatest_current=current(loads.greatest_current),
    )


def _steps(request: BatteryRuntimeRequest, bank: Bank, loads: DailyLoads) -> Iterator[Reckoned]:
    yield from bank_steps(request, bank)
    yield reckoned("Course of a day's loads", LAYERED_DAY)
    yield charge_step(request.battery, bank, steady_current=loads.steady_current, leading=loads.leading)
    if request.wire is not UNSET:
        yield from wire_steps(request, request.wire)
    if request.charger is not UNSET:
        yield from charger_steps(request, bank)
    if request.solar is not UNSET:
        yield from solar_steps(bank, request.solar)
    yield reckoned("State of charge by the hour", STATE_OF_CHARGE)
    yield from ventilation_steps(request, bank)


def _doubts(request: BatteryRuntimeRequest, state: BatteryState, drop: VoltageDrop | UnsetType) -> list[Warning]:
    wire, drawn, units = request.wire, state.loads.greatest_current, unit_system(request.units)
    return [
        *bank_doubts(request, state.bank),
        *load_doubts(request, state.loads),
        *_self_discharge_doubts(state.bank, state.days),
        *([] if wire is UNSET or drop is UNSET else wire_doubts(wire, request.site, drawn, drop, units)),
    ]


def _self_discharge_doubts(bank: Bank, days: float) -> list[Warning]:
    lost = bank.chemistry.self_discharge_fraction_per_month * days * HOURS_A_DAY / HOURS_A_MONTH
    if lost <= REMARKABLE_SELF_DISCHARGE:
        return []
    text = f"in {figure(days)} days the battery loses about {min(lost, 1.0):.0%} by itself, which is not taken off here"
    return [Warning("/loads", text)]
