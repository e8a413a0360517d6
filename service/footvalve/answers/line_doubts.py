"""What is doubtful about a line: changes of bore that nothing stands for, and methods used beyond their range."""

from collections.abc import Sequence

from msgspec import UNSET

from footvalve.answers.basis import doubts
from footvalve.answers.line_elements import ResolvedPart
from footvalve.contract.answer import Warning
from footvalve.contract.line import Fitting, Pipe, Valve
from footvalve.physics.fitting_loss import CRANE, full_lift_velocity, minor_head_loss
from footvalve.physics.hazen_williams import HAZEN_WILLIAMS
from footvalve.physics.line_element import CoefficientPipe, LocalResistance, RoughPipe
from footvalve.physics.pipe_flow import DARCY_WEISBACH, mean_velocity, reynolds_number
from footvalve.physics.water import Water
from footvalve.tables.valves import valve

UNREMARKABLE_STEP = 0.05
"""A change of bore by less than this fraction costs less than a hundredth of the velocity head."""


def line_doubts(parts: Sequence[ResolvedPart], flow: float, water: Water, pointer: str = "/line") -> list[Warning]:
    """Every doubt about a line at a flow in m^3/s, in the order of its parts."""
    found = _unlisted_steps(parts, pointer)
    for index, part in enumerate(parts):
        if part.diameter is not None:
            found += _beyond_range(part, part.diameter, flow, water, f"{pointer}/{index}")
    return found


def _beyond_range(part: ResolvedPart, diameter: float, flow: float, water: Water, pointer: str) -> list[Warning]:
    velocity = mean_velocity(flow=flow, diameter=diameter)
    reynolds = reynolds_number(velocity=velocity, diameter=diameter, kinematic_viscosity=water.kinematic_viscosity)
    match part.element:
        case RoughPipe():
            laminar_law_holds = reynolds < 2040
            return [] if laminar_law_holds else doubts(DARCY_WEISBACH, pointer, reynolds=reynolds)
        case CoefficientPipe():
            return doubts(
                HAZEN_WILLIAMS, pointer, diameter=diameter, velocity=velocity, water_temperature=water.temperature
            )
        case LocalResistance():
            beyond = doubts(CRANE, pointer, reynolds=reynolds)
            return beyond + _unlifted_disc(part, part.element, velocity, water, pointer)
        case _:
            return []


def _unlifted_disc(
    part: ResolvedPart, element: LocalResistance, velocity: float, water: Water, pointer: str
) -> list[Warning]:
    """A warning at a check valve whose disc this velocity does not lift fully."""
    constant = valve(part.part.valve).full_lift_constant if isinstance(part.part, Valve) else None
    if constant is None:
        return []
    needed = full_lift_velocity(constant=constant, density=water.density)
    if velocity >= needed:
        return []
    most = minor_head_loss(coefficient=element.coefficient, velocity=needed)
    text = f"{velocity:.2g} m/s does not lift the disc fully, which takes {needed:.2g} m/s"
    return [Warning(pointer, f"{text}: the loss may be as much as {most:.2g} m, more than is counted")]


def _unlisted_steps(parts: Sequence[ResolvedPart], pointer: str) -> list[Warning]:
    """A warning at each pipe whose bore differs from the pipe before with nothing between them to stand for it."""
    found = []
    before: float | None = None
    answered = False
    for index, resolved in enumerate(parts):
        if isinstance(resolved.part, Pipe) and resolved.diameter is not None:
            if before is not None and not answered and abs(resolved.diameter - before) > UNREMARKABLE_STEP * before:
                text = f"the bore goes from {before * 1000:.1f} to {resolved.diameter * 1000:.1f} mm here, and no part"
                found.append(Warning(f"{pointer}/{index}", f"{text} stands for the change: its loss is not counted"))
            before, answered = resolved.diameter, False
        elif _stands_for_a_step(resolved):
            answered = True
    return found


def _stands_for_a_step(resolved: ResolvedPart) -> bool:
    part = resolved.part
    changes_bore = isinstance(part, Fitting) and part.fitting in ("sudden-contraction", "sudden-enlargement")
    return changes_bore or part.bore is not UNSET
