"""Why a well's verdict is what it is, in the trade's words and with numbers."""

import math
from collections.abc import Iterator

from footvalve.answers.unit_system import UnitSystem
from footvalve.answers.well_inflow import LEAST_TEST
from footvalve.answers.well_state import FURTHEST, WellState
from footvalve.answers.well_units import span, specific_capacity
from footvalve.contract.well_recovery import DEEPEST

TELLING_EXCESS = 0.01
"""By how much flow over drawdown must overstate the specific capacity to be worth a word."""

NINE_TENTHS = math.log(10.0)
"""Time constants in which nine tenths of a drawdown are made up."""


def well_reasons(state: WellState, units: UnitSystem) -> list[str]:
    """The reasons, the deciding ones first."""
    return [
        *_verdict_wanting(state),
        *_unproven(state, units),
        *_dry(state, units),
        *_settling(state, units),
        *_most_for_good(state, units),
        *_out_of_casing(state, units),
        *_coming_back(state, units),
        *_casing_water(state, units),
    ]


def _verdict_wanting(state: WellState) -> Iterator[str]:
    if state.design_flow is not None and state.limit_depth is not None:
        return
    if state.verdict is None:
        asked = {"design_flow": state.design_flow, "limit_depth": state.limit_depth}
        wanting = " and ".join(f"`{name}`" for name, value in asked.items() if value is None)
        yield f"There is no verdict without {wanting}."


def _unproven(state: WellState, units: UnitSystem) -> Iterator[str]:
    """Why there is no verdict, or not the one that the numbers seem to call for."""
    if state.unproven is None or state.verdict == "dry" or state.design_flow is None or state.limit_depth is None:
        return
    if state.unproven == "uncertain":
        yield _uncertain(state, state.design_flow, units)
        return
    why = {
        "scatter": _scatter,
        "too-few": _too_few,
        "too-brief": _too_brief,
        "beyond-test": _beyond_test,
        "casing-water": _casing_alone,
    }[state.unproven]
    yield f"There is no verdict: {why(state, units)}. {_better_test(state.design_flow, units)}"


def _uncertain(state: WellState, flow: float, units: UnitSystem) -> str:
    limit = units.length(state.limit_depth or 0.0)
    least = units.flow(state.least_specific_capacity * (state.drawdown_at_limit or 0.0))
    return (
        f"It is unproven that {units.flow(flow)} is sustained: with the level at the limit of {limit} the readings are "
        f"sure of {least} only. {_better_test(flow, units)}"
    )


def _scatter(state: WellState, units: UnitSystem) -> str:
    sigma = specific_capacity(state.inflow.standard_uncertainty, units)
    return f"the readings scatter so much that the specific capacity they show is uncertain by {sigma}, all of it"


def _too_few(state: WellState, units: UnitSystem) -> str:  # noqa: ARG001
    return "two readings fit any inflow, so that nothing shows how good they are"


def _too_brief(state: WellState, units: UnitSystem) -> str:  # noqa: ARG001
    recovered = state.inflow.recovered_fraction or 0.0
    return f"{recovered:.0%} of the drawdown came back while it was read, too little to tell where the rest leads"


def _beyond_test(state: WellState, units: UnitSystem) -> str:
    return (
        f"the flow would take more than {FURTHEST:g} times the drawdown of {_tested(state, units)}, and nothing shows "
        "that the inflow goes on growing down there"
    )


def _casing_alone(state: WellState, units: UnitSystem) -> str:
    water = state.inflow.casing_water
    share = 0.0 if water is None else water.fraction
    return f"{share:.0%} of the water came out of the casing at the drawdown of {_tested(state, units)}"


def _tested(state: WellState, units: UnitSystem) -> str:
    inflow = state.inflow
    return f"{units.length(inflow.tested_drawdown)} that was tested, at {units.flow(inflow.tested_flow)}"


def _better_test(flow: float, units: UnitSystem) -> str:
    return f"Test the well at {units.flow(flow)} for {LEAST_TEST} or more."


def _dry(state: WellState, units: UnitSystem) -> Iterator[str]:
    if state.verdict == "dry" and state.limit_depth is not None:
        rest, limit = units.length(state.static_depth), units.length(state.limit_depth)
        yield f"The water at rest stands at {rest}, not above the limit of {limit}: nothing can be drawn."


def _settling(state: WellState, units: UnitSystem) -> Iterator[str]:
    if state.design_flow is None or state.verdict == "dry" or state.specific_capacity == 0.0:
        return
    flow = units.flow(state.design_flow)
    if state.pumping_depth is None:
        yield f"No level down to {units.length(DEEPEST)} would make {flow} flow in."
        return
    settles = f"At {flow} the level would settle at {units.length(state.pumping_depth)}"
    if state.limit_depth is None:
        yield f"{settles}, {units.length(state.pumping_depth - state.static_depth)} below its rest."
        return
    side = "above" if state.seems_to_sustain else "below"
    apart = units.length(abs(state.limit_depth - state.pumping_depth))
    yield f"{settles}, {apart} {side} the limit of {units.length(state.limit_depth)}."


def _most_for_good(state: WellState, units: UnitSystem) -> Iterator[str]:
    if state.inflow_at_limit and state.limit_depth is not None and state.drawdown_at_limit is not None:
        most, limit = units.flow(state.inflow_at_limit), units.length(state.limit_depth)
        shown = "" if state.drawdown_at_limit <= state.inflow.tested_drawdown else ", if the inflow grows so far down"
        yield f"With the level at the limit of {limit} {most} flow in{shown}: no more can be drawn for good."


def _out_of_casing(state: WellState, units: UnitSystem) -> Iterator[str]:
    if state.verdict == "storage-limited" and state.specific_capacity == 0.0:
        yield "Nothing flows in that the readings show: what is drawn comes out of the casing."
    if state.time_to_limit is not None and state.storage is not None and state.design_flow is not None:
        flow, surely = units.flow(state.design_flow), "surely " if state.unproven else ""
        lasts = f"{flow} can {surely}be drawn for {span(state.time_to_limit)}"
        yield f"From rest, with {units.volume(state.storage)} in the casing above the limit, {lasts}."


def _coming_back(state: WellState, units: UnitSystem) -> Iterator[str]:
    if state.time_constant is not None:
        capacity = specific_capacity(state.specific_capacity, units)
        nine_tenths = span(NINE_TENTHS * state.time_constant)
        yield f"The well gives {capacity}; with the pump off nine tenths of a drawdown are back after {nine_tenths}."


def _casing_water(state: WellState, units: UnitSystem) -> Iterator[str]:
    water = state.inflow.casing_water
    if water is None:
        return
    excess = water.apparent_specific_capacity - state.specific_capacity
    if excess <= TELLING_EXCESS * state.specific_capacity:
        return
    apparent = specific_capacity(water.apparent_specific_capacity, units)
    if state.specific_capacity == 0.0:
        yield f"The test only emptied the casing: the {apparent} of flow over drawdown would be a wrong yes."
    else:
        yield (
            f"Of the water that the test pumped {water.fraction:.0%} came out of the casing, and the level was still "
            f"falling: flow over drawdown would say {apparent}, {excess / state.specific_capacity:.0%} too much."
        )
