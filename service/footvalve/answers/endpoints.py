"""The endpoints: one name, one request, one answer and one pure function each."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from msgspec import Struct

from footvalve.answers.battery_runtime import battery_runtime
from footvalve.answers.friction import friction
from footvalve.answers.manifold_check import manifold_check
from footvalve.answers.site_plan import site_plan
from footvalve.answers.sounding import sounding
from footvalve.answers.suction_feasibility import suction_feasibility
from footvalve.answers.tank_cycle import tank_cycle
from footvalve.answers.well_recovery import well_recovery
from footvalve.contract.answer import Answer
from footvalve.contract.battery_runtime import BatteryRuntimeAnswer, BatteryRuntimeRequest
from footvalve.contract.friction import FrictionAnswer, FrictionRequest
from footvalve.contract.manifold_check import ManifoldCheckAnswer, ManifoldCheckRequest
from footvalve.contract.problem import Refused
from footvalve.contract.ranges import outside_ranges
from footvalve.contract.site_plan import SitePlanAnswer, SitePlanRequest
from footvalve.contract.sounding import SoundingAnswer, SoundingRequest
from footvalve.contract.suction_feasibility import SuctionFeasibilityAnswer, SuctionFeasibilityRequest
from footvalve.contract.tank_cycle import TankCycleAnswer, TankCycleRequest
from footvalve.contract.well_recovery import WellRecoveryAnswer, WellRecoveryRequest


@dataclass(frozen=True, slots=True)
class Endpoint:
    """What stands behind POST /v1/<name>."""

    name: str
    title: str
    description: str
    request: type[Struct]
    answer: type[Answer]
    compute: Callable[[Any], Answer]

    def __call__(self, request: Struct) -> Answer:
        """The answer. Raises Refused for what the schema allows and physics or the trade does not."""
        faults = tuple(outside_ranges(request))
        if faults:
            raise Refused(*faults)
        return self.compute(request)


ENDPOINTS: tuple[Endpoint, ...] = (
    Endpoint(
        "sounding",
        "How far down is the water",
        "The depth to the water by a dropped stone, a wetted tape, an air line, an echo or a direct reading, from the "
        "measuring point and from the ground, with how well the readings agree.",
        SoundingRequest,
        SoundingAnswer,
        sounding,
    ),
    Endpoint(
        "well-recovery",
        "How much water is there",
        "The well's specific capacity by how its level comes back after pumping, or by a pumping test less what the "
        "casing gave; with a flow and a limit, whether the well sustains it, and how long its casing lasts if not.",
        WellRecoveryRequest,
        WellRecoveryAnswer,
        well_recovery,
    ),
    Endpoint(
        "friction",
        "What the line costs",
        "The head that each part of a line takes at a flow, and the whole of it, after Darcy and Weisbach or after "
        "Hazen and Williams. With `flows` it gives the line's curve.",
        FrictionRequest,
        FrictionAnswer,
        friction,
    ),
    Endpoint(
        "suction-feasibility",
        "Can this well be drawn on from up here",
        "The verdict on a suction line from the water's intake to a pump in a dry place: the head that is left at the "
        "pump inlet against what the pump needs, the pressure at every place on the way, and where air could enter.",
        SuctionFeasibilityRequest,
        SuctionFeasibilityAnswer,
        suction_feasibility,
    ),
    Endpoint(
        "tank-cycle",
        "How often does the pump start",
        "What pre-charged tanks give between the switch's pressures, how long the pump runs and rests at a demand, the "
        "demand at which it starts most often, and what a measured drawdown says of the precharge.",
        TankCycleRequest,
        TankCycleAnswer,
        tank_cycle,
    ),
    Endpoint(
        "battery-runtime",
        "How long, how much water, how it comes back",
        "What a battery bank gives under a day's loads after rate, temperature, age and floor; what the wire takes; "
        "how long each charger needs; what the sun covers month by month; and the air that charging cells need.",
        BatteryRuntimeRequest,
        BatteryRuntimeAnswer,
        battery_runtime,
    ),
    Endpoint(
        "manifold-check",
        "Will the water go where it should",
        "The piping as nodes and elements: for each mode the way from source to house, water that goes round a pump, "
        "pumps against closed ends, water that runs back, taps that draw air; and what to add, turn or close.",
        ManifoldCheckRequest,
        ManifoldCheckAnswer,
        manifold_check,
    ),
    Endpoint(
        "site-plan",
        "The whole job in one call",
        "Where the pump runs between cut-in and cut-out on these lines and this well, its mean duty over a filling, "
        "and what every other endpoint says of that; the verdict on the whole, what would better it, what to do in "
        "order, and what it is made of.",
        SitePlanRequest,
        SitePlanAnswer,
        site_plan,
    ),
)

ENDPOINT = {endpoint.name: endpoint for endpoint in ENDPOINTS}
