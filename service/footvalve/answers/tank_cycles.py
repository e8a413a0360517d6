"""What the pump does at each demand: it cycles, stays off, or runs on."""

from collections.abc import Sequence
from math import inf

from msgspec import UNSET, UnsetType

from footvalve.answers.unit_system import UnitSystem, minutes
from footvalve.contract.quantities import Pressure, rounded
from footvalve.contract.tank_cycle import Cycle, TankCycleRequest, WorstCase
from footvalve.physics.pump_cycle import (
    SECONDS_PER_HOUR,
    PressureSystem,
    pump_stops,
    rest_time,
    run_time,
    worst_case,
)

LONGEST_RUN = 365 * 86_400.0
"""s. A pump that needs more than a year to reach cut-out runs on, for all that matters (own choice)."""

_GRAVITY = {"stays-off": 0, "cycles": 1, "runs-on": 2}


def stated_demands(request: TankCycleRequest) -> list[float]:
    """The demands in m^3/s, one or several."""
    demands = [request.demand] if request.demands is UNSET else request.demands
    return [demand.base for demand in demands if demand is not UNSET]


def cycle_at(system: PressureSystem, demand: float, atmosphere: float, units: UnitSystem) -> Cycle:
    """What the pump does while this much is drawn, in m^3/s."""
    drawn = units.flow(demand)
    run = run_time(system, demand=demand) if pump_stops(system, demand=demand) else inf
    if run > LONGEST_RUN:
        settling = _settling_pressure(system, demand, atmosphere, units)
        return Cycle(demand=drawn, outcome="runs-on", starts_per_hour=0.0, settling_pressure=settling)
    if demand == 0:
        return Cycle(demand=drawn, outcome="stays-off", run_time=minutes(run), starts_per_hour=0.0)
    rest = rest_time(system, demand=demand)
    return Cycle(
        demand=drawn,
        outcome="cycles",
        run_time=minutes(run),
        rest_time=minutes(rest),
        starts_per_hour=rounded(SECONDS_PER_HOUR / (run + rest)),
    )


def gravest(cycles: Sequence[Cycle]) -> Cycle:
    """The cycle with the worst outcome; of several that cycle the one with most starts, else that of most demand."""
    return max(cycles, key=lambda cycle: (_GRAVITY[cycle.outcome], cycle.starts_per_hour, cycle.demand.base))


def worst_of_all(system: PressureSystem, units: UnitSystem) -> WorstCase | UnsetType:
    """The demand that starts the pump most often, where the pump can stop at all."""
    if not pump_stops(system, demand=0.0):
        return UNSET
    worst = worst_case(system)
    return WorstCase(demand=units.flow(worst.demand), starts_per_hour=rounded(worst.starts_per_hour))


def _settling_pressure(
    system: PressureSystem, demand: float, atmosphere: float, units: UnitSystem
) -> Pressure | UnsetType:
    at_cut_in, at_cut_out = (
        system.pump.flow_at(p) for p in (system.bank.cut_in_absolute, system.bank.cut_out_absolute)
    )
    if at_cut_in == at_cut_out or not at_cut_out <= demand <= at_cut_in:
        return UNSET
    return units.pressure(system.pump.pressure_at(demand) - atmosphere)
