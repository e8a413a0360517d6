"""How long the pump runs at least each time it starts, and how much tank makes that long enough."""

from dataclasses import dataclass

from msgspec import UNSET, UnsetType

from footvalve.answers.unit_system import UnitSystem, minutes
from footvalve.contract.answer import Warning
from footvalve.contract.quantities import Duration, Volume
from footvalve.contract.tank_cycle import TankCycleRequest
from footvalve.physics.pump_cycle import PressureSystem, pump_stops, run_time, tank_volume_for_run


@dataclass(frozen=True, slots=True)
class LeastRun:
    """The shortest run, and what a wanted one takes; nothing for a pump that never reaches cut-out."""

    shortest: Duration | UnsetType = UNSET
    volume_needed: Volume | UnsetType = UNSET
    warnings: tuple[Warning, ...] = ()


def least_run(request: TankCycleRequest, system: PressureSystem, units: UnitSystem) -> LeastRun:
    """The run without demand, which is the shortest, against the `least_run` that is wanted."""
    if not pump_stops(system, demand=0.0):
        return LeastRun()
    shortest = run_time(system, demand=0.0)
    wanted = request.least_run
    if wanted is UNSET:
        return LeastRun(minutes(shortest))
    needed = units.volume(tank_volume_for_run(system, least_run=wanted.base))
    if shortest >= wanted.base:
        return LeastRun(minutes(shortest), needed)
    text = f"without demand the pump runs {minutes(shortest)} at a time, less than the {minutes(wanted.base)} wanted"
    return LeastRun(minutes(shortest), needed, (Warning("/least_run", f"{text}: that takes {needed} of tank in all"),))
