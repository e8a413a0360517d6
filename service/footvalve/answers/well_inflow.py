"""What flows into a well for each length of drawdown, by its recovery or by a pumping test."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from msgspec import UNSET

from footvalve.answers.basis import basis_step, doubts
from footvalve.answers.unit_system import UnitSystem
from footvalve.answers.well_readings import (
    READINGS,
    TAPE_ERROR,
    ResidualDrawdown,
    reading_doubts,
    residual_drawdowns,
    rest_doubts,
)
from footvalve.answers.well_units import fine_length
from footvalve.contract.answer import BasisStep, Warning
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import Duration, Length, figure
from footvalve.contract.well_recovery import PumpingTest, Recovery, WellRecoveryRequest
from footvalve.physics.method import OutsideDomain
from footvalve.physics.well_drawdown import WELL_DRAWDOWN, casing_water_fraction, specific_capacity_of_test
from footvalve.physics.well_recovery import WELL_RECOVERY, FittedRecovery, fit_recovery, residual_drawdown

LEAST_TEST = Duration(4.0, "h")
"""A yield test of a house's well lasts this long or longer. Common practice, no source."""

LEAST_TIME_CONSTANT = Duration(1.0, "s")
"""Below it the water's inertia counts, and a slip of units is likelier. Common practice, no source."""

USUAL_DROP_PIPE = Length(1.66, "in")
"""Outside diameter of 1-1/4 inch pipe, a usual drop pipe. Source: ASME B36.10M."""

TELLING_SHARE = 0.02
"""Share of the casing's area from which a drop pipe that is not told of is worth a word."""

MOST_CASING_SHARE = 1.1
"""Casing's share in a test's water above which the readings contradict each other, errors of reading allowed for."""


@dataclass(frozen=True, slots=True)
class CasingWater:
    """The casing's share in a pumping test's water, and flow over drawdown in m^2/s as if there were none."""

    fraction: float
    apparent_specific_capacity: float


@dataclass(frozen=True, slots=True)
class Inflow:
    """The specific capacity in m^2/s with its standard uncertainty, the greatest drawdown in m that was seen with the
    flow in m^3/s that goes with it, and how they were found; of a recovery how much of the drawdown came back."""

    specific_capacity: float
    standard_uncertainty: float
    tested_drawdown: float
    tested_flow: float
    basis: BasisStep
    warnings: tuple[Warning, ...]
    fit: FittedRecovery | None = None
    casing_water: CasingWater | None = None
    recovered_fraction: float | None = None


def inflow(request: WellRecoveryRequest, area: float, units: UnitSystem) -> Inflow:
    """The inflow by whichever of the two the request holds. Raises Refused for readings that no well gives."""
    if request.recovery is not UNSET:
        return inflow_by_recovery(request.recovery, request, area, units)
    assert request.pumping_test is not UNSET
    return inflow_by_test(request.pumping_test, request.static_depth.base, area)


def inflow_by_recovery(recovery: Recovery, request: WellRecoveryRequest, area: float, units: UnitSystem) -> Inflow:
    """The inflow by the readings of a recovery. Raises Refused where no well gives them."""
    rest = request.static_depth.base
    used = residual_drawdowns(recovery.readings, rest)
    fit = _fit(used, area)
    recovered = _recovered_fraction(fit, used, area)
    rises = fit.initial_drawdown * recovered > TAPE_ERROR.base
    warnings = [*_drop_pipe_untold(request, units), *reading_doubts(recovery.readings, used, rest, units)]
    if rises:
        warnings += rest_doubts(used, fit, area, rest, units)
        warnings += doubts(WELL_RECOVERY, READINGS, recovered_fraction=recovered)
        if fit.r_squared is not None:
            warnings += doubts(WELL_RECOVERY, READINGS, r_squared=fit.r_squared)
    else:
        text = f"the level does not rise by more than a tape's error of {fine_length(TAPE_ERROR, units)}: no inflow"
        warnings.append(Warning(READINGS, f"{text} is seen. Wait longer, and see that nothing was drawn meanwhile"))
    found, deepest = fit.specific_capacity if rises else 0.0, max(reading.drawdown for reading in used)
    return Inflow(
        specific_capacity=found,
        standard_uncertainty=_uncertainty(fit, used, area),
        tested_drawdown=deepest,
        tested_flow=found * deepest,
        basis=basis_step("Specific capacity by the recovery", WELL_RECOVERY),
        warnings=tuple(warnings),
        fit=fit,
        recovered_fraction=recovered,
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


def _uncertainty(fit: FittedRecovery, used: Sequence[ResidualDrawdown], area: float) -> float:
    """Of the specific capacity, by the readings' scatter; of two readings, which have none, by a tape's error."""
    if fit.standard_uncertainty is not None:
        return fit.standard_uncertainty
    first, last = used
    in_logarithms = math.hypot(TAPE_ERROR.base / first.drawdown, TAPE_ERROR.base / last.drawdown)
    return area * in_logarithms / (last.time - first.time)


def _recovered_fraction(fit: FittedRecovery, used: Sequence[ResidualDrawdown], area: float) -> float:
    """How much of the first used reading's drawdown the fit has made up at the last one."""
    return 1.0 - residual_drawdown(
        initial_drawdown=1.0, specific_capacity=fit.specific_capacity, area=area, time=used[-1].time - used[0].time
    )


def _drop_pipe_untold(request: WellRecoveryRequest, units: UnitSystem) -> Iterator[Warning]:
    share = (USUAL_DROP_PIPE.base / request.casing_diameter.base) ** 2
    if request.drop_pipe_diameter is UNSET and TELLING_SHARE < share < 1.0:
        text = "no drop pipe is given: if one hangs in the well the inflow is overstated, by"
        usual = units.bore(USUAL_DROP_PIPE.base)
        yield Warning("/drop_pipe_diameter", f"{text} {share / (1 - share):.0%} for one of {usual} outside")


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
        tested_drawdown=drawdown,
        tested_flow=flow,
        basis=basis_step("Specific capacity by the pumping test", WELL_DRAWDOWN),
        warnings=(*_short_test(test), *_casing_doubts(test, share, flows_in)),
        casing_water=CasingWater(share, flow / drawdown),
    )


def _short_test(test: PumpingTest) -> Iterator[Warning]:
    if test.duration.base < LEAST_TEST.base:
        text = f"shorter than the {LEAST_TEST} that a yield test takes: the level would have fallen further, and the"
        yield Warning("/pumping_test/duration", f"{text} inflow is overstated by what the ground near the well held")


def _casing_doubts(test: PumpingTest, share: float, flows_in: bool) -> list[Warning]:
    if flows_in:
        return doubts(WELL_DRAWDOWN, "/pumping_test/duration", casing_water_fraction=share)
    if share > MOST_CASING_SHARE:
        text = f"the level fell by {figure(share)} times what {test.flow} over {test.duration} takes out of the casing"
        return [Warning("/pumping_test", f"{text}: one of flow, depths, duration and diameters is wrong")]
    text = "the test only emptied the casing: the level fell as if nothing flowed in; pump longer, or at less flow"
    return [Warning("/pumping_test", text)]
