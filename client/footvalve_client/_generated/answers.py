# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
# ruff: noqa: E501
"""What answers and problems are made of."""

from __future__ import annotations

from footvalve_client._answer import AnswerPart
from footvalve_client._generated.closed_lists import (
    CautionSeverity,
    DiagnosisFinding,
    HealthStatus,
    Outcome,
    PartLossRegime,
    SolarBalanceMonth,
    SuctionFeasibilityVerdict,
    WellRecoveryVerdict,
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
    SpecificCapacity,
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
    severity: CautionSeverity
    """How bad it can get."""
    text: str
    """What can happen, and what to do."""


class ChargeState(AnswerPart, frozen=True, kw_only=True):
    """The state of charge at one hour."""

    hour: int
    """From the outage's beginning, at midnight."""
    fraction: float
    """Of what a full battery delivers under these loads."""


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
    """With all loads that run at all: what wire and fuse must carry."""


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


class Fault(AnswerPart, frozen=True, kw_only=True):
    """One thing that is wrong with a request."""

    pointer: str
    """JSON Pointer (RFC 6901) to the field in the body; empty for the whole body."""
    detail: str
    """What is wrong there, and what was expected."""


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


class InputWarning(AnswerPart, frozen=True, kw_only=True):
    """A doubt about the input: it lies outside a method's valid range, or two inputs disagree."""

    pointer: str
    """JSON Pointer (RFC 6901) to the field in the request."""
    detail: str
    """What is doubtful, and what it does to the answer."""


class LiftRule(AnswerPart, frozen=True, kw_only=True):
    """What the trade's rule of thumb says."""

    allowed_lift: Length
    """The lift that the rule allows at this altitude."""
    agrees: bool
    """Whether the rule and the verdict say the same."""


class PartLoss(AnswerPart, frozen=True, kw_only=True):
    """
    What one part costs. Velocity and Reynolds number are there where the part's bore is known, the friction
        factor where the part is a pipe under Darcy-Weisbach.
    """

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
    """Whether it outruns self-discharge and the loads that run day and night."""
    carries_loads: bool
    """Whether, never switched off, it outruns self-discharge and the whole day's loads."""
    hours: float | None = None
    """From the floor to full beside the standing loads; absent where the charger does not hold."""


class RecoveryFit(AnswerPart, frozen=True, kw_only=True):
    """How well an exponential recovery describes the readings."""

    points: int
    """Readings that were used: those below the water at rest."""
    initial_drawdown: Length
    """The fit's drawdown at the first reading that was used."""
    r_squared: float | None = None
    """Share of the weighted spread of the drawdowns' logarithms that the fit explains; absent for two readings, which any exponential fits."""
    standard_uncertainty: SpecificCapacity | None = None
    """Of the specific capacity, one sigma, from the readings' scatter; absent for two readings."""


class RuleOfThumbDepth(AnswerPart, frozen=True, kw_only=True):
    """What the trade's rule of 20 ft for each second makes of the same times, less the delay."""

    depth: Length
    """Mean depth by the rule, below the measuring point."""
    differs_by: Length
    """The rule's depth less `depth_to_water`: positive where the rule is too deep."""
    errs: str
    """On which side the rule errs for the question whether a pump can lift the water."""


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
    verdict: SuctionFeasibilityVerdict
    """`feasible` where the margin reaches the policy's; `infeasible` where it is below zero, the water boils on the way, or the intake falls dry; `marginal` between."""
    npsh_available: Length
    """Net positive suction head at the pump inlet."""
    npsh_required: Length
    """What the pump needs of it."""
    margin: Length
    """Available less required."""
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


class TankCycleAnswer(AnswerPart, frozen=True, kw_only=True):
    """How often the pump starts at the demand, or at the busiest of the demands."""

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
    time_constant: Duration | None = None
    """In this time 63 % of a drawdown is made up: the casing's area over the specific capacity. Absent where nothing flows in."""
    fit: RecoveryFit | None = None
    """For a recovery: how well it fits."""
    correction: CasingCorrection | None = None
    """For a pumping test: the part of the casing's own water."""
    inflow_at_limit: Flow | None = None
    """With `limit_depth`: what flows in with the water at the limit, the most to be had for good."""
    pumping_depth: Length | None = None
    """With `design_flow`: the depth at which the level would settle; absent where the well does not give that flow at any depth down to 1000 m."""
    storage: Volume | None = None
    """With `limit_depth`: water in the casing from rest down to the limit."""
    verdict: WellRecoveryVerdict | None = None
    """`dry` where the water at rest stands at the limit or below it; `sustains` where the level settles at the limit or above it at the design flow; `storage-limited` where it does not, or where nothing flows in. Absent where `design_flow` or `limit_depth` is missing and would decide."""
    time_to_limit: Duration | None = None
    """With the verdict `storage-limited`, `design_flow` and `limit_depth`: how long the design flow can be drawn from rest until the level is at the limit."""


class WorstCase(AnswerPart, frozen=True, kw_only=True):
    """The steady demand that starts the pump most often."""

    demand: Flow
    """Half the flow of a pump with one flow."""
    starts_per_hour: float
    """Starts in an hour; 0 where the pump does not cycle."""
