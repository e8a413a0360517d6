"""The plan in a few plain sentences."""

from collections.abc import Iterator, Sequence

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.plan_duty import PumpDuty
from footvalve.answers.plan_finding import Finding
from footvalve.answers.plan_findings import verdict_of
from footvalve.answers.plan_state import PlanState
from footvalve.answers.plan_steps import PlanSteps
from footvalve.answers.plan_well import told_level
from footvalve.answers.sure_enough import SURE_ENOUGH, told_chance
from footvalve.answers.unit_system import current
from footvalve.contract.battery_runtime import BatteryRuntimeAnswer
from footvalve.contract.quantities import Length, figure
from footvalve.contract.site_plan import Duty, SitePlanAnswer
from footvalve.contract.suction_feasibility import SuctionFeasibilityAnswer
from footvalve.contract.tank_cycle import TankCycleAnswer

FEW_HOURS = 0.1
"""Below which hours are told in minutes (own choice)."""


def plan_summary(state: PlanState, duty: PumpDuty, told: Duty, steps: PlanSteps, found: Sequence[Finding]) -> list[str]:
    """At most five sentences: the verdict, the suction side, the pump's duty, the tank, the battery."""
    return [
        _headline(state, found),
        *_suction(steps.suction),
        *_duty(state, duty, told),
        *_tank(steps.tank),
        *_battery(told, steps.battery),
    ]


def with_chance(answer: SitePlanAnswer) -> SitePlanAnswer:
    """The plan whose first sentence tells the chance too, where a suction side that is feasible as stated is far from
    sure to be so."""
    suction = answer.suction_feasibility
    if suction is UNSET or suction.chance_feasible is UNSET or suction.verdict != "feasible":
        return answer
    if suction.chance_feasible >= SURE_ENOUGH:
        return answer
    headline, *others = answer.summary
    chance = f"the chance that the suction side is feasible is {told_chance(suction.chance_feasible)}"
    told = f"{headline.removesuffix('.')}; yet with the uncertainties of what goes in, {chance}."
    return replace(answer, summary=[told, *others])


def _headline(state: PlanState, found: Sequence[Finding]) -> str:
    verdict = verdict_of(found).capitalize()
    if not found:
        but = ", but nothing is known of the well's yield" if state.request.well is UNSET else ""
        return f"{verdict}: nothing that was reckoned speaks against this plan{but}."
    gravest = found[0].text
    return f"{verdict}: {gravest[0].lower()}{gravest[1:]}"


def _suction(suction: SuctionFeasibilityAnswer | None) -> Iterator[str]:
    if suction is None:
        return
    lift = f"{suction.static_lift} above the pumping level"
    if suction.static_lift.value < 0.0:
        lift = f"{Length(-suction.static_lift.value, suction.static_lift.unit)} below it"
    yield (
        f"With the water {told_level(suction.pumping_depth)} the pump stands {lift}; of NPSH it needs "
        f"{suction.npsh_required} and has {suction.npsh_available}."
    )


def _duty(state: PlanState, duty: PumpDuty, told: Duty) -> Iterator[str]:
    start, filling, units = duty.cut_in, duty.filling, state.units
    if start is None or filling is None:
        return
    gives = f"It gives {units.flow(start.flow)} at cut-in and {units.flow(filling.cut_out.flow)} at cut-out"
    mean = f"on the mean {units.flow(filling.mean_flow)}"
    if filling.mean_current is not None:
        mean += f" at {current(filling.mean_current)}"
    hours = "" if told.run_hours_per_day is UNSET else _hours(state, told.run_hours_per_day)
    yield f"{gives}, {mean}{hours}."


def _hours(state: PlanState, hours: float) -> str:
    needed = state.request.daily_water
    whom = "" if needed is UNSET else f" for {state.units.told(needed)}"
    return f", and runs {_span(hours)} a day{whom}"


def _span(hours: float) -> str:
    """Hours in words; a few minutes in minutes."""
    return f"{figure(60.0 * hours)} minutes" if hours < FEW_HOURS else f"{figure(hours)} hours"


def _tank(tank: TankCycleAnswer | None) -> Iterator[str]:
    if tank is None:
        return
    gives = f"The tanks give {tank.drawdown} between cut-out and cut-in"
    if tank.worst_case is UNSET:
        yield f"{gives}."
        return
    starts, demand = tank.worst_case.starts_per_hour, tank.worst_case.demand
    yield f"{gives}, and the pump starts {figure(starts)} times an hour at the worst demand, {demand}."


def _battery(told: Duty, battery: BatteryRuntimeAnswer | None) -> Iterator[str]:
    if battery is None:
        return
    lasts = f"A full battery lasts {figure(battery.days_of_autonomy)} days"
    if battery.water_per_charge is not UNSET:
        lasts += f", which is {battery.water_per_charge} of water"
    if told.charge_per_volume is not UNSET:
        per = told.charge_per_volume
        lasts += f" at {per.charge} for each {per.volume}"
    recharge = [(row.current, row.hours) for row in battery.recharge or () if row.hours is not UNSET]
    if recharge:
        charger, hours = max(recharge, key=lambda row: row[0].base)
        lasts += f", and {charger} of charger fill it again in {_span(hours)}"
    yield f"{lasts}."
