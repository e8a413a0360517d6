"""Pipe flow against Poiseuille's parabola, and what must hold for any flow."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from footvalve.physics.method import OutsideDomain
from footvalve.physics.pipe_flow import (
    DARCY_WEISBACH,
    LAMINAR_LIMIT,
    TURBULENT_LIMIT,
    bore_area,
    darcy_friction_factor,
    darcy_weisbach_head_loss,
    flow_regime,
    mean_velocity,
    reynolds_number,
    velocity_head,
)
from footvalve.physics.si import STANDARD_GRAVITY


def colebrook(reynolds, roughness):
    """The root of Colebrook's equation in x = 1/sqrt(f), bracketed, to the last digits of a double."""

    def residual(x):
        return x + 2 * math.log10(roughness / 3.7 + 2.51 * x / reynolds)

    return brentq(residual, 1.0, 40.0, xtol=1e-14, rtol=1e-15) ** -2


def test_the_head_of_a_printed_factor_is_the_printed_one():
    """White, Fluid Mechanics, Example 6.7: oil in 500 m of 0.2 m pipe at 6.4 m/s, f = 0.0225 (seen), 117 m (memory);
    half the last digit. The liquid is oil, so the equation alone is asked."""
    loss = darcy_weisbach_head_loss(friction_factor=0.0225, length=500.0, diameter=0.2, velocity=6.4)
    assert loss == pytest.approx(117, abs=0.6)


def test_the_laminar_factor_is_that_of_the_parabola():
    """64/Re, from the mean of the parabola and the shear at the wall: f = 8 tau / (rho V^2), for any viscosity."""
    for reynolds in (0.05, 1.0, 300.0, 2039.9):
        diameter, velocity = 0.03, 0.05
        viscosity = velocity * diameter / reynolds
        mean_of_peak = quad(lambda r: (1 - r**2) * 2 * r, 0, 1)[0]
        shear = viscosity * (velocity / mean_of_peak) * 2 / (diameter / 2)
        factor = darcy_friction_factor(reynolds=reynolds, relative_roughness=0.01)
        assert factor == pytest.approx(8 * shear / velocity**2, rel=1e-12)


def test_between_laminar_and_turbulent_the_greater_factor_is_taken():
    """No loss may be hidden where neither law is certain."""
    for reynolds in (LAMINAR_LIMIT, 2500.0, 3999.0):
        factor = darcy_friction_factor(reynolds=reynolds, relative_roughness=0.0)
        assert factor == pytest.approx(colebrook(reynolds, 0.0), rel=1e-9)
        assert factor > 64 / reynolds


@given(st.floats(1e-3, 1e8), st.floats(1.0001, 10.0), st.floats(0.0, 0.05))
def test_head_never_falls_as_the_flow_grows(reynolds, growth, roughness):
    """f Re^2 is the head in units of the pipe's own; it steps up where the flow turns turbulent."""

    def head(re):
        return darcy_friction_factor(reynolds=re, relative_roughness=roughness) * re**2

    assert head(reynolds * growth) > head(reynolds)


@given(st.floats(4e3, 1e8), st.floats(0.0, 0.049))
def test_a_rougher_wall_never_costs_less(reynolds, roughness):
    rougher = darcy_friction_factor(reynolds=reynolds, relative_roughness=roughness + 0.001)
    assert rougher > darcy_friction_factor(reynolds=reynolds, relative_roughness=roughness)


def test_the_regimes_have_their_ends():
    assert flow_regime(reynolds=math.nextafter(LAMINAR_LIMIT, 0)) == "laminar"
    assert flow_regime(reynolds=LAMINAR_LIMIT) == "transitional"
    assert flow_regime(reynolds=math.nextafter(TURBULENT_LIMIT, 0)) == "transitional"
    assert flow_regime(reynolds=TURBULENT_LIMIT) == "turbulent"
    assert DARCY_WEISBACH.range_of("reynolds").low == TURBULENT_LIMIT


def test_velocity_area_and_heads_are_those_of_geometry_and_bernoulli():
    """A 25 mm bore holds 0.490874 L a metre, so 0.490874 L/s run at 1 m/s."""
    assert bore_area(diameter=0.025) == pytest.approx(4.908738521e-4, rel=1e-9)
    assert mean_velocity(flow=4.908738521e-4, diameter=0.025) == pytest.approx(1.0, rel=1e-9)
    assert velocity_head(velocity=math.sqrt(2 * STANDARD_GRAVITY)) == pytest.approx(1.0, rel=1e-12)
    assert reynolds_number(velocity=2.0, diameter=0.05, kinematic_viscosity=1e-6) == pytest.approx(1e5)


def test_the_head_loss_is_f_lengths_over_diameters_of_velocity_heads():
    loss = darcy_weisbach_head_loss(friction_factor=0.03, length=12.0, diameter=0.024, velocity=1.7)
    assert loss == pytest.approx(0.03 * 500 * velocity_head(velocity=1.7), rel=1e-12)


@pytest.mark.parametrize("diameter", [0.0, -0.01])
def test_a_bore_of_nothing_is_refused(diameter):
    with pytest.raises(OutsideDomain):
        mean_velocity(flow=1e-3, diameter=diameter)


@pytest.mark.parametrize("reynolds", [0.0, -1.0])
def test_a_flow_of_nothing_has_no_friction_factor(reynolds):
    with pytest.raises(OutsideDomain):
        darcy_friction_factor(reynolds=reynolds, relative_roughness=0.0)


def test_a_flow_is_refused_with_what_is_wrong():
    with pytest.raises(OutsideDomain, match=r"^the diameter must be above zero"):
        mean_velocity(flow=1e-3, diameter=0.0)
    with pytest.raises(OutsideDomain, match=r"^the Reynolds number must be above zero"):
        darcy_friction_factor(reynolds=0.0, relative_roughness=0.0)
