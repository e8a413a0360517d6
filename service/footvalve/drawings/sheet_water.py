"""The blocks of a site sheet about the water: heads, places of the line, well, duty, tank and manifold."""

from collections.abc import Sequence
from typing import Final

from msgspec import UNSET, UnsetType
from msgspec.structs import asdict

from footvalve.contract.friction import FrictionAnswer
from footvalve.contract.manifold_check import ManifoldCheckAnswer, ModeOutcome
from footvalve.contract.quantities import Length, Quantity
from footvalve.contract.site_plan import Duty, SitePlanAnswer, SitePlanRequest
from footvalve.contract.suction_feasibility import ProfileNode, SuctionFeasibilityAnswer
from footvalve.contract.tank_cycle import TankCycleAnswer
from footvalve.contract.well_recovery import WellRecoveryAnswer
from footvalve.drawings.figures import NO_BREAK, chance_told, figure, percent, told, unit_as_written
from footvalve.drawings.lettering import shortened
from footvalve.drawings.sheet_blocks import Block, facts, first_of, known
from footvalve.quantity import LengthUnit

_MOST_PLACES: Final = 14
_FEWER_PLACES: Final = 11
"""A sheet's table lists all places of a line up to so many, and of a longer line so few."""

_MOST_FINDINGS: Final = 8
_MOST_MODES: Final = 8
_WAY_WIDTH: Final = 1000.0
_NAME_WIDTH: Final = 190.0
_SHORT_NAME_WIDTH: Final = 95.0
"""Of letters that are 10 high: about five lines of a block, and two or one of a table's column."""


def resting_depth(request: SitePlanRequest, answer: SitePlanAnswer) -> Length:
    """Depth to the water at rest, below the ground."""
    if answer.sounding is not UNSET:
        return answer.sounding.depth_below_ground
    assert request.depth_to_water is not UNSET, "a plan without a sounding states the depth"
    return request.depth_to_water


def in_unit(length: Length, unit: LengthUnit) -> str:
    """A length of the request in the answer's unit, as uncertain as it is."""
    return told(Length.from_base(length.base, unit).with_uncertainty(length.base_uncertainty))


def heads(request: SitePlanRequest, plan: SitePlanAnswer, answer: SuctionFeasibilityAnswer) -> Block:
    """Lift and heads of the suction side."""
    unit = answer.margin.unit
    fall, strokes, sure = request.seasonal_fall, answer.acceleration_head, answer.chance_feasible
    rule = "agrees" if answer.rule_of_thumb.agrees else "says otherwise"
    return facts(
        "Suction side, at the flow of cut-in",
        ("depth to the water at rest", in_unit(resting_depth(request, plan), unit)),
        ("seasonal fall", in_unit(fall, unit) if fall.base > 0 else None),
        ("pumping depth", told(answer.pumping_depth)),
        ("static lift", told(answer.static_lift)),
        ("losses in the line", told(answer.losses)),
        ("acceleration head", told(strokes) if strokes.value > 0 else None),
        ("NPSH available", told(answer.npsh_available)),
        ("NPSH required", told(answer.npsh_required)),
        (f"margin ({in_unit(request.policy.margin, unit)} asked)", told(answer.margin)),
        ("chance of being feasible", None if sure is UNSET else chance_told(sure)),
        (f"rule of thumb ({rule})", told(answer.rule_of_thumb.allowed_lift)),
        ("air to draw out first", told(answer.priming.line_volume)),
        ("which takes at least", known(answer.priming.time)),
    )


def lists_every_place(answer: SuctionFeasibilityAnswer) -> bool:
    """Whether the table of places holds them all, so that the drawing needs no key of its own."""
    return len(answer.profile) <= _MOST_PLACES


def places(answer: SuctionFeasibilityAnswer) -> Block:
    """The places of the suction line, or those that tell most."""
    profile = answer.profile
    whole = lists_every_place(answer)
    listed = range(len(profile)) if whole else _telling(profile)
    left_out = "" if whole else f", without {len(profile) - len(listed)} places that tell less"
    length, pressure = (unit_as_written(unit) for unit in (answer.margin.unit, profile[0].gauge_pressure.unit))
    width = _NAME_WIDTH if whole else _SHORT_NAME_WIDTH
    return Block(
        title=f"Along the suction line{left_out}",
        columns=("", "end of", f"gauge, {pressure}", f"to boiling, {length}"),
        rows=[
            (
                str(place or ""),
                shortened(profile[place].name, width, 10.0),
                figure(profile[place].gauge_pressure.value),
                figure(profile[place].above_vapour.value),
            )
            for place in listed
        ],
        wide=1,
    )


def _telling(profile: Sequence[ProfileNode]) -> list[int]:
    """The intake, the inlet, the crest, the tightest place, and those before which most head is lost."""
    limits = [node.elevation.value + node.above_vapour.value for node in profile]
    places = range(len(profile))
    crest = max(places, key=lambda place: profile[place].elevation.value)
    tightest = min(places, key=lambda place: profile[place].above_vapour.value)
    by_loss = sorted(places[1:], key=lambda place: limits[place] - limits[place - 1])
    chosen = dict.fromkeys([0, len(profile) - 1, crest, tightest, *by_loss])
    return sorted(list(chosen)[:_FEWER_PLACES])


def well(answer: WellRecoveryAnswer) -> Block:
    """What the well gives."""
    return facts(
        "Well",
        ("verdict", None if answer.verdict is UNSET else answer.verdict.replace("-", " ")),
        ("specific capacity", told(answer.specific_capacity)),
        ("inflow at its limit", known(answer.inflow_at_limit)),
        ("storage down to there", known(answer.storage)),
        ("time until it is there", known(answer.time_to_limit)),
    )


def duty(answer: Duty) -> Block:
    """Where the pump runs, and what a day takes of it."""
    hours, per_volume = answer.run_hours_per_day, answer.charge_per_volume
    day = facts(
        "",
        ("fills the tank up to", known(answer.greatest_tank_pressure)),
        ("runs in a day", None if hours is UNSET else f"{figure(hours)}{NO_BREAK}h"),
        ("charge in a day", known(answer.charge_per_day)),
    ).facts
    if per_volume is not UNSET:
        day = [*day, (f"charge for {told(per_volume.volume)}", told(per_volume.charge))]
    columns = ("", "cut-in", "mean", "cut-out")
    return Block(title="Duty of the pump", facts=day, columns=columns, rows=_duty_rows(answer))


def _duty_rows(answer: Duty) -> list[tuple[str, ...]]:
    start, mean, end = (
        {} if point is UNSET else asdict(point) for point in (answer.cut_in, answer.mean, answer.cut_out)
    )
    rows = [_duty_row("highest tap", answer.tap_pressure.at_cut_in, UNSET, answer.tap_pressure.at_cut_out)]
    for label, name in (("tank", "tank_pressure"), ("rise", "pump_rise"), ("flow", "flow"), ("current", "current")):
        row = [point.get(name, UNSET) for point in (start, mean, end)]
        if any(quantity is not UNSET for quantity in row):
            rows.append(_duty_row(label, *row))
    return rows


def _duty_row(label: str, *row: Quantity | UnsetType) -> tuple[str, ...]:
    """The unit stands with the label, once."""
    unit = next(quantity.unit for quantity in row if quantity is not UNSET)
    return f"{label}, {unit_as_written(unit)}", *("" if cell is UNSET else figure(cell.value) for cell in row)


def delivery(answer: FrictionAnswer) -> Block:
    """What the line behind the pump costs."""
    fastest = answer.greatest_velocity
    return facts(
        "Delivery line",
        ("head lost at cut-in", told(answer.total_head_loss)),
        ("greatest velocity", None if fastest is UNSET else told(fastest.velocity)),
    )


def tank(answer: TankCycleAnswer) -> Block:
    """What the tanks give, and how often the pump starts."""
    worst = answer.worst_case
    return facts(
        "Pressure tank",
        ("drawdown", told(answer.drawdown)),
        ("water at cut-out, of the volume", percent(answer.acceptance_fraction)),
        ("shortest run", known(answer.shortest_run)),
        ("most starts in an hour", None if worst is UNSET else figure(worst.starts_per_hour)),
        ("at the demand of", None if worst is UNSET else told(worst.demand)),
        ("precharge to set", told(answer.precharge_advice.precharge)),
        ("volume for the least run", known(answer.volume_needed)),
    )


def manifold(answer: ManifoldCheckAnswer) -> Block:
    """Where the water goes in each mode, and what is wrong."""
    findings = [f"{finding.severity.upper()}: {finding.text}" for finding in answer.findings]
    isolation = [f"{pump.pump}: {pump.text}" for pump in answer.isolates]
    ways = [f"{mode.name}: {_way(mode)}" for mode in answer.modes]
    said = [*first_of(ways, _MOST_MODES), *first_of([*findings, *isolation], _MOST_FINDINGS)]
    return Block(title=f"Manifold: {answer.verdict}", remarks=said)


def _way(mode: ModeOutcome) -> str:
    if not mode.delivers:
        return "DOES NOT DELIVER"
    return shortened(" → ".join(mode.path), _WAY_WIDTH, 10.0)
