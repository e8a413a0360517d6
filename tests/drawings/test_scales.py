"""Scales and the round numbers beside them."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.drawings.scales import Scale, ticks

LOWS = st.floats(-1e6, 1e6)
SPANS = st.floats(1e-3, 1e6)


def test_a_scale_runs_straight_between_its_ends_and_holds_what_is_off_it():
    scale = Scale(0.0, 10.0, 300.0, 100.0)
    assert [scale(value) for value in (0.0, 2.5, 10.0, -1.0, 99.0)] == [300.0, 250.0, 100.0, 300.0, 100.0]


@pytest.mark.parametrize(
    ("low", "high", "most", "expected"),
    [
        (-63.0, 12.0, 6, [-60.0, -40.0, -20.0, 0.0]),
        (0.0, 1.0, 5, [0.0, 0.2, 0.4, 0.6, 0.8, 1.0]),
        (23.9, 103.0, 8, [30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0]),
    ],
)
def test_round_numbers(low, high, most, expected):
    assert ticks(low, high, most) == expected


@given(LOWS, SPANS, st.integers(2, 12))
def test_ticks_lie_on_the_scale_evenly_and_are_not_too_many(low, span, most):
    found = ticks(low, low + span, most)
    assert len(found) <= most + 1
    assert all(low - span * 1e-6 <= tick <= low + span * (1 + 1e-6) for tick in found)
    steps = {round((b - a) / span, 4) for a, b in pairwise(found)}
    assert len(steps) <= 1


@given(LOWS, SPANS, st.integers(5, 12))
def test_a_scale_has_at_least_one_tick_in_a_third_of_its_length(low, span, most):
    """Steps of 1, 2 and 5 are at most two and a half times the smallest that would do."""
    assert len(ticks(low, low + span, most)) >= math.floor(most / 2.5)
