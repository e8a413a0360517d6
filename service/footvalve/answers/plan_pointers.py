"""Where the fields that a step's endpoint speaks of stand in the plan's request."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from msgspec import UNSET

from footvalve.contract.answer import Warning
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.site_plan import SitePlanRequest

PUMP_POINTS = "/pump/points"

Computed = TypeVar("Computed")


@dataclass(frozen=True, slots=True)
class PointerMap:
    """Pointers of a step's request into the plan's, by the longest beginning that is known.

    What follows a `moved` beginning is kept. A `replaced` one stands for something that the plan worked out itself, and
    what follows it is dropped: there is no such place in the plan's request.
    """

    moved: Mapping[str, str] = field(default_factory=dict)
    replaced: Mapping[str, str] = field(default_factory=dict)

    def __call__(self, pointer: str) -> str:
        """The pointer into the plan's request.

        >>> here = PointerMap({"/line": "/suction_line"}, {"/flow": "/pump/points"})
        >>> here("/line/3/bore"), here("/flow"), here("/site/altitude"), here("/lines")
        ('/suction_line/3/bore', '/pump/points', '/site/altitude', '/lines')
        """
        beginning = pointer
        while True:
            if beginning in self.replaced:
                return self.replaced[beginning]
            if beginning in self.moved:
                return self.moved[beginning] + pointer.removeprefix(beginning)
            if not beginning:
                return pointer
            beginning = beginning.rpartition("/")[0]

    def warnings(self, found: Iterable[Warning]) -> list[Warning]:
        """A step's warnings with pointers into the plan's request."""
        return [Warning(self(warning.pointer), warning.detail) for warning in found]

    def answered(self, compute: Callable[[], Computed]) -> Computed:
        """What a step computes. Raises Refused with pointers into the plan's request."""
        try:
            return compute()
        except Refused as refused:
            faults = (Fault(self(fault.pointer), fault.detail) for fault in refused.faults)
            raise Refused(*faults) from None


def sounding_pointers() -> PointerMap:
    """Of the step `sounding`."""
    return _nested("/sounding")


def manifold_pointers() -> PointerMap:
    """Of the step `manifold-check`."""
    return _nested("/manifold")


def _nested(home: str) -> PointerMap:
    return PointerMap({"": home, "/units": "/units", "/site": "/site"})


def well_pointers(request: SitePlanRequest) -> PointerMap:
    """Of the step `well-recovery`."""
    well = request.well
    rest_is_stated = well is not UNSET and well.static_depth is not UNSET
    limit_is_stated = well is not UNSET and well.limit_depth is not UNSET
    replaced = {
        "/static_depth": "/well/static_depth" if rest_is_stated else depth_pointer(request),
        "/limit_depth": "/well/limit_depth" if limit_is_stated else "/intake_elevation",
        "/design_flow": PUMP_POINTS,
    }
    return PointerMap({"": "/well", "/units": "/units", "/site": "/site"}, replaced)


def suction_pointers(request: SitePlanRequest) -> PointerMap:
    """Of the step `suction-feasibility`."""
    replaced = {
        "/depth_to_water": depth_pointer(request),
        "/drawdown": level_pointer(request),
        "/specific_capacity": level_pointer(request),
        "/flow": PUMP_POINTS,
    }
    return PointerMap({"/line": "/suction_line"}, replaced)


def friction_pointers() -> PointerMap:
    """Of the step `friction`."""
    return PointerMap({"/line": "/delivery_line"}, {"/flow": PUMP_POINTS})


def tank_pointers(request: SitePlanRequest) -> PointerMap:
    """Of the step `tank-cycle`."""
    demand = "/daily_water" if request.demand is UNSET else "/demand"
    return PointerMap(replaced={"/pump": PUMP_POINTS, "/demand": demand})


def battery_pointers(request: SitePlanRequest) -> PointerMap:
    """Of the step `battery-runtime`, whose first load is the pump."""
    others = {f"/loads/{index + 1}": f"/loads/{index}" for index, _ in enumerate(request.loads or ())}
    replaced = {"/loads/0": PUMP_POINTS, "/pump_flow": PUMP_POINTS}
    if not request.loads:
        replaced["/loads"] = "/daily_water"
    return PointerMap(others, replaced)


def depth_pointer(request: SitePlanRequest) -> str:
    """Where the plan's depth to the water comes from."""
    return "/depth_to_water" if request.sounding is UNSET else "/sounding"


def level_pointer(request: SitePlanRequest) -> str:
    """Where the plan's drawdown comes from."""
    well = request.well
    if well is not UNSET and well.drawdown is not UNSET:
        return "/well/drawdown"
    if well is not UNSET and well.specific_capacity is not UNSET:
        return "/well/specific_capacity"
    return "/well"
