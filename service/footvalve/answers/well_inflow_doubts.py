"""What is doubtful about the readings that a well's inflow was found by."""

from collections.abc import Iterator

from msgspec import UNSET

from footvalve.answers.unit_system import UnitSystem
from footvalve.answers.well_inflow import LEAST_TEST
from footvalve.answers.well_readings import reading_doubts, rest_doubts
from footvalve.answers.well_state import WellState
from footvalve.contract.answer import Warning
from footvalve.contract.quantities import Length
from footvalve.contract.well_recovery import PumpingTest, Recovery, WellRecoveryRequest
from footvalve.physics.well_recovery import FittedRecovery

USUAL_DROP_PIPE = Length(1.66, "in")
"""Outside diameter of 1-1/4 inch pipe, a usual drop pipe. Source: ASME B36.10M."""

TELLING_SHARE = 0.02
"""Share of the casing's area from which a drop pipe that is not told of is worth a word."""


def inflow_doubts(request: WellRecoveryRequest, state: WellState, units: UnitSystem) -> list[Warning]:
    """The doubts about the recovery or the test that the request holds, but for those of ranges."""
    found, recovery, test = state.inflow, request.recovery, request.pumping_test
    if recovery is not UNSET and found.fit is not None:
        return [*_drop_pipe_untold(request, units), *_recovery_doubts(recovery, state, found.fit, units)]
    if test is not UNSET and found.casing_water is not None:
        return list(_short_test(test))
    return []


def _recovery_doubts(recovery: Recovery, state: WellState, fit: FittedRecovery, units: UnitSystem) -> Iterator[Warning]:
    found, rest = state.inflow, state.static_depth
    yield from reading_doubts(recovery.readings, found.used, rest, units)
    if found.specific_capacity:
        yield from rest_doubts(found.used, fit, state.area, rest, units)


def _drop_pipe_untold(request: WellRecoveryRequest, units: UnitSystem) -> Iterator[Warning]:
    share = (USUAL_DROP_PIPE.base / request.casing_diameter.base) ** 2
    if request.drop_pipe_diameter is UNSET and TELLING_SHARE < share < 1.0:
        text = "no drop pipe is given: if one hangs in the well the inflow is overstated, by"
        usual = units.bore(USUAL_DROP_PIPE.base)
        yield Warning("/drop_pipe_diameter", f"{text} {share / (1 - share):.0%} for one of {usual} outside")


def _short_test(test: PumpingTest) -> Iterator[Warning]:
    if test.duration.base < LEAST_TEST.base:
        text = f"shorter than the {LEAST_TEST} that a yield test takes: the level would have fallen further, and the"
        yield Warning("/pumping_test/duration", f"{text} inflow is overstated by what the ground near the well held")
