"""How often the pump starts: the answer of `tank-cycle`."""

from collections.abc import Iterator

from msgspec import UNSET

from footvalve.answers.basis import basis_step
from footvalve.answers.cautions import cautions, frost_codes
from footvalve.answers.tank_cycles import cycle_at, gravest, stated_demands, worst_of_all
from footvalve.answers.tank_diagnosis import DIAGNOSIS, diagnosis
from footvalve.answers.tank_doubts import tank_cautions, tank_doubts
from footvalve.answers.tank_least_run import least_run
from footvalve.answers.tank_precharge import PRECHARGE_RULE, precharge_advice
from footvalve.answers.tank_system import pressure_system
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.contract.answer import BasisStep
from footvalve.contract.quantities import rounded
from footvalve.contract.tank_cycle import TankCycleAnswer, TankCycleRequest
from footvalve.physics.atmosphere import STANDARD_ATMOSPHERE, atmospheric_pressure
from footvalve.physics.gas_tank import GAS_LAW
from footvalve.physics.pump_curve import PUMP_CURVE
from footvalve.physics.pump_cycle import PUMP_CYCLE, system_drawdown
from footvalve.physics.tank_bank import bank_acceptance_fraction


def tank_cycle(request: TankCycleRequest) -> TankCycleAnswer:
    """How often the pump starts, and how long it runs and rests. Raises Refused with every fault."""
    units = unit_system(request.units)
    atmosphere = atmospheric_pressure(altitude=request.site.altitude.base)
    system = pressure_system(request, atmosphere)
    cycles = [cycle_at(system, demand, atmosphere, units) for demand in stated_demands(request)]
    headline, worst, run = gravest(cycles), worst_of_all(system, units), least_run(request, system, units)
    observed = request.observed_drawdown
    return TankCycleAnswer(
        demand=headline.demand,
        outcome=headline.outcome,
        run_time=headline.run_time,
        rest_time=headline.rest_time,
        starts_per_hour=headline.starts_per_hour,
        settling_pressure=headline.settling_pressure,
        drawdown=units.volume(system_drawdown(system)),
        acceptance_fraction=rounded(bank_acceptance_fraction(system.bank)),
        shortest_run=run.shortest,
        worst_case=worst,
        cycles=UNSET if request.demands is UNSET else cycles,
        precharge_advice=precharge_advice(request, units),
        volume_needed=run.volume_needed,
        diagnosis=UNSET if observed is UNSET else diagnosis(system.bank, observed.base, atmosphere, units),
        basis=list(_basis(request, units)),
        cautions=cautions([*tank_cautions(cycles, worst), *frost_codes(request.site)]),
        warnings=[*tank_doubts(request, system, cycles, worst, units), *run.warnings],
    )


def _basis(request: TankCycleRequest, units: UnitSystem) -> Iterator[BasisStep]:
    yield basis_step("Gauge pressures made absolute", STANDARD_ATMOSPHERE, units)
    yield basis_step("Drawdown and acceptance of the tanks", GAS_LAW, units)
    if request.pump.points is not UNSET:
        yield basis_step("The pump's flow at each pressure", PUMP_CURVE)
    yield basis_step("Run, rest and starts", PUMP_CYCLE)
    yield basis_step("Advice on the precharge", PRECHARGE_RULE)
    if request.observed_drawdown is not UNSET:
        yield basis_step("What the observed drawdown says", DIAGNOSIS)
