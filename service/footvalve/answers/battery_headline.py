"""The figures of `battery-runtime`, in SI."""

from footvalve.answers.battery_state import BatteryState, battery_state
from footvalve.answers.headline import Headline, held
from footvalve.contract.battery_runtime import BatteryRuntimeRequest


def battery_headline(request: BatteryRuntimeRequest) -> Headline:
    """What the loads get and for how long, the water on one charge, the day's draw, and what the wire takes."""
    return headline_of(battery_state(request))


def headline_of(state: BatteryState) -> Headline:
    """The same of a bank whose state is known already."""
    loads = state.loads
    figures = {
        "/usable_charge": state.usable_charge,
        "/usable_energy": state.usable_energy,
        "/runtime": state.runtime,
        "/water_per_charge": state.water_per_charge,
        "/bank/voltage": state.bank.voltage,
        "/bank/capacity": state.bank.capacity,
        "/daily_draw/charge": loads.charge,
        "/daily_draw/average_current": loads.average_current,
        "/daily_draw/greatest_current": loads.greatest_current,
        "/voltage_drop/volts": state.drop,
    }
    return Headline(held(figures))
