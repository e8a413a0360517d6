"""Hazen-Williams against its other printed forms."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.hazen_williams import HAZEN_WILLIAMS, hazen_williams_head_loss
from footvalve.physics.method import OutsideDomain

FOOT, INCH = 0.3048, 0.0254
GALLON_PER_MINUTE = 231 * INCH**3 / 60

lines = st.tuples(st.floats(1e-5, 0.05), st.floats(0.012, 0.3), st.floats(60, 160))


@given(lines)
def test_it_is_the_velocity_form_of_williams_and_hazen(line):
    """V = 1.318 C R^0.63 S^0.54 in feet and seconds gives the flow back."""
    flow, diameter, coefficient = line
    loss = hazen_williams_head_loss(flow=flow, length=30.0, diameter=diameter, coefficient=coefficient)
    radius = diameter / 4 / FOOT
    velocity = 1.318 * coefficient * radius**0.63 * (loss / 30.0) ** 0.54 * FOOT
    assert velocity * 3.141592653589793 * diameter**2 / 4 == pytest.approx(flow, rel=1e-9)


@given(lines)
def test_it_is_the_metric_form_in_print(line):
    """h = 10.67 L Q^1.852 / (C^1.852 d^4.87), whose rounded exponents part by up to 0.5 % over this range.

    Common practice, no source.
    """
    flow, diameter, coefficient = line
    loss = hazen_williams_head_loss(flow=flow, length=1.0, diameter=diameter, coefficient=coefficient)
    assert loss == pytest.approx(10.67 * (flow / coefficient) ** 1.852 / diameter**4.87, rel=5e-3)


def test_it_is_the_form_in_feet_and_gallons():
    """0.2083 (100/C)^1.852 Q^1.852 / d^4.8655 ft per 100 ft: its exponent of d is 2.63 times 1.85, so 1.2 %."""
    for gallons in (1, 5, 20, 50):
        for inches in (0.622, 1.049, 2.067):
            loss = hazen_williams_head_loss(
                flow=gallons * GALLON_PER_MINUTE,
                length=100 * FOOT,
                diameter=inches * INCH,
                coefficient=130.0,
            )
            printed = 0.2083 * (100 / 130) ** 1.852 * gallons**1.852 / inches**4.8655
            assert loss / FOOT == pytest.approx(printed, rel=0.012)


def test_no_flow_costs_nothing():
    assert hazen_williams_head_loss(flow=0.0, length=10.0, diameter=0.025, coefficient=150.0) == 0.0


@pytest.mark.parametrize("wrong", [{"diameter": 0.0}, {"coefficient": 0.0}, {"flow": -1e-6}])
def test_what_means_nothing_is_refused(wrong):
    right = {"flow": 1e-3, "length": 10.0, "diameter": 0.025, "coefficient": 150.0}
    with pytest.raises(OutsideDomain):
        hazen_williams_head_loss(**right | wrong)


def test_its_range_leaves_out_the_small_bores_of_a_house():
    """There it reckons too little, and the answer has to warn of it."""
    assert 0.0266 not in HAZEN_WILLIAMS.range_of("diameter")


def test_the_formula_holds_its_exponent_down_to_the_roughest_pipe():
    """The head goes with C^(-1/0.54); half of C is 2^(1/0.54) times the head."""
    rough, rougher = (
        hazen_williams_head_loss(flow=1e-3, length=10.0, diameter=0.1, coefficient=coefficient)
        for coefficient in (2.0, 1.0)
    )
    assert rougher == pytest.approx(rough * 2 ** (1 / 0.54), rel=1e-12)


@pytest.mark.parametrize("wrong", [{"diameter": 0.0}, {"coefficient": 0.0}, {"flow": -1e-9}])
def test_a_pipe_is_refused_with_what_is_wrong(wrong):
    right = {"flow": 1e-3, "length": 10.0, "diameter": 0.025, "coefficient": 150.0}
    with pytest.raises(OutsideDomain, match=r"^the diameter and the coefficient must be above zero, the flow"):
        hazen_williams_head_loss(**right | wrong)
