"""Fittings against Crane's own formulas and Borda's momentum balance."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.fitting_loss import (
    contraction_coefficient,
    enlargement_coefficient,
    equivalent_length_coefficient,
    full_lift_velocity,
    minor_head_loss,
    turbulent_friction_factor,
)
from footvalve.physics.si import STANDARD_GRAVITY

STEEL = 0.00015 * 0.3048  # m, commercial steel: Moody, Trans. ASME 66 (1944)
bores = st.floats(0.01, 0.2)
ratios = st.floats(0.05, 0.999)


@given(st.floats(0.012, 0.6))
def test_the_turbulent_factor_is_colebrooks_limit_for_commercial_steel(diameter):
    """1/sqrt(f) = -2 log10(e/(3.7 d)); the library fits Crane's printed values, which follow it within 2 %."""
    limit = 0.25 / math.log10(STEEL / (3.7 * diameter)) ** 2
    assert turbulent_friction_factor(diameter=diameter) == pytest.approx(limit, rel=0.02)


def test_the_turbulent_factor_has_no_step_where_the_library_changes_its_solution():
    """At 10 mm fluids goes from one step of its iteration to two."""
    below = turbulent_friction_factor(diameter=0.01 - 1e-9)
    assert turbulent_friction_factor(diameter=0.01 + 1e-9) == pytest.approx(below, rel=1e-5)


@given(bores, st.floats(3, 600))
def test_k_is_n_turbulent_factors(diameter, ratio):
    coefficient = equivalent_length_coefficient(equivalent_diameters=ratio, diameter=diameter)
    assert coefficient == pytest.approx(ratio * turbulent_friction_factor(diameter=diameter), rel=1e-12)


@given(bores, ratios, st.floats(0.1, 5.0))
def test_an_enlargement_loses_what_the_momentum_balance_says(larger, ratio, velocity):
    """Borda and Carnot: (V1 - V2)^2 / (2 g)."""
    smaller = larger * ratio
    slow = velocity * ratio**2
    coefficient = enlargement_coefficient(smaller_diameter=smaller, larger_diameter=larger)
    loss = minor_head_loss(coefficient=coefficient, velocity=velocity)
    assert loss == pytest.approx((velocity - slow) ** 2 / (2 * STANDARD_GRAVITY), rel=1e-9, abs=1e-15)


@given(bores, ratios)
def test_a_contraction_is_half_of_what_the_areas_differ_by(larger, ratio):
    """Into a pipe out of a tank it is the sharp entrance, K = 0.5: Crane TP 410 (2009), A-26 and A-29."""
    smaller = larger * ratio
    coefficient = contraction_coefficient(smaller_diameter=smaller, larger_diameter=larger)
    assert coefficient == pytest.approx(0.5 * (1 - ratio**2), rel=1e-9)
    tank = contraction_coefficient(smaller_diameter=smaller, larger_diameter=1e4 * smaller)
    assert tank == pytest.approx(0.5, rel=1e-6)


def test_a_change_of_nothing_costs_nothing():
    assert contraction_coefficient(smaller_diameter=0.03, larger_diameter=0.03) == 0.0
    assert enlargement_coefficient(smaller_diameter=0.03, larger_diameter=0.03) == 0.0


def test_full_lift_velocity_in_the_units_of_its_source():
    """Crane: V = 35 sqrt(v) ft/s with v in ft^3/lb, so 4.43 ft/s in water of 62.4 lb/ft^3."""
    pound, foot = 0.45359237, 0.3048
    constant = 35 * foot * math.sqrt(pound / foot**3)
    velocity = full_lift_velocity(constant=constant, density=62.4 * pound / foot**3)
    assert velocity / foot == pytest.approx(35 / math.sqrt(62.4), rel=1e-12)
