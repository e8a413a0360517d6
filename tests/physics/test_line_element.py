"""Each element of a line against the equation that it stands for."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from footvalve.physics.line_element import (
    CoefficientPipe,
    FlowCoefficientPassage,
    LocalResistance,
    RatedStrainer,
    RoughPipe,
    SquareLawPassage,
)
from footvalve.physics.water import water

GRAVITY = 9.80665
COLD = water(temperature=283.15)
ELEMENTS = {
    "rough pipe": RoughPipe(0.0266, 10.0, 1.5e-6),
    "coefficient pipe": CoefficientPipe(0.0266, 10.0, 150.0),
    "fitting": LocalResistance(0.0266, 2.0),
    "check valve": LocalResistance(0.0266, 8.0, 2500.0),
    "strainer": RatedStrainer(5e-4, 6000.0),
    "stopped pump": SquareLawPassage(4e-4, 5000.0),
    "meter": FlowCoefficientPassage(5.0),
}
flows = st.floats(1e-6, 5e-3)


@pytest.mark.parametrize("element", ELEMENTS.values(), ids=ELEMENTS.keys())
@given(flow=flows, growth=st.floats(1.001, 20))
def test_more_flow_costs_more_head(element, flow, growth):
    assert element.head_loss(flow * growth, COLD) > element.head_loss(flow, COLD)


@given(flows, st.floats(0.01, 0.06), st.floats(0.1, 100))
def test_the_friction_factor_is_that_of_the_head_that_is_lost(flow, diameter, length):
    """h = f (L / d) V^2 / (2 g), solved for f."""
    pipe = RoughPipe(diameter, length, 1.5e-6)
    velocity = flow / (math.pi * diameter**2 / 4)
    factor = pipe.head_loss(flow, COLD) * diameter / length * 2.0 * GRAVITY / velocity**2
    assert pipe.friction_factor(flow, COLD) == pytest.approx(factor, rel=1e-9)


@given(flows, st.floats(0.01, 0.06), st.floats(0.1, 100))
def test_laminar_friction_is_hagen_and_poiseuilles(flow, diameter, length):
    """32 nu L V / (g d^2), where the flow is slow enough."""
    warm = water(temperature=293.15)
    velocity = flow / (math.pi * diameter**2 / 4)
    if velocity * diameter / warm.kinematic_viscosity < 2039:
        expected = 32 * warm.kinematic_viscosity * length * velocity / (GRAVITY * diameter**2)
        assert RoughPipe(diameter, length, 0.0).head_loss(flow, warm) == pytest.approx(expected, rel=1e-9)


def test_a_spring_is_there_at_any_flow():
    """Its pressure as a height of that water."""
    spring = LocalResistance(0.0266, 8.0, 2500.0).head_loss(1e-9, COLD)
    assert spring == pytest.approx(2500.0 / (COLD.density * GRAVITY), rel=1e-6)


def test_twice_the_length_costs_twice_the_head():
    for kind, wall in ((RoughPipe, 1e-5), (CoefficientPipe, 140.0)):
        once = kind(0.02, 7.0, wall).head_loss(3e-4, COLD)
        assert kind(0.02, 14.0, wall).head_loss(3e-4, COLD) == pytest.approx(2 * once, rel=1e-12)


def test_pressure_ratings_are_told_in_head_of_the_water_that_flows():
    """The stopped pump's 5 kPa at its known flow."""
    hot = water(temperature=360.0)
    loss = SquareLawPassage(4e-4, 5000.0).head_loss(4e-4, hot)
    assert loss == pytest.approx(5000.0 / (hot.density * GRAVITY), rel=1e-12)


@pytest.mark.parametrize("diameter", [0.0158, 0.0266, 0.0409])
@pytest.mark.parametrize("roughness", [0.0, 1.5e-6, 4.6e-5, 1.5e-4])
def test_turbulent_friction_is_colebrooks_by_a_root_finder(diameter, roughness):
    """h = f (L / d) V^2 / (2 g), f the root of Colebrook's equation at Re = V d / nu and e / d."""
    velocity = 6e-4 / (math.pi * diameter**2 / 4)
    reynolds = velocity * diameter / COLD.kinematic_viscosity

    def residual(x):
        return x + 2 * math.log10(roughness / diameter / 3.7 + 2.51 * x / reynolds)

    factor = brentq(residual, 1.0, 40.0, xtol=1e-14) ** -2
    expected = factor * 25.0 / diameter * velocity**2 / (2 * GRAVITY)
    assert reynolds > 4000
    assert RoughPipe(diameter, 25.0, roughness).head_loss(6e-4, COLD) == pytest.approx(expected, rel=1e-9)
