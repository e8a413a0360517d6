"""The last value that suffices: cut to its digits on the safe side, tried so, and sought past jumps and flats."""

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.answers.turning_point import greatest_enough, last_enough


def over(limit):
    """What is wanting where values up to a limit suffice."""
    return lambda value: value - limit


def digits_of(value):
    return len(Decimal(repr(value)).normalize().as_tuple().digits)


@given(st.floats(-900, 900), st.integers(3, 6))
def test_what_is_told_suffices_and_one_last_digit_more_does_not(limit, digits):
    found = last_enough(over(limit), short=1000.0, enough=-1000.0, digits=digits)
    last = max(10.0 ** (math.floor(math.log10(abs(limit) or 1e-12)) - digits + 1), 1e-9)
    assert limit - 1.001 * last <= found <= limit
    assert digits_of(found) <= digits


@given(st.floats(0.01, 900), st.integers(3, 6))
def test_on_the_way_up_it_is_cut_upward(limit, digits):
    """As for a bore: what is too little lies below."""
    found = last_enough(lambda value: limit - value, short=0.0, enough=1000.0, digits=digits)
    assert limit <= found <= limit * (1 + 1.001 * 10.0 ** (1 - digits))
    assert digits_of(found) <= digits


@given(st.floats(0.01, 900), st.floats(1e-6, 1e6), st.floats(1e-6, 1e6))
def test_a_jump_is_met_on_the_side_that_suffices(limit, before, after):
    """As friction jumps where the flow turns turbulent."""
    found = last_enough(lambda value: -before if value < limit else after, short=1e3, enough=0.0, digits=6)
    assert limit * (1 - 1.1e-5) <= found < limit


def test_a_limit_that_has_few_digits_is_told_as_it_is_or_one_digit_short():
    assert last_enough(over(4.5), short=100.0, enough=0.0, digits=3) in (4.5, 4.49)


@pytest.mark.parametrize(("short", "enough"), [(10.0, 6.0), (4.0, 1.0)])
def test_where_nothing_turns_nothing_is_told(short, enough):
    """All is too much, or all suffices."""
    assert last_enough(over(5.0), short=short, enough=enough, digits=3) is None


@given(st.floats(0.2, 90), st.floats(0.1, 100), st.lists(st.floats(0.1, 100), max_size=4))
def test_the_greatest_is_found_from_any_start_and_past_any_marks(limit, start, marks):
    marks = sorted(mark for mark in marks if mark > start)
    found = greatest_enough(over(limit), start=start, low=0.1, high=100.0, digits=6, marks=marks)
    assert limit * (1 - 1.1e-5) <= found <= limit


def test_the_end_of_the_range_is_told_where_all_of_it_suffices():
    assert greatest_enough(over(200.0), start=3.0, low=0.1, high=100.0, digits=6) == 100.0
    assert greatest_enough(over(200.0), start=100.0, low=0.1, high=100.0, digits=6) == 100.0


def test_nothing_is_told_where_the_least_is_too_much():
    assert greatest_enough(over(0.05), start=3.0, low=0.1, high=100.0, digits=6) is None


def test_nothing_below_the_range_is_told():
    found = greatest_enough(over(0.1234564), start=3.0, low=0.123456, high=100.0, digits=6)
    assert found == 0.123456


def test_no_value_is_asked_for_twice():
    asked = []

    def wanting(value):
        asked.append(value)
        return value - math.pi

    greatest_enough(wanting, start=1.0, low=0.1, high=1000.0, digits=6, marks=[4.0, 16.0])
    assert len(asked) == len(set(asked)) < 12
