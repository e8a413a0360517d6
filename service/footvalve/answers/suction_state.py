"""All that physics says of a suction line, in SI, before it is told in anybody's units."""

from dataclasses import dataclass
from functools import partial
from itertools import accumulate

from msgspec import UNSET

from footvalve.answers.gathering import gathered
from footvalve.answers.line_discs import uncounted_by_disc
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
from footvalve.physics.suction_lift_rule import rule_of_thumb_lift
from footvalve.physics.suction_profile import Node, Stage, Strokes, suction_profile
from footvalve.physics.water import Water, water

LEAST_SUBMERGENCE = 0.3
"""m of water over the intake, below which a vortex may draw air. Common practice, no source."""

SAME_LEVEL = 1e-6
"""m. What lies closer together than this differs by the rounding of units alone."""


FAILURES = (
    "the margin at the pump's inlet falls short of what the policy asks for",
    "at a place on the way the water comes too close to boiling",
    "the water boils at the pump's inlet",
    "the pump may not prime over the line's highest place",
    "the intake has too little water over it, or none",
)
"""What fails with each condition of `feasible`, in the order of `SuctionState.spares`."""


@dataclass(frozen=True, slots=True)
class SuctionState:
    """A suction line at its flow and pumping level. Lengths in m, pressures in Pa, elevations above the ground.

    `uncounted` is the head that each part may take beyond what is counted: a check valve whose disc hangs.
    """

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
    allowed_lift: float
    uncounted: list[float]

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
    def margin_at_worst(self) -> float:
        """The margin if every disc that hangs takes as much as it may."""
        return self.margin - sum(self.uncounted)

    @property
    def _above_vapour_at_worst(self) -> list[float]:
        gone = accumulate(self.uncounted, initial=0.0)
        return [self.above_vapour(node) - taken for node, taken in zip(self.nodes, gone, strict=True)]

    @property
    def above_vapour_at_worst(self) -> float:
        """The least head before the water boils, if every disc that hangs takes as much as it may."""
        return min(self._above_vapour_at_worst)

    @property
    def on_the_way(self) -> float:
        """The least head before the water boils short of the inlet, if every disc that hangs takes what it may."""
        return min(self._above_vapour_at_worst[:-1])

    @property
    def way_is_tight(self) -> bool:
        """Whether a place on the way has less head to spare than the policy asks for."""
        return self.on_the_way < self.policy_margin

    @property
    def summit(self) -> float:
        """From the water at rest up to the highest place of the line."""
        return self.resting_depth + max(node.elevation for node in self.nodes)

    @property
    def reach(self) -> float:
        """How high this pump draws the water up in a dry line: what the air carries less what the pump needs."""
        head = pressure_head(pressure=self.air_pressure - self.drawn.vapour_pressure, density=self.drawn.density)
        return head - self.npsh_required

    @property
    def primes(self) -> bool:
        """Whether the pump draws the water over the highest place of the line."""
        return self.summit <= self.reach

    @property
    def verdict_as_counted(self) -> Verdict:
        """By the heads that are counted, wherever the intake stands."""
        return self._verdict(self.margin, self.above_vapour(self.nodes[self.tightest]))

    @property
    def verdict_at_worst(self) -> Verdict:
        """The same if every disc that hangs takes as much as it may."""
        return self._verdict(self.margin_at_worst, self.above_vapour_at_worst)

    def _verdict(self, margin: float, above_vapour: float) -> Verdict:
        if margin < 0.0 or above_vapour < 0.0:
            return "infeasible"
        return "feasible" if margin >= self.policy_margin else "marginal"

    @property
    def intake_is_dry(self) -> bool:
        """Whether no water stands over the intake."""
        return self.submergence < SAME_LEVEL

    @property
    def intake_is_shallow(self) -> bool:
        """Whether so little water stands over the intake that it may draw air."""
        return not self.intake_is_dry and self.submergence < LEAST_SUBMERGENCE - SAME_LEVEL

    @property
    def verdict(self) -> Verdict:
        """As the contract defines it."""
        if self.intake_is_dry:
            return "infeasible"
        doubtful = self.intake_is_shallow or self.way_is_tight or not self.primes or self.verdict_at_worst != "feasible"
        return "marginal" if self.verdict_as_counted == "feasible" and doubtful else self.verdict_as_counted

    @property
    def spares(self) -> tuple[float, ...]:
        """What each condition of `feasible` has to spare, in m: it is feasible where none is below zero, and only
        there. In the order of `FAILURES`."""
        *on_the_way, at_the_inlet = self._above_vapour_at_worst
        return (
            self.margin_at_worst - self.policy_margin,
            min(on_the_way) - self.policy_margin,
            at_the_inlet,
            self.reach - self.summit,
            self.submergence - (LEAST_SUBMERGENCE - SAME_LEVEL),
        )

    @property
    def shortfall(self) -> float:
        """Head in m that it wants to be feasible; zero or less where it is, and only there."""
        return -min(self.spares)

    @property
    def rule_agrees(self) -> bool:
        """Whether the trade's rule of thumb and the verdict say the same."""
        return (self.static_lift <= self.allowed_lift) == (self.verdict != "infeasible")


def suction_state(request: SuctionFeasibilityRequest) -> SuctionState:
    """The state of the line that a request describes. Raises Refused with the faults of all that cannot be."""
    faults: list[Fault] = []
    gathered(faults, partial(npsh_required, request.pump))
    gathered(faults, partial(drawdown, request))
    line = gathered(faults, partial(_line, request))
    if faults or line is None:
        raise Refused(*faults)
    return _reckoned(request, *line)


def on_the_same_line(state: SuctionState, request: SuctionFeasibilityRequest) -> SuctionState:
    """The state of a request that has the line and the inlet's elevation of another's state, which are not looked up
    again: it may differ in flow, level, site, policy, and in what the pump needs and how it strokes."""
    return _reckoned(request, state.parts, state.elevations)


def _reckoned(
    request: SuctionFeasibilityRequest, parts: list[ResolvedPart], elevations: LineElevations
) -> SuctionState:
    """The state of a line as physics sees it, with all that a request tells besides."""
    flow, inlet = request.flow.base, request.pump.inlet_elevation.base
    drawn = water(temperature=request.site.water_temperature.base)
    air_pressure = atmospheric_pressure(altitude=request.site.altitude.base)
    resting = resting_depth(request)
    pumping_depth = resting + drawdown(request)
    nodes = suction_profile(
        stages=_stages(parts, elevations),
        intake_elevation=elevations.intake,
        surface_elevation=-pumping_depth,
        flow=flow,
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
        flow=flow,
        drawn=drawn,
        air_pressure=air_pressure,
        parts=parts,
        elevations=elevations,
        nodes=nodes,
        resting_depth=resting,
        pumping_depth=pumping_depth,
        inlet_elevation=inlet,
        npsh_available=available,
        npsh_required=npsh_required(request.pump),
        policy_margin=request.policy.margin.base,
        allowed_lift=rule_of_thumb_lift(altitude=request.site.altitude.base),
        uncounted=[uncounted_by_disc(part, flow, drawn) for part in parts],
    )


def _line(request: SuctionFeasibilityRequest) -> tuple[list[ResolvedPart], LineElevations]:
    units = unit_system(request.units)
    parts = resolve_line(request.line, "darcy-weisbach", units)
    intake = None if request.intake_elevation is UNSET else request.intake_elevation.base
    return parts, line_elevations(parts, intake=intake, inlet=request.pump.inlet_elevation.base, units=units)


def _stages(parts: list[ResolvedPart], elevations: LineElevations) -> list[Stage]:
    return [
        Stage(part.element, part.diameter, part.length, end) for part, end in zip(parts, elevations.ends, strict=True)
    ]


def _strokes(request: SuctionFeasibilityRequest) -> Strokes | None:
    pump = request.pump
    if not isinstance(pump, ReciprocatingPump):
        return None
    return Strokes(pump.strokes_per_minute, pump.chambers, CUSHIONED_BORES if pump.gas_cushion else None)
