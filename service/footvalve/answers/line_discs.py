"""Check valves whose disc the flow does not lift fully: K, by which they are counted, does not hold for them."""

from dataclasses import dataclass

from footvalve.answers.line_elements import ResolvedPart
from footvalve.contract.line import Valve
from footvalve.physics.fitting_loss import full_lift_velocity, minor_head_loss
from footvalve.physics.line_element import LocalResistance
from footvalve.physics.pipe_flow import mean_velocity
from footvalve.physics.water import Water
from footvalve.tables.valves import valve


@dataclass(frozen=True, slots=True)
class UnliftedDisc:
    """A disc that hangs in the stream. Velocities in m/s; losses of the valve in m."""

    velocity: float
    lifting_velocity: float
    counted: float
    possible: float


def unlifted_disc(resolved: ResolvedPart, flow: float, water: Water) -> UnliftedDisc | None:
    """What a check valve may take at a flow in m^3/s that does not lift its disc: as much as the flow that does."""
    part, element = resolved.part, resolved.element
    if not isinstance(part, Valve) or not isinstance(element, LocalResistance):
        return None
    constant = valve(part.valve).full_lift_constant
    if constant is None:
        return None
    velocity = mean_velocity(flow=flow, diameter=element.diameter)
    lifting = full_lift_velocity(constant=constant, density=water.density)
    if velocity >= lifting:
        return None
    counted = element.head_loss(flow, water)
    by_velocity = minor_head_loss(coefficient=element.coefficient, velocity=velocity)
    at_lift = minor_head_loss(coefficient=element.coefficient, velocity=lifting)
    return UnliftedDisc(velocity, lifting, counted, counted + at_lift - by_velocity)


def uncounted_by_disc(resolved: ResolvedPart, flow: float, water: Water) -> float:
    """Head in m that a part may take beyond what is counted; nothing where it holds no disc that hangs."""
    disc = unlifted_disc(resolved, flow, water)
    return 0.0 if disc is None else disc.possible - disc.counted
