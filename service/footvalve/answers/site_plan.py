"""The whole job in one call: the answer of `site-plan`."""

from collections.abc import Iterator, Sequence

from msgspec import UNSET, UnsetType

from footvalve.answers.basis import Reckoned, basis, merged, range_warnings, reckoned
from footvalve.answers.cautions import cautions
from footvalve.answers.plan_duty import PumpDuty, pump_duty
from footvalve.answers.plan_findings import findings, verdict_of
from footvalve.answers.plan_headline import PlanHeadlines
from footvalve.answers.plan_levers import plan_levers
from footvalve.answers.plan_manifold_doubts import manifold_doubts
from footvalve.answers.plan_materials import plan_materials
from footvalve.answers.plan_scatter import scatter_in
from footvalve.answers.plan_state import PlanState, plan_state
from footvalve.answers.plan_stated_yield import unused_readings
from footvalve.answers.plan_steps import (
    Answered,
    PlanSteps,
    gathered_basis,
    gathered_caution_codes,
    gathered_warnings,
    plan_steps,
    step_requests,
    without_lists,
)
from footvalve.answers.plan_summary import plan_summary
from footvalve.answers.plan_to_do import to_do
from footvalve.answers.plan_told_duty import told_duty
from footvalve.answers.shared import Shared
from footvalve.answers.tank_doubts import gas_inputs
from footvalve.contract.answer import Warning
from footvalve.contract.site_plan import SitePlanAnswer, SitePlanRequest
from footvalve.physics.filling_mean import FILLING_MEAN
from footvalve.physics.operating_point import OPERATING_POINT
from footvalve.physics.pump_curve import PUMP_CURVE


def site_plan(request: SitePlanRequest) -> SitePlanAnswer:
    """The plan: where the pump runs, what every other endpoint says of that, and the verdict on the whole.

    Raises Refused with every fault of every step, its pointer into the plan's own request.
    """
    return plan_with_headlines(request).answer


def plan_with_headlines(request: SitePlanRequest) -> Shared[SitePlanAnswer]:
    """The same with the function for the headlines of this request and of others near it, and what scatters."""
    state = plan_state(request)
    duty = pump_duty(state)
    asked = step_requests(state, duty)
    steps = plan_steps(state, duty, asked)
    headlines = PlanHeadlines(state, duty, asked, steps.headlines)
    scatter = scatter_in(request, state.well.inflow)
    return Shared(_told(state, duty, steps), headlines, scatter, headlines.spares)


def _told(state: PlanState, duty: PumpDuty, steps: PlanSteps) -> SitePlanAnswer:
    found = findings(state, duty, steps)
    told, own = told_duty(state, duty), list(_own_steps(state, duty))
    return SitePlanAnswer(
        verdict=verdict_of(found),
        summary=plan_summary(state, duty, told, steps, found),
        reasons=[finding.text for finding in found],
        duty=told,
        sounding=_step(steps.sounding),
        well_recovery=_step(steps.well),
        suction_feasibility=_step(steps.suction),
        friction=_step(steps.friction),
        tank_cycle=_step(steps.tank),
        battery_runtime=_step(steps.battery),
        manifold_check=_step(steps.manifold),
        levers=plan_levers(state, duty, steps),
        to_do=to_do(state, duty, steps, found),
        materials=plan_materials(state, duty, steps),
        basis=merged([*basis(own, state.units), *gathered_basis(state, steps)]),
        cautions=cautions(gathered_caution_codes(state, steps)),
        warnings=_warnings(state, own, steps),
    )


def _step(answer: Answered | None) -> Answered | UnsetType:
    return UNSET if answer is None else without_lists(answer)


def _own_steps(state: PlanState, duty: PumpDuty) -> Iterator[Reckoned]:
    request = state.request
    yield reckoned("The pump's flow and current at each rise", PUMP_CURVE)
    yield reckoned("Where the pump runs", OPERATING_POINT)
    if duty.filling is not None:
        gas = gas_inputs(request.switch.cut_out.base + state.air_pressure, request.gas_exponent, state.units)
        yield reckoned("The pump's mean duty", FILLING_MEAN, **gas)


def _warnings(state: PlanState, own: Sequence[Reckoned], steps: PlanSteps) -> list[Warning]:
    told = (
        *range_warnings(own, state.units),
        *unused_readings(state),
        *gathered_warnings(state, steps),
        *manifold_doubts(state),
    )
    found = list(dict.fromkeys(told))
    if state.request.delivery_line is UNSET:
        text = "no line from the pump to the tank is listed: the pump then seems to give more than it does"
        found.append(Warning("/delivery_line", text))
    return found
