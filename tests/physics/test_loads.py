"""A day's loads, laid over each other."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.loads import (
    Load,
    Step,
    average_current,
    charge_of_day,
    greatest_current,
    layered_day,
)
from footvalve.physics.method import OutsideDomain
from footvalve.physics.peukert import effective_charge_of_day

loads = st.lists(st.builds(Load, current=st.floats(0, 200), hours=st.floats(0, 24)), max_size=6)
quarter_loads = st.lists(
    st.builds(Load, current=st.floats(0, 200), hours=st.integers(0, 96).map(lambda n: n / 4)),
    min_size=1,
    max_size=4,
)


@given(loads)
def test_a_day_has_24_hours(some):
    assert sum(step.hours for step in layered_day(some)) == pytest.approx(24)


@given(loads)
def test_no_charge_is_lost_by_laying_loads_over_each_other(some):
    expected = sum(load.current * load.hours for load in some)
    assert charge_of_day(layered_day(some)) == pytest.approx(expected, rel=1e-9, abs=1e-9)


@given(loads)
def test_the_greatest_current_is_that_of_all_loads_that_run_at_all(some):
    expected = sum(load.current for load in some if load.hours > 0)
    assert greatest_current(layered_day(some)) == pytest.approx(expected, rel=1e-9, abs=1e-12)


@given(quarter_loads, st.randoms(use_true_random=False))
def test_no_other_order_of_the_same_hours_takes_more_out_of_the_battery(some, random):
    quarters = [0.0] * 96
    for load in some:
        for quarter in random.sample(range(96), int(load.hours * 4)):
            quarters[quarter] += load.current
    scattered = [Step(0.25, current) for current in quarters]
    rating = {"capacity": 100.0, "rated_hours": 20.0, "exponent": 1.25}
    worst = effective_charge_of_day(layered_day(some), **rating)
    assert effective_charge_of_day(scattered, **rating) <= worst * (1 + 1e-9)


def test_loads_of_equal_hours_make_one_step():
    day = layered_day([Load(4, 6), Load(2, 6), Load(1, 24)])
    assert day == (Step(6, 7), Step(18, 1))


def test_the_average_is_the_current_that_takes_the_charge_over_the_whole_day():
    assert average_current(layered_day([Load(12, 2)])) == pytest.approx(1)


@pytest.mark.parametrize("load", [Load(-1, 2), Load(1, -2), Load(1, 25), Load(float("nan"), 2)])
def test_a_load_that_means_nothing_is_refused(load):
    with pytest.raises(OutsideDomain):
        layered_day([load])


def test_a_day_without_steps_has_no_current():
    assert greatest_current(()) == 0.0


def test_a_load_is_refused_with_its_figures():
    with pytest.raises(OutsideDomain, match=r"^a load of 1 A for 25 h of a day"):
        layered_day([Load(1, 25)])
