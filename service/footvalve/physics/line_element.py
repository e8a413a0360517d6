"""The elements that a line is made of, each with the head that it takes at a flow. All numbers are SI."""

from typing import Protocol

from msgspec import Struct

from footvalve.physics.fitting_loss import minor_head_loss
from footvalve.physics.hazen_williams import hazen_williams_head_loss
from footvalve.physics.head import pressure_head
from footvalve.physics.pipe_flow import (
    darcy_friction_factor,
    darcy_weisbach_head_loss,
    mean_velocity,
    reynolds_number,
)
from footvalve.physics.rated_loss import flow_coefficient_drop, square_law_drop, strainer_drop
from footvalve.physics.si import (
    CubicMetresPerSecond,
    Metres,
    MetresPerSecond,
    Number,
    Pascals,
)
from footvalve.physics.water import Water


class LineElement(Protocol):
    """Anything that the water passes."""

    def head_loss(self, flow: CubicMetresPerSecond, water: Water) -> Metres:
        """Head lost at a flow above zero, in height of that water."""
        ...


class RoughPipe(Struct, frozen=True):
    """A pipe reckoned after Darcy-Weisbach."""

    diameter: Metres
    length: Metres
    roughness: Metres

    def friction_factor(self, flow: CubicMetresPerSecond, water: Water) -> Number:
        """Darcy friction factor at a flow above zero."""
        return self._friction_factor(mean_velocity(flow=flow, diameter=self.diameter), water)

    def _friction_factor(self, velocity: MetresPerSecond, water: Water) -> Number:
        reynolds = reynolds_number(
            velocity=velocity, diameter=self.diameter, kinematic_viscosity=water.kinematic_viscosity
        )
        return darcy_friction_factor(reynolds=reynolds, relative_roughness=self.roughness / self.diameter)

    def head_loss(self, flow: CubicMetresPerSecond, water: Water) -> Metres:
        """Head lost to friction."""
        velocity = mean_velocity(flow=flow, diameter=self.diameter)
        return darcy_weisbach_head_loss(
            friction_factor=self._friction_factor(velocity, water),
            length=self.length,
            diameter=self.diameter,
            velocity=velocity,
        )


class CoefficientPipe(Struct, frozen=True):
    """A pipe reckoned after Hazen-Williams."""

    diameter: Metres
    length: Metres
    coefficient: Number

    def head_loss(self, flow: CubicMetresPerSecond, water: Water) -> Metres:  # noqa: ARG002
        """Head lost to friction; the formula knows only water near room temperature."""
        return hazen_williams_head_loss(
            flow=flow, length=self.length, diameter=self.diameter, coefficient=self.coefficient
        )


class LocalResistance(Struct, frozen=True):
    """A fitting or valve with its K at a bore, and what a spring takes on top of it at any flow."""

    diameter: Metres
    coefficient: Number
    cracking_pressure: Pascals = 0.0

    def head_loss(self, flow: CubicMetresPerSecond, water: Water) -> Metres:
        """Head lost by turbulence and to the spring."""
        velocity = mean_velocity(flow=flow, diameter=self.diameter)
        turbulence = minor_head_loss(coefficient=self.coefficient, velocity=velocity)
        if not self.cracking_pressure:
            return turbulence
        return turbulence + pressure_head(pressure=self.cracking_pressure, density=water.density)


class RatedStrainer(Struct, frozen=True):
    """A strainer or filter by its rating."""

    rated_flow: CubicMetresPerSecond
    rated_drop: Pascals

    def head_loss(self, flow: CubicMetresPerSecond, water: Water) -> Metres:
        """Head lost in the medium."""
        drop = strainer_drop(flow=flow, rated_flow=self.rated_flow, rated_drop=self.rated_drop)
        return pressure_head(pressure=drop, density=water.density)


class SquareLawPassage(Struct, frozen=True):
    """A turbulent passage by one known point, such as a stopped pump."""

    known_flow: CubicMetresPerSecond
    known_drop: Pascals

    def head_loss(self, flow: CubicMetresPerSecond, water: Water) -> Metres:
        """Head lost in the passage."""
        drop = square_law_drop(flow=flow, known_flow=self.known_flow, known_drop=self.known_drop)
        return pressure_head(pressure=drop, density=water.density)


class FlowCoefficientPassage(Struct, frozen=True):
    """A passage by its metric flow coefficient."""

    kv: Number

    def head_loss(self, flow: CubicMetresPerSecond, water: Water) -> Metres:
        """Head lost in the passage."""
        drop = flow_coefficient_drop(flow=flow, kv=self.kv, density=water.density)
        return pressure_head(pressure=drop, density=water.density)
