"""How often the pump starts: the answer of `tank-cycle`."""

from collections.abc import Iterator

from msgspec import UNSET, UnsetType

from footvalve.answers.basis import At, Reckoned, basis, range_warnings, reckoned
from footvalve.answers.cautions import cautions, frost_codes
from footvalve.answers.tank_cycles import told_cycle, told_minutes
from footvalve.answers.tank_diagnosis import DIAGNOSIS, told_diagnosis
from footvalve.answers.tank_doubts import gas_inputs, tank_cautions, tank_doubts
from footvalve.answers.tank_least_run import least_run_doubts
from footvalve.answers.tank_precharge import PRECHARGE_RULE, precharge_advice
from footvalve.answers.tank_state import TankState, tank_state
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.contract.quantities import rounded
from footvalve.contract.tank_cycle import Diagnosis, TankCycleAnswer, TankCycleRequest, WorstCase
from footvalve.physics.atmosphere import STANDARD_ATMOSPHERE
from footvalve.physics.gas_tank import GAS_LAW
from footvalve.physics.pump_curve import PUMP_CURVE
from footvalve.physics.pump_cycle import PUMP_CYCLE
from footvalve.physics.tank_bank import TankBank, bank_acceptance_fraction


def tank_cycle(request: TankCycleRequest) -> TankCycleAnswer:
    """How often the pump starts, and how long it runs and rests. Raises Refused with every fault."""
    return tank_answer(request, tank_state(request))


def tank_answer(request: TankCycleRequest, state: TankState) -> TankCycleAnswer:
    """The same of tanks whose state is known already."""
    units = unit_system(request.units)
    run, bank = state.run, state.system.bank
    cycles = [told_cycle(cycle, state.atmosphere, units) for cycle in state.cycles]
    headline, worst = cycles[state.gravest], _worst(state, units)
    steps = list(_steps(request, bank, units))
    return TankCycleAnswer(
        demand=headline.demand,
        outcome=headline.outcome,
        run_time=headline.run_time,
        rest_time=headline.rest_time,
        starts_per_hour=headline.starts_per_hour,
        settling_pressure=headline.settling_pressure,
        drawdown=units.volume(state.drawdown),
        acceptance_fraction=rounded(bank_acceptance_fraction(bank)),
        shortest_run=told_minutes(run.shortest),
        worst_case=worst,
        cycles=UNSET if request.demands is UNSET else cycles,
        precharge_advice=precharge_advice(request, units),
        volume_needed=UNSET if run.volume_needed is None else units.volume(run.volume_needed),
        diagnosis=_diagnosis(state, units),
        basis=basis(steps, units),
        cautions=cautions([*tank_cautions(cycles, worst), *frost_codes(request.site)]),
        warnings=[
            *range_warnings(steps, units),
            *tank_doubts(request, cycles, worst, units),
            *least_run_doubts(run, units),
        ],
    )


def _worst(state: TankState, units: UnitSystem) -> WorstCase | UnsetType:
    if state.worst is None:
        return UNSET
    return WorstCase(demand=units.flow(state.worst.demand), starts_per_hour=rounded(state.worst.starts_per_hour))


def _diagnosis(state: TankState, units: UnitSystem) -> Diagnosis | UnsetType:
    if state.diagnosis is None:
        return UNSET
    return told_diagnosis(state.diagnosis, units, several=len(state.system.bank.tanks) > 1)


def _steps(request: TankCycleRequest, bank: TankBank, units: UnitSystem) -> Iterator[Reckoned]:
    altitude = At("/site/altitude", request.site.altitude.base)
    yield reckoned("Gauge pressures made absolute", STANDARD_ATMOSPHERE, altitude=altitude)
    gas = gas_inputs(bank.cut_out_absolute, bank.gas_exponent, units)
    yield reckoned("Drawdown and acceptance of the tanks", GAS_LAW, **gas)
    if request.pump.points is not UNSET:
        yield reckoned("The pump's flow at each pressure", PUMP_CURVE)
    yield reckoned("Run, rest and starts", PUMP_CYCLE)
    yield reckoned("Advice on the precharge", PRECHARGE_RULE)
    if request.observed_drawdown is not UNSET:
        yield reckoned("What the observed drawdown says", DIAGNOSIS)
