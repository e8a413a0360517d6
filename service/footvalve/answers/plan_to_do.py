"""What is to be done for a plan, in order: measure what is missing, mend what is wrong, build, try."""

from collections.abc import Iterator
from itertools import chain

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.plan_duty import PumpDuty
from footvalve.answers.plan_finding import Finding
from footvalve.answers.plan_findings import holds_its_water
from footvalve.answers.plan_power_findings import wire_findings, wire_heat_findings
from footvalve.answers.plan_power_materials import greatest_draw
from footvalve.answers.plan_state import PlanState
from footvalve.answers.plan_steps import PlanSteps
from footvalve.answers.tank_cycle import tank_cycle
from footvalve.answers.unit_system import current
from footvalve.contract.line import IdlePump
from footvalve.contract.quantities import Duration
from footvalve.contract.suction_feasibility import CentrifugalPump, SuctionFeasibilityAnswer

SHORTEST_RUN = Duration(1.0, "min")
"""A run that spares the motor, for choosing a tank where none is wanted by name. Common practice, no source."""


def to_do(state: PlanState, duty: PumpDuty, steps: PlanSteps, found: list[Finding]) -> list[str]:
    """The list, the first first."""
    return list(
        chain(
            _hold_back(found),
            _find_out(state),
            _choose(state, duty, steps),
            _mend(steps),
            _make_safe(state),
            _suction_side(state, steps.suction),
            _tank_side(state, steps),
            _battery_side(state, steps),
            _try_out(state, duty),
        )
    )


def _hold_back(found: list[Finding]) -> Iterator[str]:
    if found and found[0].gravity == "infeasible":
        yield "Buy nothing for this plan as it stands: change it first."


def _find_out(state: PlanState) -> Iterator[str]:
    request = state.request
    if request.well is UNSET:
        yield (
            "Measure how the well's level comes back after pumping, or test the well at this flow: without its yield "
            "the level is taken not to fall, and nothing is said of how much water there is."
        )
    if request.intake_elevation is UNSET:
        deepest = state.units.length(state.intake)
        yield f"Find out how deep the suction line's intake hangs: it is taken at {deepest}, the deepest it can reach."
    if request.seasonal_fall.value == 0.0:
        yield "Find out how much lower the water stands in the dry season: nothing is counted for it."
    if request.delivery_line is UNSET:
        yield "List the line from the pump to the tank: nothing is counted for its friction."
    if state.pump.currents is None:
        yield "Measure the pump's current at two rises of pressure or more, for the battery."
    if request.daily_water is UNSET:
        yield "Reckon the water that is used in a day: hours, charge and days of the battery follow from it."


def _choose(state: PlanState, duty: PumpDuty, steps: PlanSteps) -> Iterator[str]:
    request = state.request
    if request.tanks is UNSET and duty.filling is not None:
        run = SHORTEST_RUN if request.least_run is UNSET else request.least_run
        needed = tank_cycle(replace(duty.filling.question, least_run=run)).volume_needed
        yield f"Choose pressure tanks of {needed} or more together, charged to cut-in, for runs of {run} at least."
    if request.battery is UNSET:
        yield "Choose a battery: how long it lasts is not reckoned without one."
        return
    amperes = greatest_draw(duty, steps.battery)
    if amperes is not None and any(wire_findings(request, request.battery, amperes)):
        yield f"Take a thicker wire from the battery to the pump, for {current(amperes)} and a fuse above that."
    if any(wire_heat_findings(request)):
        yield "See that the wire from the battery to the pump, its insulation and its lugs bear the heat they stand in."
    if request.charger is UNSET and request.solar is UNSET:
        yield "Choose how the battery is charged: by a charger, or by the sun."
    if request.wire is UNSET:
        yield "Measure the way from the battery to the pump and choose its wire: its drop is not reckoned without it."


def _mend(steps: PlanSteps) -> Iterator[str]:
    for finding in steps.manifold.findings if steps.manifold else ():
        if finding.severity != "note":
            yield f"Mend the manifold: {finding.text}"


def _make_safe(state: PlanState) -> Iterator[str]:
    idle = any(isinstance(part, IdlePump) for part in state.request.suction_line)
    if idle:
        yield "Have the well pump's supply switched off, locked and tested dead before anything is opened."
        yield "Interlock the supplies of both pumps, so that they never run together on one line."
    if idle and state.request.manifold is UNSET:
        yield "Draw the piping between well pump, booster and house, and have it checked as `manifold`."


def _suction_side(state: PlanState, suction: SuctionFeasibilityAnswer | None) -> Iterator[str]:
    if suction is None:
        return
    inlet = state.units.length(state.request.pump.inlet_elevation.base)
    yield f"Set the pump with its inlet at an elevation of {inlet}, dry, and free of frost."
    if not holds_its_water(state):
        yield "Fit a foot valve or check valve, or water runs back at each stop."
    if suction.air_entry:
        yield "Test the suction line tight under vacuum, joint by joint: any opening in it draws air."
    if suction.priming.line_volume.value > 0.0:
        yield from _priming(state, suction)
    yield "Fit a cut-off against dry running, and try it."


def _priming(state: PlanState, suction: SuctionFeasibilityAnswer) -> Iterator[str]:
    if isinstance(state.request.pump, CentrifugalPump):
        yield f"Fill the suction line by hand before the first start: {suction.priming.line_volume} of air are in it."
    elif suction.priming.time is not UNSET and suction.priming.time.value > 0.0:
        yield f"Let the pump draw the air out of the line at the first start, for {suction.priming.time} or more."


def _tank_side(state: PlanState, steps: PlanSteps) -> Iterator[str]:
    switch, told = state.request.switch, state.units.told
    if steps.tank is not None:
        precharge = steps.tank.precharge_advice.precharge
        yield f"With the tanks empty of water and the pump off, charge each with a bladder or diaphragm to {precharge}."
    cut_in, cut_out = told(switch.cut_in), told(switch.cut_out)
    yield f"Set the switch to cut in at {cut_in} and out at {cut_out}, against a gauge beside it."
    yield "Fit a relief valve near the tank, with no valve between, that passes the pump's whole flow."


def _battery_side(state: PlanState, steps: PlanSteps) -> Iterator[str]:
    if state.request.battery is UNSET:
        return
    yield "Put the fuse within a hand's breadth of the battery's positive post, before anything else is connected."
    if steps.battery is not None and steps.battery.ventilation is not UNSET:
        air, opening = steps.battery.ventilation.airflow, steps.battery.ventilation.opening
        yield f"Give the battery's room {air} of air while it charges, or two openings of {opening} each."
    yield "Charge the battery full before the first outage, and again after each."


def _try_out(state: PlanState, duty: PumpDuty) -> Iterator[str]:
    if duty.cut_in is None:
        return
    drawn = "" if duty.cut_in.current is None else f" and draws {current(duty.cut_in.current)}"
    expected = f"{state.units.flow(duty.cut_in.flow)}{drawn}"
    yield (
        f"Try it: just above cut-in the pump gives {expected}; where it gives less, or bubbles come, look for air and "
        "for what chokes the line."
    )
