"""The figures of `battery-runtime`, in SI."""

from footvalve.answers.battery_state import battery_state
from footvalve.answers.headline import Headline, held
from footvalve.contract.battery_runtime import BatteryRuntimeRequest
from footvalve.physics.loads import average_current, charge_of_day, greatest_current


def battery_headline(request: BatteryRuntimeRequest) -> Headline:
    """What the loads get and for how long, the water on one charge, the day's draw, and what the wire takes."""
    state = battery_state(request)
    day = state.loads.day
    figures = {
        "/usable_charge": state.usable_charge,
        "/usable_energy": state.usable_energy,
        "/runtime": state.runtime,
        "/water_per_charge": state.water_per_charge,
        "/bank/voltage": state.bank.voltage,
        "/bank/capacity": state.bank.capacity,
        "/daily_draw/charge": charge_of_day(day),
        "/daily_draw/average_current": average_current(day),
        "/daily_draw/greatest_current": greatest_current(day),
        "/voltage_drop/volts": state.drop,
    }
    return Headline(held(figures))
