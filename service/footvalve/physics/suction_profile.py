"""Pressure along a suction line, node by node from the intake to the pump."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from footvalve.physics.acceleration_head import acceleration_head
from footvalve.physics.head import head_pressure
from footvalve.physics.line_element import LineElement
from footvalve.physics.method import Method
from footvalve.physics.pipe_flow import mean_velocity, velocity_head
from footvalve.physics.si import CubicMetresPerSecond, Metres, Number, Pascals
from footvalve.physics.water import Water

PROFILE = Method(
    "Energy equation from the water's surface to each node: static pressure under the faster of the bores that meet",
    "Bernoulli's equation with losses; White, Fluid Mechanics, 7th ed., equation 3.73",
    note="steady flow; for a reciprocating pump the worst moment of the stroke",
)


@dataclass(frozen=True, slots=True)
class Stage:
    """An element of the line with the bore it has, the length that it runs and the elevation where it ends."""

    element: LineElement
    diameter: Metres | None
    length: Metres
    end_elevation: Metres


@dataclass(frozen=True, slots=True)
class Strokes:
    """The beat of a reciprocating pump, and how many bores of line it shakes where a gas cushion takes the rest."""

    per_minute: Number
    chambers: int
    cushioned_bores: Number | None = None


@dataclass(frozen=True, slots=True)
class Node:
    """A place on the line: its elevation, the head lost on the way there, and the static pressure in it."""

    elevation: Metres
    losses: Metres
    acceleration_head: Metres
    absolute_pressure: Pascals


def suction_profile(
    *,
    stages: Sequence[Stage],
    intake_elevation: Metres,
    surface_elevation: Metres,
    flow: CubicMetresPerSecond,
    water: Water,
    atmospheric_pressure: Pascals,
    strokes: Strokes | None = None,
) -> list[Node]:
    """Nodes at the intake and at each stage's end,
    p = p_atm + rho g (z_surface - z - losses - acceleration head - V^2 / (2 g)).

    Friction runs through the whole line; height counts from the water's surface. Where two bores meet, the faster
    one decides the pressure, since the joint's tighter side is where the water boils first.

    Valid for: steady flow; for a reciprocating pump the worst moment of the stroke.
    Source: Bernoulli's equation with losses; White, Fluid Mechanics, 7th ed., equation 3.73.
    """
    velocity_heads = _velocity_heads(stages, flow)
    accelerations = _acceleration_heads(stages, flow, strokes)
    nodes = []
    elevation, losses, accelerated = intake_elevation, 0.0, 0.0
    for index in range(len(stages) + 1):
        if index:
            losses += stages[index - 1].element.head_loss(flow, water)
            accelerated += accelerations[index - 1]
            elevation = stages[index - 1].end_elevation
        moving = max(velocity_heads[index : index + 2])
        head = surface_elevation - elevation - losses - accelerated - moving
        pressure = atmospheric_pressure + head_pressure(head=head, density=water.density)
        nodes.append(Node(elevation, losses, accelerated, pressure))
    return nodes


def _velocity_heads(stages: Sequence[Stage], flow: CubicMetresPerSecond) -> list[Metres]:
    """Velocity head before the intake, which is nil, and in each stage; one of unknown bore has its neighbour's."""
    heads = [0.0]
    for stage in stages:
        if stage.diameter is None:
            heads.append(heads[-1])
        else:
            heads.append(velocity_head(velocity=mean_velocity(flow=flow, diameter=stage.diameter)))
    return heads


def _acceleration_heads(stages: Sequence[Stage], flow: CubicMetresPerSecond, strokes: Strokes | None) -> list[Metres]:
    """Acceleration head of each stage, nearest the pump first to be counted where a cushion spares the rest."""
    heads = [0.0] * len(stages)
    if strokes is None:
        return heads
    bores_left = math.inf if strokes.cushioned_bores is None else strokes.cushioned_bores
    for index in reversed(range(len(stages))):
        stage = stages[index]
        if stage.diameter is None:
            continue
        length = min(stage.length, bores_left * stage.diameter)
        bores_left = max(0.0, bores_left - length / stage.diameter)
        heads[index] = acceleration_head(
            length=length,
            velocity=mean_velocity(flow=flow, diameter=stage.diameter),
            strokes_per_minute=strokes.per_minute,
            chambers=strokes.chambers,
        )
    return heads
