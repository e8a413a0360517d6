"""What is doubtful about a line: changes of bore that nothing stands for, and methods used beyond their range."""

from collections.abc import Sequence

from msgspec import UNSET

from footvalve.answers.basis import doubts
from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.contract.line import Fitting, Pipe, Valve
from footvalve.physics.fitting_loss import CRANE, full_lift_velocity, minor_head_loss
from footvalve.physics.hazen_williams import HAZEN_WILLIAMS
from footvalve.physics.line_element import CoefficientPipe, LineElement, LocalResistance, RoughPipe
from footvalve.physics.pipe_flow import DARCY_WEISBACH, LAMINAR_LIMIT, mean_velocity, reynolds_number
from footvalve.physics.water import Water
from footvalve.tables.valves import valve

UNREMARKABLE_STEP = 0.05
"""A change of bore by less than this fraction costs less than a hundredth of the velocity head."""


def line_doubts(
    parts: Sequence[ResolvedPart], flow: float, water: Water, units: UnitSystem, pointer: str = "/line"
) -> list[Warning]:
    """Every doubt about a line at a flow in m^3/s, in the order of its parts."""
    found = _unlisted_steps(parts, units, pointer)
    for index, part in enumerate(parts):
        if part.diameter is not None:
            velocity = mean_velocity(flow=flow, diameter=part.diameter)
            found += _beyond_range(part.element, part.diameter, velocity, water, f"{pointer}/{index}")
            found += _unlifted_disc(part, velocity, water, units, f"{pointer}/{index}")
    return found


def _beyond_range(element: LineElement, diameter: float, velocity: float, water: Water, pointer: str) -> list[Warning]:
    reynolds = reynolds_number(velocity=velocity, diameter=diameter, kinematic_viscosity=water.kinematic_viscosity)
    match element:
        case RoughPipe():
            return [] if reynolds < LAMINAR_LIMIT else doubts(DARCY_WEISBACH, pointer, reynolds=reynolds)
        case CoefficientPipe():
            return doubts(
                HAZEN_WILLIAMS, pointer, diameter=diameter, velocity=velocity, water_temperature=water.temperature
            )
        case LocalResistance():
            return doubts(CRANE, pointer, reynolds=reynolds)
        case _:
            return []


def _unlifted_disc(
    resolved: ResolvedPart, velocity: float, water: Water, units: UnitSystem, pointer: str
) -> list[Warning]:
    """A warning at a check valve whose disc this velocity does not lift fully."""
    part, element = resolved.part, resolved.element
    if not isinstance(part, Valve) or not isinstance(element, LocalResistance):
        return []
    constant = valve(part.valve).full_lift_constant
    if constant is None:
        return []
    needed = full_lift_velocity(constant=constant, density=water.density)
    if velocity >= needed:
        return []
    most = units.length(minor_head_loss(coefficient=element.coefficient, velocity=needed))
    text = f"{units.velocity(velocity)} does not lift the disc fully, which takes {units.velocity(needed)}"
    return [Warning(pointer, f"{text}: the loss may be as much as {most}, more than is counted")]


def _unlisted_steps(parts: Sequence[ResolvedPart], units: UnitSystem, pointer: str) -> list[Warning]:
    """A warning at each pipe whose bore differs from the pipe before with nothing between them to stand for it."""
    found = []
    before: float | None = None
    answered = False
    for index, resolved in enumerate(parts):
        bore = resolved.diameter
        if isinstance(resolved.part, Pipe) and bore is not None:
            if before is not None and not answered and abs(bore - before) > UNREMARKABLE_STEP * before:
                text = f"the bore goes from {units.bore(before)} to {units.bore(bore)} here, and no part stands for it"
                found.append(Warning(f"{pointer}/{index}", f"{text}: the loss of the change is not counted"))
            before, answered = bore, False
        elif _stands_for_a_step(resolved):
            answered = True
    return found


def _stands_for_a_step(resolved: ResolvedPart) -> bool:
    part = resolved.part
    changes_bore = isinstance(part, Fitting) and part.fitting in ("sudden-contraction", "sudden-enlargement")
    return changes_bore or part.bore is not UNSET
