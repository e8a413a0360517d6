"""What flows into a well for each length of drawdown, by its recovery or by a pumping test."""

import math
from collections.abc import Sequence

from msgspec import UNSET, Struct

from footvalve.answers.coverage import NORMAL, coverage_factor
from footvalve.answers.well_readings import READINGS, TAPE_ERROR, ResidualDrawdown, distinct_readings
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import Duration
from footvalve.contract.well_recovery import PumpingTest, WellRecoveryRequest
from footvalve.physics.method import OutsideDomain
from footvalve.physics.well_drawdown import casing_water_fraction, specific_capacity_of_test
from footvalve.physics.well_recovery import FittedRecovery, fit_recovery, residual_drawdown

LEAST_TEST = Duration(4.0, "h")
"""A yield test of a house's well lasts this long or longer. Common practice, no source."""

LEAST_DISTINCT = 3
"""Readings at different times from which a recovery proves anything: an exponential fits any two."""

LEAST_TIME_CONSTANT = Duration(1.0, "s")
"""Below it the water's inertia counts, and a slip of units is likelier. Common practice, no source."""


class CasingWater(Struct, frozen=True):
    """The casing's share in a pumping test's water, and flow over drawdown in m^2/s as if there were none."""

    fraction: float
    apparent_specific_capacity: float


class Inflow(Struct, frozen=True):
    """The specific capacity in m^2/s with its standard uncertainty, by how much less it may be with the certainty that
    is asked for, the greatest drawdown in m that was seen with the flow in m^3/s that goes with it, and how they were
    found; of a recovery the readings that were used, how many of them are
    not another one told again, and how much of the drawdown came back."""

    specific_capacity: float
    standard_uncertainty: float
    may_be_less_by: float
    tested_drawdown: float
    tested_flow: float
    used: tuple[ResidualDrawdown, ...] = ()
    fit: FittedRecovery | None = None
    casing_water: CasingWater | None = None
    recovered_fraction: float | None = None
    distinct_readings: int | None = None

    @property
    def least_specific_capacity(self) -> float:
        """What the specific capacity is at least, with the certainty that is asked for."""
        return max(self.specific_capacity - self.may_be_less_by, 0.0)


def inflow(request: WellRecoveryRequest, used: Sequence[ResidualDrawdown], area: float) -> Inflow:
    """The inflow by whichever of the two the request holds, of a recovery by the readings that a fit can use. Raises
    Refused for readings that no well gives."""
    if request.recovery is not UNSET:
        return inflow_by_recovery(used, area)
    assert request.pumping_test is not UNSET
    return inflow_by_test(request.pumping_test, request.static_depth.base, area)


def inflow_by_recovery(used: Sequence[ResidualDrawdown], area: float) -> Inflow:
    """The inflow by the readings of a recovery. Raises Refused where no well gives them."""
    fit = _fit(used, area)
    recovered = _recovered_fraction(fit, used, area)
    rises = fit.initial_drawdown * recovered > TAPE_ERROR.base
    found, deepest = fit.specific_capacity if rises else 0.0, max(reading.drawdown for reading in used)
    return Inflow(
        specific_capacity=found,
        standard_uncertainty=_uncertainty(fit),
        may_be_less_by=_may_be_less_by(fit, used),
        tested_drawdown=deepest,
        tested_flow=found * deepest,
        used=tuple(used),
        fit=fit,
        recovered_fraction=recovered,
        distinct_readings=distinct_readings(used),
    )


def _fit(used: Sequence[ResidualDrawdown], area: float) -> FittedRecovery:
    try:
        fit = fit_recovery(
            times=[reading.time for reading in used], drawdowns=[reading.drawdown for reading in used], area=area
        )
    except OutsideDomain as outside:
        raise Refused(Fault(READINGS, str(outside))) from None
    if fit.specific_capacity * LEAST_TIME_CONSTANT.base > area:
        text = f"the level comes back with a time constant below {LEAST_TIME_CONSTANT}: check the units of `elapsed`"
        raise Refused(Fault(READINGS, text))
    return fit


def _uncertainty(fit: FittedRecovery) -> float:
    """Of the specific capacity, by the readings' scatter; of two readings, which have none, by a tape's error."""
    by_tape = TAPE_ERROR.base * fit.by_reading_error
    return by_tape if fit.standard_uncertainty is None else fit.standard_uncertainty


def _may_be_less_by(fit: FittedRecovery, used: Sequence[ResidualDrawdown]) -> float:
    """The scatter of few readings may be small by luck: it counts for more, and for no less than a tape's error. One
    that is told again makes nothing surer."""
    distinct = distinct_readings(used)
    by_tape = NORMAL * TAPE_ERROR.base * fit.by_reading_error * math.sqrt(len(used) / distinct)
    if fit.standard_uncertainty is None or distinct < LEAST_DISTINCT:
        return by_tape
    told_again = math.sqrt((len(used) - 2) / (distinct - 2))
    return max(by_tape, coverage_factor(distinct - 2) * told_again * fit.standard_uncertainty)


def _recovered_fraction(fit: FittedRecovery, used: Sequence[ResidualDrawdown], area: float) -> float:
    """How much of the first used reading's drawdown the fit has made up at the last one."""
    return 1.0 - residual_drawdown(
        initial_drawdown=1.0, specific_capacity=fit.specific_capacity, area=area, time=used[-1].time - used[0].time
    )


def inflow_by_test(test: PumpingTest, static_depth: float, area: float) -> Inflow:
    """The inflow by a pumping test, less what the casing gave."""
    drawdown = test.pumping_depth.base - static_depth
    flow, duration = test.flow.base, test.duration.base
    share = casing_water_fraction(flow=flow, drawdown=drawdown, duration=duration, area=area)
    # A drawdown that a tape's error would make the casing's alone tells of no inflow.
    flows_in = area * (drawdown + TAPE_ERROR.base) < flow * duration
    found = specific_capacity_of_test(flow=flow, drawdown=drawdown, duration=duration, area=area) if flows_in else 0.0
    return Inflow(
        specific_capacity=found,
        standard_uncertainty=0.0,
        may_be_less_by=0.0,
        tested_drawdown=drawdown,
        tested_flow=flow,
        casing_water=CasingWater(share, flow / drawdown),
    )
