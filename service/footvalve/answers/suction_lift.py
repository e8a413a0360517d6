"""The level from which the water is lifted, and what the pump needs at its inlet."""

from msgspec import UNSET

from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest, SuctionPump
from footvalve.physics.net_positive_suction_head import npsh_required_of_rated_lift

LEAST_LIKELY_NPSH = 1.0
"""m (3.3 ft), less than which few pumps need. Common practice, no source."""


def resting_depth(request: SuctionFeasibilityRequest) -> float:
    """Depth in m to the water at rest in the dry season."""
    return request.depth_to_water.base + request.seasonal_fall.base


def drawdown(request: SuctionFeasibilityRequest) -> float:
    """How far in m the level falls at the flow; nothing where nothing is known. Raises Refused for two answers."""
    if request.drawdown is not UNSET and request.specific_capacity is not UNSET:
        raise Refused(Fault("/specific_capacity", "give either `drawdown` or `specific_capacity`"))
    if request.drawdown is not UNSET:
        return request.drawdown.base
    if request.specific_capacity is not UNSET:
        return request.flow.base / request.specific_capacity.base
    return 0.0


def drawdown_doubts(request: SuctionFeasibilityRequest) -> list[Warning]:
    """A warning where nothing is known of the drawdown."""
    if request.drawdown is not UNSET or request.specific_capacity is not UNSET:
        return []
    text = "neither `drawdown` nor `specific_capacity` is given: the level is taken not to fall while water is drawn"
    return [Warning("/drawdown", text)]


def npsh_required(pump: SuctionPump) -> float:
    """NPSH in m that the pump needs. Raises Refused unless it is told in one of the two ways."""
    by_lift = pump.rated_suction_lift is not UNSET
    if by_lift == (pump.npsh_required is not UNSET):
        raise Refused(Fault("/pump", "give either `npsh_required` or `rated_suction_lift`, one of the two"))
    if pump.rated_suction_lift is not UNSET:
        return npsh_required_of_rated_lift(rated_suction_lift=pump.rated_suction_lift.base)
    assert pump.npsh_required is not UNSET
    return pump.npsh_required.base


def npsh_doubts(pump: SuctionPump, units: UnitSystem) -> list[Warning]:
    """A warning where the pump is said to need less NPSH than pumps do."""
    needed = npsh_required(pump)
    if needed >= LEAST_LIKELY_NPSH:
        return []
    text = f"few pumps need as little NPSH as {units.length(needed)}"
    if pump.rated_suction_lift is UNSET:
        return [Warning("/pump/npsh_required", f"{text}: take it from the maker's curve, at this flow")]
    lift = f"a rated lift near what the air can carry, as {pump.rated_suction_lift} is, is a dead-head figure"
    return [Warning("/pump/rated_suction_lift", f"{text}: {lift}, at which no water flows")]
