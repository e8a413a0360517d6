"""The parts of a water line, told apart by `part`, in the order in which the water passes them."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Struct, UnsetType

from footvalve.contract.quantities import Flow, Length, Pressure
from footvalve.contract.ranges import Within
from footvalve.contract.request import Name

PipeProduct = Literal[
    "pvc-sch-40",
    "pvc-sch-80",
    "pe-sidr-7",
    "pe-sidr-9",
    "pe-sidr-11.5",
    "pe-sidr-15",
    "pe-sidr-19",
    "pe-cts-dr-9",
    "pe-ips-dr-7",
    "pe-ips-dr-9",
    "pe-ips-dr-11",
    "pe-ips-dr-13.5",
    "pex-sdr-9",
    "copper-k",
    "copper-l",
    "copper-m",
    "steel-galvanized-sch-40",
]
NominalSize = Literal["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"]
FittingKind = Literal[
    "elbow-90",
    "elbow-90-long-radius",
    "elbow-90-street",
    "elbow-90-push-to-connect",
    "elbow-45",
    "return-bend-180",
    "tee-run",
    "tee-branch",
    "coupling",
    "union",
    "threaded-adapter",
    "insert-coupling",
    "insert-adapter",
    "pitless-adapter",
    "entrance-inward-projecting",
    "entrance-sharp",
    "entrance-rounded",
    "exit",
    "sudden-contraction",
    "sudden-enlargement",
]
ValveKind = Literal[
    "gate",
    "ball",
    "globe",
    "globe-y-pattern",
    "angle",
    "plug",
    "butterfly",
    "swing-check",
    "swing-check-straight",
    "lift-check",
    "lift-check-angle",
    "spring-check",
    "foot-valve-poppet",
    "foot-valve-hinged",
]

LineFlow = Annotated[Flow, Within(1e-7, 0.1)]
PartDrop = Annotated[Pressure, Within(0.0, 1e6)]
Elevation = Annotated[Length, Within(-1000.0, 1000.0)]


class PipeSize(Struct, frozen=True, forbid_unknown_fields=True):
    """A pipe by its product and nominal size; bore, roughness and C come from the table of pipes."""

    product: Annotated[PipeProduct, Meta(description="A product of the table of pipes.")]
    nominal: Annotated[NominalSize, Meta(description="The nominal size in inches.")]


class Bore(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A bore as measured, for what is in no table."""

    diameter: Annotated[Length, Within(0.001, 1.0), Meta(description="Inside diameter.")]
    roughness: Annotated[
        Length | UnsetType,
        Within(0.0, 0.01),
        Meta(description="Height of the wall's roughness; Darcy-Weisbach needs it of a pipe."),
    ] = UNSET
    hazen_williams_coefficient: Annotated[
        Annotated[float, Meta(ge=40, le=200)] | UnsetType,
        Meta(description="C of Hazen and Williams; that method needs it of a pipe."),
    ] = UNSET


class Part(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, tag_field="part"):
    """What every part of a line may hold."""

    name: Annotated[Name | UnsetType, Meta(description="The caller's label for this part.")] = UNSET
    bore: Annotated[
        Bore | UnsetType, Meta(description="The part's own bore, where it differs from the pipe before it.")
    ] = UNSET


class Pipe(Part, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="pipe"):
    """A length of pipe, by `size` or by `bore`."""

    size: Annotated[PipeSize | UnsetType, Meta(description="By product and nominal size.")] = UNSET
    length: Annotated[Length, Within(0.001, 10_000.0), Meta(description="Along the pipe.")]
    end_elevation: Annotated[
        Elevation | UnsetType,
        Meta(
            description="Where the pipe ends, above the ground at the wellhead; below ground is negative. The last "
            "pipe of a suction line ends at the pump's inlet: a crest before it needs a pipe of its own down from it."
        ),
    ] = UNSET


class Fitting(Part, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="fitting"):
    """A fitting, or several alike."""

    fitting: Annotated[FittingKind, Meta(description="A fitting of the table of fittings.")]
    count: Annotated[int, Meta(ge=1, le=1000, description="How many.", extra_json_schema={"format": "int32"})] = 1


class Valve(Part, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="valve"):
    """A valve, open."""

    valve: Annotated[ValveKind, Meta(description="A valve of the table of valves.")]
    cracking_pressure: Annotated[
        PartDrop | UnsetType,
        Meta(description="What a check valve's spring takes before any water passes; lost at any flow."),
    ] = UNSET


class Strainer(Part, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="strainer"):
    """A strainer or filter, by its rating. Where a dirty drop is given it is the one that is reckoned with."""

    rated_flow: Annotated[
        LineFlow,
        Meta(
            description="The flow of the rating; below a third of it, and above three times as much, an answer warns."
        ),
    ]
    clean_drop: Annotated[PartDrop, Meta(description="The pressure drop at that flow when clean.")]
    dirty_drop: Annotated[
        PartDrop | UnsetType, Meta(description="The pressure drop at that flow when due for cleaning.")
    ] = UNSET


class IdlePump(Part, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="idle-pump"):
    """A stopped pump that the water is pulled through, by one measured or published drop."""

    flow: Annotated[LineFlow, Meta(description="The flow at which the drop was found; far from it an answer warns.")]
    drop: Annotated[PartDrop, Meta(description="The pressure drop at that flow.")]


class FlowResistance(Part, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="resistance"):
    """Anything else, by its flow coefficient."""

    flow_coefficient: Annotated[
        float, Meta(ge=1e-3, le=1e6, description="gal/min at 1 psi (Cv), or m^3/h at 1 bar (Kv).")
    ]
    basis: Annotated[Literal["Cv", "Kv"], Meta(description="Which of the two the coefficient is.")]


LinePart = Pipe | Fitting | Valve | Strainer | IdlePump | FlowResistance

Line = Annotated[
    list[LinePart],
    Meta(min_length=1, max_length=1000, description="The parts in the order in which the water passes them."),
]
