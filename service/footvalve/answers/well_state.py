"""What a well gives at a flow and down to a limit, in SI, before it is told in anybody's units."""

from dataclasses import dataclass
from typing import Literal

from msgspec import UNSET

from footvalve.answers.well_faults import well_faults
from footvalve.answers.well_inflow import Inflow, inflow
from footvalve.contract.problem import Refused
from footvalve.contract.well_recovery import DEEPEST, WellRecoveryRequest, WellVerdict
from footvalve.physics.casing_storage import casing_storage_area
from footvalve.physics.well_drawdown import PUMPING_TEST, time_to_drawdown

PROVEN_AT = 2.0
"""Standard uncertainties by which the inflow must carry a flow before it is called proven: 97 % of a normal spread."""

FURTHEST = 2.0
"""Tested drawdowns beyond which nothing is called sustained: own choice, no source. Inflow in line with the drawdown is
shown only as far as it was seen. A screen's loss, a water-bearing layer that falls dry, and in an unconfined layer its
thinning all take from it, and rarely half of it before the drawdown has doubled."""

MOST_CASING_WATER = PUMPING_TEST.range_of("casing_water_fraction").high
"""Share of a test's water that may come out of the casing: with more, the test tells of the casing, not the ground."""

LEAST_RECOVERED = 0.1
"""Share of the drawdown that has to come back while a recovery is read, or its end is guessed from its beginning: own
choice, no source."""

Unproven = Literal["scatter", "too-brief", "uncertain", "beyond-test", "casing-water"]
"""Why a flow that the inflow seems to carry is not proven: the readings' scatter is as great as what they show, or
they end long before the level is back, or two standard uncertainties less do not carry it, or it takes far more
drawdown than was tested, or the casing gave most of the test's water."""


@dataclass(frozen=True, slots=True)
class WellState:
    """A well at its rest, with its inflow. Depths in m, the casing's area in m^2; None for what is not asked."""

    static_depth: float
    area: float
    inflow: Inflow
    design_flow: float | None
    limit_depth: float | None

    @property
    def specific_capacity(self) -> float:
        """Inflow for each length of drawdown."""
        return self.inflow.specific_capacity

    @property
    def time_constant(self) -> float | None:
        """In this time 63 % of a drawdown is made up; None where nothing flows in."""
        return self.area / self.specific_capacity if self.specific_capacity else None

    @property
    def drawdown_at_limit(self) -> float | None:
        """From rest down to the limit; zero where the limit does not lie below the water at rest."""
        return None if self.limit_depth is None else max(self.limit_depth - self.static_depth, 0.0)

    @property
    def inflow_at_limit(self) -> float | None:
        """What flows in with the level at the limit."""
        return None if self.drawdown_at_limit is None else self.specific_capacity * self.drawdown_at_limit

    @property
    def storage(self) -> float | None:
        """Water in the casing from rest down to the limit."""
        return None if self.drawdown_at_limit is None else self.area * self.drawdown_at_limit

    @property
    def pumping_depth(self) -> float | None:
        """Where the level settles at the design flow; None where no depth of the contract brings that flow."""
        if self.design_flow is None or self.specific_capacity * (DEEPEST - self.static_depth) < self.design_flow:
            return None
        return self.static_depth + self.design_flow / self.specific_capacity

    @property
    def least_specific_capacity(self) -> float:
        """What the specific capacity is at least, with the certainty that is asked for."""
        return max(self.specific_capacity - PROVEN_AT * self.inflow.standard_uncertainty, 0.0)

    @property
    def seems_to_sustain(self) -> bool:
        """Whether the inflow carries the design flow above the limit, taken as it was found and in line with the
        drawdown however deep that is."""
        most, flow = self.inflow_at_limit, self.design_flow
        return most is not None and flow is not None and flow <= most

    @property
    def unproven(self) -> Unproven | None:
        """Why what seems to be sustained is not proven to be; None where it is, or does not seem so."""
        if self.specific_capacity and self.inflow.standard_uncertainty >= self.specific_capacity:
            return "scatter"
        if not self.seems_to_sustain or self.design_flow is None or self.drawdown_at_limit is None:
            return None
        recovered = self.inflow.recovered_fraction
        if recovered is not None and recovered < LEAST_RECOVERED:
            return "too-brief"
        if self.design_flow > self.least_specific_capacity * self.drawdown_at_limit:
            return "uncertain"
        if self.design_flow > FURTHEST * self.specific_capacity * self.inflow.tested_drawdown:
            return "beyond-test"
        water = self.inflow.casing_water
        return "casing-water" if water is not None and water.fraction > MOST_CASING_WATER else None

    @property
    def verdict(self) -> WellVerdict | None:
        """As the contract defines it."""
        if self.drawdown_at_limit == 0.0:
            return "dry"
        if self.specific_capacity == 0.0:
            return "storage-limited"
        if self.drawdown_at_limit is None or self.design_flow is None or self.unproven not in {None, "uncertain"}:
            return None
        return "sustains" if self.seems_to_sustain and self.unproven is None else "storage-limited"

    @property
    def time_to_limit(self) -> float | None:
        """How long the design flow can be drawn from rest; None where it can be for good, or is not asked.

        Where it only seems that it can be for good, by what flows in at least.
        """
        if self.verdict != "storage-limited" or self.design_flow is None or self.drawdown_at_limit is None:
            return None
        return time_to_drawdown(
            flow=self.design_flow,
            specific_capacity=self.least_specific_capacity if self.unproven else self.specific_capacity,
            area=self.area,
            drawdown=self.drawdown_at_limit,
        )


def well_state(request: WellRecoveryRequest, known: Inflow | None = None) -> WellState:
    """The state of the well that a request describes; `known` is the inflow by its readings, where it was found
    already. Raises Refused for what cannot be."""
    faults = tuple(well_faults(request))
    if faults:
        raise Refused(*faults)
    area = casing_storage_area(
        casing_diameter=request.casing_diameter.base,
        drop_pipe_diameter=0.0 if request.drop_pipe_diameter is UNSET else request.drop_pipe_diameter.base,
    )
    return WellState(
        static_depth=request.static_depth.base,
        area=area,
        inflow=inflow(request, area) if known is None else known,
        design_flow=None if request.design_flow is UNSET else request.design_flow.base,
        limit_depth=None if request.limit_depth is UNSET else request.limit_depth.base,
    )
