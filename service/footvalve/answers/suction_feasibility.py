"""Whether a well can be drawn on by suction from where the pump stands: the answer of `suction-feasibility`."""

from msgspec import UNSET

from footvalve.answers.basis import basis_step, doubts
from footvalve.answers.cautions import cautions, frost_codes
from footvalve.answers.line_basis import line_basis
from footvalve.answers.line_doubts import FASTEST_IN_SUCTION, line_doubts
from footvalve.answers.suction_doubts import missing_parts, shallow_intake
from footvalve.answers.suction_lift import drawdown_doubts, npsh_doubts
from footvalve.answers.suction_priming import priming, priming_doubts
from footvalve.answers.suction_reasons import suction_reasons
from footvalve.answers.suction_state import SuctionState, suction_state
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.contract.answer import BasisStep, Warning
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
    units = unit_system(request.units)
    state = suction_state(request)
    profile = [_profile_node(state, index, units) for index in range(len(state.nodes))]
    last = state.nodes[-1]
    return SuctionFeasibilityAnswer(
        verdict=state.verdict,
        npsh_available=units.length(state.npsh_available),
        npsh_required=units.length(state.npsh_required),
        margin=units.length(state.margin),
        pumping_depth=units.length(state.pumping_depth),
        static_lift=units.length(state.static_lift),
        losses=units.length(last.losses),
        acceleration_head=units.length(last.acceleration_head),
        priming=priming(state, request.pump, units),
        profile=profile,
        tightest=profile[state.tightest],
        air_entry=_air_entry(state),
        rule_of_thumb=LiftRule(allowed_lift=units.length(state.allowed_lift), agrees=state.rule_agrees),
        reasons=suction_reasons(state, units),
        basis=_basis(request, state, units),
        cautions=cautions(_caution_codes(request, state)),
        warnings=_warnings(request, state, units),
    )


def _profile_node(state: SuctionState, index: int, units: UnitSystem) -> ProfileNode:
    node = state.nodes[index]
    gauge = node.absolute_pressure - state.air_pressure
    return ProfileNode(
        index=index - 1 if index else UNSET,
        name=state.parts[index - 1].name if index else "intake",
        elevation=units.length(node.elevation),
        absolute_pressure=units.pressure(node.absolute_pressure),
        gauge_pressure=units.pressure(gauge),
        above_vapour=units.length(state.above_vapour(node)),
        under_vacuum=gauge < 0.0,
    )


def _air_entry(state: SuctionState) -> list[AirEntry]:
    vacuum = [node.absolute_pressure < state.air_pressure for node in state.nodes]
    return [
        AirEntry(index=index, name=part.name)
        for index, part in enumerate(state.parts)
        if vacuum[index] or vacuum[index + 1]
    ]


def _basis(request: SuctionFeasibilityRequest, state: SuctionState, units: UnitSystem) -> list[BasisStep]:
    strokes = isinstance(request.pump, ReciprocatingPump)
    by_lift = request.pump.rated_suction_lift is not UNSET
    return [
        basis_step("The air's pressure on the well", STANDARD_ATMOSPHERE, units),
        basis_step("Water's density, viscosity and vapour pressure", WATER, units),
        *line_basis(state.parts, units),
        *([basis_step("Acceleration head", ACCELERATION_HEAD, units)] if strokes else []),
        basis_step("Pressure along the line", PROFILE, units),
        basis_step("NPSH available at the pump inlet", NPSH_AVAILABLE, units),
        *([basis_step("NPSH required, from the rated lift", RATED_LIFT, units)] if by_lift else []),
        basis_step("Time to draw the air out", PRIMING, units),
        basis_step("Rule of thumb", SUCTION_LIFT_RULE, units),
    ]


def _caution_codes(request: SuctionFeasibilityRequest, state: SuctionState) -> list[str]:
    passes_idle_pump = any(isinstance(part, IdlePump) for part in request.line)
    calls = {
        "suction-under-vacuum": any(node.absolute_pressure < state.air_pressure for node in state.nodes),
        "run-dry": True,
        "back-flow": True,
        "well-opened": True,
        "two-pumps": passes_idle_pump,
        "mains-electricity": passes_idle_pump,
        "confined-pit": state.inlet_elevation < 0.0,
    }
    called_for = [code for code, is_called_for in calls.items() if is_called_for]
    return [*called_for, *frost_codes(request.site)]


def _warnings(request: SuctionFeasibilityRequest, state: SuctionState, units: UnitSystem) -> list[Warning]:
    found = [
        *drawdown_doubts(request),
        *npsh_doubts(request.pump, units),
        *missing_parts(state.parts),
        *state.elevations.warnings,
        *shallow_intake(state, units),
        *line_doubts(state.parts, state.flow, state.drawn, units, fastest=FASTEST_IN_SUCTION),
        *priming_doubts(request.pump, state),
    ]
    found += doubts(SUCTION_LIFT_RULE, "/site/altitude", units, altitude=request.site.altitude.base)
    if isinstance(request.pump, ReciprocatingPump):
        strokes = request.pump.strokes_per_minute
        found += doubts(ACCELERATION_HEAD, "/pump/strokes_per_minute", units, strokes_per_minute=strokes)
    return found
