"""NPSH against its definition, worked out with water and air of independent libraries."""

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.method import OutsideDomain
from footvalve.physics.net_positive_suction_head import (
    NPSH_AVAILABLE,
    RATED_LIFT,
    npsh_available,
    npsh_required_of_rated_lift,
)

GRAVITY = 9.80665
FOOT = 0.3048


def published(air_ft, vapour_ft, lift_ft, losses_ft):
    """NPSH of heads in feet, by pressures of a water of 1000 kg/m^3."""
    metre = 1000 * GRAVITY
    available = npsh_available(
        atmospheric_pressure=air_ft * FOOT * metre,
        vapour_pressure=vapour_ft * FOOT * metre,
        density=1000.0,
        static_lift=lift_ft * FOOT,
        losses=losses_ft * FOOT,
    )
    return available / FOOT


def test_textbook_examples_are_sums_of_heads():
    """Bachus & Custodio (2003), chapter 2: example 1 prints 35.061 ft (seen); the sum of example 2 is 14.789 ft."""
    assert published(33.9, 0.839, -6.0, 4.0) == pytest.approx(35.061, abs=5e-4)
    assert published(26.2, 0.411, 8.0, 3.0) == pytest.approx(14.789, abs=5e-4)


@given(
    st.floats(5e4, 1.05e5),
    st.floats(274.0, 360.0),
    st.floats(-20, 40),
    st.floats(0, 20),
    st.floats(0, 20),
)
def test_it_is_the_total_head_at_the_inlet_over_the_vapours(air, temperature, lift, losses, acceleration):
    """Total head from the surface up: air, less height, less what is lost; then less the vapour's head."""
    density = PropsSI("D", "T", temperature, "P|liquid", 101325, "Water")
    vapour = PropsSI("P", "T", temperature, "Q", 0, "Water")
    inlet = air - density * GRAVITY * (lift + losses + acceleration)
    available = npsh_available(
        atmospheric_pressure=air,
        vapour_pressure=vapour,
        density=density,
        static_lift=lift,
        losses=losses,
        acceleration_head=acceleration,
    )
    assert available == pytest.approx((inlet - vapour) / (density * GRAVITY), rel=1e-9, abs=1e-9)


def test_a_lift_that_air_cannot_make_is_refused():
    """And the whole of the published range is not."""
    assert npsh_required_of_rated_lift(rated_suction_lift=RATED_LIFT.range_of("rated_suction_lift").high) > 0
    with pytest.raises(OutsideDomain, match="no higher"):
        npsh_required_of_rated_lift(rated_suction_lift=10.3)


def test_the_range_of_altitudes_is_that_of_the_site():
    assert NPSH_AVAILABLE.range_of("altitude").low == -500.0
    assert NPSH_AVAILABLE.range_of("altitude").high == 5000.0


def test_a_pump_rated_for_all_that_air_can_carry_needs_nothing():
    """What a pump with no rated lift needs is the whole of the air's head; a hair more is refused."""
    whole = npsh_required_of_rated_lift(rated_suction_lift=0.0)
    assert npsh_required_of_rated_lift(rated_suction_lift=whole) == 0.0
    with pytest.raises(OutsideDomain):
        npsh_required_of_rated_lift(rated_suction_lift=whole + 1e-9)
