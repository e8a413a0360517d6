"""All that physics says of a suction line, in SI, before it is told in anybody's units."""

from functools import partial
from itertools import accumulate

from msgspec import UNSET, Struct

from footvalve.answers.gathering import gathered
from footvalve.answers.line_elements import ResolvedPart, resolve_suction_line
from footvalve.answers.line_elevations import LineElevations, line_elevations
from footvalve.answers.suction_flow import LineAtFlow, line_at_flow
from footvalve.answers.suction_lift import drawdown, npsh_required, resting_depth
from footvalve.answers.unit_system import unit_system
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest, Verdict
from footvalve.physics.atmosphere import atmospheric_pressure
from footvalve.physics.head import pressure_head
from footvalve.physics.net_positive_suction_head import npsh_available
from footvalve.physics.suction_lift_rule import rule_of_thumb_lift
from footvalve.physics.suction_profile import Node, node_pressures
from footvalve.physics.water import Water

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


class SuctionState(Struct, frozen=True):
    """A suction line at its flow and pumping level. Lengths in m, pressures in Pa, elevations above the ground.

    `static_lift` is from the pumping water level up to the inlet, `submergence` the water over the intake while it is
    drawn, at the most; below zero the intake is dry.

    Its nodes are the intake and each part's end. `pressures` are absolute; `left` is the head that is left at each node
    before the water boils, `left_at_worst` the same if every disc that hangs takes as much as it may.
    """

    line: LineAtFlow
    air_pressure: float
    parts: list[ResolvedPart]
    elevations: LineElevations
    pressures: list[float]
    resting_depth: float
    pumping_depth: float
    inlet_elevation: float
    static_lift: float
    submergence: float
    npsh_available: float
    npsh_required: float
    policy_margin: float
    allowed_lift: float
    left: list[float]
    left_at_worst: list[float]

    @property
    def flow(self) -> float:
        """The flow in m^3/s."""
        return self.line.flow

    @property
    def drawn(self) -> Water:
        """The water that is drawn."""
        return self.line.drawn

    @property
    def uncounted(self) -> list[float]:
        """Head that each part may take beyond what is counted: a check valve whose disc hangs."""
        return self.line.uncounted

    @property
    def nodes(self) -> list[Node]:
        """The intake and each part's end, with all that is known of them."""
        heads = self.line.heads
        return list(map(Node, self.elevations.nodes, heads.losses, heads.acceleration_heads, self.pressures))

    @property
    def losses(self) -> float:
        """Head lost in the whole line."""
        return self.line.heads.losses[-1]

    @property
    def acceleration_head(self) -> float:
        """Head that a reciprocating pump's stroke takes."""
        return self.line.heads.acceleration_heads[-1]

    @property
    def margin(self) -> float:
        """NPSH available less required."""
        return self.npsh_available - self.npsh_required

    @property
    def tightest(self) -> int:
        """The node that is nearest to boiling; of equal ones the first."""
        return self.pressures.index(min(self.pressures))

    @property
    def margin_at_worst(self) -> float:
        """The margin if every disc that hangs takes as much as it may."""
        return self.margin - sum(self.uncounted)

    @property
    def above_vapour_at_worst(self) -> float:
        """The least head before the water boils, if every disc that hangs takes as much as it may."""
        return min(self.left_at_worst)

    @property
    def on_the_way(self) -> float:
        """The least head before the water boils short of the inlet, if every disc that hangs takes what it may."""
        return min(self.left_at_worst[:-1])

    @property
    def way_is_tight(self) -> bool:
        """Whether a place on the way has less head to spare than the policy asks for."""
        return self.on_the_way < self.policy_margin

    @property
    def summit(self) -> float:
        """From the water at rest up to the highest place of the line."""
        return self.resting_depth + self.elevations.highest

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
        return self._verdict(self.margin, min(self.left))

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
        counted = self.verdict_as_counted
        if counted != "feasible":
            return counted
        doubtful = self.intake_is_shallow or self.way_is_tight or not self.primes or self.verdict_at_worst != "feasible"
        return "marginal" if doubtful else "feasible"

    @property
    def spares(self) -> tuple[float, ...]:
        """What each condition of `feasible` has to spare, in m: it is feasible where none is below zero, and only
        there. In the order of `FAILURES`."""
        return (
            self.margin_at_worst - self.policy_margin,
            self.on_the_way - self.policy_margin,
            self.left_at_worst[-1],
            self.reach - self.summit,
            self.submergence - (LEAST_SUBMERGENCE - SAME_LEVEL),
        )

    @property
    def shortfall(self) -> float:
        """Head in m that it wants to be feasible; zero or less where it is, and only there."""
        return -min(self.spares)

    def rule_agrees(self, verdict: Verdict) -> bool:
        """Whether the trade's rule of thumb says the same as the verdict on this line."""
        return (self.static_lift <= self.allowed_lift + SAME_LEVEL) == (verdict != "infeasible")


def suction_state(request: SuctionFeasibilityRequest, parts: list[ResolvedPart] | None = None) -> SuctionState:
    """The state of the line that a request describes, with the parts of that line where they are known already. Raises
    Refused with the faults of all that cannot be."""
    faults: list[Fault] = []
    gathered(faults, partial(npsh_required, request.pump))
    gathered(faults, partial(drawdown, request))
    line = gathered(faults, partial(_line, request, parts))
    if faults or line is None:
        raise Refused(*faults)
    return _reckoned(request, *line)


def has_the_same_line(one: SuctionFeasibilityRequest, other: SuctionFeasibilityRequest) -> bool:
    """Whether two requests have one line, and the pump's inlet at one place: what `on_the_same_line` asks for."""
    return (
        (one.line is other.line or one.line == other.line)
        and one.pump.inlet_elevation == other.pump.inlet_elevation
        and one.intake_elevation == other.intake_elevation
        and one.units == other.units
    )


def on_the_same_line(state: SuctionState, request: SuctionFeasibilityRequest) -> SuctionState:
    """The state of a request that has the line and the inlet's elevation of another's state, which are not looked up
    again: it may differ in flow, level, site, policy, and in what the pump needs and how it strokes. What the line
    takes is reckoned again where the flow, the water or the strokes are others."""
    return _reckoned(request, state.parts, state.elevations, state.line)


def in_other_bores(state: SuctionState, request: SuctionFeasibilityRequest) -> SuctionState:
    """The state of a request whose line differs from that of another's state in bores and drops alone, and runs through
    the same places. Raises Refused for a line that does not fit together."""
    return _reckoned(request, _parts(request), state.elevations)


def _reckoned(
    request: SuctionFeasibilityRequest,
    parts: list[ResolvedPart],
    elevations: LineElevations,
    known: LineAtFlow | None = None,
) -> SuctionState:
    """The state of a line as physics sees it, with all that a request tells besides; `known` is what the line takes, if
    it is of this flow and water."""
    inlet, altitude = request.pump.inlet_elevation.base, request.site.altitude.base
    line = line_at_flow(request, parts, elevations, known)
    drawn, air_pressure = line.drawn, atmospheric_pressure(altitude=altitude)
    resting = resting_depth(request)
    pumping_depth = resting + drawdown(request)
    static_lift = inlet + pumping_depth
    pressures = node_pressures(
        heads=line.heads,
        elevations=elevations.nodes,
        surface_elevation=-pumping_depth,
        density=drawn.density,
        atmospheric_pressure=air_pressure,
    )
    available = npsh_available(
        atmospheric_pressure=air_pressure,
        vapour_pressure=drawn.vapour_pressure,
        density=drawn.density,
        static_lift=static_lift,
        losses=line.heads.losses[-1],
        acceleration_head=line.heads.acceleration_heads[-1],
    )
    left = [pressure_head(pressure=pressure - drawn.vapour_pressure, density=drawn.density) for pressure in pressures]
    return SuctionState(
        line=line,
        air_pressure=air_pressure,
        parts=parts,
        elevations=elevations,
        pressures=pressures,
        resting_depth=resting,
        pumping_depth=pumping_depth,
        inlet_elevation=inlet,
        static_lift=static_lift,
        submergence=-pumping_depth - elevations.intake,
        npsh_available=available,
        npsh_required=npsh_required(request.pump),
        policy_margin=request.policy.margin.base,
        allowed_lift=rule_of_thumb_lift(altitude=altitude),
        left=left,
        left_at_worst=_less(left, line.uncounted),
    )


def _line(
    request: SuctionFeasibilityRequest, parts: list[ResolvedPart] | None
) -> tuple[list[ResolvedPart], LineElevations]:
    if parts is None:
        parts = _parts(request)
    intake = None if request.intake_elevation is UNSET else request.intake_elevation.base
    inlet = request.pump.inlet_elevation.base
    return parts, line_elevations(parts, intake=intake, inlet=inlet, units=unit_system(request.units))


def _parts(request: SuctionFeasibilityRequest) -> list[ResolvedPart]:
    return resolve_suction_line(request.line, unit_system(request.units))


def _less(left: list[float], uncounted: list[float]) -> list[float]:
    """The head that is left at each node, less what is not counted on the way there."""
    if not any(uncounted):
        return left
    return [head - gone for head, gone in zip(left, accumulate(uncounted, initial=0.0), strict=True)]
