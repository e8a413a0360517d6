"""How much water a well gives: the answer of `well-recovery`."""

from collections.abc import Callable
from typing import TypeVar

from msgspec import UNSET, UnsetType

from footvalve.answers.basis import basis, range_warnings
from footvalve.answers.cautions import cautions, flowing_codes
from footvalve.answers.headline import Headline
from footvalve.answers.recovery_scatter import scatter_of
from footvalve.answers.shared import Shared
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.answers.well_doubts import well_doubts
from footvalve.answers.well_headline import headline_of, well_headline
from footvalve.answers.well_inflow import LEAST_TEST, Inflow
from footvalve.answers.well_readings import READINGS
from footvalve.answers.well_reasons import well_reasons
from footvalve.answers.well_state import WellState, well_state
from footvalve.answers.well_steps import well_steps
from footvalve.answers.well_units import span, specific_capacity
from footvalve.contract.quantities import rounded
from footvalve.contract.well_recovery import CasingCorrection, RecoveryFit, WellRecoveryAnswer, WellRecoveryRequest

OPEN_SHAFT = 0.3
"""m of casing from which a well is a shaft that a child or more can fall into. Common practice, no source."""

Told = TypeVar("Told")


def well_recovery(request: WellRecoveryRequest, known: Inflow | None = None) -> WellRecoveryAnswer:
    """The well's inflow, what it sustains, and the verdict; `known` is the inflow by its readings, where it was found
    already. Raises Refused for what cannot be."""
    return _told_well(request, well_state(request, known))


def well_with_headlines(request: WellRecoveryRequest, known: Inflow | None = None) -> Shared[WellRecoveryAnswer]:
    """The same with the function for the headlines of this request and of others near it, and what scatters."""
    state = well_state(request, known)

    def headline(other: WellRecoveryRequest) -> Headline:
        return headline_of(state) if other is request else well_headline(other)

    return Shared(_told_well(request, state), headline, scatter_of(state.inflow, READINGS))


def _told_well(request: WellRecoveryRequest, state: WellState) -> WellRecoveryAnswer:
    units = unit_system(request.units)
    steps = list(well_steps(request, state, units))
    warnings = [*well_doubts(request, state, units), *range_warnings(steps, units)]
    return WellRecoveryAnswer(
        specific_capacity=specific_capacity(state.specific_capacity, units),
        time_constant=_told(span, state.time_constant),
        fit=_fit(state, units),
        correction=_correction(state, units),
        inflow_at_limit=_told(units.flow, state.inflow_at_limit),
        pumping_depth=_told(units.length, state.pumping_depth),
        storage=_told(units.volume, state.storage),
        verdict=UNSET if state.verdict is None else state.verdict,
        time_to_limit=_told(span, state.time_to_limit),
        reasons=well_reasons(state, units),
        basis=basis(steps, units),
        cautions=cautions(_caution_codes(request, state, doubtful=bool(warnings))),
        warnings=warnings,
    )


def _told(tell: Callable[[float], Told], value: float | None) -> Told | UnsetType:
    return UNSET if value is None else tell(value)


def _fit(state: WellState, units: UnitSystem) -> RecoveryFit | UnsetType:
    fit = state.inflow.fit
    if fit is None:
        return UNSET
    return RecoveryFit(
        r_squared=_told(rounded, fit.r_squared),
        points=fit.points,
        initial_drawdown=units.length(fit.initial_drawdown),
        standard_uncertainty=_told(lambda sigma: specific_capacity(sigma, units), fit.standard_uncertainty),
    )


def _correction(state: WellState, units: UnitSystem) -> CasingCorrection | UnsetType:
    water = state.inflow.casing_water
    if water is None:
        return UNSET
    return CasingCorrection(
        casing_water_fraction=rounded(water.fraction),
        apparent_specific_capacity=specific_capacity(water.apparent_specific_capacity, units),
    )


def _caution_codes(request: WellRecoveryRequest, state: WellState, *, doubtful: bool) -> list[str]:
    calls = {
        "well-opened": True,
        "open-shaft": request.casing_diameter.base >= OPEN_SHAFT,
        "flowing-well": bool(flowing_codes(request.static_depth.base)),
        "run-dry": doubtful or state.verdict != "sustains",
        "test-long-enough": not _tested_long_enough(request),
    }
    return [code for code, is_called_for in calls.items() if is_called_for]


def _tested_long_enough(request: WellRecoveryRequest) -> bool:
    """Whether the design flow was pumped for as long as a yield test takes."""
    test, flow = request.pumping_test, request.design_flow
    if test is UNSET or test.duration.base < LEAST_TEST.base:
        return False
    return flow is UNSET or flow.base <= test.flow.base
