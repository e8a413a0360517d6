"""Whether a well can be drawn on by suction from where the pump stands: the answer of `suction-feasibility`."""

from msgspec import UNSET

from footvalve.answers.basis import basis_step, doubts
from footvalve.answers.cautions import cautions, frost_codes
from footvalve.answers.line_basis import line_basis
from footvalve.answers.line_doubts import line_doubts
from footvalve.answers.suction_doubts import missing_parts, shallow_intake
from footvalve.answers.suction_lift import drawdown_doubts
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
from footvalve.physics.suction_lift_rule import SUCTION_LIFT_RULE, rule_of_thumb_lift
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
        rule_of_thumb=_lift_rule(request, state, units),
        reasons=suction_reasons(state, units),
        basis=_basis(request, state),
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


def _lift_rule(request: SuctionFeasibilityRequest, state: SuctionState, units: UnitSystem) -> LiftRule:
    allowed = rule_of_thumb_lift(altitude=request.site.altitude.base)
    agrees = (state.static_lift <= allowed) == (state.verdict != "infeasible")
    return LiftRule(allowed_lift=units.length(allowed), agrees=agrees)


def _basis(request: SuctionFeasibilityRequest, state: SuctionState) -> list[BasisStep]:
    strokes = isinstance(request.pump, ReciprocatingPump)
    by_lift = request.pump.rated_suction_lift is not UNSET
    return [
        basis_step("The air's pressure on the well", STANDARD_ATMOSPHERE),
        basis_step("Water's density, viscosity and vapour pressure", WATER),
        *line_basis(state.parts),
        *([basis_step("Acceleration head", ACCELERATION_HEAD)] if strokes else []),
        basis_step("Pressure along the line", PROFILE),
        basis_step("NPSH available at the pump inlet", NPSH_AVAILABLE),
        *([basis_step("NPSH required, from the rated lift", RATED_LIFT)] if by_lift else []),
        basis_step("Time to draw the air out", PRIMING),
        basis_step("Rule of thumb", SUCTION_LIFT_RULE),
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
        *missing_parts(state.parts),
        *state.elevations.warnings,
        *shallow_intake(state.submergence, units),
        *line_doubts(state.parts, state.flow, state.drawn, units),
        *priming_doubts(request.pump, state),
    ]
    found += doubts(SUCTION_LIFT_RULE, "/site/altitude", altitude=request.site.altitude.base)
    if isinstance(request.pump, ReciprocatingPump):
        strokes = request.pump.strokes_per_minute
        found += doubts(ACCELERATION_HEAD, "/pump/strokes_per_minute", strokes_per_minute=strokes)
    return found
