"""The cost of `tank-cycle`: by the points of the pump's curve and the demands, which are gone through together."""

from msgspec import UNSET

from footvalve.answers.cost import Cost, Quantities, askings
from footvalve.contract.tank_cycle import TankCycleRequest

_PLAIN, _OF_TANK = 0.4, 0.08
_OF_POINT, _OF_DEMAND, _OF_POINT_AT_DEMAND = 0.068, 0.06, 0.0067


def tank_cost(request: TankCycleRequest, quantities: Quantities) -> Cost:
    """Every asking goes through all of it."""
    points = 1 if request.pump.points is UNSET else len(request.pump.points)
    demands = 1 if request.demands is UNSET else len(request.demands)
    tanks = len(request.tanks)
    once = _PLAIN + _OF_TANK * tanks + _OF_POINT * points + (_OF_DEMAND + _OF_POINT_AT_DEMAND * points) * demands
    made_of = {
        "uncertain inputs": quantities.uncertain,
        "points of the pump": points,
        "demands": demands,
        "tanks": tanks,
    }
    return Cost(once * (1 + askings(quantities.uncertain)), made_of)
