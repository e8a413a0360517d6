"""Drawdown of a pumped well against a general solver, the theory of large wells, and what must hold for any test."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.special import k0, k1

from footvalve.physics.casing_storage import casing_storage_area
from footvalve.physics.method import OutsideDomain
from footvalve.physics.well_drawdown import (
    casing_water_fraction,
    pumped_drawdown,
    specific_capacity_of_test,
    time_to_drawdown,
)

INCH = 0.0254
AREA = casing_storage_area(casing_diameter=6 * INCH, drop_pipe_diameter=1.315 * INCH)


# --- against a general solver


@pytest.mark.parametrize("capacity", [0.0, 1e-6, 2e-5, 3e-4])
def test_the_drawdown_is_the_water_balance_integrated(capacity):
    drawdown = pumped_drawdown(flow=3e-4, specific_capacity=capacity, area=AREA, time=600.0)
    solved = solve_ivp(lambda _, s: (3e-4 - capacity * s) / AREA, (0, 600.0), [0.0], rtol=1e-11, atol=1e-13)
    assert drawdown == pytest.approx(solved.y[0][-1], rel=1e-8)


# --- against the theory of a large well in an aquifer


def large_well_drawdown(time, *, flow, transmissivity, storativity, radius):
    """Papadopulos & Cooper (1967): a well with storage in a confined aquifer, Laplace transform inverted by Stehfest's
    method (Communications of the ACM 13, 1970, 47-49) with 12 terms."""

    def transformed(p):
        q = radius * math.sqrt(p * storativity / transmissivity)
        balance = q * k1(q) + radius**2 * p / (2 * transmissivity) * k0(q)
        return flow / p * k0(q) / (2 * math.pi * transmissivity * balance)

    step = math.log(2) / time
    return step * sum(weight * transformed((i + 1) * step) for i, weight in enumerate(stehfest_weights(12)))


def stehfest_weights(count):
    half = count // 2
    weights = []
    for i in range(1, count + 1):
        terms = [
            k**half
            * math.factorial(2 * k)
            / math.factorial(half - k)
            / math.factorial(k)
            / math.factorial(k - 1)
            / math.factorial(i - k)
            / math.factorial(2 * k - i)
            for k in range((i + 1) // 2, min(i, half) + 1)
        ]
        weights.append((-1) ** (half + i) * sum(terms))
    return weights


SLOW_GROUND = {"transmissivity": 1.5e-6, "storativity": 1e-4, "radius": 3 * INCH}
BARE_AREA = casing_storage_area(casing_diameter=6 * INCH)


@pytest.mark.parametrize("minutes", [15, 60, 240])
def test_the_correction_lies_between_flow_over_drawdown_and_what_the_ground_gives_after_a_day(minutes):
    """In real ground the level goes on falling, so no short test is safe; but the correction takes most of the
    error off, and never more than all of it."""
    drawdown = large_well_drawdown(60.0 * minutes, flow=1e-4, **SLOW_GROUND)
    after_a_day = 1e-4 / large_well_drawdown(86400.0, flow=1e-4, **SLOW_GROUND)
    corrected = specific_capacity_of_test(flow=1e-4, drawdown=drawdown, duration=60.0 * minutes, area=BARE_AREA)
    apparent = 1e-4 / drawdown
    assert after_a_day * 0.95 < corrected < apparent
    assert corrected - after_a_day < 0.5 * (apparent - after_a_day)


def test_the_casing_gives_the_first_water_in_the_theory_too():
    drawdown = large_well_drawdown(30.0, flow=1e-4, **SLOW_GROUND)
    share = casing_water_fraction(flow=1e-4, drawdown=drawdown, duration=30.0, area=BARE_AREA)
    assert 0.97 < share < 1.0


# --- what must hold for any test

flows = st.floats(1e-6, 0.1)
areas = st.floats(1e-3, 20)
capacities = st.floats(1e-8, 1e-1)
durations = st.floats(60, 2.5e6)


@given(flows, capacities, areas, durations)
def test_a_test_gives_back_the_specific_capacity_that_it_was_made_with(flow, capacity, area, duration):
    """Where the casing gave all but a hundredth of the water its digits are lost: y = 1 - x / 2."""
    drawdown = pumped_drawdown(flow=flow, specific_capacity=capacity, area=area, time=duration)
    share = casing_water_fraction(flow=flow, drawdown=drawdown, duration=duration, area=area)
    if share > 0.99:
        return
    found = specific_capacity_of_test(flow=flow, drawdown=drawdown, duration=duration, area=area)
    assert found == pytest.approx(capacity, rel=1e-9)


@given(flows, st.floats(0.004, 1000), areas, durations)
def test_flow_over_drawdown_is_never_less_than_the_corrected_capacity(flow, drawdown, area, duration):
    found = specific_capacity_of_test(flow=flow, drawdown=drawdown, duration=duration, area=area)
    assert 0.0 <= found <= flow / drawdown * (1 + 1e-12)
    if area * drawdown >= flow * duration:
        assert found == 0.0


@given(flows, st.floats(0.004, 1000), areas, durations, st.floats(1.01, 5))
def test_a_longer_test_with_the_same_drawdown_shows_more_inflow(flow, drawdown, area, duration, longer):
    short, long = (
        specific_capacity_of_test(flow=flow, drawdown=drawdown, duration=time, area=area)
        for time in (duration, longer * duration)
    )
    assert long >= short * (1 - 1e-9)


@given(st.floats(-15, -3))
def test_a_test_that_the_casing_all_but_explains_comes_to_an_end(exponent):
    share = 1.0 - 10**exponent
    found = specific_capacity_of_test(flow=1.0, drawdown=share, duration=1.0, area=1.0)
    assert found == pytest.approx(2 * (1 - share), rel=1e-2, abs=3e-8)


@given(flows, capacities, areas, st.floats(0.01, 500))
def test_the_time_to_a_drawdown_ends_at_that_drawdown(flow, capacity, area, drawdown):
    time = time_to_drawdown(flow=flow, specific_capacity=capacity, area=area, drawdown=drawdown)
    if capacity * drawdown >= flow:
        assert time is None
    else:
        assert time >= area * drawdown / flow * (1 - 1e-12)
        reached = pumped_drawdown(flow=flow, specific_capacity=capacity, area=area, time=time)
        assert reached == pytest.approx(drawdown, rel=1e-6)


def test_a_trace_of_inflow_lasts_as_long_as_none():
    times = [
        time_to_drawdown(flow=1e-3, specific_capacity=capacity, area=0.02, drawdown=5.0)
        for capacity in (0.0, 1e-300, 1e-25, 1e-18, 1e-14)
    ]
    assert times == pytest.approx([100.0] * 5, rel=1e-9)


@pytest.mark.parametrize(
    "call",
    [
        lambda: pumped_drawdown(flow=-1.0, specific_capacity=1.0, area=1.0, time=1.0),
        lambda: pumped_drawdown(flow=1.0, specific_capacity=-1.0, area=1.0, time=1.0),
        lambda: pumped_drawdown(flow=1.0, specific_capacity=1.0, area=0.0, time=1.0),
        lambda: pumped_drawdown(flow=1.0, specific_capacity=1.0, area=1.0, time=math.inf),
        lambda: casing_water_fraction(flow=0.0, drawdown=1.0, duration=1.0, area=1.0),
        lambda: casing_water_fraction(flow=1.0, drawdown=1.0, duration=0.0, area=1.0),
        lambda: casing_water_fraction(flow=1.0, drawdown=-1.0, duration=1.0, area=1.0),
        lambda: specific_capacity_of_test(flow=1.0, drawdown=0.0, duration=1.0, area=1.0),
        lambda: specific_capacity_of_test(flow=1.0, drawdown=1.0, duration=1.0, area=-1.0),
        lambda: time_to_drawdown(flow=1.0, specific_capacity=1.0, area=1.0, drawdown=-1.0),
    ],
)
def test_what_has_no_meaning_is_refused(call):
    with pytest.raises(OutsideDomain):
        call()


WELL = {"flow": 3e-4, "specific_capacity": 2e-5, "area": AREA}


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ({"flow": -1e-9}, "^the flow must not be negative"),
        ({"specific_capacity": -1e-9}, "^the specific capacity must not be negative"),
        ({"area": 0.0}, "^the casing's area must be above zero"),
        ({"area": math.inf}, "^the casing's area must be above zero"),
    ],
)
def test_a_well_is_refused_with_what_is_wrong(wrong, told):
    with pytest.raises(OutsideDomain, match=told):
        time_to_drawdown(**WELL | wrong, drawdown=1.0)
    with pytest.raises(OutsideDomain, match=told):
        pumped_drawdown(**WELL | wrong, time=60.0)


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ({"flow": 0.0}, "^a pumping test has a flow and a duration above zero"),
        ({"duration": 0.0}, "^a pumping test has a flow and a duration above zero"),
        ({"drawdown": 0.0}, "^a test without drawdown does not tell the specific capacity"),
    ],
)
def test_a_pumping_test_is_refused_with_what_is_wrong(wrong, told):
    with pytest.raises(OutsideDomain, match=told):
        specific_capacity_of_test(**{"flow": 3e-4, "drawdown": 2.0, "duration": 600.0, "area": AREA} | wrong)


def test_the_drawdown_at_which_the_inflow_equals_the_flow_is_never_reached():
    """2 m at 0.5 m^2/s bring the very 1 m^3/s that is drawn."""
    assert time_to_drawdown(flow=1.0, specific_capacity=0.5, area=0.02, drawdown=2.0) is None


def test_a_trickle_is_reckoned_with_its_inflow_however_small_both_are():
    """x = C s / Q = 5e-6, and -ln(1 - x) = x (1 + x/2 + ...): 2.5 millionths longer than without inflow."""
    time = time_to_drawdown(flow=1e-6, specific_capacity=1e-12, area=0.02, drawdown=5.0)
    assert time == pytest.approx(1e5 * (1 + 2.5e-6), rel=1e-10)
