"""The cost of `friction`: by the parts of the line and the flows at which it is reckoned."""

from msgspec import UNSET

from footvalve.answers.cost import Cost, Quantities, askings
from footvalve.contract.friction import FrictionRequest

_PLAIN, _OF_PART = 0.15, 0.105
_OF_FLOW, _OF_PART_AT_FLOW = 0.01, 0.0022
_ASKED, _ASKED_PART = 0.05, 0.0107


def friction_cost(request: FrictionRequest, quantities: Quantities) -> Cost:
    """The curve is reckoned once, and the line's loss once for each side of every uncertain input."""
    parts = len(request.line)
    flows = 0 if request.flows is UNSET else len(request.flows)
    again = askings(quantities.uncertain) * (_ASKED + _ASKED_PART * parts)
    units = _PLAIN + _OF_PART * parts + flows * (_OF_FLOW + _OF_PART_AT_FLOW * parts) + again
    return Cost(units, {"uncertain inputs": quantities.uncertain, "parts": parts, "flows": flows})
