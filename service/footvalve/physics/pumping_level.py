"""How far the water in a well falls below its rest while a flow is drawn for long."""

from dataclasses import dataclass
from math import inf

from footvalve.physics.method import OutsideDomain
from footvalve.physics.si import CubicMetresPerSecond, Metres, SquareMetresPerSecond


@dataclass(frozen=True, slots=True)
class PumpingLevel:
    """A well's drawdown: the same at any flow, or the flow over a specific capacity, and nowhere more than a limit at
    which the pump is stopped."""

    fixed: Metres = 0.0
    specific_capacity: SquareMetresPerSecond | None = None
    limit: Metres = inf

    def __post_init__(self) -> None:
        if not (self.fixed >= 0.0 and self.limit >= 0.0):
            raise OutsideDomain("a drawdown is not below zero")
        if self.specific_capacity is not None and not self.specific_capacity >= 0.0:
            raise OutsideDomain("a specific capacity is not below zero")
        if self.specific_capacity == 0.0 and self.limit == inf:
            raise OutsideDomain("where nothing flows in, only a limit ends the drawdown")

    def drawdown_at(self, flow: CubicMetresPerSecond) -> Metres:
        """How far the level settles below its rest at a flow above zero.

            s = s0,    or    s = min(Q / C, s_limit)

        Valid for: long pumping; a well whose inflow grows with its drawdown.
        Source: definition of the specific capacity.

        >>> round(PumpingLevel(specific_capacity=1e-4).drawdown_at(2.5e-4), 6)
        2.5
        >>> PumpingLevel(specific_capacity=1e-4, limit=2.0).drawdown_at(2.5e-4)
        2.0
        """
        if self.specific_capacity is None:
            return min(self.fixed, self.limit)
        if self.specific_capacity * self.limit <= flow:
            return self.limit
        return flow / self.specific_capacity
