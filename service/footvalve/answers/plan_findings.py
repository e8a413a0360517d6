"""All that speaks against a plan, each with what it makes of the verdict."""

from collections.abc import Iterator, Sequence
from itertools import chain

from msgspec import UNSET

from footvalve.answers.plan_duty import PumpDuty
from footvalve.answers.plan_finding import Finding
from footvalve.answers.plan_manifold_findings import manifold_findings
from footvalve.answers.plan_power_findings import power_findings
from footvalve.answers.plan_state import PlanState
from footvalve.answers.plan_stated_yield import dry_well, stated_yield_findings
from footvalve.answers.plan_steps import PlanSteps
from footvalve.answers.plan_well import is_flooded
from footvalve.answers.tank_doubts import MOST_STARTS
from footvalve.answers.unit_system import seconds
from footvalve.contract.line import LinePart, Valve
from footvalve.contract.quantities import figure
from footvalve.contract.suction_feasibility import Verdict
from footvalve.contract.tank_cycle import TankCycleAnswer
from footvalve.contract.well_recovery import WellRecoveryAnswer
from footvalve.physics.head import head_pressure
from footvalve.physics.loads import HOURS_A_DAY
from footvalve.quantity import to_base
from footvalve.tables.valves import valve

SECONDS_A_DAY = 86_400.0

LEAST_TAP_PRESSURE = to_base(5.0, "psi")
"""Pa at the highest tap, below which hardly anything comes out of it. Common practice, no source."""


def findings(state: PlanState, duty: PumpDuty, steps: PlanSteps) -> list[Finding]:
    """All of them: those that make the plan infeasible first, then dangers, then the rest."""
    found = list(
        chain(
            _suction(steps),
            _check_valve(state),
            _reach(state, duty),
            _well(state, duty, steps.well),
            stated_yield_findings(state, duty),
            _hours(state, duty),
            _tap(state),
            _tank(state, steps.tank),
            power_findings(state, duty, steps.battery),
            manifold_findings(state),
        )
    )
    return sorted(found, key=lambda finding: finding.rank)


def verdict_of(found: Sequence[Finding]) -> Verdict:
    """The gravest of the findings, or feasible."""
    return found[0].gravity if found else "feasible"


def _suction(steps: PlanSteps) -> Iterator[Finding]:
    if steps.suction is not None and steps.suction.verdict != "feasible":
        yield Finding(steps.suction.verdict, steps.suction.reasons[0])


def _check_valve(state: PlanState) -> Iterator[Finding]:
    if not holds_its_water(state):
        if is_flooded(state.request, state.well.resting_depth):
            yield Finding("marginal", "No line has a check valve: the water of house and tank runs back at each stop.")
        else:
            yield Finding("marginal", "The suction line has no foot valve or check valve: it empties at each stop.")


def holds_its_water(state: PlanState) -> bool:
    """Whether a valve keeps the water up here when the pump stops; below the water at rest one behind the pump does."""
    request = state.request
    flooded = is_flooded(request, state.well.resting_depth)
    behind = [] if request.delivery_line is UNSET or not flooded else request.delivery_line
    return any(_is_check(part) for part in (*request.suction_line, *behind))


def _is_check(part: LinePart) -> bool:
    return isinstance(part, Valve) and valve(part.valve).is_check


def _reach(state: PlanState, duty: PumpDuty) -> Iterator[Finding]:
    if duty.filling is not None:
        return
    if duty.greatest_tank_pressure < 0.0:
        yield Finding("infeasible", "The pump does not lift the water up to the tank, as far as its points tell.")
        return
    switch, most = state.request.switch, state.units.pressure(duty.greatest_tank_pressure)
    end, pressure = ("cut-out", switch.cut_out) if duty.cut_in else ("cut-in", switch.cut_in)
    at = f"{end}, {state.units.told(pressure)}"
    yield Finding("infeasible", f"The pump does not reach {at}: by its points it fills the tank up to {most} at most.")


def _well(state: PlanState, duty: PumpDuty, well: WellRecoveryAnswer | None) -> Iterator[Finding]:
    if well is None:
        return
    if well.verdict == "dry":
        yield dry_well(state, state.well.limit_depth)
    elif well.specific_capacity.value == 0.0:
        yield Finding("infeasible", "Nothing flows into the well that its readings show.")
    elif duty.cut_in is not None and well.verdict is UNSET:
        yield Finding("marginal", f"It is not proven that the well sustains the pump. {well.reasons[0]}")
    elif duty.cut_in is not None and well.verdict == "storage-limited":
        yield from _short_storage(state, duty.cut_in.flow, well)


def _short_storage(state: PlanState, flow: float, well: WellRecoveryAnswer) -> Iterator[Finding]:
    if well.time_to_limit is UNSET or well.inflow_at_limit is UNSET:
        return
    at_once, a_day = flow * well.time_to_limit.base, well.inflow_at_limit.base * SECONDS_A_DAY
    told = f"{state.units.flow(flow)} can be drawn for {well.time_to_limit}, {state.units.volume(at_once)}"
    most = f"no more than {state.units.volume(a_day)} flow in in a day"
    if flow <= well.inflow_at_limit.base:
        seeming, a_day = state.units.volume(a_day), _sure_in_a_day(state)
        most = f"no more than {state.units.volume(a_day)} are sure to flow in in a day, where {seeming} seem to"
    needed = state.request.daily_water
    if needed is UNSET:
        yield Finding("marginal", f"The well does not sustain the pump: {told}, and {most}.")
    elif a_day < needed.base:
        yield Finding("marginal", f"The well is short of the day's {state.units.told(needed)}: {told}, and {most}.")
    elif at_once < needed.base:
        there = f"The well gives the day's {state.units.told(needed)}, but not at one go: {told}"
        rest = f"Then the pump has to rest until the level has risen, or it draws air; {most}."
        yield Finding("marginal", f"{there}. {rest}")


def _sure_in_a_day(state: PlanState) -> float:
    """m^3 that flow in at least with the level at the limit, where the readings leave open how much that is."""
    inflow, most = state.well.inflow, state.well.level.limit
    if inflow is None or most is None:
        return 0.0
    return inflow.least_specific_capacity * most * SECONDS_A_DAY


def _hours(state: PlanState, duty: PumpDuty) -> Iterator[Finding]:
    hours = duty.filling.run_hours(state.request) if duty.filling else None
    needed = state.request.daily_water
    if hours is not None and hours > HOURS_A_DAY and needed is not UNSET:
        text = f"The pump would have to run {figure(hours)} hours a day for {state.units.told(needed)}."
        yield Finding("infeasible", text)


def _tap(state: PlanState) -> Iterator[Finding]:
    switch, units = state.request.switch, state.units
    height = tap_height(state)
    lost = head_pressure(head=height, density=state.drawn.density)
    above = f"The highest tap lies {units.length(height)} above the tank, which takes {units.pressure(lost)}"
    if switch.cut_out.base <= lost:
        yield Finding("infeasible", f"{above}: it gets no water even at cut-out, {units.told(switch.cut_out)}.")
    elif switch.cut_in.base <= lost:
        yield Finding("infeasible", f"{above}: it gets no water at cut-in, {units.told(switch.cut_in)}.")
    elif switch.cut_in.base - lost < LEAST_TAP_PRESSURE:
        left, least = (units.pressure(pressure) for pressure in (switch.cut_in.base - lost, LEAST_TAP_PRESSURE))
        yield Finding("marginal", f"The highest tap has {left} at cut-in, less than the {least} that a tap needs.")


def tap_height(state: PlanState) -> float:
    """Height in m of the highest tap above the tank."""
    return state.request.house_elevation.base - state.tank_elevation


def _tank(state: PlanState, tank: TankCycleAnswer | None) -> Iterator[Finding]:
    if tank is None:
        return
    if tank.outcome == "runs-on":
        yield Finding("marginal", f"The pump does not keep up with {tank.demand}, and never stops while that is drawn.")
    demand, starts = tank.demand, tank.starts_per_hour
    if state.request.demand is UNSET and tank.worst_case is not UNSET:
        demand, starts = tank.worst_case.demand, tank.worst_case.starts_per_hour
    if starts > MOST_STARTS:
        often = f"At {demand} the pump starts {figure(starts)} times an hour"
        yield Finding("marginal", f"{often}, more than the {MOST_STARTS:g} in use as a ceiling.")
    least, shortest = state.request.least_run, tank.shortest_run
    if least is not UNSET and shortest is not UNSET and shortest.base < least.base:
        yield Finding("marginal", f"The pump runs {seconds(shortest.base)} at a time, less than the {least} wanted.")
