"""The chance that a plan's suction side is feasible: drawn by that side alone, as a whole plan costs far more."""

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from msgspec import UNSET, structs

from footvalve.answers.headline import Headline
from footvalve.answers.plan_duty import greatest_flow
from footvalve.answers.plan_requests import suction_request
from footvalve.answers.plan_state import PlanState, plan_state
from footvalve.answers.plan_summary import with_chance
from footvalve.answers.suction_chance import SuctionChance
from footvalve.answers.suction_headline import suction_headline
from footvalve.answers.suction_lever import HOPELESS
from footvalve.answers.suction_state import FAILURES
from footvalve.contract.pointed import tokens
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest

BESIDE_IT: Final = (
    "tanks",
    "demand",
    "least_run",
    "daily_water",
    "battery",
    "loads",
    "wire",
    "charger",
    "solar",
    "days",
    "manifold",
)
"""Fields of the plan that do not bear on its suction side, which is asked at the flow of cut-in."""

NOTHING_DRAWN: Final = (-HOPELESS,) * len(FAILURES)
"""What the conditions of a suction side have to spare where the pump gives nothing at cut-in."""

MOST_DRAWS: Final = 450
"""Few enough to take no more than a fifth of a second, and enough where a tenth of them is impossible (own choice)."""

_LEFT_OUT: Final = dict.fromkeys(BESIDE_IT, UNSET)


def planned_spares(
    request: SitePlanRequest,
    near: PlanState | None = None,
    headline: Callable[[SuctionFeasibilityRequest], Headline] = suction_headline,
) -> Headline:
    """The spares of a plan's headline, by what bears on them. `near` is the state of another plan, of which is taken
    what is the same in both, and `headline` the function for the headlines of suction sides near that plan's."""
    if near is not None:
        near = replace(near, request=_by_what_bears(near.request))
    state = plan_state(_by_what_bears(request), near)
    flow = greatest_flow(state)
    if flow is None:
        return Headline({}, NOTHING_DRAWN)
    return Headline({}, headline(suction_request(state.request, state.well, flow)).spares)


def _by_what_bears(request: SitePlanRequest) -> SitePlanRequest:
    return structs.replace(request, **_LEFT_OUT)


def _bears(pointer: str) -> bool:
    return tokens(pointer)[0] not in BESIDE_IT


PLANNED_SUCTION = SuctionChance("/suction-feasibility", _bears, MOST_DRAWS, with_chance)
