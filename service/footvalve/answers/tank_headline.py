"""The figures of `tank-cycle`, in SI."""

from footvalve.answers.headline import Headline, held
from footvalve.answers.tank_state import tank_state
from footvalve.contract.tank_cycle import TankCycleRequest


def tank_headline(request: TankCycleRequest) -> Headline:
    """What the tanks give, how the pump cycles at the gravest demand and at worst, and what the precharge is."""
    state = tank_state(request)
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
