"""The wire of `site-plan`: the whole job in one call."""

from typing import Annotated

from msgspec import UNSET, Meta, Struct, UnsetType, field

from footvalve.contract.answer import Answer
from footvalve.contract.battery_runtime import (
    Battery,
    BatteryRuntimeAnswer,
    Charger,
    ElectricLoad,
    LoadWire,
    Solar,
)
from footvalve.contract.friction import FrictionAnswer
from footvalve.contract.line import Elevation, Line
from footvalve.contract.manifold_check import ManifoldCheckAnswer, ManifoldQuestion
from footvalve.contract.quantities import (
    Charge,
    Current,
    Duration,
    Flow,
    Length,
    Pressure,
    SpecificCapacity,
    Voltage,
    Volume,
)
from footvalve.contract.ranges import Within
from footvalve.contract.request import Request
from footvalve.contract.sounding import SoundingAnswer, SoundingQuestion
from footvalve.contract.suction_feasibility import (
    CentrifugalPump,
    Lever,
    Policy,
    ReciprocatingPump,
    RotaryPump,
    SuctionFeasibilityAnswer,
    Verdict,
)
from footvalve.contract.tank_cycle import Switch, Tank, TankCycleAnswer, TankFlow
from footvalve.contract.well_recovery import PumpingTest, Recovery, WellDepth, WellRecoveryAnswer

LEAST_PLANNED_FLOW = 1e-6
"""m^3/s. A pump that gives less gives nothing, for all that a house draws (own choice)."""

MOST_PUMP_POINTS = 100


class PumpedPoint(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What the pump does at one rise of pressure from its inlet to its outlet."""

    pressure: Annotated[Pressure, Within(0.0, 3.0e6), Meta(description="At the outlet, less that at the inlet.")]
    flow: Annotated[
        Flow,
        Within(0.0, 0.01),
        Meta(description="What the pump gives there; 0 at shut-off, else 1e-6 m^3/s or more."),
    ]
    current: Annotated[
        Current | UnsetType,
        Within(0.0, 500.0),
        Meta(description="What it draws there, at the battery's voltage; given at every point or at none."),
    ] = UNSET


PumpedPoints = Annotated[
    list[PumpedPoint],
    Meta(
        min_length=2,
        max_length=MOST_PUMP_POINTS,
        description="Points of its curve in order of rising pressure; flow and current are straight between them, and "
        "the flow never rises. They begin low enough for the rise that cut-in takes, or below.",
    ),
]
PumpVoltage = Annotated[
    Voltage | UnsetType,
    Within(1.0, 1000.0),
    Meta(description="What the pump is made for; the battery's must lie within a quarter of it."),
]


class RotaryPumpPlan(RotaryPump, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="rotary"):
    """A rotary displacement pump with its curve."""

    points: PumpedPoints
    voltage: PumpVoltage = UNSET


class CentrifugalPumpPlan(CentrifugalPump, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="centrifugal"):
    """A centrifugal pump with its curve."""

    points: PumpedPoints
    voltage: PumpVoltage = UNSET


class ReciprocatingPumpPlan(
    ReciprocatingPump, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="reciprocating"
):
    """A piston or diaphragm pump with its curve."""

    points: PumpedPoints
    voltage: PumpVoltage = UNSET


PumpPlan = RotaryPumpPlan | CentrifugalPumpPlan | ReciprocatingPumpPlan


class WellPlan(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """The well's yield, by one of `recovery`, `pumping_test`, `specific_capacity` and `drawdown`. The first two need
    `casing_diameter`, and their depths are all taken from one point: that of `static_depth`, or without it that of
    the sounding, or without that the ground."""

    recovery: Annotated[Recovery | UnsetType, Meta(description="How the level came back after pumping.")] = UNSET
    pumping_test: Annotated[
        PumpingTest | UnsetType, Meta(description="How far the level fell while the well was pumped.")
    ] = UNSET
    specific_capacity: Annotated[
        SpecificCapacity | UnsetType,
        Within(1e-7, 1.0),
        Meta(description="The well's yield for each length of drawdown, where it is known."),
    ] = UNSET
    drawdown: Annotated[
        Length | UnsetType,
        Within(0.0, 500.0),
        Meta(description="How far the level falls, taken as the same at any flow."),
    ] = UNSET
    static_depth: Annotated[
        WellDepth | UnsetType,
        Meta(
            description="Depth to the water at rest when the recovery or the test was read, where that was another "
            "than the plan's."
        ),
    ] = UNSET
    casing_diameter: Annotated[
        Length | UnsetType,
        Within(0.02, 5.0),
        Meta(description="Inside, where the level moves; of a dug well its lining."),
    ] = UNSET
    drop_pipe_diameter: Annotated[
        Length | UnsetType,
        Within(0.005, 1.0),
        Meta(description="Outside, of the pipe that hangs in the well; left out where none does."),
    ] = UNSET
    limit_depth: Annotated[
        WellDepth | UnsetType,
        Meta(
            description="The lowest water level that is allowed, below the ground at the wellhead; without it, or "
            "where it lies deeper, one foot over the intake."
        ),
    ] = UNSET


class SitePlanRequest(Request, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A site from the water to the taps, with `sounding` or `depth_to_water`. A step whose input is missing is left
    out and named in `to_do`."""

    sounding: Annotated[
        SoundingQuestion | UnsetType, Meta(description="What was read at the well, in place of `depth_to_water`.")
    ] = UNSET
    depth_to_water: Annotated[
        Length | UnsetType,
        Within(-100.0, 1000.0),
        Meta(description="Static, below the ground at the wellhead; negative for a flowing well."),
    ] = UNSET
    seasonal_fall: Annotated[
        Length, Within(0.0, 500.0), Meta(description="How much lower the water stands in the dry season.")
    ] = Length(0.0, "m")
    well: Annotated[
        WellPlan | UnsetType, Meta(description="The well's yield; without it the level is taken not to fall.")
    ] = UNSET
    suction_line: Annotated[Line, Meta(description="From the water's intake to the pump inlet, in the water's order.")]
    intake_elevation: Annotated[
        Elevation | UnsetType,
        Meta(
            description="Where the suction line takes the water in. Without it the first pipe is taken to hang "
            "straight down from its end, which is the deepest that it can reach."
        ),
    ] = UNSET
    pump: Annotated[PumpPlan, Meta(description="The pump with its curve, told apart by `style`.")]
    delivery_line: Annotated[
        Line | UnsetType,
        Meta(description="From the pump's outlet to the tank; without it nothing is counted for its friction."),
    ] = UNSET
    switch: Annotated[Switch, Meta(description="The pressure switch, at the height of the tank.")]
    tanks: Annotated[
        Annotated[list[Tank], Meta(min_length=1, max_length=10)] | UnsetType,
        Meta(
            description="All pressure tanks on the line. Without them the pump's mean duty is that of one that is "
            "charged to cut-in, which does not depend on its size."
        ),
    ] = UNSET
    house_elevation: Annotated[
        Elevation, Meta(description="Of the highest tap, above the ground at the wellhead; below ground is negative.")
    ]
    tank_elevation: Annotated[
        Elevation | UnsetType,
        Meta(description="Of the pressure tank and its switch; that of the highest tap by default."),
    ] = UNSET
    demand: Annotated[
        TankFlow | UnsetType,
        Meta(
            description="A steady flow that the house draws, for the pump's starts: 0, or 1e-8 m^3/s or more. Without "
            "it the day's water is taken evenly over the day, and the starts are judged at the demand that makes most."
        ),
    ] = UNSET
    least_run: Annotated[
        Duration | UnsetType,
        Within(1.0, 3600.0),
        Meta(description="How long the pump shall run at least each time it starts."),
    ] = UNSET
    gas_exponent: Annotated[
        float,
        Meta(ge=1, le=1.4, description="n in p V^n of the tanks' gas: 1 for a slow cycle, 1.4 for a quick one."),
    ] = 1.0
    daily_water: Annotated[Volume | UnsetType, Within(0.001, 1000.0), Meta(description="Water used in a day.")] = UNSET
    battery: Annotated[Battery | UnsetType, Meta(description="The battery bank that the pump runs on.")] = UNSET
    loads: Annotated[
        Annotated[list[ElectricLoad], Meta(max_length=49)] | UnsetType,
        Meta(description="What else draws on the battery. The pump is not among them."),
    ] = UNSET
    wire: LoadWire = UNSET
    charger: Annotated[Charger | UnsetType, Meta(description="Chargers on mains or a generator.")] = UNSET
    solar: Annotated[Solar | UnsetType, Meta(description="A solar array on the battery.")] = UNSET
    days: Annotated[
        Annotated[int, Meta(ge=1, le=60, extra_json_schema={"format": "int32"})] | UnsetType,
        Meta(description="How many days of outage the battery shall last; without it none are asked of it."),
    ] = UNSET
    manifold: Annotated[ManifoldQuestion | UnsetType, Meta(description="The piping between well, pumps and house.")] = (
        UNSET
    )
    policy: Annotated[Policy, Meta(description="What the caller calls feasible.")] = Policy()


class DutyPoint(Struct, frozen=True, kw_only=True):
    """Where the pump runs against one pressure in the tank."""

    tank_pressure: Annotated[Pressure, Meta(description="In the tank.")]
    pump_rise: Annotated[Pressure, Meta(description="From the pump's inlet to its outlet.")]
    flow: Annotated[Flow, Meta(description="What the pump gives.")]
    current: Annotated[Current | UnsetType, Meta(description="What it draws; absent where no point tells it.")] = UNSET


class MeanDuty(Struct, frozen=True, kw_only=True):
    """The pump's mean over the time of one filling, from cut-in to cut-out with nothing drawn."""

    flow: Annotated[Flow, Meta(description="Water of one filling over the time that it takes.")]
    current: Annotated[Current | UnsetType, Meta(description="Charge of one filling over the time.")] = UNSET


class ChargePerVolume(Struct, frozen=True, kw_only=True):
    """The charge that some water takes."""

    charge: Annotated[Charge, Meta(description="What the pump draws for it, on the mean.")]
    volume: Annotated[Volume, Meta(description="The water: 100 gal, or 100 L.")]


class TapPressure(Struct, frozen=True, kw_only=True):
    """The pressure at the highest tap with the water at rest."""

    at_cut_in: Annotated[Pressure, Meta(description="When the pump starts.")]
    at_cut_out: Annotated[Pressure, Meta(description="When it stops.")]


class Duty(Struct, frozen=True, kw_only=True):
    """How the pump runs between cut-in and cut-out, and what a day takes of it."""

    cut_in: Annotated[
        DutyPoint | UnsetType, Meta(description="Where the pump starts; absent where it gives nothing there.")
    ] = UNSET
    mean: Annotated[MeanDuty | UnsetType, Meta(description="Absent where the pump does not reach cut-out.")] = UNSET
    cut_out: Annotated[DutyPoint | UnsetType, Meta(description="Where it stops; absent as `mean`.")] = UNSET
    greatest_tank_pressure: Annotated[
        Pressure | UnsetType,
        Meta(
            description="Up to which the pump's points show that it fills the tank; absent where it does not lift the "
            "water up to the tank at all."
        ),
    ] = UNSET
    tap_pressure: Annotated[TapPressure, Meta(description="At the highest tap.")]
    run_hours_per_day: Annotated[
        float | UnsetType, Meta(description="Daily water over the mean flow; absent without either.")
    ] = UNSET
    charge_per_volume: Annotated[
        ChargePerVolume | UnsetType, Meta(description="Absent where the pump's current is not known.")
    ] = UNSET
    charge_per_day: Annotated[
        Charge | UnsetType, Meta(description="Mean current times the run hours; absent without either.")
    ] = UNSET


class Material(Struct, frozen=True, kw_only=True):
    """A thing that the plan is made of, whether it is there already or is to be bought."""

    item: Annotated[str, Meta(description="What it is.")]
    size: Annotated[str | UnsetType, Meta(description="Its size, rating or setting.")] = UNSET
    count: Annotated[
        Annotated[int, Meta(ge=1, extra_json_schema={"format": "int32"})] | UnsetType,
        Meta(description="How many; absent for what comes by the length."),
    ] = UNSET
    length: Annotated[Length | UnsetType, Meta(description="How much of it, for what comes by the length.")] = UNSET
    purpose: Annotated[str, Meta(description="What it is for.")] = field(name="for")


class SitePlanAnswer(Answer, frozen=True, kw_only=True):
    """The whole plan. Basis, cautions and warnings of all its steps are gathered here, each once, with pointers into
    the plan's own request; those lists are empty in the steps."""

    verdict: Annotated[
        Verdict,
        Meta(
            description="`infeasible` where the suction side is, the pump does not reach cut-out, the highest tap is "
            "without pressure at cut-in, the pump would have to run more than 24 hours a day, the well is dry or "
            "nothing flows into it, the wire carries less in the site's air than is drawn, or the manifold has no "
            "pump, a mode of it that runs a pump does not deliver, or none does. `marginal` where the suction side is, "
            "the suction line has no check valve, the well is short of a day's water or its level settles below a "
            "stated limit, the highest tap has less than 5 psi at cut-in, the pump starts too often, runs too briefly "
            "or does not keep up with `demand`, the battery does not last `days` or is drawn on by more than its "
            "capacity in an hour, nothing charges it fully or within 3 days, a charger is too strong for it, the wire "
            "takes more than 5 % of its voltage, carries less than its fuse or is said to be warmer than 60 degC, or "
            "the manifold is wrong or doubtful. Else `feasible`, as far as the input tells."
        ),
    ]
    summary: Annotated[list[str], Meta(max_length=5, description="The plan in at most five sentences.")]
    reasons: Annotated[
        list[str], Meta(description="All that keeps the verdict from `feasible`, the gravest first; else empty.")
    ]
    duty: Annotated[Duty, Meta(description="How the pump runs.")]
    sounding: Annotated[SoundingAnswer | UnsetType, Meta(description="Absent with `depth_to_water`.")] = UNSET
    well_recovery: Annotated[
        WellRecoveryAnswer | UnsetType,
        Meta(
            description="For `recovery` or `pumping_test`, at the greatest flow, with all depths below the ground and "
            "as deep as in the dry season."
        ),
    ] = field(name="well-recovery", default=UNSET)
    suction_feasibility: Annotated[
        SuctionFeasibilityAnswer | UnsetType,
        Meta(description="At the greatest flow, that at cut-in; absent where the pump gives none."),
    ] = field(name="suction-feasibility", default=UNSET)
    friction: Annotated[FrictionAnswer | UnsetType, Meta(description="Of the delivery line, at the greatest flow.")] = (
        UNSET
    )
    tank_cycle: Annotated[
        TankCycleAnswer | UnsetType,
        Meta(description="With what the pump gives into the tank; absent without tanks, or short of cut-out."),
    ] = field(name="tank-cycle", default=UNSET)
    battery_runtime: Annotated[
        BatteryRuntimeAnswer | UnsetType,
        Meta(
            description="With the pump's mean flow and current, and its greatest current for wire and fuse; absent "
            "without battery, current or daily water."
        ),
    ] = field(name="battery-runtime", default=UNSET)
    manifold_check: Annotated[ManifoldCheckAnswer | UnsetType, Meta(description="Absent without `manifold`.")] = field(
        name="manifold-check", default=UNSET
    )
    levers: Annotated[
        list[Lever],
        Meta(
            description="Where the suction side is not feasible: single changes, each reckoned again with the pump's "
            "new flow, the sufficient ones first. Else empty."
        ),
    ]
    to_do: Annotated[list[str], Meta(description="What is to be done, in order.")]
    materials: Annotated[list[Material], Meta(description="What the plan is made of.")]
