"""The readings of a plan that scatter: those of its sounding, and those of its well's recovery."""

from collections.abc import Iterator

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.plan_state import plan_state
from footvalve.answers.reading_scatter import sounding_scatter
from footvalve.answers.recovery_scatter import scatter_of
from footvalve.answers.uncertain_inputs import UncertainInput
from footvalve.answers.well_inflow import Inflow
from footvalve.answers.well_readings import READINGS
from footvalve.contract.site_plan import SitePlanRequest


def plan_scatter(request: SitePlanRequest) -> Iterator[UncertainInput]:
    """Each as one uncertain input."""
    is_read = request.well is not UNSET and request.well.recovery is not UNSET
    found = plan_state(replace(request, manifold=UNSET)).well.inflow if is_read else None
    return scatter_in(request, found)


def scatter_in(request: SitePlanRequest, found: Inflow | None) -> Iterator[UncertainInput]:
    """The same of a plan whose well's inflow was found already, if its readings tell one."""
    if request.sounding is not UNSET:
        yield from sounding_scatter(request.sounding.measurement, "/sounding/measurement")
    if found is not None:
        yield from scatter_of(found, f"/well{READINGS}")
