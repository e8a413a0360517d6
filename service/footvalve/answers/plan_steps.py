"""The other endpoints' answers on what the plan has worked out, each asked once."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any, TypeVar

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.basis import merged
from footvalve.answers.battery_bank import resolve_bank
from footvalve.answers.battery_runtime import battery_with_headlines
from footvalve.answers.battery_safety import battery_caution_codes
from footvalve.answers.cautions import flowing_codes
from footvalve.answers.friction_headline import friction_with_headlines
from footvalve.answers.gathering import gathered
from footvalve.answers.headline import Headline
from footvalve.answers.plan_duty import Filling, PumpDuty
from footvalve.answers.plan_pointers import (
    PointerMap,
    battery_pointers,
    friction_pointers,
    manifold_pointers,
    sounding_pointers,
    suction_pointers,
    tank_pointers,
    well_pointers,
)
from footvalve.answers.plan_requests import battery_request, friction_request, suction_request, well_request
from footvalve.answers.plan_state import PlanState, Sounded
from footvalve.answers.shared import Shared
from footvalve.answers.sounding_headline import sounded_with_headlines
from footvalve.answers.suction_feasibility import suction_with_headlines
from footvalve.answers.tank_headline import tank_with_headlines
from footvalve.answers.well_recovery import well_with_headlines
from footvalve.contract.answer import Answer, BasisStep, Warning
from footvalve.contract.battery_runtime import BatteryRuntimeAnswer, BatteryRuntimeRequest
from footvalve.contract.friction import FrictionAnswer, FrictionRequest
from footvalve.contract.manifold_check import ManifoldCheckAnswer
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.contract.sounding import SoundingAnswer, SoundingRequest
from footvalve.contract.suction_feasibility import SuctionFeasibilityAnswer, SuctionFeasibilityRequest
from footvalve.contract.tank_cycle import TankCycleAnswer, TankCycleRequest
from footvalve.contract.well_recovery import WellRecoveryAnswer, WellRecoveryRequest
from footvalve.physics.loads import HOURS_A_DAY

Asked = TypeVar("Asked")
Answered = TypeVar("Answered", bound=Answer)


SOUNDING, WELL, SUCTION = "/sounding", "/well-recovery", "/suction-feasibility"
FRICTION, TANK, BATTERY = "/friction", "/tank-cycle", "/battery-runtime"
"""Where each step stands in the plan's answer."""


@dataclass(frozen=True, slots=True)
class StepRequests:
    """What is asked of each endpoint that waits for the pump's duty, or None where input is missing."""

    well: WellRecoveryRequest | None
    suction: SuctionFeasibilityRequest | None
    friction: FrictionRequest | None
    tank: TankCycleRequest | None
    battery: BatteryRuntimeRequest | None


@dataclass(frozen=True, slots=True)
class PlanSteps:
    """Each step's answer, or None for a step whose input is missing; and by the place of each answer the function for
    the headlines of its question and of others near it."""

    sounding: SoundingAnswer | None
    well: WellRecoveryAnswer | None
    suction: SuctionFeasibilityAnswer | None
    friction: FrictionAnswer | None
    tank: TankCycleAnswer | None
    battery: BatteryRuntimeAnswer | None
    manifold: ManifoldCheckAnswer | None
    headlines: Mapping[str, Callable[[Any], Headline]]


def step_requests(state: PlanState, duty: PumpDuty) -> StepRequests:
    """The questions: well and lines are asked at the greatest flow, tank and battery with a filling's."""
    request, filling = state.request, duty.filling
    flow = None if duty.cut_in is None else duty.cut_in.flow
    delivery = request.delivery_line
    return StepRequests(
        well=well_request(state.well, flow, request),
        suction=None if flow is None else suction_request(request, state.well, flow),
        friction=None if flow is None or delivery is UNSET else friction_request(request, delivery, flow),
        tank=None if filling is None or request.tanks is UNSET else filling.question,
        battery=None if filling is None else _battery(request, filling),
    )


def _battery(request: SitePlanRequest, filling: Filling) -> BatteryRuntimeRequest | None:
    """None where battery, current or hours are wanting, or the hours are more than a day has."""
    hours = filling.run_hours(request)
    if request.battery is UNSET or filling.mean_current is None or hours is None or hours > HOURS_A_DAY:
        return None
    return battery_request(
        request,
        request.battery,
        flow=filling.mean_flow,
        current=filling.mean_current,
        greatest=filling.greatest_current,
    )


def plan_steps(state: PlanState, duty: PumpDuty, questions: StepRequests) -> PlanSteps:
    """The answers. Raises Refused with the faults of all, their pointers into the plan's request."""
    request, faults, headlines = state.request, list[Fault](), dict[str, Callable[[Any], Headline]]()

    def asked(
        place: str, pointers: PointerMap, answer: Callable[[Asked], Shared[Answered]], question: Asked | None
    ) -> Answered | None:
        if question is None:
            return None
        found = gathered(faults, partial(pointers.answered, partial(answer, question)))
        if found is None:
            return None
        headlines[place] = found.headline
        return found.answer

    sounded, well = partial(_sounding, state.sounded), partial(well_with_headlines, known=state.well.inflow)
    suction = partial(suction_with_headlines, parts=state.suction)
    friction = partial(friction_with_headlines, parts=state.delivery)
    tank = partial(tank_with_headlines, known=None if duty.filling is None else duty.filling.system)
    steps = PlanSteps(
        sounding=asked(SOUNDING, sounding_pointers(), sounded, state.sounded.question),
        well=asked(WELL, well_pointers(request), well, questions.well),
        suction=asked(SUCTION, suction_pointers(request), suction, questions.suction),
        friction=asked(FRICTION, friction_pointers(), friction, questions.friction),
        tank=asked(TANK, tank_pointers(request), tank, questions.tank),
        battery=asked(BATTERY, battery_pointers(request), battery_with_headlines, questions.battery),
        manifold=state.manifold,
        headlines=headlines,
    )
    if faults:
        raise Refused(*faults)
    return steps


def _sounding(sounded: Sounded, question: SoundingRequest) -> Shared[SoundingAnswer]:
    assert sounded.readings is not None, "a sounding that is asked has its readings"
    return sounded_with_headlines(question, sounded.readings)


def steps_in_order(state: PlanState, steps: PlanSteps) -> Iterator[tuple[Answer, PointerMap]]:
    """The answers that there are, in the water's order, each with its pointers."""
    request = state.request
    rows = (
        (steps.sounding, sounding_pointers()),
        (steps.well, well_pointers(request)),
        (steps.suction, suction_pointers(request)),
        (steps.friction, friction_pointers()),
        (steps.tank, tank_pointers(request)),
        (steps.battery, battery_pointers(request)),
        (steps.manifold, manifold_pointers()),
    )
    for answer, pointers in rows:
        if answer is not None:
            yield answer, pointers


def gathered_basis(state: PlanState, steps: PlanSteps) -> list[BasisStep]:
    """Where the steps' methods come from, each once."""
    return merged(step for answer, _ in steps_in_order(state, steps) for step in answer.basis)


def gathered_warnings(state: PlanState, steps: PlanSteps) -> list[Warning]:
    """The steps' warnings, each once, with pointers into the plan's request."""
    found = (
        warning for answer, pointers in steps_in_order(state, steps) for warning in pointers.warnings(answer.warnings)
    )
    return list(dict.fromkeys(found))


def gathered_caution_codes(state: PlanState, steps: PlanSteps) -> list[str]:
    """The codes of the steps' cautions, but for the one that closes every list, and those of a flowing well and of a
    battery where no step is asked that would tell them."""
    codes = [caution.code for answer, _ in steps_in_order(state, steps) for caution in answer.cautions]
    codes += flowing_codes(state.sounded.depth)
    request = state.request
    if request.battery is not UNSET and steps.battery is None:
        bank = resolve_bank(battery_request(request, request.battery, flow=0.0, current=0.0))
        codes += battery_caution_codes(bank, is_charged=request.charger is not UNSET)
    return [code for code in dict.fromkeys(codes) if code != "local-code"]


def without_lists(answer: Answered) -> Answered:
    """A step's answer whose basis, cautions and warnings the plan has gathered."""
    return replace(answer, basis=[], cautions=[], warnings=[])
