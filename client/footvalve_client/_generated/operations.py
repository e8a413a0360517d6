# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
# ruff: noqa: PLR0913
"""The operations of the contract, once for a client that blocks and once for one that is awaited."""

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from typing import Any, Final, Literal, Never, TypeVar, overload

from footvalve_client._answer import AnswerPart
from footvalve_client._generated.answers import (
    BatchAnswer,
    BatteryRuntimeAnswer,
    CautionsTable,
    ChemistriesTable,
    FittingsTable,
    FrictionAnswer,
    Health,
    Index,
    ManifoldCheckAnswer,
    PipesTable,
    ScriptIntegrity,
    SitePlanAnswer,
    SoundingAnswer,
    SuctionFeasibilityAnswer,
    TankCycleAnswer,
    TextLanguages,
    UnitsTable,
    ValvesTable,
    WellRecoveryAnswer,
    WiresTable,
)
from footvalve_client._generated.closed_lists import (
    EndpointName,
    FrictionMethod,
    TableName,
    Units,
)
from footvalve_client._generated.endpoints import ENDPOINTS
from footvalve_client._generated.quantities import (
    DurationLike,
    FlowLike,
    LengthLike,
    SpecificCapacityLike,
    VolumeLike,
)
from footvalve_client._generated.requests import (
    AirLine,
    BatchItem,
    BatchRequest,
    Battery,
    BatteryRuntimeRequest,
    CentrifugalPump,
    CentrifugalPumpPlan,
    Charger,
    DeliveryLinePart,
    DirectSounding,
    EchoSounding,
    ElectricLoad,
    ElementsKind,
    FrictionRequest,
    LinePart,
    ManifoldCheckRequest,
    ManifoldMode,
    ManifoldQuestion,
    Policy,
    PumpingTest,
    ReciprocatingPump,
    ReciprocatingPumpPlan,
    Recovery,
    RotaryPump,
    RotaryPumpPlan,
    Site,
    SitePlanRequest,
    Solar,
    SoundingQuestion,
    SoundingRequest,
    StoneDrop,
    SuctionFeasibilityRequest,
    SuctionLinePart,
    Switch,
    Tank,
    TankCycleRequest,
    TankPump,
    WellPlan,
    WellRecoveryRequest,
    WettedTape,
    Wire,
)
from footvalve_client._map import AwaitedBodies, AwaitedResults, Bodies, Results, mapped, mapped_awaited
from footvalve_client._map_batch import BATCH_SIZE
from footvalve_client._request import RequestPart, built, kind_of

AnswerT = TypeVar("AnswerT", bound=AnswerPart)

_TABLE: Final[dict[str, type[AnswerPart]]] = {
    "pipes": PipesTable,
    "fittings": FittingsTable,
    "valves": ValvesTable,
    "wires": WiresTable,
    "chemistries": ChemistriesTable,
    "cautions": CautionsTable,
    "units": UnitsTable,
}


class Operations(ABC):
    """The operations of a client that blocks."""

    @abstractmethod
    def _ask(self, method: str, path: str, kind: type[AnswerT], request: RequestPart | None = None) -> AnswerT:
        """Send the request and read the answer."""

    @overload
    def batch(self, request: BatchRequest) -> BatchAnswer: ...
    @overload
    def batch(
        self,
        *,
        items: Sequence[BatchItem | Mapping[str, object]],
    ) -> BatchAnswer: ...
    def batch(
        self,
        request: BatchRequest | None = None,
        *,
        items: Sequence[BatchItem | Mapping[str, object]] | None = None,
    ) -> BatchAnswer:
        """Many at once.

        Up to 1000 questions in one call. Each is answered as if it had come alone, and the answers keep the order: what
        is wrong with the body of an item, or with its endpoint's name, spoils that item alone, and stands in its place
        as the problem that the endpoint would have answered. What is wrong with the batch itself, such as an item
        without an id, refuses the whole. The work of all items is reckoned before the first of them is begun, each as
        if it came alone, and a batch that asks for too much is refused whole; an item that would be refused for its
        work alone spoils itself alone. An id may stand twice; `warnings` tells of it. The answer comes in pieces while
        it is worked out.

        Takes a `BatchRequest` or its fields as keyword arguments. Questions that are answered one by one, in their
        order.

        items: each BatchItem. The questions.

        Answers a `BatchAnswer`: what each item comes to, in the order of the request.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "items": items,
        }
        return self._ask("POST", "/v1/batch", BatchAnswer, built(BatchRequest, request, fields))

    @overload
    def battery_runtime(self, request: BatteryRuntimeRequest) -> BatteryRuntimeAnswer: ...
    @overload
    def battery_runtime(
        self,
        *,
        battery: Battery | Mapping[str, object],
        loads: Sequence[ElectricLoad | Mapping[str, object]],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        pump_flow: FlowLike | None = None,
        daily_water: VolumeLike | None = None,
        wire: Wire | Mapping[str, object] | None = None,
        charger: Charger | Mapping[str, object] | None = None,
        solar: Solar | Mapping[str, object] | None = None,
        days: int | None = None,
    ) -> BatteryRuntimeAnswer: ...
    def battery_runtime(
        self,
        request: BatteryRuntimeRequest | None = None,
        *,
        battery: Battery | Mapping[str, object] | None = None,
        loads: Sequence[ElectricLoad | Mapping[str, object]] | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        pump_flow: FlowLike | None = None,
        daily_water: VolumeLike | None = None,
        wire: Wire | Mapping[str, object] | None = None,
        charger: Charger | Mapping[str, object] | None = None,
        solar: Solar | Mapping[str, object] | None = None,
        days: int | None = None,
    ) -> BatteryRuntimeAnswer:
        """How long, how much water, how it comes back.

        What a battery bank gives under a day's loads after rate, temperature, age and floor; what the wire takes; how
        long each charger needs; what the sun covers month by month; and the air that charging cells need.

        Takes a `BatteryRuntimeRequest` or its fields as keyword arguments. A battery bank and what draws on it and
        charges it.

        battery: Battery. The battery bank.
        loads: each ElectricLoad. All that draws on the battery.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        pump_flow: Flow in L/s, L/min, m^3/h, gal/min or gal/h. What the pump brings while it runs. From 0.00159 to 158
            gal/min (0.006 to 600 L/min).
        daily_water: Volume in L, m^3 or gal. Water used in a day; needs `pump_flow`. From 0 to 264000 gal (0 to 1000000
            L).
        wire: Wire. The wire that carries all the loads. What it may carry is reckoned for insulation that bears 60
            degC, in the site's air or in 30 degC, whichever is warmer.
        charger: Charger. Chargers on mains or a generator.
        solar: Solar. A solar array on the battery.
        days: a whole number. How many days of outage `state_of_charge` follows. Default: 3.

        Answers a `BatteryRuntimeAnswer`: how long the battery lasts, how much water it gives, and how it comes back.
        The answer is in the system of units that `units` names. Its `basis` tells by which method and from which source
        each step was reckoned, `warnings` what is doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "battery": battery,
            "loads": loads,
            "units": units,
            "site": site,
            "contributions": contributions,
            "pump_flow": pump_flow,
            "daily_water": daily_water,
            "wire": wire,
            "charger": charger,
            "solar": solar,
            "days": days,
        }
        return self._ask(
            "POST", "/v1/battery-runtime", BatteryRuntimeAnswer, built(BatteryRuntimeRequest, request, fields)
        )

    @overload
    def friction(self, request: FrictionRequest) -> FrictionAnswer: ...
    @overload
    def friction(
        self,
        *,
        line: Sequence[LinePart | Mapping[str, object]],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        flow: FlowLike | None = None,
        flows: Sequence[FlowLike] | None = None,
        method: FrictionMethod | None = None,
    ) -> FrictionAnswer: ...
    def friction(
        self,
        request: FrictionRequest | None = None,
        *,
        line: Sequence[LinePart | Mapping[str, object]] | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        flow: FlowLike | None = None,
        flows: Sequence[FlowLike] | None = None,
        method: FrictionMethod | None = None,
    ) -> FrictionAnswer:
        """What the line costs.

        The head that each part of a line takes at a flow, and the whole of it, after Darcy and Weisbach or after Hazen
        and Williams. With `flows` it gives the line's curve.

        Takes a `FrictionRequest` or its fields as keyword arguments. A line, and the flow or flows that it is to carry.
        At least one of `flow` and `flows` is given.

        line: each LinePart. The parts in the order in which the water passes them.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        flow: Flow in L/s, L/min, m^3/h, gal/min or gal/h. The flow that the parts are reckoned at. From 0.00159 to 1580
            gal/min (0.006 to 6000 L/min).
        flows: each Flow in L/s, L/min, m^3/h, gal/min or gal/h. Flows for a curve of head against flow; without `flow`
            the parts are reckoned at the greatest of them. Each from 0.00159 to 1580 gal/min (0.006 to 6000 L/min).
        method: "darcy-weisbach" or "hazen-williams". How friction in the pipes is reckoned. Default: darcy-weisbach.

        Answers a `FrictionAnswer`: what the line costs. The answer is in the system of units that `units` names. Its
        `basis` tells by which method and from which source each step was reckoned, `warnings` what is doubtful about
        the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "line": line,
            "units": units,
            "site": site,
            "contributions": contributions,
            "flow": flow,
            "flows": flows,
            "method": method,
        }
        return self._ask("POST", "/v1/friction", FrictionAnswer, built(FrictionRequest, request, fields))

    def index(self) -> Index:
        """Where to find what.

        Answers a `Index`: where to find what.

        As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where
        the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
        `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
        `FootvalveError` stands over all of these.
        """
        return self._ask("GET", "/", Index)

    def live(self) -> Health:
        """Whether the process lives.

        Answers a `Health`: whether the process lives, or is ready for work.

        As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where
        the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
        `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
        `FootvalveError` stands over all of these.
        """
        return self._ask("GET", "/live", Health)

    @overload
    def manifold_check(self, request: ManifoldCheckRequest) -> ManifoldCheckAnswer: ...
    @overload
    def manifold_check(
        self,
        *,
        nodes: Sequence[str],
        elements: Sequence[ElementsKind | Mapping[str, object]],
        source: str,
        house: str,
        modes: Sequence[ManifoldMode | Mapping[str, object]],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
    ) -> ManifoldCheckAnswer: ...
    def manifold_check(
        self,
        request: ManifoldCheckRequest | None = None,
        *,
        nodes: Sequence[str] | None = None,
        elements: Sequence[ElementsKind | Mapping[str, object]] | None = None,
        source: str | None = None,
        house: str | None = None,
        modes: Sequence[ManifoldMode | Mapping[str, object]] | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
    ) -> ManifoldCheckAnswer:
        """Will the water go where it should.

        The piping as nodes and elements: for each mode the way from source to house, water that goes round a pump,
        pumps against closed ends, water that runs back, taps that draw air; and what to add, turn or close.

        Takes a `ManifoldCheckRequest` or its fields as keyword arguments. Piping as nodes and the elements between
        them, and the modes in which it is used.

        nodes: each a text. The places where elements meet, each once.
        elements: each ElementsKind. What lies between them, told apart by `kind`.
        source: a text. The node in the well or other open water that is drawn from.
        house: a text. The node at which the house takes its water.
        modes: each ManifoldMode. The ways of using it.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.

        Answers a `ManifoldCheckAnswer`: where the water goes in each mode, and what is wrong with the arrangement. The
        answer is in the system of units that `units` names. Its `basis` tells by which method and from which source
        each step was reckoned, `warnings` what is doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "nodes": nodes,
            "elements": elements,
            "source": source,
            "house": house,
            "modes": modes,
            "units": units,
            "site": site,
            "contributions": contributions,
        }
        return self._ask(
            "POST", "/v1/manifold-check", ManifoldCheckAnswer, built(ManifoldCheckRequest, request, fields)
        )

    def ready(self) -> Health:
        """Whether it is ready for work.

        Answers a `Health`: whether the process lives, or is ready for work.

        As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where
        the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
        `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
        `FootvalveError` stands over all of these.
        """
        return self._ask("GET", "/ready", Health)

    @overload
    def site_plan(self, request: SitePlanRequest) -> SitePlanAnswer: ...
    @overload
    def site_plan(
        self,
        *,
        suction_line: Sequence[SuctionLinePart | Mapping[str, object]],
        pump: RotaryPumpPlan | CentrifugalPumpPlan | ReciprocatingPumpPlan | Mapping[str, object],
        switch: Switch | Mapping[str, object],
        house_elevation: LengthLike,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        sounding: SoundingQuestion | Mapping[str, object] | None = None,
        depth_to_water: LengthLike | None = None,
        seasonal_fall: LengthLike | None = None,
        well: WellPlan | Mapping[str, object] | None = None,
        intake_elevation: LengthLike | None = None,
        delivery_line: Sequence[DeliveryLinePart | Mapping[str, object]] | None = None,
        tanks: Sequence[Tank | Mapping[str, object]] | None = None,
        tank_elevation: LengthLike | None = None,
        demand: FlowLike | None = None,
        least_run: DurationLike | None = None,
        gas_exponent: float | None = None,
        daily_water: VolumeLike | None = None,
        battery: Battery | Mapping[str, object] | None = None,
        loads: Sequence[ElectricLoad | Mapping[str, object]] | None = None,
        wire: Wire | Mapping[str, object] | None = None,
        charger: Charger | Mapping[str, object] | None = None,
        solar: Solar | Mapping[str, object] | None = None,
        days: int | None = None,
        manifold: ManifoldQuestion | Mapping[str, object] | None = None,
        policy: Policy | Mapping[str, object] | None = None,
    ) -> SitePlanAnswer: ...
    def site_plan(
        self,
        request: SitePlanRequest | None = None,
        *,
        suction_line: Sequence[SuctionLinePart | Mapping[str, object]] | None = None,
        pump: RotaryPumpPlan | CentrifugalPumpPlan | ReciprocatingPumpPlan | Mapping[str, object] | None = None,
        switch: Switch | Mapping[str, object] | None = None,
        house_elevation: LengthLike | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        sounding: SoundingQuestion | Mapping[str, object] | None = None,
        depth_to_water: LengthLike | None = None,
        seasonal_fall: LengthLike | None = None,
        well: WellPlan | Mapping[str, object] | None = None,
        intake_elevation: LengthLike | None = None,
        delivery_line: Sequence[DeliveryLinePart | Mapping[str, object]] | None = None,
        tanks: Sequence[Tank | Mapping[str, object]] | None = None,
        tank_elevation: LengthLike | None = None,
        demand: FlowLike | None = None,
        least_run: DurationLike | None = None,
        gas_exponent: float | None = None,
        daily_water: VolumeLike | None = None,
        battery: Battery | Mapping[str, object] | None = None,
        loads: Sequence[ElectricLoad | Mapping[str, object]] | None = None,
        wire: Wire | Mapping[str, object] | None = None,
        charger: Charger | Mapping[str, object] | None = None,
        solar: Solar | Mapping[str, object] | None = None,
        days: int | None = None,
        manifold: ManifoldQuestion | Mapping[str, object] | None = None,
        policy: Policy | Mapping[str, object] | None = None,
    ) -> SitePlanAnswer:
        """The whole job in one call.

        Where the pump runs between cut-in and cut-out on these lines and this well, its mean duty over a filling, and
        what every other endpoint says of that; the verdict on the whole, what would better it, what to do in order, and
        what it is made of.

        Takes a `SitePlanRequest` or its fields as keyword arguments. A site from the water to the taps, with `sounding`
        or `depth_to_water`. A step whose input is missing is left out and named in `to_do`.

        suction_line: each SuctionLinePart. From the water's intake to the pump inlet, in the water's order.
        pump: RotaryPumpPlan, CentrifugalPumpPlan or ReciprocatingPumpPlan. The pump with its curve, told apart by
            `style`.
        switch: Switch. The pressure switch, at the height of the tank.
        house_elevation: Length in m, cm, mm, ft or in. Of the highest tap, above the ground at the wellhead; below
            ground is negative. From -3280 to 3280 ft (-1000 to 1000 m).
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        sounding: SoundingQuestion. What was read at the well, in place of `depth_to_water`.
        depth_to_water: Length in m, cm, mm, ft or in. Static, below the ground at the wellhead; negative for a flowing
            well. From -328 to 3280 ft (-100 to 1000 m).
        seasonal_fall: Length in m, cm, mm, ft or in. How much lower the water stands in the dry season. From 0 to 1640
            ft (0 to 500 m). Default: 0 m.
        well: WellPlan. The well's yield; without it the level is taken not to fall.
        intake_elevation: Length in m, cm, mm, ft or in. Where the suction line takes the water in. Without it the first
            pipe is taken to hang straight down from its end, which is the deepest that it can reach. From -3280 to 3280
            ft (-1000 to 1000 m).
        delivery_line: each DeliveryLinePart. The parts in the order in which the water passes them.
        tanks: each Tank. All pressure tanks on the line. Without them the pump's mean duty is that of one that is
            charged to cut-in, which does not depend on its size.
        tank_elevation: Length in m, cm, mm, ft or in. Of the pressure tank and its switch; that of the highest tap by
            default. From -3280 to 3280 ft (-1000 to 1000 m).
        demand: Flow in L/s, L/min, m^3/h, gal/min or gal/h. A steady flow that the house draws, for the pump's starts:
            0, or 1e-8 m^3/s or more. Without it the day's water is taken evenly over the day, and the starts are judged
            at the demand that makes most. From 0 to 317 gal/min (0 to 1200 L/min).
        least_run: Duration in s, min, h or d. How long the pump shall run at least each time it starts. From 1 s to 1
            h.
        gas_exponent: a number. n in p V^n of the tanks' gas: 1 for a slow cycle, 1.4 for a quick one. Default: 1.
        daily_water: Volume in L, m^3 or gal. Water used in a day. From 0.265 to 264000 gal (1 to 1000000 L).
        battery: Battery. The battery bank that the pump runs on.
        loads: each ElectricLoad. What else draws on the battery. The pump is not among them.
        wire: Wire. The wire that carries all the loads. What it may carry is reckoned for insulation that bears 60
            degC, in the site's air or in 30 degC, whichever is warmer.
        charger: Charger. Chargers on mains or a generator.
        solar: Solar. A solar array on the battery.
        days: a whole number. How many days of outage the battery shall last; without it none are asked of it.
        manifold: ManifoldQuestion. The piping between well, pumps and house.
        policy: Policy. What the caller calls feasible.

        Answers a `SitePlanAnswer`: the whole plan. Basis, cautions and warnings of all its steps are gathered here,
        each once, with pointers into the plan's own request; those lists are empty in the steps. The answer is in the
        system of units that `units` names. Its `basis` tells by which method and from which source each step was
        reckoned, `warnings` what is doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "suction_line": suction_line,
            "pump": pump,
            "switch": switch,
            "house_elevation": house_elevation,
            "units": units,
            "site": site,
            "contributions": contributions,
            "sounding": sounding,
            "depth_to_water": depth_to_water,
            "seasonal_fall": seasonal_fall,
            "well": well,
            "intake_elevation": intake_elevation,
            "delivery_line": delivery_line,
            "tanks": tanks,
            "tank_elevation": tank_elevation,
            "demand": demand,
            "least_run": least_run,
            "gas_exponent": gas_exponent,
            "daily_water": daily_water,
            "battery": battery,
            "loads": loads,
            "wire": wire,
            "charger": charger,
            "solar": solar,
            "days": days,
            "manifold": manifold,
            "policy": policy,
        }
        return self._ask("POST", "/v1/site-plan", SitePlanAnswer, built(SitePlanRequest, request, fields))

    @overload
    def sounding(self, request: SoundingRequest) -> SoundingAnswer: ...
    @overload
    def sounding(
        self,
        *,
        measurement: StoneDrop | WettedTape | AirLine | EchoSounding | DirectSounding | Mapping[str, object],
        measuring_point_height: LengthLike | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
    ) -> SoundingAnswer: ...
    def sounding(
        self,
        request: SoundingRequest | None = None,
        *,
        measurement: StoneDrop
        | WettedTape
        | AirLine
        | EchoSounding
        | DirectSounding
        | Mapping[str, object]
        | None = None,
        measuring_point_height: LengthLike | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
    ) -> SoundingAnswer:
        """How far down is the water.

        The depth to the water by a dropped stone, a wetted tape, an air line, an echo or a direct reading, from the
        measuring point and from the ground, with how well the readings agree.

        Takes a `SoundingRequest` or its fields as keyword arguments. Readings at a well by one method. `site` matters
        to those that time something or weigh water.

        measurement: StoneDrop, WettedTape, AirLine, EchoSounding or DirectSounding. What was read, told apart by
            `method`.
        measuring_point_height: Length in m, cm, mm, ft or in. Of the point that the readings start from, above the
            ground; negative in a pit. From -32.8 to 32.8 ft (-10 to 10 m). Default: 0 m.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.

        Answers a `SoundingAnswer`: how far down the water stands. The answer is in the system of units that `units`
        names. Its `basis` tells by which method and from which source each step was reckoned, `warnings` what is
        doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "measurement": measurement,
            "measuring_point_height": measuring_point_height,
            "units": units,
            "site": site,
            "contributions": contributions,
        }
        return self._ask("POST", "/v1/sounding", SoundingAnswer, built(SoundingRequest, request, fields))

    def suction_check_integrity(self) -> ScriptIntegrity:
        """What holds the script to its bytes.

        Answers a `ScriptIntegrity`: where the script of the suction check stands for good, and the hash that holds it
        to its bytes.

        As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where
        the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
        `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
        `FootvalveError` stands over all of these.
        """
        return self._ask("GET", "/embed/v1/integrity.json", ScriptIntegrity)

    def suction_check_languages(self) -> TextLanguages:
        """The languages of the suction check.

        Answers a `TextLanguages`: the languages that the suction check speaks.

        As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where
        the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
        `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
        `FootvalveError` stands over all of these.
        """
        return self._ask("GET", "/embed/v1/texts", TextLanguages)

    @overload
    def suction_feasibility(self, request: SuctionFeasibilityRequest) -> SuctionFeasibilityAnswer: ...
    @overload
    def suction_feasibility(
        self,
        *,
        depth_to_water: LengthLike,
        flow: FlowLike,
        pump: RotaryPump | CentrifugalPump | ReciprocatingPump | Mapping[str, object],
        line: Sequence[LinePart | Mapping[str, object]],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        seasonal_fall: LengthLike | None = None,
        drawdown: LengthLike | None = None,
        specific_capacity: SpecificCapacityLike | None = None,
        intake_elevation: LengthLike | None = None,
        policy: Policy | Mapping[str, object] | None = None,
        limits: bool | None = None,
    ) -> SuctionFeasibilityAnswer: ...
    def suction_feasibility(
        self,
        request: SuctionFeasibilityRequest | None = None,
        *,
        depth_to_water: LengthLike | None = None,
        flow: FlowLike | None = None,
        pump: RotaryPump | CentrifugalPump | ReciprocatingPump | Mapping[str, object] | None = None,
        line: Sequence[LinePart | Mapping[str, object]] | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        seasonal_fall: LengthLike | None = None,
        drawdown: LengthLike | None = None,
        specific_capacity: SpecificCapacityLike | None = None,
        intake_elevation: LengthLike | None = None,
        policy: Policy | Mapping[str, object] | None = None,
        limits: bool | None = None,
    ) -> SuctionFeasibilityAnswer:
        """Can this well be drawn on from up here.

        The verdict on a suction line from the water's intake to a pump in a dry place: the head that is left at the
        pump inlet against what the pump needs, the pressure at every place on the way, and where air could enter.

        Takes a `SuctionFeasibilityRequest` or its fields as keyword arguments. A well, a line and a pump. Only what is
        listed in `line` costs head.

        depth_to_water: Length in m, cm, mm, ft or in. Static, below the ground at the wellhead; negative for a flowing
            well. From -328 to 3280 ft (-100 to 1000 m).
        flow: Flow in L/s, L/min, m^3/h, gal/min or gal/h. The flow to be drawn. From 0.00159 to 1580 gal/min (0.006 to
            6000 L/min).
        pump: RotaryPump, CentrifugalPump or ReciprocatingPump. The pump, told apart by `style`.
        line: each LinePart. From the water's intake to the pump inlet, in the water's order, with each stopped pump
            that it is pulled through.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        seasonal_fall: Length in m, cm, mm, ft or in. How much lower the water stands in the dry season. From 0 to 1640
            ft (0 to 500 m). Default: 0 m.
        drawdown: Length in m, cm, mm, ft or in. How far the level falls at this flow. From 0 to 1640 ft (0 to 500 m).
        specific_capacity: SpecificCapacity in gal/min/ft or L/s/m. The well's yield for each length of drawdown,
            instead of `drawdown`. From 0.000484 to 4830 gal/min/ft (0.0001 to 1000 L/s/m).
        intake_elevation: Length in m, cm, mm, ft or in. Where the line takes the water in. Without it the first pipe is
            taken to hang straight down from its end, which is the deepest that it can reach. From -3280 to 3280 ft
            (-1000 to 1000 m).
        policy: Policy. What the caller calls feasible.
        limits: True or False. Whether the answer tells how far flow, depth, altitude and pipe size may go, and
            `levers`. Default: false.

        Answers a `SuctionFeasibilityAnswer`: whether the well can be drawn on, and why. The answer is in the system of
        units that `units` names. Its `basis` tells by which method and from which source each step was reckoned,
        `warnings` what is doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "depth_to_water": depth_to_water,
            "flow": flow,
            "pump": pump,
            "line": line,
            "units": units,
            "site": site,
            "contributions": contributions,
            "seasonal_fall": seasonal_fall,
            "drawdown": drawdown,
            "specific_capacity": specific_capacity,
            "intake_elevation": intake_elevation,
            "policy": policy,
            "limits": limits,
        }
        return self._ask(
            "POST",
            "/v1/suction-feasibility",
            SuctionFeasibilityAnswer,
            built(SuctionFeasibilityRequest, request, fields),
        )

    @overload
    def tank_cycle(self, request: TankCycleRequest) -> TankCycleAnswer: ...
    @overload
    def tank_cycle(
        self,
        *,
        tanks: Sequence[Tank | Mapping[str, object]],
        switch: Switch | Mapping[str, object],
        pump: TankPump | Mapping[str, object],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        demand: FlowLike | None = None,
        demands: Sequence[FlowLike] | None = None,
        least_run: DurationLike | None = None,
        gas_exponent: float | None = None,
        observed_drawdown: VolumeLike | None = None,
    ) -> TankCycleAnswer: ...
    def tank_cycle(
        self,
        request: TankCycleRequest | None = None,
        *,
        tanks: Sequence[Tank | Mapping[str, object]] | None = None,
        switch: Switch | Mapping[str, object] | None = None,
        pump: TankPump | Mapping[str, object] | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        demand: FlowLike | None = None,
        demands: Sequence[FlowLike] | None = None,
        least_run: DurationLike | None = None,
        gas_exponent: float | None = None,
        observed_drawdown: VolumeLike | None = None,
    ) -> TankCycleAnswer:
        """How often does the pump start.

        What pre-charged tanks give between the switch's pressures, how long the pump runs and rests at a demand, the
        demand at which it starts most often, and what a measured drawdown says of the precharge.

        Takes a `TankCycleRequest` or its fields as keyword arguments. Tanks, switch and pump, and what the house draws:
        one of `demand` and `demands`.

        tanks: each Tank. All tanks on the line.
        switch: Switch. The pressure switch.
        pump: TankPump. The pump that fills the tanks.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        demand: Flow in L/s, L/min, m^3/h, gal/min or gal/h. A steady flow that is drawn from the tanks: 0, or 0.0006
            L/min or more. From 0 to 317 gal/min (0 to 1200 L/min).
        demands: each Flow in L/s, L/min, m^3/h, gal/min or gal/h. Several such flows, each answered in `cycles`; the
            headline is the worst of them: the greatest at which the pump runs on; else the one that starts the pump
            most often; else one at which it stays off. Each from 0 to 317 gal/min (0 to 1200 L/min).
        least_run: Duration in s, min, h or d. How long the pump shall run at least each time it starts. From 1 s to 1
            h.
        gas_exponent: a number. n in p V^n: 1 for a slow cycle (isothermal), 1.4 for a quick one (adiabatic). Default:
            1.
        observed_drawdown: Volume in L, m^3 or gal. Water caught between the pump's stop and its next start, with the
            pump's supply off. From 0 to 52800 gal (0 to 200000 L).

        Answers a `TankCycleAnswer`: how often the pump starts at the demand, or at the worst of the demands. The answer
        is in the system of units that `units` names. Its `basis` tells by which method and from which source each step
        was reckoned, `warnings` what is doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "tanks": tanks,
            "switch": switch,
            "pump": pump,
            "units": units,
            "site": site,
            "contributions": contributions,
            "demand": demand,
            "demands": demands,
            "least_run": least_run,
            "gas_exponent": gas_exponent,
            "observed_drawdown": observed_drawdown,
        }
        return self._ask("POST", "/v1/tank-cycle", TankCycleAnswer, built(TankCycleRequest, request, fields))

    @overload
    def well_recovery(self, request: WellRecoveryRequest) -> WellRecoveryAnswer: ...
    @overload
    def well_recovery(
        self,
        *,
        static_depth: LengthLike,
        casing_diameter: LengthLike,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        drop_pipe_diameter: LengthLike | None = None,
        recovery: Recovery | Mapping[str, object] | None = None,
        pumping_test: PumpingTest | Mapping[str, object] | None = None,
        design_flow: FlowLike | None = None,
        limit_depth: LengthLike | None = None,
    ) -> WellRecoveryAnswer: ...
    def well_recovery(
        self,
        request: WellRecoveryRequest | None = None,
        *,
        static_depth: LengthLike | None = None,
        casing_diameter: LengthLike | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        drop_pipe_diameter: LengthLike | None = None,
        recovery: Recovery | Mapping[str, object] | None = None,
        pumping_test: PumpingTest | Mapping[str, object] | None = None,
        design_flow: FlowLike | None = None,
        limit_depth: LengthLike | None = None,
    ) -> WellRecoveryAnswer:
        """How much water is there.

        The well's specific capacity by how its level comes back after pumping, or by a pumping test less what the
        casing gave; with a flow and a limit, whether the well sustains it, and how long its casing lasts if not.

        Takes a `WellRecoveryRequest` or its fields as keyword arguments. A well, and `recovery` or `pumping_test`; all
        depths are from one point, negative if it flows. `site` is idle.

        static_depth: Length in m, cm, mm, ft or in. Depth to the water at rest. From -328 to 3280 ft (-100 to 1000 m).
        casing_diameter: Length in m, cm, mm, ft or in. Inside, where the level moves; of a dug well its lining. From
            0.788 to 196 in (20 to 5000 mm).
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        drop_pipe_diameter: Length in m, cm, mm, ft or in. Outside, of the pipe that hangs in the well; left out where
            none does. From 0.197 to 39.3 in (5 to 1000 mm).
        recovery: Recovery. How the level came back after pumping.
        pumping_test: PumpingTest. How far the level fell while the well was pumped.
        design_flow: Flow in L/s, L/min, m^3/h, gal/min or gal/h. The flow that is to be drawn. From 0.0159 to 1580
            gal/min (0.06 to 6000 L/min).
        limit_depth: Length in m, cm, mm, ft or in. The lowest water level that is allowed, such as just over the
            intake. From -328 to 3280 ft (-100 to 1000 m).

        Answers a `WellRecoveryAnswer`: how much water the well gives. The answer is in the system of units that `units`
        names. Its `basis` tells by which method and from which source each step was reckoned, `warnings` what is
        doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "static_depth": static_depth,
            "casing_diameter": casing_diameter,
            "units": units,
            "site": site,
            "contributions": contributions,
            "drop_pipe_diameter": drop_pipe_diameter,
            "recovery": recovery,
            "pumping_test": pumping_test,
            "design_flow": design_flow,
            "limit_depth": limit_depth,
        }
        return self._ask("POST", "/v1/well-recovery", WellRecoveryAnswer, built(WellRecoveryRequest, request, fields))

    @overload
    def table(self, name: Literal["pipes"]) -> PipesTable: ...
    @overload
    def table(self, name: Literal["fittings"]) -> FittingsTable: ...
    @overload
    def table(self, name: Literal["valves"]) -> ValvesTable: ...
    @overload
    def table(self, name: Literal["wires"]) -> WiresTable: ...
    @overload
    def table(self, name: Literal["chemistries"]) -> ChemistriesTable: ...
    @overload
    def table(self, name: Literal["cautions"]) -> CautionsTable: ...
    @overload
    def table(self, name: Literal["units"]) -> UnitsTable: ...
    @overload
    def table(
        self, name: TableName
    ) -> PipesTable | FittingsTable | ValvesTable | WiresTable | ChemistriesTable | CautionsTable | UnitsTable: ...
    def table(self, name: str) -> AnswerPart:
        """The trade's numbers.

        The numbers that the answers rest on, each row with its source, in the units that the trade writes them in. A
        table changes with a release of the service alone: keep it, and ask again with its ETag in the header
        If-None-Match: the answer is a 304 where nothing has changed. HEAD answers the same without a body.

        name: "pipes", "fittings", "valves", "wires", "chemistries", "cautions" or "units". Each is answered by a type
            of its own.

        Raises ValueError for another name. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        kind = kind_of(name, _TABLE)
        return self._ask("GET", f"/v1/tables/{name}", kind)

    @overload
    def map(
        self,
        endpoint: Literal["battery-runtime"],
        bodies: Bodies[BatteryRuntimeRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Results[BatteryRuntimeAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["friction"],
        bodies: Bodies[FrictionRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Results[FrictionAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["manifold-check"],
        bodies: Bodies[ManifoldCheckRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Results[ManifoldCheckAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["site-plan"],
        bodies: Bodies[SitePlanRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Results[SitePlanAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["sounding"],
        bodies: Bodies[SoundingRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Results[SoundingAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["suction-feasibility"],
        bodies: Bodies[SuctionFeasibilityRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Results[SuctionFeasibilityAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["tank-cycle"],
        bodies: Bodies[TankCycleRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Results[TankCycleAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["well-recovery"],
        bodies: Bodies[WellRecoveryRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Results[WellRecoveryAnswer]: ...
    @overload
    def map(
        self,
        endpoint: EndpointName,
        bodies: Bodies[Never],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Results[AnswerPart]: ...
    def map(
        self,
        endpoint: str,
        bodies: Any,
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Any:
        """Ask an endpoint about any number of bodies: a `MapResult` for each, in their order.

        Up to `batch_size` bodies go in one request, never more than the service takes, and up to `concurrency` requests
        are on their way at once. No more than twice as many wait for whoever takes the results, so that bodies without
        end are no matter. A body that is refused, or that holds what is no quantity, gives a result with an `error`,
        and spoils no other.

        Threads of its own send the requests. Closing the results early sends nothing more, and leaves what is on its
        way to end by itself.

        endpoint: the name of an endpoint as in its path.
        bodies: each a request Struct of the endpoint, or a mapping in the contract's form, with texts for quantities.
        concurrency: a whole number, 1 or more. Requests at once.
        batch_size: a whole number from 1 to 1000. Bodies in a request: more is quicker, less brings results sooner.
        progress: True or False. Whether to show a bar on the standard error; it needs `footvalve-client[terminal]`.

        Raises `MapStopped` where a request got no answer with all its tries, telling the first body without a result;
        ValueError for another endpoint and for a number out of range; TypeError for a body of another kind; ImportError
        for a bar without what it needs.
        """
        return mapped(self, endpoint, ENDPOINTS, bodies, concurrency, batch_size, progress)


class AsyncOperations(ABC):
    """The operations of a client that is awaited."""

    @abstractmethod
    async def _ask(self, method: str, path: str, kind: type[AnswerT], request: RequestPart | None = None) -> AnswerT:
        """Send the request and read the answer."""

    @overload
    async def batch(self, request: BatchRequest) -> BatchAnswer: ...
    @overload
    async def batch(
        self,
        *,
        items: Sequence[BatchItem | Mapping[str, object]],
    ) -> BatchAnswer: ...
    async def batch(
        self,
        request: BatchRequest | None = None,
        *,
        items: Sequence[BatchItem | Mapping[str, object]] | None = None,
    ) -> BatchAnswer:
        """Many at once.

        Up to 1000 questions in one call. Each is answered as if it had come alone, and the answers keep the order: what
        is wrong with the body of an item, or with its endpoint's name, spoils that item alone, and stands in its place
        as the problem that the endpoint would have answered. What is wrong with the batch itself, such as an item
        without an id, refuses the whole. The work of all items is reckoned before the first of them is begun, each as
        if it came alone, and a batch that asks for too much is refused whole; an item that would be refused for its
        work alone spoils itself alone. An id may stand twice; `warnings` tells of it. The answer comes in pieces while
        it is worked out.

        Takes a `BatchRequest` or its fields as keyword arguments. Questions that are answered one by one, in their
        order.

        items: each BatchItem. The questions.

        Answers a `BatchAnswer`: what each item comes to, in the order of the request.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "items": items,
        }
        return await self._ask("POST", "/v1/batch", BatchAnswer, built(BatchRequest, request, fields))

    @overload
    async def battery_runtime(self, request: BatteryRuntimeRequest) -> BatteryRuntimeAnswer: ...
    @overload
    async def battery_runtime(
        self,
        *,
        battery: Battery | Mapping[str, object],
        loads: Sequence[ElectricLoad | Mapping[str, object]],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        pump_flow: FlowLike | None = None,
        daily_water: VolumeLike | None = None,
        wire: Wire | Mapping[str, object] | None = None,
        charger: Charger | Mapping[str, object] | None = None,
        solar: Solar | Mapping[str, object] | None = None,
        days: int | None = None,
    ) -> BatteryRuntimeAnswer: ...
    async def battery_runtime(
        self,
        request: BatteryRuntimeRequest | None = None,
        *,
        battery: Battery | Mapping[str, object] | None = None,
        loads: Sequence[ElectricLoad | Mapping[str, object]] | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        pump_flow: FlowLike | None = None,
        daily_water: VolumeLike | None = None,
        wire: Wire | Mapping[str, object] | None = None,
        charger: Charger | Mapping[str, object] | None = None,
        solar: Solar | Mapping[str, object] | None = None,
        days: int | None = None,
    ) -> BatteryRuntimeAnswer:
        """How long, how much water, how it comes back.

        What a battery bank gives under a day's loads after rate, temperature, age and floor; what the wire takes; how
        long each charger needs; what the sun covers month by month; and the air that charging cells need.

        Takes a `BatteryRuntimeRequest` or its fields as keyword arguments. A battery bank and what draws on it and
        charges it.

        battery: Battery. The battery bank.
        loads: each ElectricLoad. All that draws on the battery.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        pump_flow: Flow in L/s, L/min, m^3/h, gal/min or gal/h. What the pump brings while it runs. From 0.00159 to 158
            gal/min (0.006 to 600 L/min).
        daily_water: Volume in L, m^3 or gal. Water used in a day; needs `pump_flow`. From 0 to 264000 gal (0 to 1000000
            L).
        wire: Wire. The wire that carries all the loads. What it may carry is reckoned for insulation that bears 60
            degC, in the site's air or in 30 degC, whichever is warmer.
        charger: Charger. Chargers on mains or a generator.
        solar: Solar. A solar array on the battery.
        days: a whole number. How many days of outage `state_of_charge` follows. Default: 3.

        Answers a `BatteryRuntimeAnswer`: how long the battery lasts, how much water it gives, and how it comes back.
        The answer is in the system of units that `units` names. Its `basis` tells by which method and from which source
        each step was reckoned, `warnings` what is doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "battery": battery,
            "loads": loads,
            "units": units,
            "site": site,
            "contributions": contributions,
            "pump_flow": pump_flow,
            "daily_water": daily_water,
            "wire": wire,
            "charger": charger,
            "solar": solar,
            "days": days,
        }
        return await self._ask(
            "POST", "/v1/battery-runtime", BatteryRuntimeAnswer, built(BatteryRuntimeRequest, request, fields)
        )

    @overload
    async def friction(self, request: FrictionRequest) -> FrictionAnswer: ...
    @overload
    async def friction(
        self,
        *,
        line: Sequence[LinePart | Mapping[str, object]],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        flow: FlowLike | None = None,
        flows: Sequence[FlowLike] | None = None,
        method: FrictionMethod | None = None,
    ) -> FrictionAnswer: ...
    async def friction(
        self,
        request: FrictionRequest | None = None,
        *,
        line: Sequence[LinePart | Mapping[str, object]] | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        flow: FlowLike | None = None,
        flows: Sequence[FlowLike] | None = None,
        method: FrictionMethod | None = None,
    ) -> FrictionAnswer:
        """What the line costs.

        The head that each part of a line takes at a flow, and the whole of it, after Darcy and Weisbach or after Hazen
        and Williams. With `flows` it gives the line's curve.

        Takes a `FrictionRequest` or its fields as keyword arguments. A line, and the flow or flows that it is to carry.
        At least one of `flow` and `flows` is given.

        line: each LinePart. The parts in the order in which the water passes them.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        flow: Flow in L/s, L/min, m^3/h, gal/min or gal/h. The flow that the parts are reckoned at. From 0.00159 to 1580
            gal/min (0.006 to 6000 L/min).
        flows: each Flow in L/s, L/min, m^3/h, gal/min or gal/h. Flows for a curve of head against flow; without `flow`
            the parts are reckoned at the greatest of them. Each from 0.00159 to 1580 gal/min (0.006 to 6000 L/min).
        method: "darcy-weisbach" or "hazen-williams". How friction in the pipes is reckoned. Default: darcy-weisbach.

        Answers a `FrictionAnswer`: what the line costs. The answer is in the system of units that `units` names. Its
        `basis` tells by which method and from which source each step was reckoned, `warnings` what is doubtful about
        the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "line": line,
            "units": units,
            "site": site,
            "contributions": contributions,
            "flow": flow,
            "flows": flows,
            "method": method,
        }
        return await self._ask("POST", "/v1/friction", FrictionAnswer, built(FrictionRequest, request, fields))

    async def index(self) -> Index:
        """Where to find what.

        Answers a `Index`: where to find what.

        As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where
        the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
        `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
        `FootvalveError` stands over all of these.
        """
        return await self._ask("GET", "/", Index)

    async def live(self) -> Health:
        """Whether the process lives.

        Answers a `Health`: whether the process lives, or is ready for work.

        As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where
        the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
        `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
        `FootvalveError` stands over all of these.
        """
        return await self._ask("GET", "/live", Health)

    @overload
    async def manifold_check(self, request: ManifoldCheckRequest) -> ManifoldCheckAnswer: ...
    @overload
    async def manifold_check(
        self,
        *,
        nodes: Sequence[str],
        elements: Sequence[ElementsKind | Mapping[str, object]],
        source: str,
        house: str,
        modes: Sequence[ManifoldMode | Mapping[str, object]],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
    ) -> ManifoldCheckAnswer: ...
    async def manifold_check(
        self,
        request: ManifoldCheckRequest | None = None,
        *,
        nodes: Sequence[str] | None = None,
        elements: Sequence[ElementsKind | Mapping[str, object]] | None = None,
        source: str | None = None,
        house: str | None = None,
        modes: Sequence[ManifoldMode | Mapping[str, object]] | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
    ) -> ManifoldCheckAnswer:
        """Will the water go where it should.

        The piping as nodes and elements: for each mode the way from source to house, water that goes round a pump,
        pumps against closed ends, water that runs back, taps that draw air; and what to add, turn or close.

        Takes a `ManifoldCheckRequest` or its fields as keyword arguments. Piping as nodes and the elements between
        them, and the modes in which it is used.

        nodes: each a text. The places where elements meet, each once.
        elements: each ElementsKind. What lies between them, told apart by `kind`.
        source: a text. The node in the well or other open water that is drawn from.
        house: a text. The node at which the house takes its water.
        modes: each ManifoldMode. The ways of using it.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.

        Answers a `ManifoldCheckAnswer`: where the water goes in each mode, and what is wrong with the arrangement. The
        answer is in the system of units that `units` names. Its `basis` tells by which method and from which source
        each step was reckoned, `warnings` what is doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "nodes": nodes,
            "elements": elements,
            "source": source,
            "house": house,
            "modes": modes,
            "units": units,
            "site": site,
            "contributions": contributions,
        }
        return await self._ask(
            "POST", "/v1/manifold-check", ManifoldCheckAnswer, built(ManifoldCheckRequest, request, fields)
        )

    async def ready(self) -> Health:
        """Whether it is ready for work.

        Answers a `Health`: whether the process lives, or is ready for work.

        As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where
        the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
        `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
        `FootvalveError` stands over all of these.
        """
        return await self._ask("GET", "/ready", Health)

    @overload
    async def site_plan(self, request: SitePlanRequest) -> SitePlanAnswer: ...
    @overload
    async def site_plan(
        self,
        *,
        suction_line: Sequence[SuctionLinePart | Mapping[str, object]],
        pump: RotaryPumpPlan | CentrifugalPumpPlan | ReciprocatingPumpPlan | Mapping[str, object],
        switch: Switch | Mapping[str, object],
        house_elevation: LengthLike,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        sounding: SoundingQuestion | Mapping[str, object] | None = None,
        depth_to_water: LengthLike | None = None,
        seasonal_fall: LengthLike | None = None,
        well: WellPlan | Mapping[str, object] | None = None,
        intake_elevation: LengthLike | None = None,
        delivery_line: Sequence[DeliveryLinePart | Mapping[str, object]] | None = None,
        tanks: Sequence[Tank | Mapping[str, object]] | None = None,
        tank_elevation: LengthLike | None = None,
        demand: FlowLike | None = None,
        least_run: DurationLike | None = None,
        gas_exponent: float | None = None,
        daily_water: VolumeLike | None = None,
        battery: Battery | Mapping[str, object] | None = None,
        loads: Sequence[ElectricLoad | Mapping[str, object]] | None = None,
        wire: Wire | Mapping[str, object] | None = None,
        charger: Charger | Mapping[str, object] | None = None,
        solar: Solar | Mapping[str, object] | None = None,
        days: int | None = None,
        manifold: ManifoldQuestion | Mapping[str, object] | None = None,
        policy: Policy | Mapping[str, object] | None = None,
    ) -> SitePlanAnswer: ...
    async def site_plan(
        self,
        request: SitePlanRequest | None = None,
        *,
        suction_line: Sequence[SuctionLinePart | Mapping[str, object]] | None = None,
        pump: RotaryPumpPlan | CentrifugalPumpPlan | ReciprocatingPumpPlan | Mapping[str, object] | None = None,
        switch: Switch | Mapping[str, object] | None = None,
        house_elevation: LengthLike | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        sounding: SoundingQuestion | Mapping[str, object] | None = None,
        depth_to_water: LengthLike | None = None,
        seasonal_fall: LengthLike | None = None,
        well: WellPlan | Mapping[str, object] | None = None,
        intake_elevation: LengthLike | None = None,
        delivery_line: Sequence[DeliveryLinePart | Mapping[str, object]] | None = None,
        tanks: Sequence[Tank | Mapping[str, object]] | None = None,
        tank_elevation: LengthLike | None = None,
        demand: FlowLike | None = None,
        least_run: DurationLike | None = None,
        gas_exponent: float | None = None,
        daily_water: VolumeLike | None = None,
        battery: Battery | Mapping[str, object] | None = None,
        loads: Sequence[ElectricLoad | Mapping[str, object]] | None = None,
        wire: Wire | Mapping[str, object] | None = None,
        charger: Charger | Mapping[str, object] | None = None,
        solar: Solar | Mapping[str, object] | None = None,
        days: int | None = None,
        manifold: ManifoldQuestion | Mapping[str, object] | None = None,
        policy: Policy | Mapping[str, object] | None = None,
    ) -> SitePlanAnswer:
        """The whole job in one call.

        Where the pump runs between cut-in and cut-out on these lines and this well, its mean duty over a filling, and
        what every other endpoint says of that; the verdict on the whole, what would better it, what to do in order, and
        what it is made of.

        Takes a `SitePlanRequest` or its fields as keyword arguments. A site from the water to the taps, with `sounding`
        or `depth_to_water`. A step whose input is missing is left out and named in `to_do`.

        suction_line: each SuctionLinePart. From the water's intake to the pump inlet, in the water's order.
        pump: RotaryPumpPlan, CentrifugalPumpPlan or ReciprocatingPumpPlan. The pump with its curve, told apart by
            `style`.
        switch: Switch. The pressure switch, at the height of the tank.
        house_elevation: Length in m, cm, mm, ft or in. Of the highest tap, above the ground at the wellhead; below
            ground is negative. From -3280 to 3280 ft (-1000 to 1000 m).
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        sounding: SoundingQuestion. What was read at the well, in place of `depth_to_water`.
        depth_to_water: Length in m, cm, mm, ft or in. Static, below the ground at the wellhead; negative for a flowing
            well. From -328 to 3280 ft (-100 to 1000 m).
        seasonal_fall: Length in m, cm, mm, ft or in. How much lower the water stands in the dry season. From 0 to 1640
            ft (0 to 500 m). Default: 0 m.
        well: WellPlan. The well's yield; without it the level is taken not to fall.
        intake_elevation: Length in m, cm, mm, ft or in. Where the suction line takes the water in. Without it the first
            pipe is taken to hang straight down from its end, which is the deepest that it can reach. From -3280 to 3280
            ft (-1000 to 1000 m).
        delivery_line: each DeliveryLinePart. The parts in the order in which the water passes them.
        tanks: each Tank. All pressure tanks on the line. Without them the pump's mean duty is that of one that is
            charged to cut-in, which does not depend on its size.
        tank_elevation: Length in m, cm, mm, ft or in. Of the pressure tank and its switch; that of the highest tap by
            default. From -3280 to 3280 ft (-1000 to 1000 m).
        demand: Flow in L/s, L/min, m^3/h, gal/min or gal/h. A steady flow that the house draws, for the pump's starts:
            0, or 1e-8 m^3/s or more. Without it the day's water is taken evenly over the day, and the starts are judged
            at the demand that makes most. From 0 to 317 gal/min (0 to 1200 L/min).
        least_run: Duration in s, min, h or d. How long the pump shall run at least each time it starts. From 1 s to 1
            h.
        gas_exponent: a number. n in p V^n of the tanks' gas: 1 for a slow cycle, 1.4 for a quick one. Default: 1.
        daily_water: Volume in L, m^3 or gal. Water used in a day. From 0.265 to 264000 gal (1 to 1000000 L).
        battery: Battery. The battery bank that the pump runs on.
        loads: each ElectricLoad. What else draws on the battery. The pump is not among them.
        wire: Wire. The wire that carries all the loads. What it may carry is reckoned for insulation that bears 60
            degC, in the site's air or in 30 degC, whichever is warmer.
        charger: Charger. Chargers on mains or a generator.
        solar: Solar. A solar array on the battery.
        days: a whole number. How many days of outage the battery shall last; without it none are asked of it.
        manifold: ManifoldQuestion. The piping between well, pumps and house.
        policy: Policy. What the caller calls feasible.

        Answers a `SitePlanAnswer`: the whole plan. Basis, cautions and warnings of all its steps are gathered here,
        each once, with pointers into the plan's own request; those lists are empty in the steps. The answer is in the
        system of units that `units` names. Its `basis` tells by which method and from which source each step was
        reckoned, `warnings` what is doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "suction_line": suction_line,
            "pump": pump,
            "switch": switch,
            "house_elevation": house_elevation,
            "units": units,
            "site": site,
            "contributions": contributions,
            "sounding": sounding,
            "depth_to_water": depth_to_water,
            "seasonal_fall": seasonal_fall,
            "well": well,
            "intake_elevation": intake_elevation,
            "delivery_line": delivery_line,
            "tanks": tanks,
            "tank_elevation": tank_elevation,
            "demand": demand,
            "least_run": least_run,
            "gas_exponent": gas_exponent,
            "daily_water": daily_water,
            "battery": battery,
            "loads": loads,
            "wire": wire,
            "charger": charger,
            "solar": solar,
            "days": days,
            "manifold": manifold,
            "policy": policy,
        }
        return await self._ask("POST", "/v1/site-plan", SitePlanAnswer, built(SitePlanRequest, request, fields))

    @overload
    async def sounding(self, request: SoundingRequest) -> SoundingAnswer: ...
    @overload
    async def sounding(
        self,
        *,
        measurement: StoneDrop | WettedTape | AirLine | EchoSounding | DirectSounding | Mapping[str, object],
        measuring_point_height: LengthLike | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
    ) -> SoundingAnswer: ...
    async def sounding(
        self,
        request: SoundingRequest | None = None,
        *,
        measurement: StoneDrop
        | WettedTape
        | AirLine
        | EchoSounding
        | DirectSounding
        | Mapping[str, object]
        | None = None,
        measuring_point_height: LengthLike | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
    ) -> SoundingAnswer:
        """How far down is the water.

        The depth to the water by a dropped stone, a wetted tape, an air line, an echo or a direct reading, from the
        measuring point and from the ground, with how well the readings agree.

        Takes a `SoundingRequest` or its fields as keyword arguments. Readings at a well by one method. `site` matters
        to those that time something or weigh water.

        measurement: StoneDrop, WettedTape, AirLine, EchoSounding or DirectSounding. What was read, told apart by
            `method`.
        measuring_point_height: Length in m, cm, mm, ft or in. Of the point that the readings start from, above the
            ground; negative in a pit. From -32.8 to 32.8 ft (-10 to 10 m). Default: 0 m.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.

        Answers a `SoundingAnswer`: how far down the water stands. The answer is in the system of units that `units`
        names. Its `basis` tells by which method and from which source each step was reckoned, `warnings` what is
        doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "measurement": measurement,
            "measuring_point_height": measuring_point_height,
            "units": units,
            "site": site,
            "contributions": contributions,
        }
        return await self._ask("POST", "/v1/sounding", SoundingAnswer, built(SoundingRequest, request, fields))

    async def suction_check_integrity(self) -> ScriptIntegrity:
        """What holds the script to its bytes.

        Answers a `ScriptIntegrity`: where the script of the suction check stands for good, and the hash that holds it
        to its bytes.

        As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where
        the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
        `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
        `FootvalveError` stands over all of these.
        """
        return await self._ask("GET", "/embed/v1/integrity.json", ScriptIntegrity)

    async def suction_check_languages(self) -> TextLanguages:
        """The languages of the suction check.

        Answers a `TextLanguages`: the languages that the suction check speaks.

        As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where
        the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
        `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
        `FootvalveError` stands over all of these.
        """
        return await self._ask("GET", "/embed/v1/texts", TextLanguages)

    @overload
    async def suction_feasibility(self, request: SuctionFeasibilityRequest) -> SuctionFeasibilityAnswer: ...
    @overload
    async def suction_feasibility(
        self,
        *,
        depth_to_water: LengthLike,
        flow: FlowLike,
        pump: RotaryPump | CentrifugalPump | ReciprocatingPump | Mapping[str, object],
        line: Sequence[LinePart | Mapping[str, object]],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        seasonal_fall: LengthLike | None = None,
        drawdown: LengthLike | None = None,
        specific_capacity: SpecificCapacityLike | None = None,
        intake_elevation: LengthLike | None = None,
        policy: Policy | Mapping[str, object] | None = None,
        limits: bool | None = None,
    ) -> SuctionFeasibilityAnswer: ...
    async def suction_feasibility(
        self,
        request: SuctionFeasibilityRequest | None = None,
        *,
        depth_to_water: LengthLike | None = None,
        flow: FlowLike | None = None,
        pump: RotaryPump | CentrifugalPump | ReciprocatingPump | Mapping[str, object] | None = None,
        line: Sequence[LinePart | Mapping[str, object]] | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        seasonal_fall: LengthLike | None = None,
        drawdown: LengthLike | None = None,
        specific_capacity: SpecificCapacityLike | None = None,
        intake_elevation: LengthLike | None = None,
        policy: Policy | Mapping[str, object] | None = None,
        limits: bool | None = None,
    ) -> SuctionFeasibilityAnswer:
        """Can this well be drawn on from up here.

        The verdict on a suction line from the water's intake to a pump in a dry place: the head that is left at the
        pump inlet against what the pump needs, the pressure at every place on the way, and where air could enter.

        Takes a `SuctionFeasibilityRequest` or its fields as keyword arguments. A well, a line and a pump. Only what is
        listed in `line` costs head.

        depth_to_water: Length in m, cm, mm, ft or in. Static, below the ground at the wellhead; negative for a flowing
            well. From -328 to 3280 ft (-100 to 1000 m).
        flow: Flow in L/s, L/min, m^3/h, gal/min or gal/h. The flow to be drawn. From 0.00159 to 1580 gal/min (0.006 to
            6000 L/min).
        pump: RotaryPump, CentrifugalPump or ReciprocatingPump. The pump, told apart by `style`.
        line: each LinePart. From the water's intake to the pump inlet, in the water's order, with each stopped pump
            that it is pulled through.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        seasonal_fall: Length in m, cm, mm, ft or in. How much lower the water stands in the dry season. From 0 to 1640
            ft (0 to 500 m). Default: 0 m.
        drawdown: Length in m, cm, mm, ft or in. How far the level falls at this flow. From 0 to 1640 ft (0 to 500 m).
        specific_capacity: SpecificCapacity in gal/min/ft or L/s/m. The well's yield for each length of drawdown,
            instead of `drawdown`. From 0.000484 to 4830 gal/min/ft (0.0001 to 1000 L/s/m).
        intake_elevation: Length in m, cm, mm, ft or in. Where the line takes the water in. Without it the first pipe is
            taken to hang straight down from its end, which is the deepest that it can reach. From -3280 to 3280 ft
            (-1000 to 1000 m).
        policy: Policy. What the caller calls feasible.
        limits: True or False. Whether the answer tells how far flow, depth, altitude and pipe size may go, and
            `levers`. Default: false.

        Answers a `SuctionFeasibilityAnswer`: whether the well can be drawn on, and why. The answer is in the system of
        units that `units` names. Its `basis` tells by which method and from which source each step was reckoned,
        `warnings` what is doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "depth_to_water": depth_to_water,
            "flow": flow,
            "pump": pump,
            "line": line,
            "units": units,
            "site": site,
            "contributions": contributions,
            "seasonal_fall": seasonal_fall,
            "drawdown": drawdown,
            "specific_capacity": specific_capacity,
            "intake_elevation": intake_elevation,
            "policy": policy,
            "limits": limits,
        }
        return await self._ask(
            "POST",
            "/v1/suction-feasibility",
            SuctionFeasibilityAnswer,
            built(SuctionFeasibilityRequest, request, fields),
        )

    @overload
    async def tank_cycle(self, request: TankCycleRequest) -> TankCycleAnswer: ...
    @overload
    async def tank_cycle(
        self,
        *,
        tanks: Sequence[Tank | Mapping[str, object]],
        switch: Switch | Mapping[str, object],
        pump: TankPump | Mapping[str, object],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        demand: FlowLike | None = None,
        demands: Sequence[FlowLike] | None = None,
        least_run: DurationLike | None = None,
        gas_exponent: float | None = None,
        observed_drawdown: VolumeLike | None = None,
    ) -> TankCycleAnswer: ...
    async def tank_cycle(
        self,
        request: TankCycleRequest | None = None,
        *,
        tanks: Sequence[Tank | Mapping[str, object]] | None = None,
        switch: Switch | Mapping[str, object] | None = None,
        pump: TankPump | Mapping[str, object] | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        demand: FlowLike | None = None,
        demands: Sequence[FlowLike] | None = None,
        least_run: DurationLike | None = None,
        gas_exponent: float | None = None,
        observed_drawdown: VolumeLike | None = None,
    ) -> TankCycleAnswer:
        """How often does the pump start.

        What pre-charged tanks give between the switch's pressures, how long the pump runs and rests at a demand, the
        demand at which it starts most often, and what a measured drawdown says of the precharge.

        Takes a `TankCycleRequest` or its fields as keyword arguments. Tanks, switch and pump, and what the house draws:
        one of `demand` and `demands`.

        tanks: each Tank. All tanks on the line.
        switch: Switch. The pressure switch.
        pump: TankPump. The pump that fills the tanks.
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        demand: Flow in L/s, L/min, m^3/h, gal/min or gal/h. A steady flow that is drawn from the tanks: 0, or 0.0006
            L/min or more. From 0 to 317 gal/min (0 to 1200 L/min).
        demands: each Flow in L/s, L/min, m^3/h, gal/min or gal/h. Several such flows, each answered in `cycles`; the
            headline is the worst of them: the greatest at which the pump runs on; else the one that starts the pump
            most often; else one at which it stays off. Each from 0 to 317 gal/min (0 to 1200 L/min).
        least_run: Duration in s, min, h or d. How long the pump shall run at least each time it starts. From 1 s to 1
            h.
        gas_exponent: a number. n in p V^n: 1 for a slow cycle (isothermal), 1.4 for a quick one (adiabatic). Default:
            1.
        observed_drawdown: Volume in L, m^3 or gal. Water caught between the pump's stop and its next start, with the
            pump's supply off. From 0 to 52800 gal (0 to 200000 L).

        Answers a `TankCycleAnswer`: how often the pump starts at the demand, or at the worst of the demands. The answer
        is in the system of units that `units` names. Its `basis` tells by which method and from which source each step
        was reckoned, `warnings` what is doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "tanks": tanks,
            "switch": switch,
            "pump": pump,
            "units": units,
            "site": site,
            "contributions": contributions,
            "demand": demand,
            "demands": demands,
            "least_run": least_run,
            "gas_exponent": gas_exponent,
            "observed_drawdown": observed_drawdown,
        }
        return await self._ask("POST", "/v1/tank-cycle", TankCycleAnswer, built(TankCycleRequest, request, fields))

    @overload
    async def well_recovery(self, request: WellRecoveryRequest) -> WellRecoveryAnswer: ...
    @overload
    async def well_recovery(
        self,
        *,
        static_depth: LengthLike,
        casing_diameter: LengthLike,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        drop_pipe_diameter: LengthLike | None = None,
        recovery: Recovery | Mapping[str, object] | None = None,
        pumping_test: PumpingTest | Mapping[str, object] | None = None,
        design_flow: FlowLike | None = None,
        limit_depth: LengthLike | None = None,
    ) -> WellRecoveryAnswer: ...
    async def well_recovery(
        self,
        request: WellRecoveryRequest | None = None,
        *,
        static_depth: LengthLike | None = None,
        casing_diameter: LengthLike | None = None,
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        contributions: bool | None = None,
        drop_pipe_diameter: LengthLike | None = None,
        recovery: Recovery | Mapping[str, object] | None = None,
        pumping_test: PumpingTest | Mapping[str, object] | None = None,
        design_flow: FlowLike | None = None,
        limit_depth: LengthLike | None = None,
    ) -> WellRecoveryAnswer:
        """How much water is there.

        The well's specific capacity by how its level comes back after pumping, or by a pumping test less what the
        casing gave; with a flow and a limit, whether the well sustains it, and how long its casing lasts if not.

        Takes a `WellRecoveryRequest` or its fields as keyword arguments. A well, and `recovery` or `pumping_test`; all
        depths are from one point, negative if it flows. `site` is idle.

        static_depth: Length in m, cm, mm, ft or in. Depth to the water at rest. From -328 to 3280 ft (-100 to 1000 m).
        casing_diameter: Length in m, cm, mm, ft or in. Inside, where the level moves; of a dug well its lining. From
            0.788 to 196 in (20 to 5000 mm).
        units: "us" or "metric". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        contributions: True or False. Whether the answer tells how much each uncertain input has to do with its
            uncertainties. Default: false.
        drop_pipe_diameter: Length in m, cm, mm, ft or in. Outside, of the pipe that hangs in the well; left out where
            none does. From 0.197 to 39.3 in (5 to 1000 mm).
        recovery: Recovery. How the level came back after pumping.
        pumping_test: PumpingTest. How far the level fell while the well was pumped.
        design_flow: Flow in L/s, L/min, m^3/h, gal/min or gal/h. The flow that is to be drawn. From 0.0159 to 1580
            gal/min (0.06 to 6000 L/min).
        limit_depth: Length in m, cm, mm, ft or in. The lowest water level that is allowed, such as just over the
            intake. From -328 to 3280 ft (-100 to 1000 m).

        Answers a `WellRecoveryAnswer`: how much water the well gives. The answer is in the system of units that `units`
        names. Its `basis` tells by which method and from which source each step was reckoned, `warnings` what is
        doubtful about the input, and `cautions` what to watch.

        Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what
        is no quantity of its field's dimension; `BodyTooLarge` for more than the service takes in one request,
        `BadRequest` for what breaks the contract or `Refused` for what physics or the trade does not allow, with
        `faults` that point at each field. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        fields = {
            "static_depth": static_depth,
            "casing_diameter": casing_diameter,
            "units": units,
            "site": site,
            "contributions": contributions,
            "drop_pipe_diameter": drop_pipe_diameter,
            "recovery": recovery,
            "pumping_test": pumping_test,
            "design_flow": design_flow,
            "limit_depth": limit_depth,
        }
        return await self._ask(
            "POST", "/v1/well-recovery", WellRecoveryAnswer, built(WellRecoveryRequest, request, fields)
        )

    @overload
    async def table(self, name: Literal["pipes"]) -> PipesTable: ...
    @overload
    async def table(self, name: Literal["fittings"]) -> FittingsTable: ...
    @overload
    async def table(self, name: Literal["valves"]) -> ValvesTable: ...
    @overload
    async def table(self, name: Literal["wires"]) -> WiresTable: ...
    @overload
    async def table(self, name: Literal["chemistries"]) -> ChemistriesTable: ...
    @overload
    async def table(self, name: Literal["cautions"]) -> CautionsTable: ...
    @overload
    async def table(self, name: Literal["units"]) -> UnitsTable: ...
    @overload
    async def table(
        self, name: TableName
    ) -> PipesTable | FittingsTable | ValvesTable | WiresTable | ChemistriesTable | CautionsTable | UnitsTable: ...
    async def table(self, name: str) -> AnswerPart:
        """The trade's numbers.

        The numbers that the answers rest on, each row with its source, in the units that the trade writes them in. A
        table changes with a release of the service alone: keep it, and ask again with its ETag in the header
        If-None-Match: the answer is a 304 where nothing has changed. HEAD answers the same without a body.

        name: "pipes", "fittings", "valves", "wires", "chemistries", "cautions" or "units". Each is answered by a type
            of its own.

        Raises ValueError for another name. As any call it raises `ConnectionFailed` or `Timeout` where no answer came,
        `KeyNeeded` or `KeyRefused` where the operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where
        its last try was turned away, `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is
        none of its answers. `FootvalveError` stands over all of these.
        """
        kind = kind_of(name, _TABLE)
        return await self._ask("GET", f"/v1/tables/{name}", kind)

    @overload
    def map(
        self,
        endpoint: Literal["battery-runtime"],
        bodies: AwaitedBodies[BatteryRuntimeRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> AwaitedResults[BatteryRuntimeAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["friction"],
        bodies: AwaitedBodies[FrictionRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> AwaitedResults[FrictionAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["manifold-check"],
        bodies: AwaitedBodies[ManifoldCheckRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> AwaitedResults[ManifoldCheckAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["site-plan"],
        bodies: AwaitedBodies[SitePlanRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> AwaitedResults[SitePlanAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["sounding"],
        bodies: AwaitedBodies[SoundingRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> AwaitedResults[SoundingAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["suction-feasibility"],
        bodies: AwaitedBodies[SuctionFeasibilityRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> AwaitedResults[SuctionFeasibilityAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["tank-cycle"],
        bodies: AwaitedBodies[TankCycleRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> AwaitedResults[TankCycleAnswer]: ...
    @overload
    def map(
        self,
        endpoint: Literal["well-recovery"],
        bodies: AwaitedBodies[WellRecoveryRequest],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> AwaitedResults[WellRecoveryAnswer]: ...
    @overload
    def map(
        self,
        endpoint: EndpointName,
        bodies: AwaitedBodies[Never],
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> AwaitedResults[AnswerPart]: ...
    def map(
        self,
        endpoint: str,
        bodies: Any,
        *,
        concurrency: int = 4,
        batch_size: int = BATCH_SIZE,
        progress: bool = False,
    ) -> Any:
        """Ask an endpoint about any number of bodies: a `MapResult` for each, in their order.

        Up to `batch_size` bodies go in one request, never more than the service takes, and up to `concurrency` requests
        are on their way at once. No more than twice as many wait for whoever takes the results, so that bodies without
        end are no matter. A body that is refused, or that holds what is no quantity, gives a result with an `error`,
        and spoils no other.

        It runs in asyncio, and takes bodies of an asynchronous iterable too. Closing the results early, as
        `contextlib.aclosing` does, cancels what is on its way.

        endpoint: the name of an endpoint as in its path.
        bodies: each a request Struct of the endpoint, or a mapping in the contract's form, with texts for quantities.
        concurrency: a whole number, 1 or more. Requests at once.
        batch_size: a whole number from 1 to 1000. Bodies in a request: more is quicker, less brings results sooner.
        progress: True or False. Whether to show a bar on the standard error; it needs `footvalve-client[terminal]`.

        Raises `MapStopped` where a request got no answer with all its tries, telling the first body without a result;
        ValueError for another endpoint and for a number out of range; TypeError for a body of another kind; ImportError
        for a bar without what it needs.
        """
        return mapped_awaited(self, endpoint, ENDPOINTS, bodies, concurrency, batch_size, progress)
