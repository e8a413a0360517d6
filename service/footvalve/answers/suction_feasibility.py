"""Whether a well can be drawn on by suction from where the pump stands: the answer of `suction-feasibility`."""

from collections.abc import Iterator, Sequence

from msgspec import UNSET

from footvalve.answers.alike_doubts import few_of_each
from footvalve.answers.basis import At, Reckoned, basis, range_doubts, step_kind
from footvalve.answers.cautions import cautions, flowing_codes, frost_codes
from footvalve.answers.line_basis import line_steps
from footvalve.answers.line_doubts import FASTEST_IN_SUCTION, line_doubts
from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.shared import Shared
from footvalve.answers.suction_doubts import missing_parts, shallow_intake
from footvalve.answers.suction_headline import headlines_near
from footvalve.answers.suction_levers import suction_levers
from footvalve.answers.suction_lift import drawdown_doubts, npsh_doubts
from footvalve.answers.suction_limits import suction_limits
from footvalve.answers.suction_priming import priming, priming_doubts
from footvalve.answers.suction_reasons import suction_reasons
from footvalve.answers.suction_state import SuctionState, suction_state
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.contract.answer import Warning
from footvalve.contract.line import IdlePump
from footvalve.contract.suction_feasibility import (
    AirEntry,
    LiftRule,
    ProfileNode,
    ReciprocatingPump,
    SuctionFeasibilityAnswer,
    SuctionFeasibilityRequest,
)
from footvalve.physics.acceleration_head import ACCELERATION_HEAD
from footvalve.physics.atmosphere import STANDARD_ATMOSPHERE
from footvalve.physics.net_positive_suction_head import NPSH_AVAILABLE, RATED_LIFT
from footvalve.physics.priming import PRIMING
from footvalve.physics.suction_lift_rule import SUCTION_LIFT_RULE
from footvalve.physics.suction_profile import PROFILE
from footvalve.physics.water import WATER


def suction_feasibility(request: SuctionFeasibilityRequest) -> SuctionFeasibilityAnswer:
    """The verdict on a suction line, the pressures along it, and the reasons. Raises Refused with the faults."""
    return _told(request, suction_state(request))


def suction_with_headlines(
    request: SuctionFeasibilityRequest, parts: list[ResolvedPart] | None = None
) -> Shared[SuctionFeasibilityAnswer]:
    """The same with the function for the headlines of this request and of others near it; `parts` are those of its
    line, where they are known already."""
    state = suction_state(request, parts)
    return Shared(_told(request, state), headlines_near(request, state))


def _told(request: SuctionFeasibilityRequest, state: SuctionState) -> SuctionFeasibilityAnswer:
    units, verdict = unit_system(request.units), state.verdict
    profile = _profile(state, units)
    steps = tuple(_steps(request, state, units))
    return SuctionFeasibilityAnswer(
        verdict=verdict,
        npsh_available=units.length(state.npsh_available),
        npsh_required=units.length(state.npsh_required),
        margin=units.length(state.margin),
        pumping_depth=units.length(state.pumping_depth),
        static_lift=units.length(state.static_lift),
        losses=units.length(state.losses),
        acceleration_head=units.length(state.acceleration_head),
        priming=priming(state, request.pump, units),
        profile=profile,
        tightest=profile[state.tightest],
        air_entry=_air_entry(state),
        rule_of_thumb=LiftRule(allowed_lift=units.length(state.allowed_lift), agrees=state.rule_agrees(verdict)),
        reasons=suction_reasons(state, units, verdict),
        **(suction_limits(request, state) if request.limits else {}),
        levers=suction_levers(request, state) if request.limits else UNSET,
        basis=basis(steps, units),
        cautions=cautions(_caution_codes(request, state)),
        warnings=_warnings(request, state, steps, units),
    )


def _profile(state: SuctionState, units: UnitSystem) -> list[ProfileNode]:
    found: list[ProfileNode] = []
    places = zip(state.elevations.nodes, state.pressures, state.left, strict=True)
    before, told = state.elevations.intake, units.length(state.elevations.intake)
    for index, (elevation, pressure, left) in enumerate(places, start=-1):
        if elevation != before:
            before, told = elevation, units.length(elevation)
        gauge = pressure - state.air_pressure
        node = ProfileNode(
            index=UNSET if index < 0 else index,
            name="intake" if index < 0 else state.parts[index].name,
            elevation=told,
            absolute_pressure=units.pressure(pressure),
            gauge_pressure=units.pressure(gauge),
            above_vapour=units.length(left),
            under_vacuum=gauge < 0.0,
        )
        found.append(node)
    return found


def _air_entry(state: SuctionState) -> list[AirEntry]:
    vacuum = [pressure < state.air_pressure for pressure in state.pressures]
    return [
        AirEntry(index=index, name=part.name)
        for index, part in enumerate(state.parts)
        if vacuum[index] or vacuum[index + 1]
    ]


def _steps(request: SuctionFeasibilityRequest, state: SuctionState, units: UnitSystem) -> Iterator[Reckoned]:
    pump, altitude = request.pump, At("/site/altitude", request.site.altitude.base)
    temperature = At("/site/water_temperature", state.drawn.temperature)
    yield _AIR.reckoned(altitude=altitude)
    yield _DRAWN.reckoned(temperature=temperature)
    yield from line_steps(state.parts, state.flow, state.drawn, units)
    if isinstance(pump, ReciprocatingPump):
        strokes = At("/pump/strokes_per_minute", pump.strokes_per_minute)
        yield _STROKES.reckoned(strokes_per_minute=strokes)
    yield _PRESSURES.reckoned()
    yield _AVAILABLE.reckoned(altitude=altitude)
    if pump.rated_suction_lift is not UNSET:
        lift = At("/pump/rated_suction_lift", pump.rated_suction_lift.base)
        yield _REQUIRED.reckoned(rated_suction_lift=lift)
    yield _AIR_DRAWN.reckoned()
    yield _RULE.reckoned(altitude=altitude)


_AIR = step_kind("The air's pressure on the well", STANDARD_ATMOSPHERE)
_DRAWN = step_kind("Water's density, viscosity and vapour pressure", WATER)
_STROKES = step_kind("Acceleration head", ACCELERATION_HEAD)
_PRESSURES = step_kind("Pressure along the line", PROFILE)
_AVAILABLE = step_kind("NPSH available at the pump inlet", NPSH_AVAILABLE)
_REQUIRED = step_kind("NPSH required, from the rated lift", RATED_LIFT)
_AIR_DRAWN = step_kind("Time to draw the air out", PRIMING)
_RULE = step_kind("Rule of thumb", SUCTION_LIFT_RULE)


def _caution_codes(request: SuctionFeasibilityRequest, state: SuctionState) -> list[str]:
    passes_idle_pump = any(isinstance(part, IdlePump) for part in request.line)
    calls = {
        "suction-under-vacuum": min(state.pressures) < state.air_pressure,
        "run-dry": True,
        "back-flow": True,
        "well-opened": True,
        "two-pumps": passes_idle_pump,
        "mains-electricity": passes_idle_pump,
        "confined-pit": state.inlet_elevation < 0.0,
    }
    called_for = [code for code, is_called_for in calls.items() if is_called_for]
    return [*called_for, *flowing_codes(request.depth_to_water.base), *frost_codes(request.site)]


def _warnings(
    request: SuctionFeasibilityRequest, state: SuctionState, steps: Sequence[Reckoned], units: UnitSystem
) -> list[Warning]:
    of_line = line_doubts(state.parts, state.flow, units, fastest=FASTEST_IN_SUCTION)
    return [
        *drawdown_doubts(request),
        *npsh_doubts(request.pump, units),
        *missing_parts(state.parts, flooded=state.inlet_elevation < -state.resting_depth),
        *state.elevations.warnings,
        *shallow_intake(state, units),
        *few_of_each([*of_line, *range_doubts(steps, units)], "/line"),
        *priming_doubts(request.pump, state),
    ]
