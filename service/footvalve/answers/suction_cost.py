"""The cost of `suction-feasibility`: by the parts of the line, and by how often it is asked again."""

from footvalve.answers.chance import DRAWS
from footvalve.answers.chance_cost import draws_taken, looks_taken
from footvalve.answers.cost import Cost, Quantities, askings
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest

_PLAIN, _OF_PART = 0.45, 0.06
_LIMITS, _LIMITS_OF_PART = 3.5, 0.16
_ASKED, _ASKED_PART = 0.11, 0.0062
_MOVED, _MOVED_PART = 0.025, 0.00015


def suction_cost(request: SuctionFeasibilityRequest, quantities: Quantities) -> Cost:
    """The limits and levers seek; an uncertain line is asked again for its chance, in draws where it must be."""
    parts, uncertain = len(request.line), quantities.uncertain
    asked = _ASKED + _ASKED_PART * parts
    drawn = asked + uncertain * (_MOVED + _MOVED_PART * parts)
    units = _PLAIN + _OF_PART * parts
    if request.limits:
        units += _LIMITS + _LIMITS_OF_PART * parts
    units += (askings(uncertain) + looks_taken(uncertain)) * asked
    drawing = draws_taken(quantities, uncertain, DRAWS) * drawn
    return Cost(units + drawing, {"uncertain inputs": uncertain, "parts": parts}, drawing)
