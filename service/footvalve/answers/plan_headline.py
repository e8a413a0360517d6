"""The figures of `site-plan`, in SI: its own, and those of every step."""

from collections.abc import Iterator, Mapping

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.battery_headline import battery_headline
from footvalve.answers.friction_headline import friction_headline
from footvalve.answers.headline import Headline, held
from footvalve.answers.plan_duty import PumpDuty, RunningPoint, pump_duty
from footvalve.answers.plan_state import PlanState, plan_state
from footvalve.answers.plan_steps import StepRequests, step_requests
from footvalve.answers.plan_suction_chance import NOTHING_DRAWN
from footvalve.answers.plan_told_duty import charge_a_day, some_water, tap_pressures
from footvalve.answers.sounding_headline import sounding_headline
from footvalve.answers.suction_headline import suction_headline
from footvalve.answers.tank_headline import tank_headline
from footvalve.answers.well_headline import well_headline
from footvalve.contract.site_plan import SitePlanRequest


def plan_headline(request: SitePlanRequest) -> Headline:
    """The pump's duty and the figures of the steps, with what the suction side has to spare.

    The manifold is left out: no quantity of the request stands in it or bears on it.
    """
    state = plan_state(replace(request, manifold=UNSET))
    duty = pump_duty(state)
    return headline_of(state, duty, step_requests(state, duty))


def headline_of(state: PlanState, duty: PumpDuty, asked: StepRequests) -> Headline:
    """The same of a plan whose duty is known already, and what it asks of its steps."""
    steps = dict(_steps(state, asked))
    figures = held(_duty(state, duty))
    for step, headline in steps.items():
        figures |= {f"{step}{pointer}": figure for pointer, figure in headline.figures.items()}
    suction = steps.get("/suction-feasibility")
    return Headline(figures, spares=NOTHING_DRAWN if suction is None else suction.spares)


def _steps(state: PlanState, asked: StepRequests) -> Iterator[tuple[str, Headline]]:
    """The headline of each step that is asked, under its place in the answer."""
    sounded = state.sounded.question
    if sounded is not None:
        yield "/sounding", sounding_headline(sounded)
    if asked.well is not None:
        yield "/well-recovery", well_headline(asked.well, state.well.inflow)
    if asked.suction is not None:
        yield "/suction-feasibility", suction_headline(asked.suction)
    if asked.friction is not None:
        yield "/friction", friction_headline(asked.friction)
    if asked.tank is not None:
        yield "/tank-cycle", tank_headline(asked.tank)
    if asked.battery is not None:
        yield "/battery-runtime", battery_headline(asked.battery)


def _duty(state: PlanState, duty: PumpDuty) -> Mapping[str, float | None]:
    filling, (tap_at_cut_in, tap_at_cut_out) = duty.filling, tap_pressures(state)
    figures = {
        "/duty/greatest_tank_pressure": duty.fills_up_to,
        "/duty/tap_pressure/at_cut_in": tap_at_cut_in,
        "/duty/tap_pressure/at_cut_out": tap_at_cut_out,
        "/duty/charge_per_day": charge_a_day(state, filling),
    }
    if duty.cut_in is not None:
        figures |= _point("/duty/cut_in", duty.cut_in)
    if filling is not None:
        figures |= _point("/duty/cut_out", filling.cut_out)
        figures["/duty/mean/flow"] = filling.mean_flow
        figures["/duty/mean/current"] = filling.mean_current
        figures["/duty/charge_per_volume/charge"] = filling.charge_for(some_water(state.units).base)
    return figures


def _point(place: str, point: RunningPoint) -> dict[str, float | None]:
    return {
        f"{place}/tank_pressure": point.tank_pressure,
        f"{place}/pump_rise": point.rise,
        f"{place}/flow": point.flow,
        f"{place}/current": point.current,
    }
