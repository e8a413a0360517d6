"""The readings of a plan that scatter: those of its sounding, and those of its well's recovery."""

from collections.abc import Iterator

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.plan_state import plan_state
from footvalve.answers.reading_scatter import sounding_scatter
from footvalve.answers.recovery_scatter import scatter_of
from footvalve.answers.uncertain_inputs import UncertainInput
from footvalve.answers.well_readings import READINGS
from footvalve.answers.well_state import well_state
from footvalve.contract.site_plan import SitePlanRequest


def plan_scatter(request: SitePlanRequest) -> Iterator[UncertainInput]:
    """Each as one uncertain input."""
    if request.sounding is not UNSET:
        yield from sounding_scatter(request.sounding.measurement, "/sounding/measurement")
    if request.well is not UNSET and request.well.recovery is not UNSET:
        question = plan_state(replace(request, manifold=UNSET)).well.question
        assert question is not None, "a recovery is a question to the well"
        yield from scatter_of(well_state(question), f"/well{READINGS}")
