"""All that speaks against a plan, each with what it makes of the verdict."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from msgspec import UNSET

from footvalve.answers.plan_duty import PumpDuty
from footvalve.answers.plan_state import PlanState
from footvalve.answers.plan_steps import PlanSteps
from footvalve.answers.tank_doubts import MOST_STARTS
from footvalve.answers.unit_system import seconds
from footvalve.contract.battery_runtime import BatteryRuntimeAnswer
from footvalve.contract.quantities import figure
from footvalve.contract.suction_feasibility import Verdict
from footvalve.contract.tank_cycle import TankCycleAnswer
from footvalve.contract.well_recovery import WellRecoveryAnswer
from footvalve.physics.head import head_pressure
from footvalve.physics.loads import HOURS_A_DAY

SECONDS_A_DAY = 86_400.0


@dataclass(frozen=True, slots=True)
class Finding:
    """A reason why a plan is not feasible, in one sentence."""

    gravity: Verdict
    text: str


def findings(state: PlanState, duty: PumpDuty, steps: PlanSteps) -> list[Finding]:
    """All of them, those that make the plan infeasible first."""
    found = list(
        chain(
            _suction(steps),
            _reach(state, duty),
            _well(state, duty, steps.well),
            _hours(state, duty),
            _tap(state),
            _tank(state, steps.tank),
            _battery(state, steps.battery),
            _manifold(state),
        )
    )
    return sorted(found, key=lambda finding: finding.gravity != "infeasible")


def verdict_of(found: Sequence[Finding]) -> Verdict:
    """The gravest of the findings, or feasible."""
    return found[0].gravity if found else "feasible"


def _suction(steps: PlanSteps) -> Iterator[Finding]:
    if steps.suction is not None and steps.suction.verdict != "feasible":
        yield Finding(steps.suction.verdict, steps.suction.reasons[0])


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
        rest, limit = (state.units.length(depth) for depth in (state.well.resting_depth, state.well.limit_depth))
        yield Finding("infeasible", f"The well is dry: its water rests at {rest}, not above the limit of {limit}.")
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
    needed = state.request.daily_water
    if needed is UNSET:
        yield Finding("marginal", f"The well does not sustain the pump: {told}, and {most}.")
    elif min(at_once, a_day) < needed.base:
        yield Finding("marginal", f"The well is short of the day's {state.units.told(needed)}: {told}, and {most}.")


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
        yield Finding("marginal", f"{above}: it gets no water at cut-in, {units.told(switch.cut_in)}.")


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


def _battery(state: PlanState, battery: BatteryRuntimeAnswer | None) -> Iterator[Finding]:
    if battery is None:
        return
    days = state.request.days
    if days is not UNSET and battery.days_of_autonomy < days:
        yield Finding(
            "marginal", f"A full battery lasts {figure(battery.days_of_autonomy)} days, not the {days} wanted."
        )
    if not _is_charged(battery):
        yield Finding("marginal", _uncharged(battery))


def _is_charged(battery: BatteryRuntimeAnswer) -> bool:
    """Whether one of the chargers holds, or the sun of every month covers the need; so too where none is told of."""
    by_charger = [row.holds for row in battery.recharge or ()]
    by_sun = [row.covers_fraction >= 1.0 for row in battery.solar_balance or ()]
    return any(by_charger) or (all(by_sun) if by_sun else not by_charger)


def _uncharged(battery: BatteryRuntimeAnswer) -> str:
    if not battery.solar_balance:
        notes = dict.fromkeys(row.rate_note for row in battery.recharge or ())
        return f"No charger outruns the battery's own loss and the loads that run day and night: {'; '.join(notes)}."
    worst = min(battery.solar_balance, key=lambda row: row.covers_fraction)
    when = "The sun" if worst.month == "every" else f"In {worst.month.capitalize()} the sun"
    return (
        f"{when} covers {worst.covers_fraction:.0%} of what the loads need, and no charger that holds stands beside it."
    )


def _manifold(state: PlanState) -> Iterator[Finding]:
    asked, manifold = state.request.manifold, state.manifold
    if asked is UNSET or manifold is None:
        return
    outcomes = zip(asked.modes, manifold.modes, strict=True)
    dry = [mode.name for mode, outcome in outcomes if mode.running and not outcome.delivers]
    for name in dry:
        yield Finding(
            "infeasible", f"In the mode '{name}' a pump of the manifold runs and brings nothing to the house."
        )
    if not dry and manifold.verdict == "wrong":
        yield Finding("marginal", f"The manifold is wrong: {manifold.findings[0].text}")
