"""How many standard uncertainties make sure, held against Student's distribution in scipy."""

from math import erf, inf, sqrt

import pytest
from scipy.stats import t

from footvalve.answers.coverage import NORMAL, coverage_factor, factor_of_one


def by_student(sigmas, freedom):
    """The two-sided quantile of the share of a normal spread within so many sigmas."""
    return t.ppf(0.5 + erf(sigmas / sqrt(2.0)) / 2.0, freedom)


@pytest.mark.parametrize("freedom", [*range(1, 41), 60, 100, 1000])
def test_the_factor_is_students(freedom):
    assert coverage_factor(freedom) == pytest.approx(by_student(NORMAL, freedom), abs=0.006)


def test_a_spread_that_is_known_needs_no_more():
    assert coverage_factor(inf) == NORMAL


@pytest.mark.parametrize("freedom", [1, 2])
def test_the_factor_of_one_is_students(freedom):
    assert factor_of_one(freedom) == pytest.approx(by_student(1.0, freedom), abs=0.005)


def test_beyond_two_degrees_of_freedom_it_is_below_a_fifth_and_left_out():
    assert factor_of_one(3) is None
    assert by_student(1.0, 3) < 1.2
