# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
# ruff: noqa: E501
"""What answers and problems are made of."""

from __future__ import annotations

from typing import Any

from msgspec import field

from footvalve_client._answer import AnswerPart
from footvalve_client._generated.closed_lists import (
    DiagnosisFinding,
    FittingRowKind,
    HealthCounters,
    HealthKeys,
    HealthStatus,
    ManifoldCheckVerdict,
    ManifoldFindingCode,
    Nominal,
    Outcome,
    PartLossRegime,
    Severity,
    ShareEffect,
    ShareKind,
    SolarBalanceMonth,
    SuctionFeasibilityLimitsAtRangeEnd,
    Verdict,
    WellRecoveryVerdict,
    WireRowSystem,
)
from footvalve_client._generated.quantities import (
    Area,
    Charge,
    Current,
    Duration,
    Energy,
    Flow,
    Length,
    Pressure,
    Resistance,
    SpecificCapacity,
    Temperature,
    Velocity,
    Voltage,
    Volume,
)


class AirEntry(AnswerPart, frozen=True, kw_only=True):
    """A part that stands under vacuum, where any opening draws air."""

    index: int
    """Place in the request's line, from 0."""
    name: str
    """The part's name."""


class BasisStep(AnswerPart, frozen=True, kw_only=True):
    """One step of the reckoning and where its method comes from."""

    step: str
    """What was worked out."""
    method: str
    """How it was worked out."""
    source: str
    """Author, edition, table or equation."""
    valid_for: str
    """The range in which the method may be trusted."""
    within_range: bool
    """Whether every input of this step lies within `valid_for`; where one does not, a warning points at where it comes from."""


class BatchAnswer(AnswerPart, frozen=True, kw_only=True):
    """What each item comes to, in the order of the request."""

    items: list[BatchItemAnswer]
    """One for each item of the request, in its order."""
    warnings: list[InputWarning]
    """Doubts about the batch as a whole, such as an id given twice."""


class BatchItemAnswer(AnswerPart, frozen=True, kw_only=True):
    """What one item comes to."""

    id: str
    """The item's id."""
    status: int
    """The HTTP status that the item alone would have had: 200, or that of a problem."""
    body: dict[str, Any]
    """With status 200 the answer of the endpoint; else problem details as in `Problem`, whose pointers start at the item's body and whose `instance` ends with the item's place, such as `#/items/3`."""


class BatteryBank(AnswerPart, frozen=True, kw_only=True):
    """The bank as it was reckoned with."""

    voltage: Voltage
    """Nominal, of all batteries in series."""
    capacity: Charge
    """At the rated hours, after age and temperature."""
    temperature_fraction: float
    """What the temperature leaves of the capacity."""
    peukert_exponent: float
    """Peukert's exponent that was used."""
    floor_fraction: float
    """The state of charge at which the loads are cut off."""


class BatteryRuntimeAnswer(AnswerPart, frozen=True, kw_only=True):
    """How long the battery lasts, how much water it gives, and how it comes back."""

    basis: list[BasisStep]
    """The steps that led to the answer."""
    cautions: list[Caution]
    """Only those that this input calls for."""
    warnings: list[InputWarning]
    """Doubts about the input."""
    usable_charge: Charge
    """What these loads get from full down to the floor."""
    usable_energy: Energy
    """The same at the bank's nominal voltage."""
    runtime: Duration
    """From full down to the floor by the clock, with the day's loads and no charging."""
    days_of_autonomy: float
    """The same in days."""
    bank: BatteryBank
    """The bank as it was reckoned with."""
    daily_draw: DailyDraw
    """What the loads draw in a day."""
    state_of_charge: list[ChargeState]
    """Hour by hour from a full battery, with the sun of the worst month where there is any."""
    contributions: list[Contribution] | None = None
    """With `contributions` in the request: one for each quantity of the answer that has an uncertainty. Empty where no input is uncertain."""
    water_per_charge: Volume | None = None
    """What the pump brings in that time; absent without `pump_flow`."""
    pump_hours_per_day: float | None = None
    """How long the pump runs in a day; absent without `pump_flow`."""
    voltage_drop: VoltageDrop | None = None
    """Absent without `wire`."""
    recharge: list[Recharge] | None = None
    """One row for each charger, in the request's order."""
    solar_balance: list[SolarBalance] | None = None
    """One row for each of `sun_hours`; absent without `solar`."""
    ventilation: Ventilation | None = None
    """Absent for cells that make no gas."""


class CasingCorrection(AnswerPart, frozen=True, kw_only=True):
    """What the casing's own water did to a pumping test."""

    casing_water_fraction: float
    """Share of the pumped water that came out of the casing and not out of the ground; above 1 the level fell by more than the pumped water accounts for."""
    apparent_specific_capacity: SpecificCapacity
    """Flow over drawdown, as if the level had been still: too much, the more the shorter the test."""


class Caution(AnswerPart, frozen=True, kw_only=True):
    """A danger or a duty that this job brings with it."""

    code: str
    """A stable name, as in the table of cautions."""
    severity: Severity
    """How bad it can get."""
    text: str
    """What can happen, and what to do."""


class CautionRow(AnswerPart, frozen=True, kw_only=True):
    """A danger or a duty that an answer may warn of."""

    code: str
    """A stable name, as in the cautions of an answer."""
    severity: Severity
    """How bad it can get."""
    text: str
    """What can happen, and what to do."""
    source: str
    """Where the row's numbers come from."""


class CautionsTable(AnswerPart, frozen=True, kw_only=True):
    """Everything that an answer may warn of."""

    table: str
    rows: list[CautionRow]
    """One row a caution."""


class ChargePerVolume(AnswerPart, frozen=True, kw_only=True):
    """The charge that some water takes."""

    charge: Charge
    """What the pump draws for it, on the mean."""
    volume: Volume
    """The water: 100 gal, or 100 L."""


class ChargeState(AnswerPart, frozen=True, kw_only=True):
    """The state of charge at one hour."""

    hour: int
    """From the outage's beginning, at midnight."""
    fraction: float
    """Of what a full battery delivers under these loads."""


class ChemistriesTable(AnswerPart, frozen=True, kw_only=True):
    """Batteries by their chemistry."""

    table: str
    rows: list[ChemistryRow]
    """One row a chemistry."""


class ChemistryRow(AnswerPart, frozen=True, kw_only=True):
    """What to expect of a battery of this chemistry whose maker says nothing else, at 25 degC."""

    chemistry: str
    """Its name, as `battery.chemistry` takes it."""
    title: str
    """What the trade calls it."""
    family: str
    """The kind of cell."""
    nominal_cell_voltage: Voltage
    """Of one cell."""
    peukert_exponent: float
    """Peukert's exponent."""
    floor_fraction: float
    """The lowest state of charge in routine use."""
    charge_efficiency_fraction: float
    """Charge that is stored over charge that is put in."""
    absorption_start_fraction: float
    """The state of charge at which the current of a charger of `absorption_start_current` tapers."""
    absorption_start_current: Current
    """For each Ah: a slower charger meets the taper later, a stronger one sooner."""
    monthly_self_discharge_fraction: float
    """Of the capacity, in a month."""
    least_charge_current: Current
    """For each Ah of capacity."""
    greatest_charge_current: Current
    """For each Ah of capacity."""
    gases: bool
    """Whether the cells give off hydrogen."""
    float_gassing_current: Current
    """The current that makes gas on float charge, for each Ah of capacity."""
    boost_gassing_current: Current
    """The current that makes gas on boost charge, for each Ah of capacity."""
    least_charge_temperature: Temperature
    """The battery must not be charged below it."""
    cold_capacity: list[ColdCapacityRow]
    """From cold to warm."""
    sources: list[ChemistrySource]
    """One for each field but `cold_capacity`."""


class ChemistrySource(AnswerPart, frozen=True, kw_only=True):
    """Where one number of a chemistry comes from."""

    field_: str = field(name="field")
    """The field of the row."""
    source: str
    """Where the row's numbers come from."""


class ColdCapacityRow(AnswerPart, frozen=True, kw_only=True):
    """What a temperature leaves of a battery's capacity."""

    temperature: Temperature
    """Of the battery."""
    capacity_fraction: float
    """Of the capacity at 25 degC."""
    source: str
    """Where the row's numbers come from."""


class Contribution(AnswerPart, frozen=True, kw_only=True):
    """Where the uncertainty of one quantity of the answer comes from."""

    quantity: str
    """JSON Pointer to the quantity in the answer."""
    inputs: list[Share]
    """The input that matters most first."""


class CurvePoint(AnswerPart, frozen=True, kw_only=True):
    """One point of the line's curve."""

    flow: Flow
    """The flow."""
    head_loss: Length
    """Head lost in the whole line at that flow."""


class Cycle(AnswerPart, frozen=True, kw_only=True):
    """What the pump does at one demand."""

    demand: Flow
    """The steady flow that is drawn."""
    outcome: Outcome
    """`cycles`; `stays-off` once the tanks are full, without demand; `runs-on` where the pump never brings the tanks up to cut-out."""
    starts_per_hour: float
    """Starts in an hour; 0 where the pump does not cycle."""
    run_time: Duration | None = None
    """From the pump's start to its stop; absent where it runs on."""
    rest_time: Duration | None = None
    """From its stop to its next start; absent where it does not cycle."""
    settling_pressure: Pressure | None = None
    """Where the pressure stands still while the pump runs on; absent where it falls below cut-in."""


class DailyDraw(AnswerPart, frozen=True, kw_only=True):
    """What the loads draw in a day."""

    charge: Charge
    """In a whole day."""
    average_current: Current
    """Over the 24 hours."""
    greatest_current: Current
    """With all loads that run at all, each at the most that it draws: what wire and fuse must carry."""


class Diagnosis(AnswerPart, frozen=True, kw_only=True):
    """What an observed drawdown says about the precharge."""

    finding: DiagnosisFinding
    """`agrees` with what is stated; `lost-air` or `overcharged` where a lower or a higher precharge explains it; `switch-differs` where none does."""
    text: str
    """The finding in words, and how to make sure."""
    precharge: Pressure | None = None
    """The precharge of the first tank that explains the observation, all others moved by the same `shift`. Below zero there is less gas than fills the tank at air pressure. Absent for `switch-differs`."""
    shift: Pressure | None = None
    """How far that lies from the stated precharge; below zero for lost air."""
    other_precharge: Pressure | None = None
    """The first tank's precharge on the other side of cut-in that explains the same."""


class Duty(AnswerPart, frozen=True, kw_only=True):
    """How the pump runs between cut-in and cut-out, and what a day takes of it."""

    tap_pressure: TapPressure
    """At the highest tap."""
    cut_in: DutyPoint | None = None
    """Where the pump starts; absent where it gives nothing there."""
    mean: MeanDuty | None = None
    """Absent where the pump does not reach cut-out."""
    cut_out: DutyPoint | None = None
    """Where it stops; absent as `mean`."""
    greatest_tank_pressure: Pressure | None = None
    """Up to which the pump's points show that it fills the tank; absent where it does not lift the water up to the tank at all."""
    run_hours_per_day: float | None = None
    """Daily water over the mean flow; absent without either."""
    charge_per_volume: ChargePerVolume | None = None
    """Absent where the pump's current is not known."""
    charge_per_day: Charge | None = None
    """Mean current times the run hours; absent without either."""


class DutyPoint(AnswerPart, frozen=True, kw_only=True):
    """Where the pump runs against one pressure in the tank."""

    tank_pressure: Pressure
    """In the tank."""
    pump_rise: Pressure
    """From the pump's inlet to its outlet."""
    flow: Flow
    """What the pump gives."""
    current: Current | None = None
    """What it draws; absent where no point tells it."""


class Fault(AnswerPart, frozen=True, kw_only=True):
    """One thing that is wrong with a request."""

    pointer: str
    """JSON Pointer (RFC 6901) to the field in the body; empty for the whole body."""
    detail: str
    """What is wrong there, and what was expected."""


class FittingRow(AnswerPart, frozen=True, kw_only=True):
    """What a fitting costs. K is its loss in velocity heads, fT the friction factor at full turbulence."""

    fitting: str
    """Its name, as `fitting` of a part takes it."""
    title: str
    """What the trade calls it."""
    kind: FittingRowKind
    """Whether `value` is n of K = n fT, or K itself, or the bores on both sides decide."""
    source: str
    """Where the row's numbers come from."""
    value: float | None = None
    """As `kind` says; absent for a change of bore."""
    note: str | None = None
    """What to know before these numbers are used."""


class FittingsTable(AnswerPart, frozen=True, kw_only=True):
    """Fittings by what they cost."""

    table: str
    rows: list[FittingRow]
    """One row a fitting."""


class FrictionAnswer(AnswerPart, frozen=True, kw_only=True):
    """What the line costs."""

    basis: list[BasisStep]
    """The steps that led to the answer."""
    cautions: list[Caution]
    """Only those that this input calls for."""
    warnings: list[InputWarning]
    """Doubts about the input."""
    flow: Flow
    """The flow that the parts are reckoned at."""
    total_head_loss: Length
    """Head lost in the whole line, in height of its water."""
    total_pressure_drop: Pressure
    """The same as a pressure."""
    parts: list[PartLoss]
    """Each part in the request's order."""
    contributions: list[Contribution] | None = None
    """With `contributions` in the request: one for each quantity of the answer that has an uncertainty. Empty where no input is uncertain."""
    greatest_velocity: GreatestVelocity | None = None
    """Where the water runs fastest; absent where no bore is known."""
    curve: list[CurvePoint] | None = None
    """One point for each of `flows`, in their order."""


class GreatestVelocity(AnswerPart, frozen=True, kw_only=True):
    """Where the water runs fastest."""

    velocity: Velocity
    """Mean velocity there."""
    index: int
    """Place in the request's line, from 0."""
    name: str
    """The part's name."""


class Health(AnswerPart, frozen=True, kw_only=True):
    """Whether the process lives, or is ready for work."""

    status: HealthStatus
    """What was asked, answered with yes."""
    counters: HealthCounters | None = None
    """Where there are counters for several processes: whether they count together, or each alone as the store is away."""
    keys: HealthKeys | None = None
    """Where there is a file of keys: whether the keys are those of the file, or those from before as it cannot be used."""


class Index(AnswerPart, frozen=True, kw_only=True):
    """Where to find what."""

    name: str
    """The service."""
    version: str
    """Its version."""
    contract: str
    """Where the contract document stands."""
    endpoints: list[str]
    """The paths that take a POST."""
    tables: list[str]
    """The paths of the tables."""
    pages: list[str]
    """The paths of the pages for people."""


class InputWarning(AnswerPart, frozen=True, kw_only=True):
    """A doubt about the input: it lies outside a method's valid range, or two inputs disagree."""

    pointer: str
    """JSON Pointer (RFC 6901) to the field in the request."""
    detail: str
    """What is doubtful, and what it does to the answer."""


class Isolation(AnswerPart, frozen=True, kw_only=True):
    """Whether a pump can be taken out while another one serves the house."""

    pump: str
    """The pump's id."""
    isolates: bool
    """Whether the pump can be taken out with the house still served by another pump, in at least one mode. The only pump of a house cannot, whatever valves stand around it."""
    by: list[str]
    """The shutoff valves that part it from the rest."""
    text: str
    """How it is done, or why it cannot be done."""


class Lever(AnswerPart, frozen=True, kw_only=True):
    """One change that betters the suction side, everything else left as it is."""

    change: str
    """What to change, and how far."""
    pointer: str
    """JSON Pointer (RFC 6901) to the field in the request that changes."""
    margin: Length
    """NPSH available less required after it."""
    verdict: Verdict
    """Of the suction side after it."""


class LiftRule(AnswerPart, frozen=True, kw_only=True):
    """What the trade's rule of thumb says."""

    allowed_lift: Length
    """The lift that the rule allows at this altitude."""
    agrees: bool
    """Whether the rule and the verdict say the same."""


class ManifoldCheckAnswer(AnswerPart, frozen=True, kw_only=True):
    """Where the water goes in each mode, and what is wrong with the arrangement."""

    basis: list[BasisStep]
    """The steps that led to the answer."""
    cautions: list[Caution]
    """Only those that this input calls for."""
    warnings: list[InputWarning]
    """Doubts about the input."""
    verdict: ManifoldCheckVerdict
    """By the gravest finding: `wrong` for a danger, `doubtful` for a warning, else `right`."""
    modes: list[ModeOutcome]
    """Each mode in the request's order."""
    isolates: list[Isolation]
    """Each pump in the request's order."""
    findings: list[ManifoldFinding]
    """The gravest first."""
    contributions: list[Contribution] | None = None
    """With `contributions` in the request: one for each quantity of the answer that has an uncertainty. Empty where no input is uncertain."""


class ManifoldFinding(AnswerPart, frozen=True, kw_only=True):
    """One thing that is wrong with the arrangement, and what to do about it."""

    code: ManifoldFindingCode
    """A stable name."""
    severity: Severity
    """How bad it can get."""
    text: str
    """What is wrong, and what to add, turn or close."""
    elements: list[str]
    """The elements that it is about."""
    modes: list[str]
    """The modes in which it shows; empty where it is so in any."""


class Material(AnswerPart, frozen=True, kw_only=True):
    """A thing that the plan is made of, whether it is there already or is to be bought."""

    item: str
    """What it is."""
    for_: str = field(name="for")
    """What it is for."""
    size: str | None = None
    """Its size, rating or setting."""
    count: int | None = None
    """How many; absent for what comes by the length."""
    length: Length | None = None
    """How much of it, for what comes by the length."""


class MeanDuty(AnswerPart, frozen=True, kw_only=True):
    """The pump's mean over the time of one filling, from cut-in to cut-out with nothing drawn."""

    flow: Flow
    """Water of one filling over the time that it takes."""
    current: Current | None = None
    """Charge of one filling over the time."""


class ModeOutcome(AnswerPart, frozen=True, kw_only=True):
    """Where the water goes in one mode. Lists hold ids of elements, and are empty where there is nothing to tell."""

    name: str
    """The mode's name."""
    delivers: bool
    """Whether a way leads from the source through a running pump to the house; where water also recirculates, little of it may take that way."""
    path: list[str]
    """The shortest such way, in the water's order."""
    recirculates: list[str]
    """A loop in which a running pump's water comes back to its inlet, from that pump on; where there are several, the shortest."""
    deadheads: list[str]
    """Running pumps whose water reaches neither the house nor an open tap, a relief valve or the source."""
    runs_dry: list[str]
    """Running pumps to whose inlets no water from the source gets: they run dry."""
    drains_back: list[str]
    """The way by which water runs from the house or a tank back to the source once the pumps stop."""
    draws_air_at: list[str]
    """Open taps that stand on the suction side, under vacuum."""


class PartLoss(AnswerPart, frozen=True, kw_only=True):
    """What one part costs. Velocity and Reynolds number are there where the part's bore is known, the friction factor where the part is a pipe under Darcy-Weisbach."""

    index: int
    """Place in the request's line, from 0."""
    name: str
    """The caller's label, or else what the part is."""
    head_loss: Length
    """Head lost in this part."""
    velocity: Velocity | None = None
    """Mean velocity in the part's bore."""
    reynolds: float | None = None
    """Reynolds number in the part's bore."""
    regime: PartLossRegime | None = None
    """Regime of the flow there."""
    friction_factor: float | None = None
    """Darcy friction factor (four times the Fanning factor)."""


class PipeRow(AnswerPart, frozen=True, kw_only=True):
    """A kind of pipe, and the sizes that it comes in."""

    product: str
    """Its name, as `size.product` takes it."""
    title: str
    """What the trade calls it."""
    material: str
    """What its wall is made of."""
    bore_basis: str
    """Of which wall the bores are, such as the least that is allowed."""
    roughness: Length
    """Height of the wall's roughness."""
    roughness_source: str
    """Where the roughness comes from."""
    hazen_williams_coefficient: float
    """C of Hazen and Williams."""
    hazen_williams_source: str
    """Where C comes from."""
    sizes: list[PipeSizeRow]
    """From small to large."""
    source: str
    """Where the row's numbers come from."""
    note: str | None = None
    """What to know before these numbers are used."""


class PipeSizeRow(AnswerPart, frozen=True, kw_only=True):
    """One size of a pipe."""

    nominal: str
    """The nominal size in inches, as `size.nominal` takes it."""
    outside_diameter: Length
    """Outside diameter."""
    inside_diameter: Length
    """The bore that is reckoned with."""
    source: str
    """Where the row's numbers come from."""


class PipesTable(AnswerPart, frozen=True, kw_only=True):
    """Pipes by product, with their bores and how rough they are."""

    table: str
    rows: list[PipeRow]
    """One row a product."""


class PrechargeAdvice(AnswerPart, frozen=True, kw_only=True):
    """What the precharge of a bladder or diaphragm tank is set to."""

    precharge: Pressure
    """With the tank empty of water and the pump off."""
    text: str
    """Why, and how far the stated precharges are from it."""


class Priming(AnswerPart, frozen=True, kw_only=True):
    """Drawing the air out of a dry line."""

    line_volume: Volume
    """Air in the line above the water at rest."""
    time: Duration | None = None
    """The least time in which a displacement pump draws it out at this flow; absent where this pump or this lift does not allow it."""


class Problem(AnswerPart, frozen=True, kw_only=True):
    """Problem details as in RFC 9457."""

    type: str
    """A URI reference that names the kind of problem; the service answers it with a page."""
    title: str
    """The kind of problem in a few words; the same at every occurrence."""
    status: int
    """The HTTP status."""
    detail: str
    """What went wrong this time."""
    instance: str
    """A URI reference that names this occurrence."""
    request_id: str
    """The request's id, as in the header X-Request-Id."""
    errors: list[Fault] | None = None
    """Every fault of the body that could be told apart."""


class ProfileNode(AnswerPart, frozen=True, kw_only=True):
    """A place on the line: the intake, or the end of a part. Pressures are static, at the pumping level."""

    name: str
    """`intake`, or the name of the part that ends here."""
    elevation: Length
    """Above the ground at the wellhead."""
    absolute_pressure: Pressure
    """What the line calls for here; below the vapour pressure it cannot be had: the water boils."""
    gauge_pressure: Pressure
    """Against the air of the site."""
    above_vapour: Length
    """Head that is left here before the water boils."""
    under_vacuum: bool
    """Whether the pressure is below that of the air."""
    index: int | None = None
    """Place in the request's line, from 0."""


class Recharge(AnswerPart, frozen=True, kw_only=True):
    """How one charger does."""

    current: Current
    """The charger's."""
    rate_note: str
    """The rate, and whether it suits the chemistry."""
    holds: bool
    """Whether it outruns self-discharge and the loads that run day and night; never where the battery is too cold to be charged."""
    carries_loads: bool
    """Whether, never switched off, it outruns self-discharge and the whole day's loads."""
    hours: float | None = None
    """From the floor to full beside the standing loads, with a taper that a slow charger hardly meets; absent where the charger does not hold."""


class RecoveryFit(AnswerPart, frozen=True, kw_only=True):
    """How well an exponential recovery describes the readings."""

    points: int
    """Readings that were used: those below the water at rest."""
    initial_drawdown: Length
    """The fit's drawdown at the first reading that was used."""
    r_squared: float | None = None
    """Share of the weighted spread of the drawdowns' logarithms that the fit explains; absent for two readings, which any exponential fits."""
    standard_uncertainty: SpecificCapacity | None = None
    """Of the specific capacity, one sigma, from the readings' scatter; absent for two readings, which count for the verdict as good as a tape reads."""


class RuleOfThumbDepth(AnswerPart, frozen=True, kw_only=True):
    """What the trade's rule of 20 ft for each second makes of the same times, less the delay."""

    depth: Length
    """Mean depth by the rule, below the measuring point."""
    differs_by: Length
    """The rule's depth less `depth_to_water`: positive where the rule is too deep."""
    errs: str
    """On which side the rule errs for the question whether a pump can lift the water."""


class ScriptIntegrity(AnswerPart, frozen=True, kw_only=True):
    """Where the script of the suction check stands for good, and the hash that holds it to its bytes."""

    script: str
    """Its address, which holds these bytes alone: relative to the service, or whole where the service knows its public origin."""
    integrity: str
    """The hash for the attribute `integrity`."""
    tag: str
    """The HTML that loads it. Where `script` is relative, put the origin before."""


class Share(AnswerPart, frozen=True, kw_only=True):
    """What one uncertain input has to do with the uncertainty of a quantity of the answer."""

    pointer: str
    """JSON Pointer to the input in the request; to the list, for the scatter of readings."""
    kind: ShareKind
    """`stated` by the caller (JCGM 100, as a rule type B), or from the `scatter` of repeated readings (type A)."""
    effect: ShareEffect
    """What more of the input does to the quantity of the answer."""
    variance_fraction: float
    """Its part of the quantity's variance; the parts of all inputs add up to 1."""


class SitePlanAnswer(AnswerPart, frozen=True, kw_only=True):
    """The whole plan. Basis, cautions and warnings of all its steps are gathered here, each once, with pointers into the plan's own request; those lists are empty in the steps."""

    basis: list[BasisStep]
    """The steps that led to the answer."""
    cautions: list[Caution]
    """Only those that this input calls for."""
    warnings: list[InputWarning]
    """Doubts about the input."""
    verdict: Verdict
    """`infeasible` where the suction side is, the pump does not reach cut-out, the highest tap is without pressure at cut-in, the pump would have to run more than 24 hours a day, the well is dry or nothing flows into it, the wire carries less in the site's air than is drawn, or the manifold has no pump, a mode of it that runs a pump does not deliver, or none does. `marginal` where the suction side is, the suction line has no check valve, the well is short of a day's water or its level settles below a stated limit, the highest tap has less than 5 psi at cut-in, the pump starts too often, runs too briefly or does not keep up with `demand`, the battery does not last `days` or is drawn on by more than its capacity in an hour, nothing charges it fully or within 3 days, a charger is too strong for it, the wire takes more than 5 % of its voltage, carries less than its fuse or is said to be warmer than 60 degC, or the manifold is wrong or doubtful. Else `feasible`, as far as the input tells."""
    summary: list[str]
    """The plan in at most five sentences."""
    reasons: list[str]
    """All that keeps the verdict from `feasible`, the gravest first; else empty."""
    duty: Duty
    """How the pump runs."""
    levers: list[Lever]
    """Where the suction side is not feasible: single changes, each reckoned again with the pump's new flow, the sufficient ones first. Else empty."""
    to_do: list[str]
    """What is to be done, in order."""
    materials: list[Material]
    """What the plan is made of."""
    contributions: list[Contribution] | None = None
    """With `contributions` in the request: one for each quantity of the answer that has an uncertainty. Empty where no input is uncertain."""
    sounding: SoundingAnswer | None = None
    """Absent with `depth_to_water`."""
    well_recovery: WellRecoveryAnswer | None = field(name="well-recovery", default=None)
    """For `recovery` or `pumping_test`, at the greatest flow, with all depths below the ground and as deep as in the dry season."""
    suction_feasibility: SuctionFeasibilityAnswer | None = field(name="suction-feasibility", default=None)
    """At the greatest flow, that at cut-in; absent where the pump gives none."""
    friction: FrictionAnswer | None = None
    """Of the delivery line, at the greatest flow."""
    tank_cycle: TankCycleAnswer | None = field(name="tank-cycle", default=None)
    """With what the pump gives into the tank; absent without tanks, or short of cut-out."""
    battery_runtime: BatteryRuntimeAnswer | None = field(name="battery-runtime", default=None)
    """With the pump's mean flow and current, and its greatest current for wire and fuse; absent without battery, current or daily water."""
    manifold_check: ManifoldCheckAnswer | None = field(name="manifold-check", default=None)
    """Absent without `manifold`."""


class SmallestSize(AnswerPart, frozen=True, kw_only=True):
    """The narrowest pipe that will do."""

    nominal: Nominal
    """The nominal size in inches."""
    bore: Length
    """Inside diameter in that size, of the narrowest of the products in the line."""


class SolarBalance(AnswerPart, frozen=True, kw_only=True):
    """A day of sun against a day of loads."""

    month: SolarBalanceMonth
    """`every` where one figure stands for the whole year."""
    harvest: Energy
    """What the array brings in a day."""
    need: Energy
    """The day's loads over the battery's charge efficiency."""
    covers_fraction: float
    """Harvest over need, at most 1."""


class SoundingAnswer(AnswerPart, frozen=True, kw_only=True):
    """How far down the water stands."""

    basis: list[BasisStep]
    """The steps that led to the answer."""
    cautions: list[Caution]
    """Only those that this input calls for."""
    warnings: list[InputWarning]
    """Doubts about the input."""
    depth_to_water: Length
    """Mean of the readings, below the measuring point; negative where the water stands above it."""
    depth_below_ground: Length
    """The same below the ground at the wellhead; negative where the water stands above."""
    readings: list[Length]
    """The depth by each reading, in the request's order."""
    spread: Length
    """The greatest reading less the smallest."""
    contributions: list[Contribution] | None = None
    """With `contributions` in the request: one for each quantity of the answer that has an uncertainty. Empty where no input is uncertain."""
    rule_of_thumb: RuleOfThumbDepth | None = None
    """For a stone drop: what the rule of 20 ft a second would say."""


class SuctionFeasibilityAnswer(AnswerPart, frozen=True, kw_only=True):
    """Whether the well can be drawn on, and why."""

    basis: list[BasisStep]
    """The steps that led to the answer."""
    cautions: list[Caution]
    """Only those that this input calls for."""
    warnings: list[InputWarning]
    """Doubts about the input."""
    verdict: Verdict
    """`feasible` where the margin reaches the policy's; `infeasible` where it is below zero, the water boils on the way, or no water stands over the intake; `marginal` between. Also `marginal` instead of `feasible` where less than 0.3 m (1 ft) of water stands over the intake, where a place on the way has less head before it boils than the policy's margin, where the line rises higher than this pump draws a dry line, and where the disc of a check valve that this flow does not lift may take so much more than is counted that the verdict would turn."""
    npsh_available: Length
    """Net positive suction head at the pump inlet."""
    npsh_required: Length
    """What the pump needs of it."""
    margin: Length
    """Available less required, by what is counted: check valves as if their discs were lifted."""
    pumping_depth: Length
    """To the water while it is drawn, in the dry season, below the ground."""
    static_lift: Length
    """From the pumping water level up to the pump inlet."""
    losses: Length
    """Head lost in the whole line, from the intake on."""
    acceleration_head: Length
    """Head that a reciprocating pump's stroke takes; nil for others."""
    priming: Priming
    profile: list[ProfileNode]
    """The intake, then each part's end in order."""
    tightest: ProfileNode
    """The node that is nearest to boiling."""
    air_entry: list[AirEntry]
    """The parts that stand under vacuum."""
    rule_of_thumb: LiftRule
    reasons: list[str]
    """Why the verdict is what it is, in the trade's words."""
    contributions: list[Contribution] | None = None
    """With `contributions` in the request: one for each quantity of the answer that has an uncertainty. Empty where no input is uncertain."""
    chance_feasible: float | None = None
    """The chance that the margin reaches the policy's and nothing else stands against `feasible`, where an input is uncertain: each as a normal distribution, independent of the others, without what cannot be. Good to 0.03, or a warning says that it is not."""
    greatest_flow: Flow | None = None
    """With `limits` in the request: the greatest flow at which the verdict is still `feasible`, all else as it is stated, however uncertain that is. Fed back it gives that verdict, a little more does not, and every smaller one that the field takes is `feasible` too; absent where none is. A stated `drawdown` and the pump's NPSH are taken as the same at any flow."""
    greatest_depth_to_water: Length | None = None
    """Likewise the greatest static depth, below the ground at the wellhead; the intake stays where it is."""
    greatest_altitude: Length | None = None
    """Likewise the greatest altitude above mean sea level."""
    smallest_size: SmallestSize | None = None
    """With `limits`: the smallest nominal size that all the pipes given by `size` may have at once, each in its own product. Absent where no pipe is given so, where no size suffices, and where the line holds a change of bore that no such size leaves in place."""
    limits_at_range_end: list[SuctionFeasibilityLimitsAtRangeEnd] | None = None
    """With `limits`: which of them are only the end of what their field takes: it is still `feasible` there."""
    levers: list[Lever] | None = None
    """With `limits` in the request, where the verdict is not `feasible`: single changes, each reckoned again, the sufficient ones first. Empty where it is."""


class TankCycleAnswer(AnswerPart, frozen=True, kw_only=True):
    """How often the pump starts at the demand, or at the worst of the demands."""

    basis: list[BasisStep]
    """The steps that led to the answer."""
    cautions: list[Caution]
    """Only those that this input calls for."""
    warnings: list[InputWarning]
    """Doubts about the input."""
    demand: Flow
    """The steady flow that is drawn."""
    outcome: Outcome
    """`cycles`; `stays-off` once the tanks are full, without demand; `runs-on` where the pump never brings the tanks up to cut-out."""
    starts_per_hour: float
    """Starts in an hour; 0 where the pump does not cycle."""
    drawdown: Volume
    """Water that the tanks give between cut-out and cut-in."""
    acceptance_fraction: float
    """Share of the tanks' volume that is water at cut-out."""
    precharge_advice: PrechargeAdvice
    """How to set the precharge."""
    contributions: list[Contribution] | None = None
    """With `contributions` in the request: one for each quantity of the answer that has an uncertainty. Empty where no input is uncertain."""
    run_time: Duration | None = None
    """From the pump's start to its stop; absent where it runs on."""
    rest_time: Duration | None = None
    """From its stop to its next start; absent where it does not cycle."""
    settling_pressure: Pressure | None = None
    """Where the pressure stands still while the pump runs on; absent where it falls below cut-in."""
    shortest_run: Duration | None = None
    """The run with no demand; absent where the pump never reaches cut-out."""
    worst_case: WorstCase | None = None
    """Absent where the pump never reaches cut-out at any demand."""
    cycles: list[Cycle] | None = None
    """One for each of `demands`, in their order."""
    volume_needed: Volume | None = None
    """For `least_run`: total tank volume, in the stated mix and precharge, with which even the run without demand lasts so long."""
    diagnosis: Diagnosis | None = None
    """For `observed_drawdown`."""


class TapPressure(AnswerPart, frozen=True, kw_only=True):
    """The pressure at the highest tap with the water at rest."""

    at_cut_in: Pressure
    """When the pump starts."""
    at_cut_out: Pressure
    """When it stops."""


class TextLanguages(AnswerPart, frozen=True, kw_only=True):
    """The languages that the suction check speaks."""

    languages: list[str]
    """Each as in `lang` of HTML. Its texts are at /embed/v1/texts/<language>.json."""


class UnitRow(AnswerPart, frozen=True, kw_only=True):
    """A unit of the wire. A value in the base unit is `value * scale + offset`; neither is rounded to six digits."""

    unit: str
    """As it stands on the wire."""
    dimension: str
    """The type of quantity that takes it."""
    base_unit: str
    """The unit of that dimension that the service reckons in."""
    scale: float
    """What one of the unit is in the base unit, less the offset."""
    offset: float
    """What zero of the unit is in the base unit; 0 but for temperatures."""
    source: str
    """Where the row's numbers come from."""


class UnitsTable(AnswerPart, frozen=True, kw_only=True):
    """The closed lists of units, by dimension."""

    table: str
    rows: list[UnitRow]
    """One row a unit."""


class ValveRow(AnswerPart, frozen=True, kw_only=True):
    """What a valve costs when open, and whether it lets water back."""

    valve: str
    """Its name, as `valve` of a part takes it."""
    title: str
    """What the trade calls it."""
    equivalent_length_ratio: float
    """n of K = n fT: its loss in velocity heads over the friction factor at full turbulence."""
    is_check: bool
    """Whether it lets no water back."""
    includes_strainer: bool
    """Whether the loss is that of valve and strainer together."""
    source: str
    """Where the row's numbers come from."""
    full_lift_velocity: Velocity | None = None
    """Of water of 1000 kg/m^3, in the valve's bore: below it the disc is not fully lifted and the loss is greater. Absent where it is not known, or there is no disc to be lifted."""
    full_lift_source: str | None = None
    """Where that velocity comes from; absent with it."""
    note: str | None = None
    """What to know before these numbers are used."""


class ValvesTable(AnswerPart, frozen=True, kw_only=True):
    """Valves by what they cost when open."""

    table: str
    rows: list[ValveRow]
    """One row a valve."""


class Ventilation(AnswerPart, frozen=True, kw_only=True):
    """The air that a charging battery needs against its hydrogen."""

    airflow: Flow
    """Air through the battery's room or box while it charges."""
    opening: Area
    """Free area of the inlet, and again of the outlet, where the air moves by itself."""
    text: str
    """Where the openings belong."""


class VoltageDrop(AnswerPart, frozen=True, kw_only=True):
    """What the wire takes at the greatest current, there and back."""

    volts: Voltage
    """Lost in both wires together."""
    fraction: float
    """Of the bank's nominal voltage."""


class WellRecoveryAnswer(AnswerPart, frozen=True, kw_only=True):
    """How much water the well gives."""

    basis: list[BasisStep]
    """The steps that led to the answer."""
    cautions: list[Caution]
    """Only those that this input calls for."""
    warnings: list[InputWarning]
    """Doubts about the input."""
    specific_capacity: SpecificCapacity
    """Inflow for each length of drawdown; 0 where the readings show none."""
    reasons: list[str]
    """Why the verdict is what it is, in the trade's words."""
    contributions: list[Contribution] | None = None
    """With `contributions` in the request: one for each quantity of the answer that has an uncertainty. Empty where no input is uncertain."""
    time_constant: Duration | None = None
    """In this time 63 % of a drawdown is made up: the casing's area over the specific capacity. Absent where nothing flows in."""
    fit: RecoveryFit | None = None
    """For a recovery: how well it fits."""
    correction: CasingCorrection | None = None
    """For a pumping test: the part of the casing's own water."""
    inflow_at_limit: Flow | None = None
    """With `limit_depth`: what flows in with the water at the limit, the most to be had for good; a hope where a warning says that the limit lies below what was tested."""
    pumping_depth: Length | None = None
    """With `design_flow`: the depth at which the level would settle; absent where the well does not give that flow at any depth down to 1000 m."""
    storage: Volume | None = None
    """With `limit_depth`: water in the casing from rest down to the limit."""
    verdict: WellRecoveryVerdict | None = None
    """`dry` where the water at rest stands at the limit or below it; `sustains` where the inflow, less two standard uncertainties, holds the level at the limit or above it at the design flow; `storage-limited` where it does not, or where nothing flows in. Absent where `design_flow` or `limit_depth` is missing and would decide, and where the readings prove nothing: their uncertainty is as great as the inflow that they show; or the design flow takes more than twice the tested drawdown; or more than half of a test's water came out of the casing. A reason says so."""
    time_to_limit: Duration | None = None
    """With the verdict `storage-limited`, `design_flow` and `limit_depth`: how long the design flow can be drawn from rest until the level is at the limit; by the inflow less two standard uncertainties where only these make the verdict."""


class WireRow(AnswerPart, frozen=True, kw_only=True):
    """A size of stranded wire: its resistance, and the ampacity of copper of that size."""

    system: WireRowSystem
    """American wire gauge, or metric by its area."""
    designation: str
    """The gauge, as `wire.gauge` takes it; or the nominal area in mm^2."""
    area: Area
    """Cross-section of the metal."""
    resistance: Resistance
    """Of one stranded copper conductor of `resistance_length` at that temperature."""
    resistance_length: Length
    """The length that has that resistance."""
    resistance_temperature: Temperature
    """The temperature that it has it at."""
    resistance_source: str
    """Where the resistance comes from."""
    ampacity: Current
    """What copper may carry all the time, its insulation at 60 degC and 30 degC around it."""
    ampacity_source: str
    """Where the ampacity comes from."""
    source: str
    """Where the row's numbers come from."""
    diameter: Length | None = None
    """Of solid wire of that area; metric wires are named by area and have none."""
    aluminum_resistance: Resistance | None = None
    """Of one stranded aluminum conductor of `resistance_length` at 20 degC; metric wires alone."""
    aluminum_resistance_source: str | None = None
    """Where the resistance of aluminum comes from."""


class WiresTable(AnswerPart, frozen=True, kw_only=True):
    """Sizes of stranded wire, American and metric."""

    table: str
    rows: list[WireRow]
    """One row a size."""


class WorstCase(AnswerPart, frozen=True, kw_only=True):
    """The steady demand that starts the pump most often."""

    demand: Flow
    """Half the flow of a pump with one flow."""
    starts_per_hour: float
    """Starts in an hour; 0 where the pump does not cycle."""
