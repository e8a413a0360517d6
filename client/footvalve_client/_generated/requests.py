# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
# ruff: noqa: E501
"""What requests are made of."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeAlias

from msgspec import field

from footvalve_client._generated.closed_lists import (
    BatteryChemistry,
    Chambers,
    FittingKind,
    FlowResistanceBasis,
    FrictionMethod,
    Nominal,
    PipeSizeProduct,
    Units,
    ValveKind,
    WireGauge,
    WireMaterial,
)
from footvalve_client._generated.quantities import (
    AreaLike,
    ChargeLike,
    CurrentLike,
    DurationLike,
    FlowLike,
    LengthLike,
    PowerLike,
    PressureLike,
    SpecificCapacityLike,
    TemperatureLike,
    VoltageLike,
    VolumeLike,
)
from footvalve_client._request import RequestPart


class AirLine(RequestPart, frozen=True, kw_only=True, tag_field="method", tag="air-line"):
    """The pressure that keeps a tube, open at its lower end, free of water."""

    line_length: LengthLike
    """From the measuring point straight down to the tube's lower end. From 0.329 to 3280 ft (0.1 to 1000 m)."""
    pressures: Sequence[PressureLike]
    """The gauge's highest steady reading, one for each time that the tube was blown free. Each from 0 to 1450 psi (0 to 100 bar)."""


class BatchItem(RequestPart, frozen=True, kw_only=True):
    """One question of a batch."""

    id: str
    """The caller's own name for this item; it comes back with the answer."""
    endpoint: str
    """The name of an endpoint, such as `sounding`, but not `batch`. Another name spoils this item alone, with the 404 that its path would have had."""
    body: Any
    """The object that the endpoint takes. Whatever is wrong with it spoils this item alone."""


class BatchRequest(RequestPart, frozen=True, kw_only=True):
    """Questions that are answered one by one, in their order."""

    items: Sequence[BatchItem]
    """The questions."""


class Battery(RequestPart, frozen=True, kw_only=True):
    """One battery of a bank, and how many stand in series and in parallel."""

    chemistry: BatteryChemistry
    """A chemistry of the table of chemistries."""
    capacity: ChargeLike
    """Rated capacity of one battery, new and at 25 degC. From 0.1 to 5000 Ah."""
    rated_hours: float
    """Hours of that rating, such as 20: it holds at capacity / hours."""
    voltage: VoltageLike
    """Nominal voltage of one battery. From 1 to 100 V."""
    series: int | None = None
    """Batteries in a string; their voltages add. Default: 1."""
    parallel: int | None = None
    """Strings side by side; their capacities add. Default: 1."""
    peukert_exponent: float | None = None
    """Peukert's exponent; else from `second_rating`, else the chemistry's. One of the two."""
    second_rating: BatteryRating | None = None
    """Another rating of the same battery, from which the exponent follows."""
    temperature: TemperatureLike | None = None
    """Of the battery; the site's air temperature by default. From -58 to 158 degF (-50 to 70 degC)."""
    floor_fraction: float | None = None
    """The state of charge at which the loads are cut off; the chemistry's by default."""
    age_fraction: float | None = None
    """What is left of the rated capacity; 1 for a new battery. Default: 1."""


class BatteryRating(RequestPart, frozen=True, kw_only=True):
    """A capacity with the hours that it was measured over."""

    capacity: ChargeLike
    """The capacity at that rate. From 0.1 to 5000 Ah."""
    rated_hours: float
    """Hours from full to empty at the rating's current."""


class BatteryRuntimeRequest(RequestPart, frozen=True, kw_only=True):
    """A battery bank and what draws on it and charges it."""

    battery: Battery
    """The battery bank."""
    loads: Sequence[ElectricLoad]
    """All that draws on the battery."""
    units: Units | None = None
    """The system of units in which the answer speaks. Default: us."""
    site: Site | None = None
    """The place; each field has a default."""
    contributions: bool | None = None
    """Whether the answer tells how much each uncertain input has to do with its uncertainties. Default: false."""
    pump_flow: FlowLike | None = None
    """What the pump brings while it runs. From 0.00159 to 158 gal/min (0.006 to 600 L/min)."""
    daily_water: VolumeLike | None = None
    """Water used in a day; needs `pump_flow`. From 0 to 264000 gal (0 to 1000000 L)."""
    wire: Wire | None = None
    """The wire that carries all the loads. What it may carry is reckoned for insulation that bears 60 degC, in the site's air or in 30 degC, whichever is warmer."""
    charger: Charger | None = None
    """Chargers on mains or a generator."""
    solar: Solar | None = None
    """A solar array on the battery."""
    days: int | None = None
    """How many days of outage `state_of_charge` follows. Default: 3."""


class Bore(RequestPart, frozen=True, kw_only=True):
    """A bore as measured, for what is in no table."""

    diameter: LengthLike
    """Inside diameter. From 0.0394 to 39.3 in (1 to 1000 mm)."""
    roughness: LengthLike | None = None
    """Height of the wall's roughness; Darcy-Weisbach needs it of a pipe. From 0 to 0.393 in (0 to 10 mm)."""
    hazen_williams_coefficient: float | None = None
    """C of Hazen and Williams; that method needs it of a pipe."""


class CentrifugalPump(RequestPart, frozen=True, kw_only=True, tag_field="style", tag="centrifugal"):
    """A centrifugal pump; it draws no air out of a dry line unless it is of a self-priming kind."""

    inlet_elevation: LengthLike
    """Of the pump's inlet, above the ground at the wellhead; below ground is negative. From -3280 to 3280 ft (-1000 to 1000 m)."""
    npsh_required: LengthLike | None = None
    """Net positive suction head that the pump needs. From 0 to 49.2 ft (0 to 15 m)."""
    rated_suction_lift: LengthLike | None = None
    """The maker's suction lift at sea level with cold water, at this flow: a dead-head figure makes the pump seem to need almost no NPSH. From 0 to 32.8 ft (0 to 10 m)."""


class CentrifugalPumpPlan(RequestPart, frozen=True, kw_only=True, tag_field="style", tag="centrifugal"):
    """A centrifugal pump with its curve."""

    inlet_elevation: LengthLike
    """Of the pump's inlet, above the ground at the wellhead; below ground is negative. From -3280 to 3280 ft (-1000 to 1000 m)."""
    points: Sequence[PumpedPoint]
    """Points of its curve in order of rising pressure; flow and current are straight between them, and the flow never rises. They begin low enough for the rise that cut-in takes, or below."""
    npsh_required: LengthLike | None = None
    """Net positive suction head that the pump needs. From 0 to 49.2 ft (0 to 15 m)."""
    rated_suction_lift: LengthLike | None = None
    """The maker's suction lift at sea level with cold water, at this flow: a dead-head figure makes the pump seem to need almost no NPSH. From 0 to 32.8 ft (0 to 10 m)."""
    voltage: VoltageLike | None = None
    """What the pump is made for; the battery's must lie within a quarter of it. From 1 to 1000 V."""


class Charger(RequestPart, frozen=True, kw_only=True):
    """One or more chargers to compare."""

    currents: Sequence[CurrentLike]
    """The rated output of each, compared one by one. Each from 0 to 5000 A."""


class CheckElement(RequestPart, frozen=True, kw_only=True, tag_field="kind", tag="check"):
    """A check valve or foot valve: water passes only from `from` to `to`."""

    id: str
    """The element's name; no other element has it."""
    from_: str = field(name="from")
    """The node that it begins at, or hangs on."""
    to: str
    """The node that it ends at."""


class DirectSounding(RequestPart, frozen=True, kw_only=True, tag_field="method", tag="direct"):
    """Depths as an electric tape or the like shows them."""

    depths: Sequence[LengthLike]
    """Below the measuring point; negative where the water stands above it. Each from -328 to 3280 ft (-100 to 1000 m)."""


class EchoSounding(RequestPart, frozen=True, kw_only=True, tag_field="method", tag="echo"):
    """The time that a sound takes down to the water and back."""

    times: Sequence[DurationLike]
    """Round trips from the measuring point. Each from 0.0001 s to 6 s."""


class ElectricLoad(RequestPart, frozen=True, kw_only=True):
    """Something that draws on the battery: by `current` or `power`, for `hours_per_day` or a `duty_fraction`."""

    name: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""
    current: CurrentLike | None = None
    """While it runs, at the bank's voltage. From 0 to 500 A."""
    power: PowerLike | None = None
    """While it runs, in place of `current`: at the battery's terminals. What an inverter feeds takes its power over the inverter's efficiency, and what the inverter draws without a load is a load beside it. From 0 to 100000 W."""
    greatest_current: CurrentLike | None = None
    """The most that it draws for longer than it takes to start, where `current` or `power` is its mean: what wire and fuse must carry. From 0 to 500 A."""
    hours_per_day: float | None = None
    """How long it runs in a day. The pump's may follow from `daily_water`."""
    duty_fraction: float | None = None
    """The part of the day that it runs, in place of `hours_per_day`."""
    draws_water: bool | None = None
    """Marks the pump that `pump_flow` belongs to; needed where there are several loads and none is named "pump". Default: false."""


class Fitting(RequestPart, frozen=True, kw_only=True, tag_field="part", tag="fitting"):
    """A fitting, or several alike."""

    fitting: FittingKind
    """A fitting of the table of fittings."""
    name: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""
    bore: Bore | None = None
    """The part's own bore, where it differs from the pipe before it."""
    count: int | None = None
    """How many. Default: 1."""


class FlowResistance(RequestPart, frozen=True, kw_only=True, tag_field="part", tag="resistance"):
    """Anything else, by its flow coefficient."""

    flow_coefficient: float
    """gal/min at 1 psi (Cv), or m^3/h at 1 bar (Kv)."""
    basis: FlowResistanceBasis
    """Which of the two the coefficient is."""
    name: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""
    bore: Bore | None = None
    """The part's own bore, where it differs from the pipe before it."""


class FrictionRequest(RequestPart, frozen=True, kw_only=True):
    """A line, and the flow or flows that it is to carry. At least one of `flow` and `flows` is given."""

    line: Sequence[LinePart]
    """The parts in the order in which the water passes them."""
    units: Units | None = None
    """The system of units in which the answer speaks. Default: us."""
    site: Site | None = None
    """The place; each field has a default."""
    contributions: bool | None = None
    """Whether the answer tells how much each uncertain input has to do with its uncertainties. Default: false."""
    flow: FlowLike | None = None
    """The flow that the parts are reckoned at. From 0.00159 to 1580 gal/min (0.006 to 6000 L/min)."""
    flows: Sequence[FlowLike] | None = None
    """Flows for a curve of head against flow; without `flow` the parts are reckoned at the greatest of them. Each from 0.00159 to 1580 gal/min (0.006 to 6000 L/min)."""
    method: FrictionMethod | None = None
    """How friction in the pipes is reckoned. Default: darcy-weisbach."""


class GaugeElement(RequestPart, frozen=True, kw_only=True, tag_field="kind", tag="gauge"):
    """A gauge, or the port of a pressure switch, on a node; with `to` water passes its tee both ways."""

    id: str
    """The element's name; no other element has it."""
    from_: str = field(name="from")
    """The node that it begins at, or hangs on."""
    to: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""


class IdlePump(RequestPart, frozen=True, kw_only=True, tag_field="part", tag="idle-pump"):
    """A stopped pump that the water is pulled through, by one measured or published drop."""

    flow: FlowLike
    """The flow at which the drop was found; far from it an answer warns. From 0.00159 to 1580 gal/min (0.006 to 6000 L/min)."""
    drop: PressureLike
    """The pressure drop at that flow. From 0 to 145 psi (0 to 10 bar)."""
    name: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""
    bore: Bore | None = None
    """The part's own bore, where it differs from the pipe before it."""


class ManifoldCheckRequest(RequestPart, frozen=True, kw_only=True):
    """Piping as nodes and the elements between them, and the modes in which it is used."""

    nodes: Sequence[str]
    """The places where elements meet, each once."""
    elements: Sequence[ElementsKind]
    """What lies between them, told apart by `kind`."""
    source: str
    """The node in the well or other open water that is drawn from."""
    house: str
    """The node at which the house takes its water."""
    modes: Sequence[ManifoldMode]
    """The ways of using it."""
    units: Units | None = None
    """The system of units in which the answer speaks. Default: us."""
    site: Site | None = None
    """The place; each field has a default."""
    contributions: bool | None = None
    """Whether the answer tells how much each uncertain input has to do with its uncertainties. Default: false."""


class ManifoldMode(RequestPart, frozen=True, kw_only=True):
    """One way of using the manifold: which pumps run, and which valves are turned. A pump that is not listed is stopped, a shutoff valve is open, a tap is closed."""

    name: str
    """The mode's name; no other mode has it."""
    running: Sequence[str] | None = None
    """The pumps that run, by their ids. Default: []."""
    closed: Sequence[str] | None = None
    """The shutoff valves that are closed, by their ids. Default: []."""
    open: Sequence[str] | None = None
    """The taps that are open, by their ids. Default: []."""


class ManifoldQuestion(RequestPart, frozen=True, kw_only=True):
    """Piping as nodes and the elements between them, and the modes in which it is used."""

    nodes: Sequence[str]
    """The places where elements meet, each once."""
    elements: Sequence[ElementsKind]
    """What lies between them, told apart by `kind`."""
    source: str
    """The node in the well or other open water that is drawn from."""
    house: str
    """The node at which the house takes its water."""
    modes: Sequence[ManifoldMode]
    """The ways of using it."""


class Pipe(RequestPart, frozen=True, kw_only=True, tag_field="part", tag="pipe"):
    """A length of pipe, by `size` or by `bore`."""

    length: LengthLike
    """Along the pipe. From 0.00329 to 32800 ft (0.001 to 10000 m)."""
    name: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""
    bore: Bore | None = None
    """The part's own bore, where it differs from the pipe before it."""
    size: PipeSize | None = None
    """By product and nominal size."""
    end_elevation: LengthLike | None = None
    """Where the pipe ends, above the ground at the wellhead; below ground is negative. The last pipe of a suction line ends at the pump's inlet: a crest before it needs a pipe of its own down from it. From -3280 to 3280 ft (-1000 to 1000 m)."""


class PipeElement(RequestPart, frozen=True, kw_only=True, tag_field="kind", tag="pipe"):
    """A pipe, hose or fitting: water passes both ways."""

    id: str
    """The element's name; no other element has it."""
    from_: str = field(name="from")
    """The node that it begins at, or hangs on."""
    to: str
    """The node that it ends at."""


class PipeSize(RequestPart, frozen=True, kw_only=True):
    """A pipe by its product and nominal size; bore, roughness and C come from the table of pipes."""

    product: PipeSizeProduct
    """A product of the table of pipes."""
    nominal: Nominal
    """The nominal size in inches."""


class Policy(RequestPart, frozen=True, kw_only=True):
    """What the caller calls feasible."""

    margin: LengthLike | None = None
    """NPSH to spare that a feasible site has at least. From 0 to 49.2 ft (0 to 15 m). Default: 3 ft."""


class PumpElement(RequestPart, frozen=True, kw_only=True, tag_field="kind", tag="pump"):
    """A pump with its inlet at `from` and its outlet at `to`. Running it raises the pressure at its outlet. Stopped it lets itself be drawn through, and may let water run back too, for no check valve within it is counted on."""

    id: str
    """The element's name; no other element has it."""
    from_: str = field(name="from")
    """The node that it begins at, or hangs on."""
    to: str
    """The node that it ends at."""
    blocks_when_idle: bool | None = None
    """Whether no water passes it at all while it is stopped, neither on nor back. Default: false."""


class PumpPoint(RequestPart, frozen=True, kw_only=True):
    """What the pump delivers into the tank at one pressure."""

    pressure: PressureLike
    """In the tank. From 0 to 435 psi (0 to 30 bar)."""
    flow: FlowLike
    """Into the tank there; 0 at shut-off, else 0.006 L/min or more. From 0 to 317 gal/min (0 to 1200 L/min)."""


class PumpedPoint(RequestPart, frozen=True, kw_only=True):
    """What the pump does at one rise of pressure from its inlet to its outlet."""

    pressure: PressureLike
    """At the outlet, less that at the inlet. From 0 to 435 psi (0 to 30 bar)."""
    flow: FlowLike
    """What the pump gives there; 0 at shut-off, else 1e-6 m^3/s or more. From 0 to 158 gal/min (0 to 600 L/min)."""
    current: CurrentLike | None = None
    """What it draws there, at the battery's voltage; given at every point or at none. From 0 to 500 A."""


class PumpingTest(RequestPart, frozen=True, kw_only=True):
    """How far the level fell while the well was pumped, from rest."""

    flow: FlowLike
    """The steady flow that was pumped. From 0.0159 to 1580 gal/min (0.06 to 6000 L/min)."""
    pumping_depth: LengthLike
    """Depth to the water at the end, from the same point as `static_depth`. From -328 to 3280 ft (-100 to 1000 m)."""
    duration: DurationLike
    """How long it was pumped; at first the casing gives the water and not the ground. From 1 s to 30 d."""


class ReciprocatingPump(RequestPart, frozen=True, kw_only=True, tag_field="style", tag="reciprocating"):
    """A piston or diaphragm pump: each stroke has to speed up the water in the suction line."""

    inlet_elevation: LengthLike
    """Of the pump's inlet, above the ground at the wellhead; below ground is negative. From -3280 to 3280 ft (-1000 to 1000 m)."""
    strokes_per_minute: float
    """Strokes of each chamber in a minute."""
    chambers: Chambers
    """Chambers that draw in turn, in even phase."""
    npsh_required: LengthLike | None = None
    """Net positive suction head that the pump needs. From 0 to 49.2 ft (0 to 15 m)."""
    rated_suction_lift: LengthLike | None = None
    """The maker's suction lift at sea level with cold water, at this flow: a dead-head figure makes the pump seem to need almost no NPSH. From 0 to 32.8 ft (0 to 10 m)."""
    gas_cushion: bool | None = None
    """Whether a gas cushion close to the inlet takes up the strokes. Default: false."""


class ReciprocatingPumpPlan(RequestPart, frozen=True, kw_only=True, tag_field="style", tag="reciprocating"):
    """A piston or diaphragm pump with its curve."""

    inlet_elevation: LengthLike
    """Of the pump's inlet, above the ground at the wellhead; below ground is negative. From -3280 to 3280 ft (-1000 to 1000 m)."""
    strokes_per_minute: float
    """Strokes of each chamber in a minute."""
    chambers: Chambers
    """Chambers that draw in turn, in even phase."""
    points: Sequence[PumpedPoint]
    """Points of its curve in order of rising pressure; flow and current are straight between them, and the flow never rises. They begin low enough for the rise that cut-in takes, or below."""
    npsh_required: LengthLike | None = None
    """Net positive suction head that the pump needs. From 0 to 49.2 ft (0 to 15 m)."""
    rated_suction_lift: LengthLike | None = None
    """The maker's suction lift at sea level with cold water, at this flow: a dead-head figure makes the pump seem to need almost no NPSH. From 0 to 32.8 ft (0 to 10 m)."""
    gas_cushion: bool | None = None
    """Whether a gas cushion close to the inlet takes up the strokes. Default: false."""
    voltage: VoltageLike | None = None
    """What the pump is made for; the battery's must lie within a quarter of it. From 1 to 1000 V."""


class Recovery(RequestPart, frozen=True, kw_only=True):
    """How the level came back."""

    readings: Sequence[RecoveryReading]
    """Two or more, from three on with a measure of how good they are. In any order: each counts at its own time, and one that is out of order is warned of."""


class RecoveryReading(RequestPart, frozen=True, kw_only=True):
    """The level at one time after pumping stopped."""

    elapsed: DurationLike
    """Since pumping stopped. From 0 s to 10 d."""
    depth: LengthLike
    """Depth to the water, from the same point as `static_depth`. From -328 to 3280 ft (-100 to 1000 m)."""


class ReliefElement(RequestPart, frozen=True, kw_only=True, tag_field="kind", tag="relief"):
    """A relief valve on a node: it lets out what would burst the line. What lies behind it is no way to the house."""

    id: str
    """The element's name; no other element has it."""
    from_: str = field(name="from")
    """The node that it begins at, or hangs on."""
    to: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""


class RotaryPump(RequestPart, frozen=True, kw_only=True, tag_field="style", tag="rotary"):
    """A rotary displacement pump: vane, gear, screw, flexible impeller, rotary piston."""

    inlet_elevation: LengthLike
    """Of the pump's inlet, above the ground at the wellhead; below ground is negative. From -3280 to 3280 ft (-1000 to 1000 m)."""
    npsh_required: LengthLike | None = None
    """Net positive suction head that the pump needs. From 0 to 49.2 ft (0 to 15 m)."""
    rated_suction_lift: LengthLike | None = None
    """The maker's suction lift at sea level with cold water, at this flow: a dead-head figure makes the pump seem to need almost no NPSH. From 0 to 32.8 ft (0 to 10 m)."""


class RotaryPumpPlan(RequestPart, frozen=True, kw_only=True, tag_field="style", tag="rotary"):
    """A rotary displacement pump with its curve."""

    inlet_elevation: LengthLike
    """Of the pump's inlet, above the ground at the wellhead; below ground is negative. From -3280 to 3280 ft (-1000 to 1000 m)."""
    points: Sequence[PumpedPoint]
    """Points of its curve in order of rising pressure; flow and current are straight between them, and the flow never rises. They begin low enough for the rise that cut-in takes, or below."""
    npsh_required: LengthLike | None = None
    """Net positive suction head that the pump needs. From 0 to 49.2 ft (0 to 15 m)."""
    rated_suction_lift: LengthLike | None = None
    """The maker's suction lift at sea level with cold water, at this flow: a dead-head figure makes the pump seem to need almost no NPSH. From 0 to 32.8 ft (0 to 10 m)."""
    voltage: VoltageLike | None = None
    """What the pump is made for; the battery's must lie within a quarter of it. From 1 to 1000 V."""


class ShutoffElement(RequestPart, frozen=True, kw_only=True, tag_field="kind", tag="shutoff"):
    """A valve that is opened and closed by hand: water passes both ways, unless a mode has it closed."""

    id: str
    """The element's name; no other element has it."""
    from_: str = field(name="from")
    """The node that it begins at, or hangs on."""
    to: str
    """The node that it ends at."""


class Site(RequestPart, frozen=True, kw_only=True):
    """The place: how high it lies, and how warm its water and air are."""

    altitude: LengthLike | None = None
    """Above mean sea level. From -1640 to 16400 ft (-500 to 5000 m). Default: 0 m."""
    water_temperature: TemperatureLike | None = None
    """Of the water that is drawn. From 32 to 203 degF (0 to 95 degC). Default: 12 degC."""
    air_temperature: TemperatureLike | None = None
    """Of the air in the well and around the plant. From -58 to 140 degF (-50 to 60 degC). Default: 12 degC."""


class SitePlanRequest(RequestPart, frozen=True, kw_only=True):
    """A site from the water to the taps, with `sounding` or `depth_to_water`. A step whose input is missing is left out and named in `to_do`."""

    suction_line: Sequence[SuctionLinePart]
    """From the water's intake to the pump inlet, in the water's order."""
    pump: RotaryPumpPlan | CentrifugalPumpPlan | ReciprocatingPumpPlan
    """The pump with its curve, told apart by `style`."""
    switch: Switch
    """The pressure switch, at the height of the tank."""
    house_elevation: LengthLike
    """Of the highest tap, above the ground at the wellhead; below ground is negative. From -3280 to 3280 ft (-1000 to 1000 m)."""
    units: Units | None = None
    """The system of units in which the answer speaks. Default: us."""
    site: Site | None = None
    """The place; each field has a default."""
    contributions: bool | None = None
    """Whether the answer tells how much each uncertain input has to do with its uncertainties. Default: false."""
    sounding: SoundingQuestion | None = None
    """What was read at the well, in place of `depth_to_water`."""
    depth_to_water: LengthLike | None = None
    """Static, below the ground at the wellhead; negative for a flowing well. From -328 to 3280 ft (-100 to 1000 m)."""
    seasonal_fall: LengthLike | None = None
    """How much lower the water stands in the dry season. From 0 to 1640 ft (0 to 500 m). Default: 0 m."""
    well: WellPlan | None = None
    """The well's yield; without it the level is taken not to fall."""
    intake_elevation: LengthLike | None = None
    """Where the suction line takes the water in. Without it the first pipe is taken to hang straight down from its end, which is the deepest that it can reach. From -3280 to 3280 ft (-1000 to 1000 m)."""
    delivery_line: Sequence[DeliveryLinePart] | None = None
    """The parts in the order in which the water passes them."""
    tanks: Sequence[Tank] | None = None
    """All pressure tanks on the line. Without them the pump's mean duty is that of one that is charged to cut-in, which does not depend on its size."""
    tank_elevation: LengthLike | None = None
    """Of the pressure tank and its switch; that of the highest tap by default. From -3280 to 3280 ft (-1000 to 1000 m)."""
    demand: FlowLike | None = None
    """A steady flow that the house draws, for the pump's starts: 0, or 1e-8 m^3/s or more. Without it the day's water is taken evenly over the day, and the starts are judged at the demand that makes most. From 0 to 317 gal/min (0 to 1200 L/min)."""
    least_run: DurationLike | None = None
    """How long the pump shall run at least each time it starts. From 1 s to 1 h."""
    gas_exponent: float | None = None
    """n in p V^n of the tanks' gas: 1 for a slow cycle, 1.4 for a quick one. Default: 1."""
    daily_water: VolumeLike | None = None
    """Water used in a day. From 0.265 to 264000 gal (1 to 1000000 L)."""
    battery: Battery | None = None
    """The battery bank that the pump runs on."""
    loads: Sequence[ElectricLoad] | None = None
    """What else draws on the battery. The pump is not among them."""
    wire: Wire | None = None
    """The wire that carries all the loads. What it may carry is reckoned for insulation that bears 60 degC, in the site's air or in 30 degC, whichever is warmer."""
    charger: Charger | None = None
    """Chargers on mains or a generator."""
    solar: Solar | None = None
    """A solar array on the battery."""
    days: int | None = None
    """How many days of outage the battery shall last; without it none are asked of it."""
    manifold: ManifoldQuestion | None = None
    """The piping between well, pumps and house."""
    policy: Policy | None = None
    """What the caller calls feasible."""


class Solar(RequestPart, frozen=True, kw_only=True):
    """An array and the sun that it sees."""

    array_power: PowerLike
    """Rated power of the whole array. From 0 to 1000000 W."""
    sun_hours: Sequence[float]
    """Peak sun hours a day in the plane of the array: one for all the year, or twelve from January to December."""
    derate_fraction: float | None = None
    """What is left of the rated power after heat, dirt, wire and the charge controller. Default: 0.7."""


class SoundingQuestion(RequestPart, frozen=True, kw_only=True):
    """Readings at a well by one method."""

    measurement: StoneDrop | WettedTape | AirLine | EchoSounding | DirectSounding
    """What was read, told apart by `method`."""
    measuring_point_height: LengthLike | None = None
    """Of the point that the readings start from, above the ground; negative in a pit. From -32.8 to 32.8 ft (-10 to 10 m). Default: 0 m."""


class SoundingRequest(RequestPart, frozen=True, kw_only=True):
    """Readings at a well by one method. `site` matters to those that time something or weigh water."""

    measurement: StoneDrop | WettedTape | AirLine | EchoSounding | DirectSounding
    """What was read, told apart by `method`."""
    measuring_point_height: LengthLike | None = None
    """Of the point that the readings start from, above the ground; negative in a pit. From -32.8 to 32.8 ft (-10 to 10 m). Default: 0 m."""
    units: Units | None = None
    """The system of units in which the answer speaks. Default: us."""
    site: Site | None = None
    """The place; each field has a default."""
    contributions: bool | None = None
    """Whether the answer tells how much each uncertain input has to do with its uncertainties. Default: false."""


class StoneDrop(RequestPart, frozen=True, kw_only=True, tag_field="method", tag="stone-drop"):
    """The time from letting a stone go to hearing it strike the water."""

    times: Sequence[DurationLike]
    """One time for each stone that was dropped from the measuring point. Each from 0.05 s to 10 s."""
    stone_diameter: LengthLike | None = None
    """Mean diameter of the stone, taken as rounded; without it 25 mm is assumed. The air holds a small stone back more. From 0.0788 to 19.6 in (2 to 500 mm)."""
    reaction_delay: DurationLike | None = None
    """How much later than the stroke the watch was stopped; it is taken off every time. From 0 s to 2 s. Default: 0 s."""


class Strainer(RequestPart, frozen=True, kw_only=True, tag_field="part", tag="strainer"):
    """A strainer or filter, by its rating. Where a dirty drop is given it is the one that is reckoned with."""

    rated_flow: FlowLike
    """The flow of the rating; below a third of it, and above three times as much, an answer warns. From 0.00159 to 1580 gal/min (0.006 to 6000 L/min)."""
    clean_drop: PressureLike
    """The pressure drop at that flow when clean. From 0 to 145 psi (0 to 10 bar)."""
    name: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""
    bore: Bore | None = None
    """The part's own bore, where it differs from the pipe before it."""
    dirty_drop: PressureLike | None = None
    """The pressure drop at that flow when due for cleaning. From 0 to 145 psi (0 to 10 bar)."""


class StrainerElement(RequestPart, frozen=True, kw_only=True, tag_field="kind", tag="strainer"):
    """A strainer or filter: water passes both ways."""

    id: str
    """The element's name; no other element has it."""
    from_: str = field(name="from")
    """The node that it begins at, or hangs on."""
    to: str
    """The node that it ends at."""


class SuctionFeasibilityRequest(RequestPart, frozen=True, kw_only=True):
    """A well, a line and a pump. Only what is listed in `line` costs head."""

    depth_to_water: LengthLike
    """Static, below the ground at the wellhead; negative for a flowing well. From -328 to 3280 ft (-100 to 1000 m)."""
    flow: FlowLike
    """The flow to be drawn. From 0.00159 to 1580 gal/min (0.006 to 6000 L/min)."""
    pump: RotaryPump | CentrifugalPump | ReciprocatingPump
    """The pump, told apart by `style`."""
    line: Sequence[LinePart]
    """From the water's intake to the pump inlet, in the water's order, with each stopped pump that it is pulled through."""
    units: Units | None = None
    """The system of units in which the answer speaks. Default: us."""
    site: Site | None = None
    """The place; each field has a default."""
    contributions: bool | None = None
    """Whether the answer tells how much each uncertain input has to do with its uncertainties. Default: false."""
    seasonal_fall: LengthLike | None = None
    """How much lower the water stands in the dry season. From 0 to 1640 ft (0 to 500 m). Default: 0 m."""
    drawdown: LengthLike | None = None
    """How far the level falls at this flow. From 0 to 1640 ft (0 to 500 m)."""
    specific_capacity: SpecificCapacityLike | None = None
    """The well's yield for each length of drawdown, instead of `drawdown`. From 0.000484 to 4830 gal/min/ft (0.0001 to 1000 L/s/m)."""
    intake_elevation: LengthLike | None = None
    """Where the line takes the water in. Without it the first pipe is taken to hang straight down from its end, which is the deepest that it can reach. From -3280 to 3280 ft (-1000 to 1000 m)."""
    policy: Policy | None = None
    """What the caller calls feasible."""
    limits: bool | None = None
    """Whether the answer tells how far flow, depth, altitude and pipe size may go, and `levers`. Default: false."""


class Switch(RequestPart, frozen=True, kw_only=True):
    """The pressure switch."""

    cut_in: PressureLike
    """The pump starts when the pressure falls to here. From 2.91 to 217 psi (0.2 to 15 bar)."""
    cut_out: PressureLike
    """The pump stops when the pressure rises to here. From 2.91 to 217 psi (0.2 to 15 bar)."""


class Tank(RequestPart, frozen=True, kw_only=True):
    """A tank with a gas cushion, or several alike. A plain tank closed at air pressure has a precharge of 0."""

    volume: VolumeLike
    """Of the whole tank, gas and water together. From 0.0265 to 528 gal (0.1 to 2000 L)."""
    precharge: PressureLike
    """Pressure of the gas with the tank empty of water. From 0 to 217 psi (0 to 15 bar)."""
    count: int | None = None
    """How many. Default: 1."""


class TankCycleRequest(RequestPart, frozen=True, kw_only=True):
    """Tanks, switch and pump, and what the house draws: one of `demand` and `demands`."""

    tanks: Sequence[Tank]
    """All tanks on the line."""
    switch: Switch
    """The pressure switch."""
    pump: TankPump
    """The pump that fills the tanks."""
    units: Units | None = None
    """The system of units in which the answer speaks. Default: us."""
    site: Site | None = None
    """The place; each field has a default."""
    contributions: bool | None = None
    """Whether the answer tells how much each uncertain input has to do with its uncertainties. Default: false."""
    demand: FlowLike | None = None
    """A steady flow that is drawn from the tanks: 0, or 0.0006 L/min or more. From 0 to 317 gal/min (0 to 1200 L/min)."""
    demands: Sequence[FlowLike] | None = None
    """Several such flows, each answered in `cycles`; the headline is the worst of them: the greatest at which the pump runs on; else the one that starts the pump most often; else one at which it stays off. Each from 0 to 317 gal/min (0 to 1200 L/min)."""
    least_run: DurationLike | None = None
    """How long the pump shall run at least each time it starts. From 1 s to 1 h."""
    gas_exponent: float | None = None
    """n in p V^n: 1 for a slow cycle (isothermal), 1.4 for a quick one (adiabatic). Default: 1."""
    observed_drawdown: VolumeLike | None = None
    """Water caught between the pump's stop and its next start, with the pump's supply off. From 0 to 52800 gal (0 to 200000 L)."""


class TankElement(RequestPart, frozen=True, kw_only=True, tag_field="kind", tag="tank"):
    """A pressure tank on a node; with `to` it stands in the line on a tee, and water passes both ways."""

    id: str
    """The element's name; no other element has it."""
    from_: str = field(name="from")
    """The node that it begins at, or hangs on."""
    to: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""


class TankPump(RequestPart, frozen=True, kw_only=True):
    """The pump, by one `flow` or by `points`: one of the two."""

    flow: FlowLike | None = None
    """One flow at any pressure, as a displacement pump nearly has. From 0.00159 to 317 gal/min (0.006 to 1200 L/min)."""
    points: Sequence[PumpPoint] | None = None
    """Points of its curve in order of rising pressure, from cut-in or below to cut-out or above; the flow is straight between them and never rises. Nothing is made up beyond them, but that there is no flow above a point of no flow."""


class TapElement(RequestPart, frozen=True, kw_only=True, tag_field="kind", tag="tap"):
    """A tap, hose bib or drain. Open in a mode, it lets water out, or air in; with `to`, water passes it to there."""

    id: str
    """The element's name; no other element has it."""
    from_: str = field(name="from")
    """The node that it begins at, or hangs on."""
    to: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""


ElementsKind: TypeAlias = (
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


class TapePair(RequestPart, frozen=True, kw_only=True):
    """One reading of a chalked tape."""

    held: LengthLike
    """The tape's mark held at the measuring point. From 0.0329 to 3280 ft (0.01 to 1000 m)."""
    cut: LengthLike
    """The length of the tape's end that came up wet. From 0 to 3280 ft (0 to 1000 m)."""


class Valve(RequestPart, frozen=True, kw_only=True, tag_field="part", tag="valve"):
    """A valve, open."""

    valve: ValveKind
    """A valve of the table of valves."""
    name: str | None = None
    """A short label of the caller's own: one line, without control characters and without such as cannot be seen."""
    bore: Bore | None = None
    """The part's own bore, where it differs from the pipe before it."""
    cracking_pressure: PressureLike | None = None
    """What a check valve's spring takes before any water passes; lost at any flow. From 0 to 145 psi (0 to 10 bar)."""


DeliveryLinePart: TypeAlias = Pipe | Fitting | Valve | Strainer | IdlePump | FlowResistance


LinePart: TypeAlias = Pipe | Fitting | Valve | Strainer | IdlePump | FlowResistance


SuctionLinePart: TypeAlias = Pipe | Fitting | Valve | Strainer | IdlePump | FlowResistance


class WellPlan(RequestPart, frozen=True, kw_only=True):
    """The well's yield, by one of `recovery`, `pumping_test`, `specific_capacity` and `drawdown`. The first two need `casing_diameter`, and their depths are all taken from one point: that of `static_depth`, or without it that of the sounding, or without that the ground."""

    recovery: Recovery | None = None
    """How the level came back after pumping."""
    pumping_test: PumpingTest | None = None
    """How far the level fell while the well was pumped."""
    specific_capacity: SpecificCapacityLike | None = None
    """The well's yield for each length of drawdown, where it is known. From 0.000484 to 4830 gal/min/ft (0.0001 to 1000 L/s/m)."""
    drawdown: LengthLike | None = None
    """How far the level falls, taken as the same at any flow. From 0 to 1640 ft (0 to 500 m)."""
    static_depth: LengthLike | None = None
    """Depth to the water at rest when the recovery or the test was read, where that was another than the plan's. From -328 to 3280 ft (-100 to 1000 m)."""
    casing_diameter: LengthLike | None = None
    """Inside, where the level moves; of a dug well its lining. From 0.788 to 196 in (20 to 5000 mm)."""
    drop_pipe_diameter: LengthLike | None = None
    """Outside, of the pipe that hangs in the well; left out where none does. From 0.197 to 39.3 in (5 to 1000 mm)."""
    limit_depth: LengthLike | None = None
    """The lowest water level that is allowed, below the ground at the wellhead; without it, or where it lies deeper, one foot over the intake. From -328 to 3280 ft (-100 to 1000 m)."""


class WellRecoveryRequest(RequestPart, frozen=True, kw_only=True):
    """A well, and `recovery` or `pumping_test`; all depths are from one point, negative if it flows. `site` is idle."""

    static_depth: LengthLike
    """Depth to the water at rest. From -328 to 3280 ft (-100 to 1000 m)."""
    casing_diameter: LengthLike
    """Inside, where the level moves; of a dug well its lining. From 0.788 to 196 in (20 to 5000 mm)."""
    units: Units | None = None
    """The system of units in which the answer speaks. Default: us."""
    site: Site | None = None
    """The place; each field has a default."""
    contributions: bool | None = None
    """Whether the answer tells how much each uncertain input has to do with its uncertainties. Default: false."""
    drop_pipe_diameter: LengthLike | None = None
    """Outside, of the pipe that hangs in the well; left out where none does. From 0.197 to 39.3 in (5 to 1000 mm)."""
    recovery: Recovery | None = None
    """How the level came back after pumping."""
    pumping_test: PumpingTest | None = None
    """How far the level fell while the well was pumped."""
    design_flow: FlowLike | None = None
    """The flow that is to be drawn. From 0.0159 to 1580 gal/min (0.06 to 6000 L/min)."""
    limit_depth: LengthLike | None = None
    """The lowest water level that is allowed, such as just over the intake. From -328 to 3280 ft (-100 to 1000 m)."""


class WettedTape(RequestPart, frozen=True, kw_only=True, tag_field="method", tag="wetted-tape"):
    """A chalked steel tape let down into the water."""

    pairs: Sequence[TapePair]
    """One pair for each time that the tape was let down."""


class Wire(RequestPart, frozen=True, kw_only=True):
    """The pair of wires between battery and pump, by `gauge` or by `area`."""

    length: LengthLike
    """One way; the current runs it twice. From 0 to 3280 ft (0 to 1000 m)."""
    gauge: WireGauge | None = None
    """American wire gauge."""
    area: AreaLike | None = None
    """Cross-section, in place of `gauge`. From 0.000156 to 1.55 in^2 (0.1 to 1000 mm^2)."""
    material: WireMaterial | None = None
    """What the wire is made of. Default: copper."""
    temperature: TemperatureLike | None = None
    """Of the loaded conductor, for its resistance; 75 degC by default, which overstates a cool wire's drop. From -58 to 302 degF (-50 to 150 degC)."""
