"""Peukert's law, and what must hold for any battery."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.loads import Step, charge_of_day
from footvalve.physics.method import OutsideDomain
from footvalve.physics.peukert import (
    deliverable_capacity,
    effective_charge_of_day,
    effective_current,
    peukert_exponent,
    peukert_hours,
)

exponents = st.floats(1.0, 1.6)
currents = st.floats(0.01, 500)


@given(exponents, st.floats(1, 2000), st.floats(1.5, 30))
def test_the_exponent_is_found_again_from_two_run_times_that_it_made(exponent, capacity, ratio):
    current = capacity / 20 * ratio
    hours = peukert_hours(capacity=capacity, rated_hours=20, current=current, exponent=exponent)
    found = peukert_exponent(
        capacity=capacity * (1 + 1e-12),
        rated_hours=20,
        second_capacity=current * hours,
        second_rated_hours=hours,
    )
    assert found == pytest.approx(exponent, rel=1e-6)


@given(exponents, currents, st.floats(1.001, 10))
def test_more_current_runs_a_shorter_time_and_delivers_no_more_charge(exponent, current, more):
    slow = peukert_hours(capacity=100, rated_hours=20, current=current, exponent=exponent)
    fast = peukert_hours(capacity=100, rated_hours=20, current=current * more, exponent=exponent)
    assert fast < slow
    assert fast * current * more <= slow * current * (1 + 1e-12)


@given(exponents, st.floats(5, 500))
def test_above_the_rated_current_the_effective_current_empties_the_rating_in_peukerts_time(exponent, current):
    lost = effective_current(current=current, rated_current=5, exponent=exponent)
    hours = peukert_hours(capacity=100, rated_hours=20, current=current, exponent=exponent)
    assert 100 / lost == pytest.approx(hours, rel=1e-12)


@given(exponents, st.floats(0, 5))
def test_below_the_rated_current_no_more_than_the_rating_is_counted(exponent, current):
    assert effective_current(current=current, rated_current=5, exponent=exponent) == current


@given(exponents, st.floats(0, 100), st.floats(0, 100))
def test_two_currents_at_once_cost_at_least_what_they_cost_apart(exponent, one, other):
    def lost(current):
        return effective_current(current=current, rated_current=5, exponent=exponent)

    assert lost(one + other) >= (lost(one) + lost(other)) * (1 - 1e-12)


@given(exponents, st.floats(5, 200))
def test_a_steady_current_is_delivered_for_peukerts_time(exponent, current):
    rating = {"capacity": 100.0, "rated_hours": 20.0, "exponent": exponent}
    delivered = deliverable_capacity([Step(24, current)], **rating)
    assert delivered == pytest.approx(current * peukert_hours(current=current, **rating), rel=1e-12)


@given(exponents, st.floats(0, 23), st.floats(0, 100))
def test_as_many_days_pass_in_delivered_as_in_effective_charge(exponent, hours, current):
    day = [Step(hours, current), Step(24 - hours, 0.5)]
    rating = {"capacity": 100.0, "rated_hours": 20.0, "exponent": exponent}
    delivered_days = deliverable_capacity(day, **rating) / charge_of_day(day)
    assert delivered_days == pytest.approx(100 / effective_charge_of_day(day, **rating), rel=1e-12)


def test_a_day_without_loads_leaves_the_capacity_as_it_is():
    assert deliverable_capacity([Step(24, 0.0)], capacity=100, rated_hours=20, exponent=1.2) == 100


@pytest.mark.parametrize(
    "ratings",
    [
        (100, 20, 100, 20),  # the same rating twice
        (100, 20, 25, 5),  # the same current
        (100, 20, 110, 5),  # more charge in less time
        (0, 20, 80, 5),
    ],
)
def test_ratings_that_make_no_exponent_are_refused(ratings):
    names = ("capacity", "rated_hours", "second_capacity", "second_rated_hours")
    with pytest.raises(OutsideDomain):
        peukert_exponent(**dict(zip(names, ratings, strict=True)))


@pytest.mark.parametrize("change", [{"current": 0}, {"capacity": -1}, {"rated_hours": 0}, {"exponent": 0.9}])
def test_a_run_time_without_meaning_is_refused(change):
    with pytest.raises(OutsideDomain):
        peukert_hours(**{"capacity": 100, "rated_hours": 20, "current": 5, "exponent": 1.2} | change)


@pytest.mark.parametrize("change", [{"current": -1}, {"rated_current": 0}, {"exponent": 0.9}])
def test_an_effective_current_without_meaning_is_refused(change):
    with pytest.raises(OutsideDomain):
        effective_current(**{"current": 10, "rated_current": 5, "exponent": 1.2} | change)


def test_rated_hours_of_zero_are_refused_for_a_day():
    with pytest.raises(OutsideDomain):
        effective_charge_of_day([Step(24, 1)], capacity=100, rated_hours=0, exponent=1.2)


RATINGS = {"capacity": 100.0, "rated_hours": 20.0, "second_capacity": 80.0, "second_rated_hours": 5.0}


@pytest.mark.parametrize("name", RATINGS)
def test_every_part_of_a_rating_must_be_positive(name):
    with pytest.raises(OutsideDomain, match=r"^a rating must be positive"):
        peukert_exponent(**RATINGS | {name: 0.0})


def test_ratings_that_cannot_tell_an_exponent_are_refused_with_the_reason():
    with pytest.raises(OutsideDomain, match=r"^the two ratings must differ in hours and in current"):
        peukert_exponent(**RATINGS | {"second_capacity": 25.0})
    with pytest.raises(OutsideDomain, match=r"^the two ratings give an exponent of 0\.936, below 1"):
        # ln(20/5) / ln(110/5 x 20/100) = 1.386 / 1.482
        peukert_exponent(**RATINGS | {"second_capacity": 110.0})


def test_the_same_charge_at_both_currents_is_an_exponent_of_one():
    assert peukert_exponent(**RATINGS | {"second_capacity": 100.0}) == 1.0


def test_a_battery_rated_for_less_than_an_hour_runs_its_rated_time_at_its_rated_current():
    """10 Ah at half an hour is 20 A; the day's charge is the rating's too."""
    rating = {"capacity": 10.0, "rated_hours": 0.5, "exponent": 1.2}
    assert peukert_hours(current=20.0, **rating) == pytest.approx(0.5)
    assert effective_charge_of_day([Step(0.5, 20.0)], **rating) == pytest.approx(10.0)


def test_a_rated_current_below_one_ampere_is_counted_like_any_other():
    """2^1.3 of the rated current at twice the rated current."""
    assert effective_current(current=0.8, rated_current=0.4, exponent=1.3) == pytest.approx(0.4 * 2**1.3)


@pytest.mark.parametrize(
    "change", [{"current": 0.0}, {"capacity": 0.0}, {"rated_hours": 0.0}, {"exponent": 0.999}, {"rated_hours": -1.0}]
)
def test_a_run_time_is_refused_with_what_is_wrong(change):
    with pytest.raises(OutsideDomain, match=r"^capacity, rated hours and current must be positive, the exponent"):
        peukert_hours(**{"capacity": 100, "rated_hours": 20, "current": 5, "exponent": 1.2} | change)


@pytest.mark.parametrize("change", [{"current": -0.1}, {"rated_current": 0.0}, {"exponent": 0.999}])
def test_an_effective_current_is_refused_with_what_is_wrong(change):
    with pytest.raises(OutsideDomain, match=r"^a current must not be negative, the rated current positive"):
        effective_current(**{"current": 10, "rated_current": 5, "exponent": 1.2} | change)


def test_a_day_is_refused_with_what_is_wrong():
    with pytest.raises(OutsideDomain, match=r"^the rated hours must be positive"):
        effective_charge_of_day([Step(24, 1)], capacity=100, rated_hours=0.0, exponent=1.2)
