"""The wire of `manifold-check`: will the water go where it should."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Struct, UnsetType, field

from footvalve.contract.answer import Answer
from footvalve.contract.request import Contributions, Name, Place, Site, Units

FindingCode = Literal[
    "no-path",
    "nothing-delivers",
    "check-turned-about",
    "check-missing",
    "recirculation",
    "deadhead",
    "starved-inlet",
    "two-pumps-running",
    "no-relief-on-tank",
    "drain-back",
    "loses-prime",
    "air-entry",
    "vessel-on-suction-side",
    "pump-pressurizes-pump",
    "unreachable",
    "not-isolatable",
]
FindingSeverity = Literal["note", "warning", "danger"]
ManifoldVerdict = Literal["right", "doubtful", "wrong"]

MOST_ELEMENTS = 1000
MOST_MODES = 20
MOST_RUNNING = 20

ElementIds = Annotated[list[Name], Meta(max_length=MOST_ELEMENTS)]


class Element(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, tag_field="kind"):
    """What every element of a manifold has."""

    id: Annotated[Name, Meta(description="The element's name; no other element has it.")]
    from_: Annotated[Name, Meta(description="The node that it begins at, or hangs on.")] = field(name="from")

    @property
    def kind(self) -> str:
        """The name of the kind, as on the wire."""
        return str(self.__struct_config__.tag)


class LineElement(Element, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """An element that the water passes on its way from one node to another."""

    to: Annotated[Name, Meta(description="The node that it ends at.")]


class HangingElement(Element, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """An element that hangs on a node, and may have a node behind it."""

    to: Annotated[Name | UnsetType, Meta(description="The node behind it, where there is one.")] = UNSET


class PipeElement(LineElement, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="pipe"):
    """A pipe, hose or fitting: water passes both ways."""


class CheckElement(LineElement, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="check"):
    """A check valve or foot valve: water passes only from `from` to `to`."""


class ShutoffElement(LineElement, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="shutoff"):
    """A valve that is opened and closed by hand: water passes both ways, unless a mode has it closed."""


class PumpElement(LineElement, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="pump"):
    """A pump with its inlet at `from` and its outlet at `to`. Running it raises the pressure at its outlet. Stopped
    it lets itself be drawn through, and may let water run back too, for no check valve within it is counted on."""

    blocks_when_idle: Annotated[
        bool, Meta(description="Whether no water passes it at all while it is stopped, neither on nor back.")
    ] = False


class StrainerElement(LineElement, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="strainer"):
    """A strainer or filter: water passes both ways."""


class TapElement(HangingElement, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="tap"):
    """A tap, hose bib or drain. Open in a mode, it lets water out, or air in; with `to`, water passes it to there."""


class TankElement(HangingElement, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="tank"):
    """A pressure tank on a node; with `to` it stands in the line on a tee, and water passes both ways."""


class GaugeElement(HangingElement, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="gauge"):
    """A gauge, or the port of a pressure switch, on a node; with `to` water passes its tee both ways."""


class ReliefElement(HangingElement, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="relief"):
    """A relief valve on a node: it lets out what would burst the line. What lies behind it is no way to the house."""


ManifoldElement = (
    PipeElement
    | CheckElement
    | ShutoffElement
    | PumpElement
    | StrainerElement
    | TapElement
    | TankElement
    | GaugeElement
    | ReliefElement
)


class ManifoldMode(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One way of using the manifold: which pumps run, and which valves are turned. A pump that is not listed is
    stopped, a shutoff valve is open, a tap is closed."""

    name: Annotated[Name, Meta(description="The mode's name; no other mode has it.")]
    running: Annotated[list[Name], Meta(max_length=MOST_RUNNING, description="The pumps that run, by their ids.")] = []
    closed: Annotated[ElementIds, Meta(description="The shutoff valves that are closed, by their ids.")] = []
    open: Annotated[ElementIds, Meta(description="The taps that are open, by their ids.")] = []


class ManifoldQuestion(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Piping as nodes and the elements between them, and the modes in which it is used."""

    nodes: Annotated[
        list[Name],
        Meta(min_length=2, max_length=MOST_ELEMENTS, description="The places where elements meet, each once."),
    ]
    elements: Annotated[
        list[ManifoldElement],
        Meta(min_length=1, max_length=MOST_ELEMENTS, description="What lies between them, told apart by `kind`."),
    ]
    source: Annotated[Name, Meta(description="The node in the well or other open water that is drawn from.")]
    house: Annotated[Name, Meta(description="The node at which the house takes its water.")]
    modes: Annotated[list[ManifoldMode], Meta(min_length=1, max_length=MOST_MODES, description="The ways of using it.")]


class ManifoldCheckRequest(ManifoldQuestion, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Piping as nodes and the elements between them, and the modes in which it is used."""

    units: Units = "us"
    site: Place = Site()
    contributions: Contributions = False


class ModeOutcome(Struct, frozen=True, kw_only=True):
    """Where the water goes in one mode. Lists hold ids of elements, and are empty where there is nothing to tell."""

    name: Annotated[str, Meta(description="The mode's name.")]
    delivers: Annotated[
        bool,
        Meta(
            description="Whether a way leads from the source through a running pump to the house; where water also "
            "recirculates, little of it may take that way."
        ),
    ]
    path: Annotated[list[str], Meta(description="The shortest such way, in the water's order.")]
    recirculates: Annotated[
        list[str],
        Meta(
            description="A loop in which a running pump's water comes back to its inlet, from that pump on; where "
            "there are several, the shortest."
        ),
    ]
    deadheads: Annotated[
        list[str],
        Meta(
            description="Running pumps whose water reaches neither the house nor an open tap, a relief valve or the "
            "source."
        ),
    ]
    runs_dry: Annotated[
        list[str], Meta(description="Running pumps to whose inlets no water from the source gets: they run dry.")
    ]
    drains_back: Annotated[
        list[str],
        Meta(
            description="The way by which water runs from the house or a tank back to the source once the pumps stop."
        ),
    ]
    draws_air_at: Annotated[list[str], Meta(description="Open taps that stand on the suction side, under vacuum.")]


class Isolation(Struct, frozen=True, kw_only=True):
    """Whether a pump can be taken out while another one serves the house."""

    pump: Annotated[str, Meta(description="The pump's id.")]
    isolates: Annotated[
        bool,
        Meta(
            description="Whether the pump can be taken out with the house still served by another pump, in at least "
            "one mode. The only pump of a house cannot, whatever valves stand around it."
        ),
    ]
    by: Annotated[list[str], Meta(description="The shutoff valves that part it from the rest.")]
    text: Annotated[str, Meta(description="How it is done, or why it cannot be done.")]


class ManifoldFinding(Struct, frozen=True, kw_only=True):
    """One thing that is wrong with the arrangement, and what to do about it."""

    code: Annotated[FindingCode, Meta(description="A stable name.")]
    severity: Annotated[FindingSeverity, Meta(description="How bad it can get.")]
    text: Annotated[str, Meta(description="What is wrong, and what to add, turn or close.")]
    elements: Annotated[list[str], Meta(description="The elements that it is about.")]
    modes: Annotated[list[str], Meta(description="The modes in which it shows; empty where it is so in any.")]


class ManifoldCheckAnswer(Answer, frozen=True, kw_only=True):
    """Where the water goes in each mode, and what is wrong with the arrangement."""

    verdict: Annotated[
        ManifoldVerdict,
        Meta(description="By the gravest finding: `wrong` for a danger, `doubtful` for a warning, else `right`."),
    ]
    modes: Annotated[list[ModeOutcome], Meta(description="Each mode in the request's order.")]
    isolates: Annotated[list[Isolation], Meta(description="Each pump in the request's order.")]
    findings: Annotated[list[ManifoldFinding], Meta(description="The gravest first.")]
