"""What the pump does at each demand: it cycles, stays off, or runs on."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from msgspec import UNSET, UnsetType

from footvalve.answers.unit_system import UnitSystem, minutes
from footvalve.contract.quantities import Duration, rounded
from footvalve.contract.tank_cycle import Cycle, CycleOutcome, TankCycleRequest
from footvalve.physics.pump_cycle import SECONDS_PER_HOUR, PressureSystem, pump_stops, rest_time, run_time

LONGEST_RUN = 365 * 86_400.0
"""s. A pump that needs more than a year to reach cut-out runs on, for all that matters (own choice)."""

_GRAVITY = {"stays-off": 0, "cycles": 1, "runs-on": 2}


@dataclass(frozen=True, slots=True)
class CycleState:
    """What the pump does at a demand in m^3/s: run and rest in s, and the absolute pressure in Pa at which it settles;
    None for what does not happen."""

    demand: float
    outcome: CycleOutcome
    run_time: float | None = None
    rest_time: float | None = None
    settling_pressure: float | None = None

    @property
    def starts_per_hour(self) -> float:
        """Starts in an hour; 0 where the pump does not cycle."""
        if self.run_time is None or self.rest_time is None:
            return 0.0
        return SECONDS_PER_HOUR / (self.run_time + self.rest_time)


def stated_demands(request: TankCycleRequest) -> list[float]:
    """The demands in m^3/s, one or several."""
    demands = [request.demand] if request.demands is UNSET else request.demands
    return [demand.base for demand in demands if demand is not UNSET]


def cycle_at(system: PressureSystem, demand: float) -> CycleState:
    """What the pump does while this much is drawn, in m^3/s."""
    run = run_time(system, demand=demand) if pump_stops(system, demand=demand) else inf
    if run > LONGEST_RUN:
        return CycleState(demand, "runs-on", settling_pressure=_settling_pressure(system, demand))
    if demand == 0:
        return CycleState(demand, "stays-off", run)
    return CycleState(demand, "cycles", run, rest_time(system, demand=demand))


def gravest(cycles: Sequence[CycleState]) -> int:
    """The place of the cycle with the worst outcome; of several that cycle the one with most starts, as they are told,
    else that of most demand."""
    return max(
        range(len(cycles)),
        key=lambda place: (
            _GRAVITY[cycles[place].outcome],
            rounded(cycles[place].starts_per_hour),
            cycles[place].demand,
        ),
    )


def told_cycle(cycle: CycleState, atmosphere: float, units: UnitSystem) -> Cycle:
    """A cycle on the wire, under an atmosphere in Pa."""
    settles = cycle.settling_pressure
    return Cycle(
        demand=units.flow(cycle.demand),
        outcome=cycle.outcome,
        run_time=told_minutes(cycle.run_time),
        rest_time=told_minutes(cycle.rest_time),
        starts_per_hour=rounded(cycle.starts_per_hour),
        settling_pressure=UNSET if settles is None else units.pressure(settles - atmosphere),
    )


def told_minutes(seconds: float | None) -> Duration | UnsetType:
    """A run or a rest, where there is one."""
    return UNSET if seconds is None else minutes(seconds)


def _settling_pressure(system: PressureSystem, demand: float) -> float | None:
    at_cut_in, at_cut_out = (
        system.pump.flow_at(p) for p in (system.bank.cut_in_absolute, system.bank.cut_out_absolute)
    )
    if at_cut_in == at_cut_out or not at_cut_out <= demand <= at_cut_in:
        return None
    return system.pump.pressure_at(demand)
