"""The wire of `well-recovery`: how much water is there."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Struct, UnsetType

from footvalve.contract.answer import Answer
from footvalve.contract.quantities import Duration, Flow, Length, SpecificCapacity, Volume
from footvalve.contract.ranges import Within
from footvalve.contract.request import Request

WellVerdict = Literal["sustains", "storage-limited", "dry"]

DEEPEST = 1000.0
"""m: no well of the contract is deeper."""

WellDepth = Annotated[Length, Within(-100.0, DEEPEST)]
WellFlow = Annotated[Flow, Within(1e-6, 0.1)]


class RecoveryReading(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """The level at one time after pumping stopped."""

    elapsed: Annotated[Duration, Within(0.0, 864000.0), Meta(description="Since pumping stopped.")]
    depth: Annotated[WellDepth, Meta(description="Depth to the water, from the same point as `static_depth`.")]


class Recovery(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """How the level came back."""

    readings: Annotated[
        list[RecoveryReading],
        Meta(
            min_length=2,
            max_length=1000,
            description="Two or more, from three on with a measure of how good they are. In any order: each counts at "
            "its own time, and one that is out of order is warned of.",
        ),
    ]


class PumpingTest(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """How far the level fell while the well was pumped, from rest."""

    flow: Annotated[WellFlow, Meta(description="The steady flow that was pumped.")]
    pumping_depth: Annotated[
        WellDepth, Meta(description="Depth to the water at the end, from the same point as `static_depth`.")
    ]
    duration: Annotated[
        Duration,
        Within(1.0, 2592000.0),
        Meta(description="How long it was pumped; at first the casing gives the water and not the ground."),
    ]


class WellRecoveryRequest(Request, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A well, and `recovery` or `pumping_test`; all depths are from one point, negative if it flows. `site` is idle."""

    static_depth: Annotated[WellDepth, Meta(description="Depth to the water at rest.")]
    casing_diameter: Annotated[
        Length, Within(0.02, 5.0), Meta(description="Inside, where the level moves; of a dug well its lining.")
    ]
    drop_pipe_diameter: Annotated[
        Length | UnsetType,
        Within(0.005, 1.0),
        Meta(description="Outside, of the pipe that hangs in the well; left out where none does."),
    ] = UNSET
    recovery: Annotated[Recovery | UnsetType, Meta(description="How the level came back after pumping.")] = UNSET
    pumping_test: Annotated[
        PumpingTest | UnsetType, Meta(description="How far the level fell while the well was pumped.")
    ] = UNSET
    design_flow: Annotated[WellFlow | UnsetType, Meta(description="The flow that is to be drawn.")] = UNSET
    limit_depth: Annotated[
        WellDepth | UnsetType, Meta(description="The lowest water level that is allowed, such as just over the intake.")
    ] = UNSET


class RecoveryFit(Struct, frozen=True, kw_only=True):
    """How well an exponential recovery describes the readings."""

    r_squared: Annotated[
        Annotated[float, Meta(ge=0, le=1)] | UnsetType,
        Meta(
            description="Share of the weighted spread of the drawdowns' logarithms that the fit explains; absent for "
            "two readings, which any exponential fits."
        ),
    ] = UNSET
    points: Annotated[
        int,
        Meta(
            ge=2,
            description="Readings that were used: those below the water at rest.",
            extra_json_schema={"format": "int32"},
        ),
    ]
    initial_drawdown: Annotated[Length, Meta(description="The fit's drawdown at the first reading that was used.")]
    standard_uncertainty: Annotated[
        SpecificCapacity | UnsetType,
        Meta(
            description="Of the specific capacity, one sigma, from the readings' scatter; absent for two readings, "
            "which count for the verdict as good as a tape reads."
        ),
    ] = UNSET


class CasingCorrection(Struct, frozen=True, kw_only=True):
    """What the casing's own water did to a pumping test."""

    casing_water_fraction: Annotated[
        float,
        Meta(
            ge=0,
            description="Share of the pumped water that came out of the casing and not out of the ground; above 1 the "
            "level fell by more than the pumped water accounts for.",
        ),
    ]
    apparent_specific_capacity: Annotated[
        SpecificCapacity,
        Meta(
            description="Flow over drawdown, as if the level had been still: too much, the more the shorter the test."
        ),
    ]


class WellRecoveryAnswer(Answer, frozen=True, kw_only=True):
    """How much water the well gives."""

    specific_capacity: Annotated[
        SpecificCapacity, Meta(description="Inflow for each length of drawdown; 0 where the readings show none.")
    ]
    time_constant: Annotated[
        Duration | UnsetType,
        Meta(
            description="In this time 63 % of a drawdown is made up: the casing's area over the specific capacity. "
            "Absent where nothing flows in."
        ),
    ] = UNSET
    fit: Annotated[RecoveryFit | UnsetType, Meta(description="For a recovery: how well it fits.")] = UNSET
    correction: Annotated[
        CasingCorrection | UnsetType, Meta(description="For a pumping test: the part of the casing's own water.")
    ] = UNSET
    inflow_at_limit: Annotated[
        Flow | UnsetType,
        Meta(
            description="With `limit_depth`: what flows in with the water at the limit, the most to be had for good; a "
            "hope where a warning says that the limit lies below what was tested."
        ),
    ] = UNSET
    pumping_depth: Annotated[
        Length | UnsetType,
        Meta(
            description="With `design_flow`: the depth at which the level would settle; absent where the well does not "
            f"give that flow at any depth down to {DEEPEST:g} m."
        ),
    ] = UNSET
    storage: Annotated[
        Volume | UnsetType, Meta(description="With `limit_depth`: water in the casing from rest down to the limit.")
    ] = UNSET
    verdict: Annotated[
        WellVerdict | UnsetType,
        Meta(
            description="`dry` where the water at rest stands at the limit or below it; `sustains` where the inflow, "
            "less two standard uncertainties, holds the level at the limit or above it at the design flow; "
            "`storage-limited` where it does not, or where nothing flows in. Absent where `design_flow` or "
            "`limit_depth` is missing and would decide, and where the readings prove nothing: their uncertainty is as "
            "great as the inflow that they show; or the design flow takes more than twice the tested drawdown; or more "
            "than half of a test's water came out of the casing. A reason says so."
        ),
    ] = UNSET
    time_to_limit: Annotated[
        Duration | UnsetType,
        Meta(
            description="With the verdict `storage-limited`, `design_flow` and `limit_depth`: how long the design flow "
            "can be drawn from rest until the level is at the limit; by the inflow less two standard uncertainties "
            "where only these make the verdict."
        ),
    ] = UNSET
    reasons: Annotated[list[str], Meta(description="Why the verdict is what it is, in the trade's words.")]
