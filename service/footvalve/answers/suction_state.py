"""All that physics says of a suction line, in SI, before it is told in anybody's units."""

from dataclasses import dataclass
from functools import partial

from msgspec import UNSET

from footvalve.answers.gathering import gathered
from footvalve.answers.line_elements import ResolvedPart, resolve_line
from footvalve.answers.line_elevations import LineElevations, line_elevations
from footvalve.answers.suction_lift import drawdown, npsh_required, resting_depth
from footvalve.answers.unit_system import unit_system
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.suction_feasibility import ReciprocatingPump, SuctionFeasibilityRequest, Verdict
from footvalve.physics.acceleration_head import CUSHIONED_BORES
from footvalve.physics.atmosphere import atmospheric_pressure
from footvalve.physics.head import pressure_head
from footvalve.physics.net_positive_suction_head import npsh_available
from footvalve.physics.suction_profile import Node, Stage, Strokes, suction_profile
from footvalve.physics.water import Water, water


@dataclass(frozen=True, slots=True)
class SuctionState:
    """A suction line at its flow and pumping level. Lengths in m, pressures in Pa, elevations above the ground."""

    flow: float
    drawn: Water
    air_pressure: float
    parts: list[ResolvedPart]
    elevations: LineElevations
    nodes: list[Node]
    resting_depth: float
    pumping_depth: float
    inlet_elevation: float
    npsh_available: float
    npsh_required: float
    policy_margin: float

    @property
    def margin(self) -> float:
        """NPSH available less required."""
        return self.npsh_available - self.npsh_required

    @property
    def static_lift(self) -> float:
        """From the pumping water level up to the inlet."""
        return self.inlet_elevation + self.pumping_depth

    @property
    def submergence(self) -> float:
        """Water over the intake while it is drawn, at the most; below zero the intake is dry."""
        return -self.pumping_depth - self.elevations.intake

    def above_vapour(self, node: Node) -> float:
        """Head that is left at a node before the water boils."""
        return pressure_head(pressure=node.absolute_pressure - self.drawn.vapour_pressure, density=self.drawn.density)

    @property
    def tightest(self) -> int:
        """The node that is nearest to boiling; of equal ones the first."""
        return min(range(len(self.nodes)), key=lambda index: self.nodes[index].absolute_pressure)

    @property
    def verdict(self) -> Verdict:
        """As the contract defines it."""
        boils = self.above_vapour(self.nodes[self.tightest]) < 0.0
        if self.margin < 0.0 or boils or self.submergence < 0.0:
            return "infeasible"
        return "feasible" if self.margin >= self.policy_margin else "marginal"


def suction_state(request: SuctionFeasibilityRequest) -> SuctionState:
    """The state of the line that a request describes. Raises Refused for what cannot be."""
    needed, fall, parts, elevations = _resolved(request)
    inlet = request.pump.inlet_elevation.base
    drawn = water(temperature=request.site.water_temperature.base)
    air_pressure = atmospheric_pressure(altitude=request.site.altitude.base)
    pumping_depth = resting_depth(request) + fall
    nodes = suction_profile(
        stages=_stages(parts, elevations),
        intake_elevation=elevations.intake,
        surface_elevation=-pumping_depth,
        flow=request.flow.base,
        water=drawn,
        atmospheric_pressure=air_pressure,
        strokes=_strokes(request),
    )
    available = npsh_available(
        atmospheric_pressure=air_pressure,
        vapour_pressure=drawn.vapour_pressure,
        density=drawn.density,
        static_lift=inlet + pumping_depth,
        losses=nodes[-1].losses,
        acceleration_head=nodes[-1].acceleration_head,
    )
    return SuctionState(
        flow=request.flow.base,
        drawn=drawn,
        air_pressure=air_pressure,
        parts=parts,
        elevations=elevations,
        nodes=nodes,
        resting_depth=resting_depth(request),
        pumping_depth=pumping_depth,
        inlet_elevation=inlet,
        npsh_available=available,
        npsh_required=needed,
        policy_margin=request.policy.margin.base,
    )


def _resolved(request: SuctionFeasibilityRequest) -> tuple[float, float, list[ResolvedPart], LineElevations]:
    """NPSH required and drawdown in m, and the line with its elevations. Raises Refused with the faults of all."""
    faults: list[Fault] = []
    needed = gathered(faults, partial(npsh_required, request.pump))
    fall = gathered(faults, partial(drawdown, request))
    line = gathered(faults, partial(_line, request))
    if needed is None or fall is None or line is None:
        raise Refused(*faults)
    return needed, fall, *line


def _line(request: SuctionFeasibilityRequest) -> tuple[list[ResolvedPart], LineElevations]:
    parts = resolve_line(request.line, "darcy-weisbach")
    intake = None if request.intake_elevation is UNSET else request.intake_elevation.base
    inlet = request.pump.inlet_elevation.base
    return parts, line_elevations(parts, intake=intake, inlet=inlet, units=unit_system(request.units))


def _stages(parts: list[ResolvedPart], elevations: LineElevations) -> list[Stage]:
    return [
        Stage(part.element, part.diameter, part.length, end) for part, end in zip(parts, elevations.ends, strict=True)
    ]


def _strokes(request: SuctionFeasibilityRequest) -> Strokes | None:
    pump = request.pump
    if not isinstance(pump, ReciprocatingPump):
        return None
    return Strokes(pump.strokes_per_minute, pump.chambers, CUSHIONED_BORES if pump.gas_cushion else None)
