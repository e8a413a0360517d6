"""The cost of `site-plan`: that of seeking where the pump runs, at every asking, and that of its steps."""

from msgspec import UNSET

from footvalve.answers.chance_cost import draws_taken, looks_taken
from footvalve.answers.cost import ALL_SURE, Cost, Quantities, askings
from footvalve.answers.manifold_cost import manifold_cost
from footvalve.answers.plan_suction_chance import MOST_DRAWS
from footvalve.answers.sounding_cost import asked_sounding, readings_of, scatters
from footvalve.answers.well_cost import asked_well, readings_in
from footvalve.contract.site_plan import SitePlanRequest

_PLAIN, _OF_PART, _OF_DAY = 17.0, 0.2, 0.125
_ASKED, _ASKED_PART, _ASKED_POINT, _ASKED_LOAD = 5.5, 0.15, 0.06, 0.004
_LOOKED, _LOOKED_PART, _MOVED = 0.5, 0.03, 0.04


def plan_cost(request: SitePlanRequest, quantities: Quantities) -> Cost:
    """Readings that scatter are uncertain inputs too, and what is uncertain asks for the whole plan again."""
    parts = len(request.suction_line)
    parts += 0 if request.delivery_line is UNSET else len(request.delivery_line)
    uncertain = quantities.uncertain + _scatters(request)
    asked = _asked(request, parts)
    looked = _LOOKED + _LOOKED_PART * parts + _of_the_well(request)
    days = 0 if request.days is UNSET else request.days
    units = _PLAIN + _OF_PART * parts + _OF_DAY * days + asked + askings(uncertain) * asked
    units += looks_taken(uncertain) * looked
    drawing = draws_taken(quantities, uncertain, MOST_DRAWS) * (looked + uncertain * _MOVED)
    made_of = {"uncertain inputs": uncertain, "parts": parts, "points of the pump": len(request.pump.points)}
    if request.manifold is UNSET:
        return Cost(units + drawing, made_of, drawing)
    manifold = manifold_cost(request.manifold, ALL_SURE)
    return Cost(units + drawing + manifold.units, {**made_of, **manifold.made_of}, drawing)


def _scatters(request: SitePlanRequest) -> int:
    read = 0 if request.sounding is UNSET else scatters(readings_of(request.sounding.measurement))
    return read + (1 if request.well is not UNSET and request.well.recovery is not UNSET else 0)


def _asked(request: SitePlanRequest, parts: int) -> float:
    """What it takes to find where the pump runs, and the figures of every step."""
    loads = 0 if request.loads is UNSET else len(request.loads)
    units = _ASKED + _ASKED_PART * parts + _ASKED_POINT * len(request.pump.points) + _ASKED_LOAD * loads
    return units + 2.0 * _of_the_well(request)


def _of_the_well(request: SitePlanRequest) -> float:
    """What it takes to find the level and the inflow once."""
    units = 0.0 if request.sounding is UNSET else asked_sounding(request.sounding.measurement)
    return units if request.well is UNSET else units + asked_well(readings_in(request.well.recovery))
