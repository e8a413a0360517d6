"""What no well can be, and what tells nothing of one: the faults of a request, all at once."""

from collections.abc import Iterator, Sequence

from msgspec import UNSET

from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.answers.well_readings import READINGS, TAPE_ERROR, ResidualDrawdown
from footvalve.answers.well_units import fine_length
from footvalve.contract.problem import Fault
from footvalve.contract.quantities import Duration, Length
from footvalve.contract.well_recovery import PumpingTest, WellRecoveryRequest

LEAST_SPAN = Duration(10.0, "s")
"""Nobody reads a level faster by hand, and faster the water's inertia counts. Common practice, no source."""


def well_faults(request: WellRecoveryRequest, used: Sequence[ResidualDrawdown]) -> Iterator[Fault]:
    """Every fault of the request that can be told before anything is reckoned; `used` are the readings of a recovery
    that a fit can use."""
    recovery, test, units = request.recovery, request.pumping_test, unit_system(request.units)
    if recovery is UNSET and test is UNSET:
        yield Fault("/recovery", "give `recovery` or `pumping_test`: without either nothing tells the inflow")
    if recovery is not UNSET and test is not UNSET:
        yield Fault("/pumping_test", "give either `recovery` or `pumping_test`, one of the two")
    if request.drop_pipe_diameter is not UNSET:
        yield from _drop_pipe(request.drop_pipe_diameter, request.casing_diameter)
    if recovery is not UNSET:
        yield from _readings(used, request.static_depth, units)
    if test is not UNSET:
        yield from _test(test, request.static_depth, units)


def _drop_pipe(drop_pipe: Length, casing: Length) -> Iterator[Fault]:
    if drop_pipe.base >= casing.base:
        yield Fault("/drop_pipe_diameter", f"must be less than the casing's inside diameter, {casing}")


def _readings(used: Sequence[ResidualDrawdown], static_depth: Length, units: UnitSystem) -> Iterator[Fault]:
    if len(used) < 2:
        error = fine_length(TAPE_ERROR, units)
        yield Fault(READINGS, f"two or more must lie below `static_depth`, {static_depth}, by more than {error}")
    elif used[-1].time - used[0].time < LEAST_SPAN.base:
        yield Fault(READINGS, f"those below `static_depth`, {static_depth}, must span {LEAST_SPAN} or more")


def _test(test: PumpingTest, static_depth: Length, units: UnitSystem) -> Iterator[Fault]:
    if test.pumping_depth.base - static_depth.base <= TAPE_ERROR.base:
        text = f"must lie below `static_depth`, {static_depth}, by more than {fine_length(TAPE_ERROR, units)}"
        yield Fault("/pumping_test/pumping_depth", f"{text}: only its fall while it is pumped tells the inflow")
