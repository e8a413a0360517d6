"""How long a battery lasts, how much water it gives, and how it comes back: the answer of `battery-runtime`."""

from functools import partial

from msgspec import UNSET, UnsetType

from footvalve.answers.basis import basis_step
from footvalve.answers.battery_bank import Bank, bank_basis, bank_doubts, bank_voltage, resolve_bank
from footvalve.answers.battery_charging import (
    charger_basis,
    check_solar,
    recharges,
    solar_balance,
    solar_basis,
)
from footvalve.answers.battery_course import charge_course
from footvalve.answers.battery_loads import DailyLoads, load_doubts, resolve_loads
from footvalve.answers.battery_safety import battery_cautions, ventilation, ventilation_basis
from footvalve.answers.battery_wire import check_wire, wire_basis, wire_drop
from footvalve.answers.battery_wire_doubts import wire_doubts
from footvalve.answers.gathering import gathered
from footvalve.answers.unit_system import charge, current, energy, hours, unit_system, voltage
from footvalve.contract.answer import BasisStep, Warning
from footvalve.contract.battery_runtime import (
    BatteryBank,
    BatteryRuntimeAnswer,
    BatteryRuntimeRequest,
    DailyDraw,
    VoltageDrop,
)
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import Volume, figure, rounded
from footvalve.physics.loads import (
    HOURS_A_DAY,
    LAYERED_DAY,
    average_current,
    charge_of_day,
    greatest_current,
)
from footvalve.physics.peukert import PEUKERT, deliverable_capacity
from footvalve.physics.self_discharge import HOURS_A_MONTH
from footvalve.physics.state_of_charge import STATE_OF_CHARGE

LONGEST_AUTONOMY = 3650.0
"""Days. Loads that draw less than a battery holds in ten years give no runtime worth the name (own choice)."""
REMARKABLE_SELF_DISCHARGE = 0.05
"""Part of the capacity that may go by itself within the runtime before it is remarked (own choice)."""


def battery_runtime(request: BatteryRuntimeRequest) -> BatteryRuntimeAnswer:
    """How long the bank lasts with these loads, and how it is charged again. Raises Refused with every fault."""
    bank, loads = _resolve(request)
    deliverable = deliverable_capacity(
        loads.day, capacity=bank.capacity, rated_hours=bank.rated_hours, exponent=bank.exponent
    )
    usable = deliverable * (1 - bank.floor)
    days = _autonomy(usable, loads)
    solar, charger, wire, units = request.solar, request.charger, request.wire, unit_system(request.units)
    drop = UNSET if wire is UNSET else wire_drop(wire, greatest_current(loads.day), bank.voltage)
    return BatteryRuntimeAnswer(
        usable_charge=charge(usable),
        usable_energy=energy(usable * bank.voltage),
        runtime=hours(days * HOURS_A_DAY * 3600),
        days_of_autonomy=rounded(days),
        water_per_charge=_water(request, loads, days),
        pump_hours_per_day=UNSET if loads.pump is None else rounded(loads.pump_hours),
        bank=_bank(bank),
        daily_draw=_daily_draw(loads),
        voltage_drop=drop,
        recharge=UNSET if charger is UNSET else recharges(charger, bank, loads, units),
        solar_balance=UNSET if solar is UNSET else solar_balance(solar, bank, loads),
        state_of_charge=charge_course(request, bank, loads, deliverable),
        ventilation=ventilation(request.battery, bank, units),
        basis=_basis(request, bank),
        cautions=battery_cautions(request, bank),
        warnings=_doubts(request, bank, loads, days, drop),
    )


def _resolve(request: BatteryRuntimeRequest) -> tuple[Bank, DailyLoads]:
    faults: list[Fault] = []
    bank = gathered(faults, partial(resolve_bank, request))
    loads = gathered(faults, partial(resolve_loads, request, bank_voltage(request.battery)))
    gathered(faults, partial(check_wire, request))
    gathered(faults, partial(check_solar, request))
    if bank is None or loads is None or faults:
        raise Refused(*faults)
    return bank, loads


def _autonomy(usable: float, loads: DailyLoads) -> float:
    """How many days the loads take for a usable charge in Ah."""
    days = usable / charge_of_day(loads.day)
    if days > LONGEST_AUTONOMY:
        text = f"draw so little that the battery would last {figure(days)} days: it loses itself long before"
        raise Refused(Fault("/loads", text))
    return days


def _water(request: BatteryRuntimeRequest, loads: DailyLoads, days: float) -> Volume | UnsetType:
    if request.pump_flow is UNSET:
        return UNSET
    seconds = days * loads.pump_hours * 3600
    return unit_system(request.units).volume(request.pump_flow.base * seconds)


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
        charge=charge(charge_of_day(loads.day)),
        average_current=current(average_current(loads.day)),
        greatest_current=current(greatest_current(loads.day)),
    )


def _basis(request: BatteryRuntimeRequest, bank: Bank) -> list[BasisStep]:
    steps = [
        *bank_basis(request.battery, bank),
        basis_step("Course of a day's loads", LAYERED_DAY),
        basis_step("Charge that these loads get", PEUKERT),
        *([] if request.wire is UNSET else wire_basis(request.wire, unit_system(request.units))),
        *([] if request.charger is UNSET else charger_basis(bank)),
        *([] if request.solar is UNSET else solar_basis(bank)),
        basis_step("State of charge by the hour", STATE_OF_CHARGE),
        *ventilation_basis(bank),
    ]
    return list(dict.fromkeys(steps))


def _doubts(
    request: BatteryRuntimeRequest, bank: Bank, loads: DailyLoads, days: float, drop: VoltageDrop | UnsetType
) -> list[Warning]:
    wire, drawn, units = request.wire, greatest_current(loads.day), unit_system(request.units)
    return [
        *bank_doubts(request, bank, drawn),
        *load_doubts(request, loads),
        *_self_discharge_doubts(bank, days),
        *([] if wire is UNSET or drop is UNSET else wire_doubts(wire, drawn, drop, units)),
    ]


def _self_discharge_doubts(bank: Bank, days: float) -> list[Warning]:
    lost = bank.chemistry.self_discharge_fraction_per_month * days * HOURS_A_DAY / HOURS_A_MONTH
    if lost <= REMARKABLE_SELF_DISCHARGE:
        return []
    text = f"in {figure(days)} days the battery loses about {min(lost, 1.0):.0%} by itself, which is not taken off here"
    return [Warning("/loads", text)]
