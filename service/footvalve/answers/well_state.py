"""What a well gives at a flow and down to a limit, in SI, before it is told in anybody's units."""

from dataclasses import dataclass

from msgspec import UNSET

from footvalve.answers.unit_system import unit_system
from footvalve.answers.well_faults import well_faults
from footvalve.answers.well_inflow import Inflow, inflow
from footvalve.contract.problem import Refused
from footvalve.contract.well_recovery import DEEPEST, WellRecoveryRequest, WellVerdict
from footvalve.physics.casing_storage import casing_storage_area
from footvalve.physics.well_drawdown import time_to_drawdown


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
    def verdict(self) -> WellVerdict | None:
        """As the contract defines it."""
        drawdown = self.drawdown_at_limit
        if drawdown == 0.0:
            return "dry"
        if self.specific_capacity == 0.0:
            return "storage-limited"
        if drawdown is None or self.design_flow is None:
            return None
        return "sustains" if self.design_flow <= self.specific_capacity * drawdown else "storage-limited"

    @property
    def time_to_limit(self) -> float | None:
        """How long the design flow can be drawn from rest; None where it can be for good, or is not asked."""
        if self.verdict != "storage-limited" or self.design_flow is None or self.drawdown_at_limit is None:
            return None
        return time_to_drawdown(
            flow=self.design_flow,
            specific_capacity=self.specific_capacity,
            area=self.area,
            drawdown=self.drawdown_at_limit,
        )


def well_state(request: WellRecoveryRequest) -> WellState:
    """The state of the well that a request describes. Raises Refused for what cannot be."""
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
        inflow=inflow(request, area, unit_system(request.units)),
        design_flow=None if request.design_flow is UNSET else request.design_flow.base,
        limit_depth=None if request.limit_depth is UNSET else request.limit_depth.base,
    )
