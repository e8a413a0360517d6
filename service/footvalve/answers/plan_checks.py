"""What is wrong with the parts of a plan that are asked only once the pump's duty is known: told at once all the same.

A steady flow and current stand for those that are not known yet; what is found does not depend on them.
"""

from collections.abc import Callable, Iterator
from collections.abc import Set as AbstractSet
from functools import partial

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.battery_bank import bank_voltage, resolve_bank
from footvalve.answers.battery_charging import check_solar
from footvalve.answers.battery_loads import resolve_loads
from footvalve.answers.battery_wire import check_wire
from footvalve.answers.plan_moved import BANK, TANKS
from footvalve.answers.plan_pointers import battery_pointers, tank_pointers
from footvalve.answers.plan_requests import battery_request, tank_request
from footvalve.answers.tank_system import pressure_system
from footvalve.contract.battery_runtime import Battery
from footvalve.contract.quantities import Flow
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.contract.tank_cycle import TankPump
from footvalve.physics.atmosphere import atmospheric_pressure

Check = Callable[[], object]

_STANDING_FLOW = Flow(1.0, "L/min")


def later_checks(request: SitePlanRequest, moved: AbstractSet[str]) -> Iterator[Check]:
    """The check of each part of which one of the fields was moved. They raise Refused with pointers into the plan's
    request."""
    if not moved.isdisjoint(TANKS):
        yield partial(tank_pointers(request).answered, partial(_check_tanks, request))
    if request.battery is not UNSET and not moved.isdisjoint(BANK):
        for check in _battery_checks(request, request.battery):
            yield partial(battery_pointers(request).answered, check)


def _check_tanks(request: SitePlanRequest) -> object:
    asked = replace(tank_request(request, ()), pump=TankPump(flow=_STANDING_FLOW))
    return pressure_system(asked, atmospheric_pressure(altitude=request.site.altitude.base))


def _battery_checks(request: SitePlanRequest, battery: Battery) -> Iterator[Check]:
    asked = battery_request(request, battery, flow=_STANDING_FLOW.base, current=1.0, hours=1.0)
    yield partial(resolve_bank, asked)
    yield partial(resolve_loads, asked, bank_voltage(battery))
    yield partial(check_wire, asked)
    yield partial(check_solar, asked)
