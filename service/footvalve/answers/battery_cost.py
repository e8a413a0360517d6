"""The cost of `battery-runtime`: by the days that are followed, the loads, and what is compared."""

from msgspec import UNSET

from footvalve.answers.cost import Cost, Quantities, askings
from footvalve.contract.battery_runtime import BatteryRuntimeRequest

_PLAIN, _OF_LOAD, _OF_CHARGER, _OF_DAY = 0.7, 0.018, 0.036, 0.125
_ASKED, _ASKED_LOAD = 0.18, 0.004


def battery_cost(request: BatteryRuntimeRequest, quantities: Quantities) -> Cost:
    """The days and the chargers are gone through once, the loads at every asking."""
    loads, days = len(request.loads), request.days
    chargers = 0 if request.charger is UNSET else len(request.charger.currents)
    units = _PLAIN + _OF_LOAD * loads + _OF_CHARGER * chargers + _OF_DAY * days
    units += askings(quantities.uncertain) * (_ASKED + _ASKED_LOAD * loads)
    made_of = {"uncertain inputs": quantities.uncertain, "loads": loads, "chargers": chargers, "days": days}
    return Cost(units, made_of)
