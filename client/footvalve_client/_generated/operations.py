# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
# ruff: noqa: PLR0913
"""The operations of the contract, once for a client that blocks and once for one that is awaited."""

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from typing import TypeVar, overload

from footvalve_client._answer import AnswerPart
from footvalve_client._generated.answers import (
    BatteryRuntimeAnswer,
    FrictionAnswer,
    Health,
    Index,
    SoundingAnswer,
    SuctionFeasibilityAnswer,
    TankCycleAnswer,
    WellRecoveryAnswer,
)
from footvalve_client._generated.closed_lists import (
    FrictionMethod,
    Units,
)
from footvalve_client._generated.quantities import (
    DurationLike,
    FlowLike,
    LengthLike,
    SpecificCapacityLike,
    VolumeLike,
)
from footvalve_client._generated.requests import (
    AirLine,
    Battery,
    BatteryRuntimeRequest,
    CentrifugalPump,
    Charger,
    DirectSounding,
    EchoSounding,
    ElectricLoad,
    FrictionRequest,
    LinePart,
    Policy,
    PumpingTest,
    ReciprocatingPump,
    Recovery,
    RotaryPump,
    Site,
    Solar,
    SoundingRequest,
    StoneDrop,
    SuctionFeasibilityRequest,
    Switch,
    Tank,
    TankCycleRequest,
    TankPump,
    WellRecoveryRequest,
    WettedTape,
    Wire,
)
from footvalve_client._request import RequestPart, built

AnswerT = TypeVar("AnswerT", bound=AnswerPart)


class Operations(ABC):
    """The operations of a client that blocks."""

    @abstractmethod
    def _ask(self, method: str, path: str, kind: type[AnswerT], request: RequestPart | None = None) -> AnswerT:
        """Send the request and read the answer."""

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
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        pump_flow: Flow in L/min, L/s, gal/h, gal/min or m^3/h. What the pump brings while it runs. From 1e-07 to 0.01
            m^3/s.
        daily_water: Volume in L, gal or m^3. Water used in a day; needs `pump_flow`. From 0 to 1000 m^3.
        wire: Wire. The wire that carries all the loads.
        charger: Charger. Chargers on mains or a generator.
        solar: Solar. A solar array on the battery.
        days: a whole number. How many days of outage `state_of_charge` follows. Default: 3.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "battery": battery,
            "loads": loads,
            "units": units,
            "site": site,
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
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        flow: Flow in L/min, L/s, gal/h, gal/min or m^3/h. The flow that the parts are reckoned at. From 1e-07 to 0.1
            m^3/s.
        flows: each Flow in L/min, L/s, gal/h, gal/min or m^3/h. Flows for a curve of head against flow; without `flow`
            the parts are reckoned at the greatest of them. Each from 1e-07 to 0.1 m^3/s.
        method: "darcy-weisbach" or "hazen-williams". How friction in the pipes is reckoned. Default: darcy-weisbach.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "line": line,
            "units": units,
            "site": site,
            "flow": flow,
            "flows": flows,
            "method": method,
        }
        return self._ask("POST", "/v1/friction", FrictionAnswer, built(FrictionRequest, request, fields))

    def index(self) -> Index:
        """Where to find what.

        Raises what `FootvalveError` stands over.
        """
        return self._ask("GET", "/", Index)

    def live(self) -> Health:
        """Whether the process lives.

        Raises what `FootvalveError` stands over.
        """
        return self._ask("GET", "/live", Health)

    def ready(self) -> Health:
        """Whether it is ready for work.

        Raises what `FootvalveError` stands over.
        """
        return self._ask("GET", "/ready", Health)

    @overload
    def sounding(self, request: SoundingRequest) -> SoundingAnswer: ...
    @overload
    def sounding(
        self,
        *,
        measurement: StoneDrop | WettedTape | AirLine | EchoSounding | DirectSounding | Mapping[str, object],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        measuring_point_height: LengthLike | None = None,
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
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        measuring_point_height: LengthLike | None = None,
    ) -> SoundingAnswer:
        """How far down is the water.

        The depth to the water by a dropped stone, a wetted tape, an air line, an echo or a direct reading, from the
        measuring point and from the ground, with how well the readings agree.

        Takes a `SoundingRequest` or its fields as keyword arguments. Readings at a well by one method. `site` matters
        to those that time something or weigh water.

        measurement: StoneDrop, WettedTape, AirLine, EchoSounding or DirectSounding. What was read, told apart by
            `method`.
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        measuring_point_height: Length in cm, ft, in, m or mm. Of the point that the readings start from, above the
            ground; negative in a pit. From -10 to 10 m. Default: 0 m.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "measurement": measurement,
            "units": units,
            "site": site,
            "measuring_point_height": measuring_point_height,
        }
        return self._ask("POST", "/v1/sounding", SoundingAnswer, built(SoundingRequest, request, fields))

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
        seasonal_fall: LengthLike | None = None,
        drawdown: LengthLike | None = None,
        specific_capacity: SpecificCapacityLike | None = None,
        intake_elevation: LengthLike | None = None,
        policy: Policy | Mapping[str, object] | None = None,
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
        seasonal_fall: LengthLike | None = None,
        drawdown: LengthLike | None = None,
        specific_capacity: SpecificCapacityLike | None = None,
        intake_elevation: LengthLike | None = None,
        policy: Policy | Mapping[str, object] | None = None,
    ) -> SuctionFeasibilityAnswer:
        """Can this well be drawn on from up here.

        The verdict on a suction line from the water's intake to a pump in a dry place: the head that is left at the
        pump inlet against what the pump needs, the pressure at every place on the way, and where air could enter.

        Takes a `SuctionFeasibilityRequest` or its fields as keyword arguments. A well, a line and a pump. Only what is
        listed in `line` costs head.

        depth_to_water: Length in cm, ft, in, m or mm. Static, below the ground at the wellhead; negative for a flowing
            well. From -100 to 1000 m.
        flow: Flow in L/min, L/s, gal/h, gal/min or m^3/h. The flow to be drawn. From 1e-07 to 0.1 m^3/s.
        pump: RotaryPump, CentrifugalPump or ReciprocatingPump. The pump, told apart by `style`.
        line: each LinePart. From the water's intake to the pump inlet, in the water's order.
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        seasonal_fall: Length in cm, ft, in, m or mm. How much lower the water stands in the dry season. From 0 to 500
            m. Default: 0 m.
        drawdown: Length in cm, ft, in, m or mm. How far the level falls at this flow. From 0 to 500 m.
        specific_capacity: SpecificCapacity in L/s/m or gal/min/ft. The well's yield for each length of drawdown,
            instead of `drawdown`. From 1e-07 to 1 m^2/s.
        intake_elevation: Length in cm, ft, in, m or mm. Where the line takes the water in. Without it the first pipe is
            taken to hang straight down from its end, which is the deepest that it can reach. From -1000 to 1000 m.
        policy: Policy. What the caller calls feasible.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "depth_to_water": depth_to_water,
            "flow": flow,
            "pump": pump,
            "line": line,
            "units": units,
            "site": site,
            "seasonal_fall": seasonal_fall,
            "drawdown": drawdown,
            "specific_capacity": specific_capacity,
            "intake_elevation": intake_elevation,
            "policy": policy,
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
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        demand: Flow in L/min, L/s, gal/h, gal/min or m^3/h. A steady flow that is drawn from the tanks: 0, or 1e-8
            m^3/s or more. From 0 to 0.02 m^3/s.
        demands: each Flow in L/min, L/s, gal/h, gal/min or m^3/h. Several such flows, each answered in `cycles`; the
            headline is the one among them that starts the pump most often. Each from 0 to 0.02 m^3/s.
        least_run: Duration in d, h, min or s. How long the pump shall run at least each time it starts. From 1 to 3600
            s.
        gas_exponent: a number. n in p V^n: 1 for a slow cycle (isothermal), 1.4 for a quick one (adiabatic). Default:
            1.
        observed_drawdown: Volume in L, gal or m^3. Water caught between the pump's stop and its next start, with the
            pump's supply off. From 0 to 200 m^3.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "tanks": tanks,
            "switch": switch,
            "pump": pump,
            "units": units,
            "site": site,
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
        drop_pipe_diameter: LengthLike | None = None,
        recovery: Recovery | Mapping[str, object] | None = None,
        pumping_test: PumpingTest | Mapping[str, object] | None = None,
        design_flow: FlowLike | None = None,
        limit_depth: LengthLike | None = None,
    ) -> WellRecoveryAnswer:
        """How much water is there.

        The well's specific capacity by how its level comes back after pumping, or by a pumping test less what the
        casing gave; with a flow and a limit, whether the well sustains it, and how long its casing lasts if not.

        Takes a `WellRecoveryRequest` or its fields as keyword arguments. A well, and either `recovery` or
        `pumping_test`. All depths are taken from one point; in a flowing well they are     negative. `site` plays no
        part.

        static_depth: Length in cm, ft, in, m or mm. Depth to the water at rest. From -100 to 1000 m.
        casing_diameter: Length in cm, ft, in, m or mm. Inside, where the level moves; of a dug well its lining. From
            0.02 to 5 m.
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        drop_pipe_diameter: Length in cm, ft, in, m or mm. Outside, of the pipe that hangs in the well; left out where
            none does. From 0.005 to 1 m.
        recovery: Recovery. How the level came back after pumping.
        pumping_test: PumpingTest. How far the level fell while the well was pumped.
        design_flow: Flow in L/min, L/s, gal/h, gal/min or m^3/h. The flow that is to be drawn. From 1e-06 to 0.1 m^3/s.
        limit_depth: Length in cm, ft, in, m or mm. The lowest water level that is allowed, such as just over the
            intake. From -100 to 1000 m.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "static_depth": static_depth,
            "casing_diameter": casing_diameter,
            "units": units,
            "site": site,
            "drop_pipe_diameter": drop_pipe_diameter,
            "recovery": recovery,
            "pumping_test": pumping_test,
            "design_flow": design_flow,
            "limit_depth": limit_depth,
        }
        return self._ask("POST", "/v1/well-recovery", WellRecoveryAnswer, built(WellRecoveryRequest, request, fields))


class AsyncOperations(ABC):
    """The operations of a client that is awaited."""

    @abstractmethod
    async def _ask(self, method: str, path: str, kind: type[AnswerT], request: RequestPart | None = None) -> AnswerT:
        """Send the request and read the answer."""

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
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        pump_flow: Flow in L/min, L/s, gal/h, gal/min or m^3/h. What the pump brings while it runs. From 1e-07 to 0.01
            m^3/s.
        daily_water: Volume in L, gal or m^3. Water used in a day; needs `pump_flow`. From 0 to 1000 m^3.
        wire: Wire. The wire that carries all the loads.
        charger: Charger. Chargers on mains or a generator.
        solar: Solar. A solar array on the battery.
        days: a whole number. How many days of outage `state_of_charge` follows. Default: 3.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "battery": battery,
            "loads": loads,
            "units": units,
            "site": site,
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
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        flow: Flow in L/min, L/s, gal/h, gal/min or m^3/h. The flow that the parts are reckoned at. From 1e-07 to 0.1
            m^3/s.
        flows: each Flow in L/min, L/s, gal/h, gal/min or m^3/h. Flows for a curve of head against flow; without `flow`
            the parts are reckoned at the greatest of them. Each from 1e-07 to 0.1 m^3/s.
        method: "darcy-weisbach" or "hazen-williams". How friction in the pipes is reckoned. Default: darcy-weisbach.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "line": line,
            "units": units,
            "site": site,
            "flow": flow,
            "flows": flows,
            "method": method,
        }
        return await self._ask("POST", "/v1/friction", FrictionAnswer, built(FrictionRequest, request, fields))

    async def index(self) -> Index:
        """Where to find what.

        Raises what `FootvalveError` stands over.
        """
        return await self._ask("GET", "/", Index)

    async def live(self) -> Health:
        """Whether the process lives.

        Raises what `FootvalveError` stands over.
        """
        return await self._ask("GET", "/live", Health)

    async def ready(self) -> Health:
        """Whether it is ready for work.

        Raises what `FootvalveError` stands over.
        """
        return await self._ask("GET", "/ready", Health)

    @overload
    async def sounding(self, request: SoundingRequest) -> SoundingAnswer: ...
    @overload
    async def sounding(
        self,
        *,
        measurement: StoneDrop | WettedTape | AirLine | EchoSounding | DirectSounding | Mapping[str, object],
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        measuring_point_height: LengthLike | None = None,
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
        units: Units | None = None,
        site: Site | Mapping[str, object] | None = None,
        measuring_point_height: LengthLike | None = None,
    ) -> SoundingAnswer:
        """How far down is the water.

        The depth to the water by a dropped stone, a wetted tape, an air line, an echo or a direct reading, from the
        measuring point and from the ground, with how well the readings agree.

        Takes a `SoundingRequest` or its fields as keyword arguments. Readings at a well by one method. `site` matters
        to those that time something or weigh water.

        measurement: StoneDrop, WettedTape, AirLine, EchoSounding or DirectSounding. What was read, told apart by
            `method`.
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        measuring_point_height: Length in cm, ft, in, m or mm. Of the point that the readings start from, above the
            ground; negative in a pit. From -10 to 10 m. Default: 0 m.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "measurement": measurement,
            "units": units,
            "site": site,
            "measuring_point_height": measuring_point_height,
        }
        return await self._ask("POST", "/v1/sounding", SoundingAnswer, built(SoundingRequest, request, fields))

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
        seasonal_fall: LengthLike | None = None,
        drawdown: LengthLike | None = None,
        specific_capacity: SpecificCapacityLike | None = None,
        intake_elevation: LengthLike | None = None,
        policy: Policy | Mapping[str, object] | None = None,
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
        seasonal_fall: LengthLike | None = None,
        drawdown: LengthLike | None = None,
        specific_capacity: SpecificCapacityLike | None = None,
        intake_elevation: LengthLike | None = None,
        policy: Policy | Mapping[str, object] | None = None,
    ) -> SuctionFeasibilityAnswer:
        """Can this well be drawn on from up here.

        The verdict on a suction line from the water's intake to a pump in a dry place: the head that is left at the
        pump inlet against what the pump needs, the pressure at every place on the way, and where air could enter.

        Takes a `SuctionFeasibilityRequest` or its fields as keyword arguments. A well, a line and a pump. Only what is
        listed in `line` costs head.

        depth_to_water: Length in cm, ft, in, m or mm. Static, below the ground at the wellhead; negative for a flowing
            well. From -100 to 1000 m.
        flow: Flow in L/min, L/s, gal/h, gal/min or m^3/h. The flow to be drawn. From 1e-07 to 0.1 m^3/s.
        pump: RotaryPump, CentrifugalPump or ReciprocatingPump. The pump, told apart by `style`.
        line: each LinePart. From the water's intake to the pump inlet, in the water's order.
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        seasonal_fall: Length in cm, ft, in, m or mm. How much lower the water stands in the dry season. From 0 to 500
            m. Default: 0 m.
        drawdown: Length in cm, ft, in, m or mm. How far the level falls at this flow. From 0 to 500 m.
        specific_capacity: SpecificCapacity in L/s/m or gal/min/ft. The well's yield for each length of drawdown,
            instead of `drawdown`. From 1e-07 to 1 m^2/s.
        intake_elevation: Length in cm, ft, in, m or mm. Where the line takes the water in. Without it the first pipe is
            taken to hang straight down from its end, which is the deepest that it can reach. From -1000 to 1000 m.
        policy: Policy. What the caller calls feasible.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "depth_to_water": depth_to_water,
            "flow": flow,
            "pump": pump,
            "line": line,
            "units": units,
            "site": site,
            "seasonal_fall": seasonal_fall,
            "drawdown": drawdown,
            "specific_capacity": specific_capacity,
            "intake_elevation": intake_elevation,
            "policy": policy,
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
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        demand: Flow in L/min, L/s, gal/h, gal/min or m^3/h. A steady flow that is drawn from the tanks: 0, or 1e-8
            m^3/s or more. From 0 to 0.02 m^3/s.
        demands: each Flow in L/min, L/s, gal/h, gal/min or m^3/h. Several such flows, each answered in `cycles`; the
            headline is the one among them that starts the pump most often. Each from 0 to 0.02 m^3/s.
        least_run: Duration in d, h, min or s. How long the pump shall run at least each time it starts. From 1 to 3600
            s.
        gas_exponent: a number. n in p V^n: 1 for a slow cycle (isothermal), 1.4 for a quick one (adiabatic). Default:
            1.
        observed_drawdown: Volume in L, gal or m^3. Water caught between the pump's stop and its next start, with the
            pump's supply off. From 0 to 200 m^3.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "tanks": tanks,
            "switch": switch,
            "pump": pump,
            "units": units,
            "site": site,
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
        drop_pipe_diameter: LengthLike | None = None,
        recovery: Recovery | Mapping[str, object] | None = None,
        pumping_test: PumpingTest | Mapping[str, object] | None = None,
        design_flow: FlowLike | None = None,
        limit_depth: LengthLike | None = None,
    ) -> WellRecoveryAnswer:
        """How much water is there.

        The well's specific capacity by how its level comes back after pumping, or by a pumping test less what the
        casing gave; with a flow and a limit, whether the well sustains it, and how long its casing lasts if not.

        Takes a `WellRecoveryRequest` or its fields as keyword arguments. A well, and either `recovery` or
        `pumping_test`. All depths are taken from one point; in a flowing well they are     negative. `site` plays no
        part.

        static_depth: Length in cm, ft, in, m or mm. Depth to the water at rest. From -100 to 1000 m.
        casing_diameter: Length in cm, ft, in, m or mm. Inside, where the level moves; of a dug well its lining. From
            0.02 to 5 m.
        units: "metric" or "us". The system of units in which the answer speaks. Default: us.
        site: Site. The place; each field has a default.
        drop_pipe_diameter: Length in cm, ft, in, m or mm. Outside, of the pipe that hangs in the well; left out where
            none does. From 0.005 to 1 m.
        recovery: Recovery. How the level came back after pumping.
        pumping_test: PumpingTest. How far the level fell while the well was pumped.
        design_flow: Flow in L/min, L/s, gal/h, gal/min or m^3/h. The flow that is to be drawn. From 1e-06 to 0.1 m^3/s.
        limit_depth: Length in cm, ft, in, m or mm. The lowest water level that is allowed, such as just over the
            intake. From -100 to 1000 m.

        Raises what `FootvalveError` stands over.
        """
        fields = {
            "static_depth": static_depth,
            "casing_diameter": casing_diameter,
            "units": units,
            "site": site,
            "drop_pipe_diameter": drop_pipe_diameter,
            "recovery": recovery,
            "pumping_test": pumping_test,
            "design_flow": design_flow,
            "limit_depth": limit_depth,
        }
        return await self._ask(
            "POST", "/v1/well-recovery", WellRecoveryAnswer, built(WellRecoveryRequest, request, fields)
        )
