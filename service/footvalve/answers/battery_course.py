"""The state of charge through an outage, hour by hour."""

from msgspec import UNSET

from footvalve.answers.battery_bank import Bank
from footvalve.answers.battery_charging import worst_harvest
from footvalve.answers.battery_loads import DailyLoads
from footvalve.contract.battery_runtime import BatteryRuntimeRequest, ChargeState
from footvalve.contract.quantities import rounded
from footvalve.physics.state_of_charge import CyclingBattery, DailySun, hourly_state_of_charge

DAYLIGHT = 10.0
"""Hours over which the worst month's sun is spread: a winter's day in the temperate zones (own choice)."""
RECONNECT_SHARE = 0.2
"""The loads come back when this part of the room above the floor is filled again (own choice)."""


def charge_course(
    request: BatteryRuntimeRequest, bank: Bank, loads: DailyLoads, deliverable: float
) -> list[ChargeState]:
    """The course from a full bank that delivers so many Ah to these loads, with the worst month's sun."""
    battery = CyclingBattery(
        capacity=deliverable,
        floor=bank.floor,
        reconnect=bank.floor + RECONNECT_SHARE * (1 - bank.floor),
        efficiency=bank.chemistry.charge_efficiency_fraction,
    )
    harvest = 0.0 if request.solar is UNSET else worst_harvest(request.solar)
    fractions = hourly_state_of_charge(
        battery,
        DailySun(charge=harvest / bank.voltage, daylight=DAYLIGHT),
        load_current=loads.average_current,
        days=request.days,
    )
    return [ChargeState(hour=hour, fraction=rounded(s)) for hour, s in enumerate(fractions)]
