"""What tanks, switch and pump do together, in SI, before it is told in anybody's units."""

from dataclasses import dataclass

from msgspec import UNSET

from footvalve.answers.tank_cycles import CycleState, cycle_at, gravest, stated_demands
from footvalve.answers.tank_diagnosis import Diagnosed, diagnosed
from footvalve.answers.tank_least_run import LeastRun, least_run
from footvalve.answers.tank_precharge import advised_precharge
from footvalve.answers.tank_system import pressure_system
from footvalve.contract.tank_cycle import TankCycleRequest
from footvalve.physics.atmosphere import atmospheric_pressure
from footvalve.physics.pump_cycle import PressureSystem, WorstCase, pump_stops, system_drawdown, worst_case


@dataclass(frozen=True, slots=True)
class TankState:
    """Tanks with their pump under an atmosphere in Pa: what they give in m^3, what the pump does at each demand (the
    gravest by its place), and the precharge to set in Pa, gauge; None for what is not asked, or never happens."""

    atmosphere: float
    system: PressureSystem
    drawdown: float
    cycles: list[CycleState]
    gravest: int
    worst: WorstCase | None
    run: LeastRun
    advised_precharge: float
    diagnosis: Diagnosed | None


def tank_state(request: TankCycleRequest, known: PressureSystem | None = None) -> TankState:
    """The state of the tanks that a request describes; `known` is its system, where it was made already. Raises Refused
    with every fault."""
    atmosphere = atmospheric_pressure(altitude=request.site.altitude.base)
    system = pressure_system(request, atmosphere) if known is None else known
    cycles = [cycle_at(system, demand) for demand in stated_demands(request)]
    observed = request.observed_drawdown
    return TankState(
        atmosphere=atmosphere,
        system=system,
        drawdown=system_drawdown(system),
        cycles=cycles,
        gravest=gravest(cycles),
        worst=worst_case(system) if pump_stops(system, demand=0.0) else None,
        run=least_run(request, system),
        advised_precharge=advised_precharge(request.switch),
        diagnosis=None if observed is UNSET else diagnosed(system.bank, observed.base, atmosphere),
    )
