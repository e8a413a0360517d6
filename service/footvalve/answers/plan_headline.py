"""The figures of `site-plan`, in SI: its own, and those of every step."""

from collections.abc import Callable, Iterator, Mapping
from functools import cache, partial
from typing import Any

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.battery_headline import battery_headline
from footvalve.answers.friction_headline import friction_headline
from footvalve.answers.headline import Headline, held
from footvalve.answers.plan_duty import PumpDuty, RunningPoint, pump_duty
from footvalve.answers.plan_state import PlanState, plan_state
from footvalve.answers.plan_steps import (
    BATTERY,
    FRICTION,
    SOUNDING,
    SUCTION,
    TANK,
    WELL,
    StepRequests,
    step_requests,
)
from footvalve.answers.plan_suction_chance import NOTHING_DRAWN, planned_spares
from footvalve.answers.plan_told_duty import charge_a_day, some_water, tap_pressures
from footvalve.answers.sounding_headline import sounding_headline
from footvalve.answers.suction_headline import suction_headline
from footvalve.answers.tank_headline import tank_headline
from footvalve.answers.well_headline import well_headline
from footvalve.contract.site_plan import SitePlanRequest

Asked = Callable[[str, Any], Headline]
"""The headline of a step by its place in the answer and its question."""


def plan_headline(request: SitePlanRequest) -> Headline:
    """The pump's duty and the figures of the steps, with what the suction side has to spare.

    The manifold is left out: no quantity of the request stands in it or bears on it.
    """
    state = plan_state(replace(request, manifold=UNSET))
    duty = pump_duty(state)
    alone = _alone(state, duty)
    return _headline(state, duty, step_requests(state, duty), lambda place, question: alone[place](question))


class PlanHeadlines:
    """The same function for a plan whose state and steps are known, and for others near it: what an input that was
    moved does not bear on is not worked out again. `near` are the functions for the headlines near each step's own
    question, by the steps' places in the answer."""

    def __init__(
        self, state: PlanState, duty: PumpDuty, asked: StepRequests, near: Mapping[str, Callable[[Any], Headline]]
    ) -> None:
        self._state, self._duty, self._asked, self._near = state, duty, asked, near
        self._questions = dict(_questions(state, asked))
        self._middle = cache(lambda place: near[place](self._questions[place]))

    def __call__(self, request: SitePlanRequest) -> Headline:
        """The headline."""
        if request is self._state.request:
            return _headline(self._state, self._duty, self._asked, lambda place, _: self._middle(place))
        state = plan_state(replace(request, manifold=UNSET), self._state)
        duty = pump_duty(state, self._duty)
        headlines = {**_alone(state, duty), **{place: self._near[place] for place in _NEAR if place in self._near}}

        def asked(place: str, question: Any) -> Headline:
            same = place in self._questions and question == self._questions[place]
            return self._middle(place) if same else headlines[place](question)

        return _headline(state, duty, step_requests(state, duty), asked)

    def spares(self, request: SitePlanRequest) -> Headline:
        """The spares of a headline, by what bears on them."""
        return planned_spares(request, self._state, self._near.get(SUCTION, suction_headline))


_NEAR = (SUCTION, FRICTION)
"""Steps whose lines a near question leaves as they were."""


def _alone(state: PlanState, duty: PumpDuty) -> Mapping[str, Callable[[Any], Headline]]:
    """The functions of the steps' endpoints, with what the plan has found for them already."""
    return {
        SOUNDING: sounding_headline,
        WELL: partial(well_headline, known=state.well.inflow),
        SUCTION: suction_headline,
        FRICTION: friction_headline,
        TANK: partial(tank_headline, known=None if duty.filling is None else duty.filling.system),
        BATTERY: battery_headline,
    }


def _headline(state: PlanState, duty: PumpDuty, asked: StepRequests, headline: Asked) -> Headline:
    steps = {place: headline(place, question) for place, question in _questions(state, asked)}
    figures = held(_duty(state, duty))
    for place, found in steps.items():
        figures |= {f"{place}{pointer}": figure for pointer, figure in found.figures.items()}
    suction = steps.get(SUCTION)
    return Headline(figures, spares=NOTHING_DRAWN if suction is None else suction.spares)


def _questions(state: PlanState, asked: StepRequests) -> Iterator[tuple[str, Any]]:
    """What is asked of each step whose input is there, with its place in the answer."""
    rows = (
        (SOUNDING, state.sounded.question),
        (WELL, asked.well),
        (SUCTION, asked.suction),
        (FRICTION, asked.friction),
        (TANK, asked.tank),
        (BATTERY, asked.battery),
    )
    return ((place, question) for place, question in rows if question is not None)


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
