"""The chance that a plan's suction side is feasible: drawn by that side alone, as a whole plan costs far more."""

from typing import Final

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.headline import Headline
from footvalve.answers.plan_duty import greatest_flow
from footvalve.answers.plan_lever import suction_at
from footvalve.answers.plan_state import plan_state
from footvalve.answers.suction_chance import SuctionChance
from footvalve.answers.suction_lever import HOPELESS
from footvalve.answers.suction_state import FAILURES
from footvalve.contract.pointed import tokens
from footvalve.contract.site_plan import SitePlanRequest

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


def planned_spares(request: SitePlanRequest) -> Headline:
    """The spares of a plan's headline, by what bears on them."""
    state = plan_state(replace(request, **_LEFT_OUT))
    flow = greatest_flow(state)
    return Headline({}, NOTHING_DRAWN if flow is None else suction_at(state, flow).spares)


def _bears(pointer: str) -> bool:
    return tokens(pointer)[0] not in BESIDE_IT


PLANNED_SUCTION = SuctionChance("/suction-feasibility", planned_spares, _bears, MOST_DRAWS)
