"""Ratings of fuses: in order, and never smaller than what is asked."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from footvalve.tables.fuses import FUSE_RATINGS, fuse_rating


def test_the_ratings_rise():
    assert all(smaller < larger for smaller, larger in pairwise(FUSE_RATINGS))


def test_a_rating_carries_itself():
    assert all(fuse_rating(rating) == rating for rating in FUSE_RATINGS)


@given(st.floats(0.0, FUSE_RATINGS[-1]))
def test_the_next_rating_is_the_smallest_that_carries_the_current(current):
    found = fuse_rating(current)
    assert found >= current
    assert not any(current <= rating < found for rating in FUSE_RATINGS)


def test_beyond_the_largest_there_is_none():
    assert fuse_rating(FUSE_RATINGS[-1] + 1.0) is None
