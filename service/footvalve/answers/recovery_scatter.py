"""Readings of a recovery: how far their scatter about the fit lets one believe the specific capacity (type A)."""

from collections.abc import Iterator
from functools import partial
from typing import Any

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.uncertain_inputs import OutOfRange, UncertainInput
from footvalve.answers.well_inflow import Inflow
from footvalve.answers.well_readings import READINGS
from footvalve.answers.well_state import well_state
from footvalve.contract.pointed import changed_at, tokens
from footvalve.contract.quantities import Duration
from footvalve.contract.soundness import is_inside_ranges
from footvalve.contract.well_recovery import RecoveryReading, WellRecoveryRequest
from footvalve.physics.method import Method

RECOVERY_SCATTER = Method(
    "Experimental standard deviation of the fitted specific capacity, from the readings' residuals",
    "JCGM 100:2008, 4.2.3 and H.3 (type A), with the weights of the fit",
    note="three readings or more, with errors that are independent of one another; with few of them the deviation is "
    "itself uncertain (Table E.1, by the readings less two)",
)

LEAST_SCATTER = 1e-6
"""Share of the specific capacity below which the readings are taken to lie on the fit: an answer's digits tell no more
(own choice)."""


def recovery_scatter(request: WellRecoveryRequest) -> Iterator[UncertainInput]:
    """The fit of a recovery as one uncertain input. None for two readings, which any exponential fits, for readings
    that lie on it, and for those that show no inflow."""
    if request.recovery is not UNSET:
        yield from scatter_of(well_state(request).inflow, READINGS)


def scatter_of(inflow: Inflow, pointer: str) -> Iterator[UncertainInput]:
    """The same of an inflow that was found already. `pointer` leads to the readings."""
    fit, found = inflow.fit, inflow.specific_capacity
    if fit is not None and fit.standard_uncertainty and fit.standard_uncertainty > LEAST_SCATTER * found > 0.0:
        share = fit.standard_uncertainty / found
        yield UncertainInput(pointer, "scatter", partial(_shifted, pointer, share), RECOVERY_SCATTER)


def _shifted(pointer: str, share: float, request: Any, sigmas: float) -> Any:
    """The request with readings that come back so much faster: all times are shorter, and the fit is as good."""
    faster = 1.0 + sigmas * share
    if faster <= 0.0:
        raise OutOfRange(pointer)
    return changed_at(request, tokens(pointer), lambda readings: [_sooner(reading, faster) for reading in readings])


def _sooner(reading: RecoveryReading, faster: float) -> RecoveryReading:
    elapsed = reading.elapsed
    sooner = replace(reading, elapsed=Duration(elapsed.value / faster, elapsed.unit, elapsed.uncertainty))
    if not is_inside_ranges(sooner):
        raise OutOfRange("/elapsed")
    return sooner
