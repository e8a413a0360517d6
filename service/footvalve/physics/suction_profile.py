"""Pressure along a suction line, node by node from the intake to the pump."""

import math
from collections.abc import Sequence
from itertools import accumulate

from msgspec import Struct

from footvalve.physics.acceleration_head import acceleration_head
from footvalve.physics.head import head_pressure
from footvalve.physics.line_element import LineElement
from footvalve.physics.method import Method
from footvalve.physics.pipe_flow import mean_velocity, velocity_head
from footvalve.physics.si import CubicMetresPerSecond, KilogramsPerCubicMetre, Metres, Number, Pascals
from footvalve.physics.water import Water

PROFILE = Method(
    "Energy equation from the water's surface to each node: static pressure under the faster of the bores that meet",
    "Bernoulli's equation with losses; White, Fluid Mechanics, 7th ed., equation 3.73",
    note="steady flow; for a reciprocating pump the worst moment of the stroke",
)


class Stage(Struct, frozen=True):
    """An element of the line with the bore it has, the length that it runs and the elevation where it ends."""

    element: LineElement
    diameter: Metres | None
    length: Metres
    end_elevation: Metres


class Strokes(Struct, frozen=True):
    """The beat of a reciprocating pump, and how many bores of line it shakes where a gas cushion takes the rest."""

    per_minute: Number
    chambers: int
    cushioned_bores: Number | None = None


class Node(Struct, frozen=True):
    """A place on the line: its elevation, the head lost on the way there, and the static pressure in it."""

    elevation: Metres
    losses: Metres
    acceleration_head: Metres
    absolute_pressure: Pascals


class LineHeads(Struct, frozen=True):
    """What a flow takes from the head at the intake and at each stage's end, wherever the water stands: the losses and
    the acceleration head on the way there, and the velocity head of the faster of the bores that meet."""

    losses: Sequence[Metres]
    acceleration_heads: Sequence[Metres]
    velocity_heads: Sequence[Metres]


def line_heads(
    *, stages: Sequence[Stage], flow: CubicMetresPerSecond, water: Water, strokes: Strokes | None = None
) -> LineHeads:
    """The heads that a flow takes along a line, which neither the water's level nor the air bears on.

    Valid for: as `suction_profile`.
    Source: as `suction_profile`.
    """
    velocity_heads = _velocity_heads(stages, flow)
    return LineHeads(
        losses=[0.0, *accumulate([stage.element.head_loss(flow, water) for stage in stages])],
        acceleration_heads=[0.0, *accumulate(_acceleration_heads(stages, flow, strokes))],
        velocity_heads=[*map(max, velocity_heads, velocity_heads[1:]), velocity_heads[-1]],
    )


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
    heads = line_heads(stages=stages, flow=flow, water=water, strokes=strokes)
    elevations = [intake_elevation, *[stage.end_elevation for stage in stages]]
    pressures = node_pressures(
        heads=heads,
        elevations=elevations,
        surface_elevation=surface_elevation,
        density=water.density,
        atmospheric_pressure=atmospheric_pressure,
    )
    return list(map(Node, elevations, heads.losses, heads.acceleration_heads, pressures))


def node_pressures(
    *,
    heads: LineHeads,
    elevations: Sequence[Metres],
    surface_elevation: Metres,
    density: KilogramsPerCubicMetre,
    atmospheric_pressure: Pascals,
) -> list[Pascals]:
    """The static pressures of `suction_profile`, of heads that are known already and with the elevations of the intake
    and of each stage's end.

    Valid for: as `suction_profile`.
    Source: as `suction_profile`.
    """
    places = zip(elevations, heads.losses, heads.acceleration_heads, heads.velocity_heads, strict=True)
    return [
        atmospheric_pressure
        + head_pressure(head=surface_elevation - elevation - losses - accelerated - moving, density=density)
        for elevation, losses, accelerated, moving in places
    ]


def _velocity_heads(stages: Sequence[Stage], flow: CubicMetresPerSecond) -> list[Metres]:
    """Velocity head before the intake, which is nil, and in each stage; one of unknown bore has its neighbour's."""
    heads, bore = [0.0], None
    for stage in stages:
        if stage.diameter is None or stage.diameter == bore:
            heads.append(heads[-1])
        else:
            bore = stage.diameter
            heads.append(velocity_head(velocity=mean_velocity(flow=flow, diameter=bore)))
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
