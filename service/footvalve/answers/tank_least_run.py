"""How long the pump runs at least each time it starts, and how much tank makes that long enough."""

from collections.abc import Iterator
from dataclasses import dataclass

from msgspec import UNSET

from footvalve.answers.unit_system import UnitSystem, minutes
from footvalve.contract.answer import Warning
from footvalve.contract.tank_cycle import TankCycleRequest
from footvalve.physics.pump_cycle import PressureSystem, pump_stops, run_time, tank_volume_for_run


@dataclass(frozen=True, slots=True)
class LeastRun:
    """The shortest run and the one that is wanted in s, and the m^3 of tank that the latter takes; None for what is
    not asked, and for a pump that never reaches cut-out."""

    shortest: float | None = None
    wanted: float | None = None
    volume_needed: float | None = None


def least_run(request: TankCycleRequest, system: PressureSystem) -> LeastRun:
    """The run without demand, which is the shortest, against the `least_run` that is wanted."""
    if not pump_stops(system, demand=0.0):
        return LeastRun()
    shortest = run_time(system, demand=0.0)
    if request.least_run is UNSET:
        return LeastRun(shortest)
    wanted = request.least_run.base
    return LeastRun(shortest, wanted, tank_volume_for_run(system, least_run=wanted))


def least_run_doubts(run: LeastRun, units: UnitSystem) -> Iterator[Warning]:
    """A warning where the shortest run is less than the one that is wanted."""
    if run.shortest is None or run.wanted is None or run.volume_needed is None or run.shortest >= run.wanted:
        return
    text = f"without demand the pump runs {minutes(run.shortest)} at a time, less than the {minutes(run.wanted)} wanted"
    yield Warning("/least_run", f"{text}: that takes {units.volume(run.volume_needed)} of tank in all")
