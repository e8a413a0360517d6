"""Peukert's law against published run times, and what must hold for any battery."""

import csv
import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from footvalve.physics.loads import Step, charge_of_day
from footvalve.physics.method import OutsideDomain
from footvalve.physics.peukert import (
    deliverable_capacity,
    effective_charge_of_day,
    effective_current,
    peukert_exponent,
    peukert_hours,
)

with (Path(__file__).parents[1] / "reference" / "peukert.csv").open(encoding="utf-8") as table:
    ROWS = list(csv.DictReader(table))

exponents = st.floats(1.0, 1.6)
currents = st.floats(0.01, 500)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_run_time_agrees_with_the_published_one(row):
    given_ = json.loads(row["inputs"])
    hours = peukert_hours(capacity=given_["C_Ah"], rated_hours=given_["H_h"], current=given_["I"], exponent=given_["k"])
    assert hours == pytest.approx(float(row["expected"]), abs=float(row["tolerance"])), row["source"]


def test_the_exponent_of_two_ratings_agrees_with_the_formula_evaluated_elsewhere():
    # 100 Ah at 20 h and 80 Ah at 5 h: ln(20/5) / ln(16/5) = 1.191844, computed (row T10-016).
    k = peukert_exponent(capacity=100, rated_hours=20, second_capacity=80, second_rated_hours=5)
    assert k == pytest.approx(1.1918, abs=2e-4)


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


def test_a_days_effective_charge_is_what_an_integrator_finds_for_the_same_day():
    day = [Step(2.0, 25.0), Step(4.0, 8.0), Step(18.0, 1.0)]

    def rate(t, _):
        current = 25.0 if t < 2 else 8.0 if t < 6 else 1.0
        return [5 * max(current / 5, (current / 5) ** 1.2)]

    oracle = solve_ivp(rate, (0, 24), [0.0], max_step=0.01, rtol=1e-8).y[0, -1]
    charge = effective_charge_of_day(day, capacity=100, rated_hours=20, exponent=1.2)
    assert charge == pytest.approx(oracle, rel=1e-3)  # the integrator steps over the two jumps


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
