"""The endpoints: one name, one request, one answer and one pure function each."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from footvalve.answers.battery_cost import battery_cost
from footvalve.answers.battery_headline import battery_headline
from footvalve.answers.battery_runtime import battery_runtime, battery_with_headlines
from footvalve.answers.cost import ALL_SURE, Cost, Quantities, plain_cost, quantities_of
from footvalve.answers.friction import friction
from footvalve.answers.friction_cost import friction_cost
from footvalve.answers.friction_headline import friction_headline
from footvalve.answers.headline import Headline, no_headline
from footvalve.answers.manifold_check import manifold_check
from footvalve.answers.manifold_cost import manifold_cost
from footvalve.answers.plan_cost import plan_cost
from footvalve.answers.plan_headline import plan_headline
from footvalve.answers.plan_scatter import plan_scatter
from footvalve.answers.plan_suction_chance import PLANNED_SUCTION
from footvalve.answers.plan_sureness import with_plan_sureness
from footvalve.answers.reading_scatter import no_scatter, sounding_scatter
from footvalve.answers.recovery_scatter import recovery_scatter
from footvalve.answers.scatter_doubts import with_scatter_doubts
from footvalve.answers.shared import Shared
from footvalve.answers.site_plan import plan_with_headlines, site_plan
from footvalve.answers.sounding import sounding
from footvalve.answers.sounding_cost import sounding_cost
from footvalve.answers.sounding_headline import sounding_headline, sounding_with_headlines
from footvalve.answers.suction_chance import SuctionChance
from footvalve.answers.suction_cost import suction_cost
from footvalve.answers.suction_feasibility import suction_feasibility, suction_with_headlines
from footvalve.answers.suction_headline import suction_headline
from footvalve.answers.tank_cost import tank_cost
from footvalve.answers.tank_cycle import tank_cycle
from footvalve.answers.tank_headline import tank_headline
from footvalve.answers.uncertain_answer import Uncertain, uncertain, with_uncertainties
from footvalve.answers.uncertain_inputs import UncertainInput, stated_inputs, too_many
from footvalve.answers.well_cost import well_cost
from footvalve.answers.well_headline import well_headline
from footvalve.answers.well_recovery import well_recovery, well_with_headlines
from footvalve.answers.well_sureness import WellPlace, with_well_sureness
from footvalve.contract.answer import Answer
from footvalve.contract.battery_runtime import BatteryRuntimeAnswer, BatteryRuntimeRequest
from footvalve.contract.friction import FrictionAnswer, FrictionRequest
from footvalve.contract.manifold_check import ManifoldCheckAnswer, ManifoldCheckRequest
from footvalve.contract.problem import Refused
from footvalve.contract.ranges import Stated, stated_quantities
from footvalve.contract.site_plan import SitePlanAnswer, SitePlanRequest
from footvalve.contract.sounding import SoundingAnswer, SoundingRequest
from footvalve.contract.soundness import is_plainly_sound
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
    headline: Callable[[Any], Headline] = no_headline
    scatter: Callable[[Any], Iterable[UncertainInput]] = no_scatter
    suction: SuctionChance | None = None
    sureness: Callable[[Any, Uncertain, Any], Any] | None = None
    sounding: str | None = None
    cost: Callable[[Any, Quantities], Cost] = plain_cost
    with_headlines: Callable[[Any], Shared[Any]] | None = None

    def work(self, request: Any, *, all_sure: bool = False) -> Cost:
        """What the answer will cost, without beginning it. `all_sure` says that no input is uncertain, where that is
        known: it saves counting."""
        return self.cost(request, ALL_SURE if all_sure else quantities_of(request))

    def __call__(self, request: Any) -> Answer:
        """The answer, as sure as its inputs are. Raises Refused for what the schema allows and physics or the trade
        does not."""
        stated = () if is_plainly_sound(request) else tuple(stated_quantities(request))
        inputs = _inputs(stated) if stated else []
        shared = self._shared(request)
        answer, headline = shared.answer, shared.headline
        inputs += shared.scatter
        if not inputs:
            return replace(answer, contributions=[]) if request.contributions else answer
        stated = stated or tuple(stated_quantities(request)) if self.suction else ()
        known = uncertain(
            request, inputs, headline, stated=stated, suction=self.suction, spares=shared.spares or headline
        )
        answer = with_uncertainties(answer, known, contributions=request.contributions, suction=self.suction)
        if self.sounding is not None:
            answer = with_scatter_doubts(answer, known, self.sounding, request)
        return answer if self.sureness is None else self.sureness(answer, known, request)

    def _shared(self, request: Any) -> Shared[Answer]:
        """The answer with what its uncertainties are found by."""
        if self.with_headlines is None:
            return Shared(self.compute(request), self.headline, self.scatter(request))
        return self.with_headlines(request)


def _inputs(stated: Sequence[Stated]) -> list[UncertainInput]:
    """The inputs among these quantities that carry an uncertainty. Raises Refused with every fault of theirs."""
    faults = [at.fault for at in stated if not at.is_inside]
    inputs = stated_inputs(stated)
    faults += too_many(inputs)
    if faults:
        raise Refused(*faults)
    return inputs


ENDPOINTS: tuple[Endpoint, ...] = (
    Endpoint(
        "sounding",
        "How far down is the water",
        "The depth to the water by a dropped stone, a wetted tape, an air line, an echo or a direct reading, from the "
        "measuring point and from the ground, with how well the readings agree.",
        SoundingRequest,
        SoundingAnswer,
        sounding,
        sounding_headline,
        scatter=lambda request: sounding_scatter(request.measurement, "/measurement"),
        with_headlines=sounding_with_headlines,
        sounding="",
        cost=sounding_cost,
    ),
    Endpoint(
        "well-recovery",
        "How much water is there",
        "The well's specific capacity by how its level comes back after pumping, or by a pumping test less what the "
        "casing gave; with a flow and a limit, whether the well sustains it, and how long its casing lasts if not.",
        WellRecoveryRequest,
        WellRecoveryAnswer,
        well_recovery,
        well_headline,
        scatter=recovery_scatter,
        with_headlines=well_with_headlines,
        sureness=partial(with_well_sureness, place=WellPlace("", lambda request, _: request.design_flow)),
        cost=well_cost,
    ),
    Endpoint(
        "friction",
        "What the line costs",
        "The head that each part of a line takes at a flow, and the whole of it, after Darcy and Weisbach or after "
        "Hazen and Williams. With `flows` it gives the line's curve.",
        FrictionRequest,
        FrictionAnswer,
        friction,
        friction_headline,
        cost=friction_cost,
    ),
    Endpoint(
        "suction-feasibility",
        "Can this well be drawn on from up here",
        "The verdict on a suction line from the water's intake to a pump in a dry place: the head that is left at the "
        "pump inlet against what the pump needs, the pressure at every place on the way, and where air could enter.",
        SuctionFeasibilityRequest,
        SuctionFeasibilityAnswer,
        suction_feasibility,
        suction_headline,
        suction=SuctionChance(""),
        with_headlines=suction_with_headlines,
        cost=suction_cost,
    ),
    Endpoint(
        "tank-cycle",
        "How often does the pump start",
        "What pre-charged tanks give between the switch's pressures, how long the pump runs and rests at a demand, the "
        "demand at which it starts most often, and what a measured drawdown says of the precharge.",
        TankCycleRequest,
        TankCycleAnswer,
        tank_cycle,
        tank_headline,
        cost=tank_cost,
    ),
    Endpoint(
        "battery-runtime",
        "How long, how much water, how it comes back",
        "What a battery bank gives under a day's loads after rate, temperature, age and floor; what the wire takes; "
        "how long each charger needs; what the sun covers month by month; and the air that charging cells need.",
        BatteryRuntimeRequest,
        BatteryRuntimeAnswer,
        battery_runtime,
        battery_headline,
        with_headlines=battery_with_headlines,
        cost=battery_cost,
    ),
    Endpoint(
        "manifold-check",
        "Will the water go where it should",
        "The piping as nodes and elements: for each mode the way from source to house, water that goes round a pump, "
        "pumps against closed ends, water that runs back, taps that draw air; and what to add, turn or close.",
        ManifoldCheckRequest,
        ManifoldCheckAnswer,
        manifold_check,
        cost=manifold_cost,
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
        plan_headline,
        scatter=plan_scatter,
        suction=PLANNED_SUCTION,
        with_headlines=plan_with_headlines,
        sureness=with_plan_sureness,
        sounding="/sounding",
        cost=plan_cost,
    ),
)

ENDPOINT = {endpoint.name: endpoint for endpoint in ENDPOINTS}
