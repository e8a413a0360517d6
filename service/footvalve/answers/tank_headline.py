"""The figures of `tank-cycle`, in SI, and the answer together with them."""

from footvalve.answers.headline import Headline, held
from footvalve.answers.shared import Shared
from footvalve.answers.tank_cycle import tank_answer
from footvalve.answers.tank_state import TankState, tank_state
from footvalve.contract.tank_cycle import TankCycleAnswer, TankCycleRequest
from footvalve.physics.pump_cycle import PressureSystem


def tank_with_headlines(request: TankCycleRequest, known: PressureSystem | None = None) -> Shared[TankCycleAnswer]:
    """The answer with the function for the headlines of this request and of others near it; `known` is the request's
    system, where it was made already."""
    state = tank_state(request, known)

    def headline(other: TankCycleRequest) -> Headline:
        return headline_of(state) if other is request else tank_headline(other)

    return Shared(tank_answer(request, state), headline)


def tank_headline(request: TankCycleRequest, known: PressureSystem | None = None) -> Headline:
    """What the tanks give, how the pump cycles at the gravest demand and at worst, and what the precharge is; `known`
    is the request's system, where it was made already."""
    return headline_of(tank_state(request, known))


def headline_of(state: TankState) -> Headline:
    """The same of tanks whose state is known already."""
    cycle, worst, run, found = state.cycles[state.gravest], state.worst, state.run, state.diagnosis
    settles = cycle.settling_pressure
    figures = {
        "/demand": cycle.demand,
        "/run_time": cycle.run_time,
        "/rest_time": cycle.rest_time,
        "/settling_pressure": None if settles is None else settles - state.atmosphere,
        "/drawdown": state.drawdown,
        "/shortest_run": run.shortest,
        "/worst_case/demand": None if worst is None else worst.demand,
        "/precharge_advice/precharge": state.advised_precharge,
        "/volume_needed": run.volume_needed,
        "/diagnosis/precharge": None if found is None else found.precharge,
        "/diagnosis/shift": None if found is None else found.shift,
        "/diagnosis/other_precharge": None if found is None else found.other_precharge,
    }
    return Headline(held(figures))
