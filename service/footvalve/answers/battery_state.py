"""What a battery bank gives under a day's loads, in SI, before it is told on the wire."""

from functools import partial

from msgspec import UNSET, Struct

from footvalve.answers.battery_bank import Bank, bank_voltage, resolve_bank
from footvalve.answers.battery_charging import check_solar
from footvalve.answers.battery_loads import DailyLoads, resolve_loads
from footvalve.answers.battery_wire import check_wire, lost_in_wire
from footvalve.answers.gathering import gathered
from footvalve.contract.battery_runtime import BatteryRuntimeRequest
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import figure
from footvalve.physics.loads import HOURS_A_DAY
from footvalve.physics.peukert import deliverable_capacity

LONGEST_AUTONOMY = 3650.0
"""Days. Loads that draw less than a battery holds in ten years give no runtime worth the name (own choice)."""


class BatteryState(Struct, frozen=True, eq=False):
    """A bank with its loads. What it delivers to them from full to empty in Ah, how many days it takes down to the
    floor, and what the wire takes at the greatest current in V; the pump's flow in m^3/s. None for what is not told."""

    bank: Bank
    loads: DailyLoads
    deliverable: float
    days: float
    pump_flow: float | None
    drop: float | None

    @property
    def usable_charge(self) -> float:
        """What the loads get from full down to the floor, in Ah."""
        return self.deliverable * (1 - self.bank.floor)

    @property
    def usable_energy(self) -> float:
        """The same at the nominal voltage, in Wh."""
        return self.usable_charge * self.bank.voltage

    @property
    def runtime(self) -> float:
        """From full down to the floor by the clock, in s."""
        return self.days * HOURS_A_DAY * 3600

    @property
    def water_per_charge(self) -> float | None:
        """What the pump brings in that time, in m^3."""
        return None if self.pump_flow is None else self.pump_flow * (self.days * self.loads.pump_hours * 3600)


def battery_state(request: BatteryRuntimeRequest) -> BatteryState:
    """The state of the bank that a request describes. Raises Refused with every fault."""
    bank, loads = _resolve(request)
    deliverable = deliverable_capacity(
        loads.day, capacity=bank.capacity, rated_hours=bank.rated_hours, exponent=bank.exponent
    )
    days = _autonomy(deliverable * (1 - bank.floor), loads)
    wire = request.wire
    return BatteryState(
        bank=bank,
        loads=loads,
        deliverable=deliverable,
        days=days,
        pump_flow=None if request.pump_flow is UNSET else request.pump_flow.base,
        drop=None if wire is UNSET else lost_in_wire(wire, loads.greatest_current, bank.voltage),
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
    days = usable / loads.charge
    if days > LONGEST_AUTONOMY:
        text = f"draw so little that the battery would last {figure(days)} days: it loses itself long before"
        raise Refused(Fault("/loads", text))
    return days
