"""The wire of `suction-feasibility`: can this well be drawn on from up here."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Struct, UnsetType

from footvalve.contract.answer import Answer
from footvalve.contract.line import Elevation, Line, LineFlow, NominalSize
from footvalve.contract.quantities import Duration, Flow, Length, Pressure, SpecificCapacity, Volume
from footvalve.contract.ranges import Within
from footvalve.contract.request import Request

Verdict = Literal["feasible", "marginal", "infeasible"]

PartIndex = Annotated[
    int, Meta(ge=0, description="Place in the request's line, from 0.", extra_json_schema={"format": "int32"})
]

LimitName = Literal["greatest_flow", "greatest_depth_to_water", "greatest_altitude"]


class SuctionPump(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, tag_field="style"):
    """A pump that draws by suction. What it needs at its inlet is told by one of `npsh_required` and
    `rated_suction_lift`."""

    inlet_elevation: Annotated[
        Elevation, Meta(description="Of the pump's inlet, above the ground at the wellhead; below ground is negative.")
    ]
    npsh_required: Annotated[
        Length | UnsetType, Within(0.0, 15.0), Meta(description="Net positive suction head that the pump needs.")
    ] = UNSET
    rated_suction_lift: Annotated[
        Length | UnsetType,
        Within(0.0, 10.0),
        Meta(
            description="The maker's suction lift at sea level with cold water, at this flow: a dead-head figure makes "
            "the pump seem to need almost no NPSH."
        ),
    ] = UNSET


class RotaryPump(SuctionPump, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="rotary"):
    """A rotary displacement pump: vane, gear, screw, flexible impeller, rotary piston."""


class CentrifugalPump(SuctionPump, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="centrifugal"):
    """A centrifugal pump; it draws no air out of a dry line unless it is of a self-priming kind."""


class ReciprocatingPump(SuctionPump, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="reciprocating"):
    """A piston or diaphragm pump: each stroke has to speed up the water in the suction line."""

    strokes_per_minute: Annotated[float, Meta(ge=10, le=6000, description="Strokes of each chamber in a minute.")]
    chambers: Annotated[Literal[1, 2, 3, 4, 5, 6, 7, 9], Meta(description="Chambers that draw in turn, in even phase.")]
    gas_cushion: Annotated[bool, Meta(description="Whether a gas cushion close to the inlet takes up the strokes.")] = (
        False
    )


class Policy(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What the caller calls feasible."""

    margin: Annotated[
        Length, Within(0.0, 15.0), Meta(description="NPSH to spare that a feasible site has at least.")
    ] = Length(3.0, "ft")


class SuctionFeasibilityRequest(Request, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A well, a line and a pump. Only what is listed in `line` costs head."""

    depth_to_water: Annotated[
        Length,
        Within(-100.0, 1000.0),
        Meta(description="Static, below the ground at the wellhead; negative for a flowing well."),
    ]
    seasonal_fall: Annotated[
        Length, Within(0.0, 500.0), Meta(description="How much lower the water stands in the dry season.")
    ] = Length(0.0, "m")
    drawdown: Annotated[
        Length | UnsetType, Within(0.0, 500.0), Meta(description="How far the level falls at this flow.")
    ] = UNSET
    specific_capacity: Annotated[
        SpecificCapacity | UnsetType,
        Within(1e-7, 1.0),
        Meta(description="The well's yield for each length of drawdown, instead of `drawdown`."),
    ] = UNSET
    flow: Annotated[LineFlow, Meta(description="The flow to be drawn.")]
    pump: Annotated[
        RotaryPump | CentrifugalPump | ReciprocatingPump, Meta(description="The pump, told apart by `style`.")
    ]
    intake_elevation: Annotated[
        Elevation | UnsetType,
        Meta(
            description="Where the line takes the water in. Without it the first pipe is taken to hang straight "
            "down from its end, which is the deepest that it can reach."
        ),
    ] = UNSET
    line: Annotated[
        Line,
        Meta(
            description="From the water's intake to the pump inlet, in the water's order, with each stopped pump that "
            "it is pulled through."
        ),
    ]
    policy: Annotated[Policy, Meta(description="What the caller calls feasible.")] = Policy()
    limits: Annotated[
        bool,
        Meta(description="Whether the answer tells how far flow, depth, altitude and pipe size may go, and `levers`."),
    ] = False


class ProfileNode(Struct, frozen=True, kw_only=True):
    """A place on the line: the intake, or the end of a part. Pressures are static, at the pumping level."""

    index: Annotated[PartIndex | UnsetType, Meta(description="The part that ends here; absent at the intake.")] = UNSET
    name: Annotated[str, Meta(description="`intake`, or the name of the part that ends here.")]
    elevation: Annotated[Length, Meta(description="Above the ground at the wellhead.")]
    absolute_pressure: Annotated[
        Pressure,
        Meta(description="What the line calls for here; below the vapour pressure it cannot be had: the water boils."),
    ]
    gauge_pressure: Annotated[Pressure, Meta(description="Against the air of the site.")]
    above_vapour: Annotated[Length, Meta(description="Head that is left here before the water boils.")]
    under_vacuum: Annotated[bool, Meta(description="Whether the pressure is below that of the air.")]


class AirEntry(Struct, frozen=True, kw_only=True):
    """A part that stands under vacuum, where any opening draws air."""

    index: PartIndex
    name: Annotated[str, Meta(description="The part's name.")]


class Priming(Struct, frozen=True, kw_only=True):
    """Drawing the air out of a dry line."""

    line_volume: Annotated[Volume, Meta(description="Air in the line above the water at rest.")]
    time: Annotated[
        Duration | UnsetType,
        Meta(
            description="The least time in which a displacement pump draws it out at this flow; absent where this "
            "pump or this lift does not allow it."
        ),
    ] = UNSET


class LiftRule(Struct, frozen=True, kw_only=True):
    """What the trade's rule of thumb says."""

    allowed_lift: Annotated[Length, Meta(description="The lift that the rule allows at this altitude.")]
    agrees: Annotated[bool, Meta(description="Whether the rule and the verdict say the same.")]


class SmallestSize(Struct, frozen=True, kw_only=True):
    """The narrowest pipe that will do."""

    nominal: Annotated[NominalSize, Meta(description="The nominal size in inches.")]
    bore: Annotated[
        Length, Meta(description="Inside diameter in that size, of the narrowest of the products in the line.")
    ]


class Lever(Struct, frozen=True, kw_only=True):
    """One change that betters the suction side, everything else left as it is."""

    change: Annotated[str, Meta(description="What to change, and how far.")]
    pointer: Annotated[str, Meta(description="JSON Pointer (RFC 6901) to the field in the request that changes.")]
    margin: Annotated[Length, Meta(description="NPSH available less required after it.")]
    verdict: Annotated[Verdict, Meta(description="Of the suction side after it.")]


class SuctionFeasibilityAnswer(Answer, frozen=True, kw_only=True):
    """Whether the well can be drawn on, and why."""

    verdict: Annotated[
        Verdict,
        Meta(
            description="`feasible` where the margin reaches the policy's; `infeasible` where it is below zero, the "
            "water boils on the way, or no water stands over the intake; `marginal` between. Also `marginal` instead "
            "of `feasible` where less than 0.3 m (1 ft) of water stands over the intake, where a place on the way has "
            "less head before it boils than the policy's margin, where the line rises higher than this pump draws a "
            "dry line, and where the disc of a check valve that this flow does not lift may take so much more than "
            "is counted that the verdict would turn."
        ),
    ]
    npsh_available: Annotated[Length, Meta(description="Net positive suction head at the pump inlet.")]
    npsh_required: Annotated[Length, Meta(description="What the pump needs of it.")]
    margin: Annotated[
        Length,
        Meta(description="Available less required, by what is counted: check valves as if their discs were lifted."),
    ]
    chance_feasible: Annotated[
        Annotated[float, Meta(ge=0, le=1)] | UnsetType,
        Meta(
            description="The chance that the margin reaches the policy's and nothing else stands against `feasible`, "
            "where an input is uncertain: each as a normal distribution, independent of the others, without what "
            "cannot be. Good to 0.03, or a warning says that it is not."
        ),
    ] = UNSET
    pumping_depth: Annotated[
        Length, Meta(description="To the water while it is drawn, in the dry season, below the ground.")
    ]
    static_lift: Annotated[Length, Meta(description="From the pumping water level up to the pump inlet.")]
    losses: Annotated[Length, Meta(description="Head lost in the whole line, from the intake on.")]
    acceleration_head: Annotated[
        Length, Meta(description="Head that a reciprocating pump's stroke takes; nil for others.")
    ]
    priming: Priming
    profile: Annotated[list[ProfileNode], Meta(description="The intake, then each part's end in order.")]
    tightest: Annotated[ProfileNode, Meta(description="The node that is nearest to boiling.")]
    air_entry: Annotated[list[AirEntry], Meta(description="The parts that stand under vacuum.")]
    rule_of_thumb: LiftRule
    reasons: Annotated[list[str], Meta(description="Why the verdict is what it is, in the trade's words.")]
    greatest_flow: Annotated[
        Flow | UnsetType,
        Meta(
            description="With `limits` in the request: the greatest flow at which the verdict is still `feasible`, all "
            "else as it is stated, however uncertain that is. Fed back it gives that verdict, a little more does not, "
            "and every smaller one that the field takes is `feasible` too; absent where none is. A stated `drawdown` "
            "and the pump's NPSH are taken as the same at any flow."
        ),
    ] = UNSET
    greatest_depth_to_water: Annotated[
        Length | UnsetType,
        Meta(
            description="Likewise the greatest static depth, below the ground at the wellhead; the intake stays where "
            "it is."
        ),
    ] = UNSET
    greatest_altitude: Annotated[
        Length | UnsetType, Meta(description="Likewise the greatest altitude above mean sea level.")
    ] = UNSET
    smallest_size: Annotated[
        SmallestSize | UnsetType,
        Meta(
            description="With `limits`: the smallest nominal size that all the pipes given by `size` may have at once, "
            "each in its own product. Absent where no pipe is given so, where no size suffices, and where the line "
            "holds a change of bore that no such size leaves in place."
        ),
    ] = UNSET
    limits_at_range_end: Annotated[
        list[LimitName] | UnsetType,
        Meta(
            description="With `limits`: which of them are only the end of what their field takes: it is still "
            "`feasible` there."
        ),
    ] = UNSET
    levers: Annotated[
        list[Lever] | UnsetType,
        Meta(
            description="With `limits` in the request, where the verdict is not `feasible`: single changes, each "
            "reckoned again, the sufficient ones first. Empty where it is."
        ),
    ] = UNSET
