"""What keeps labels apart and lines inside: columns, clipping, and the width of letters."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.drawings.clipping import held_within, pieces_within
from footvalve.drawings.label_column import spread
from footvalve.drawings.lettering import shortened, text_width

HEIGHTS = st.floats(-1e4, 1e4)


@given(st.lists(HEIGHTS, min_size=1, max_size=9))
def test_labels_of_a_column_keep_apart_and_inside(wanted):
    found = spread(wanted, 14.0, 0.0, 200.0)
    assert all(-1e-9 <= height <= 200.0 + 1e-9 for height in found)
    assert all(b - a >= 14.0 - 1e-9 for a, b in pairwise(sorted(found)))


def test_labels_that_have_room_stay_where_they_are():
    assert spread([50.0, 10.0, 90.0], 14.0, 0.0, 100.0) == [50.0, 10.0, 90.0]


def test_labels_that_have_none_move_as_little_as_need_be():
    assert spread([10.0, 11.0, 50.0], 14.0, 0.0, 100.0) == [10.0, 24.0, 50.0]
    assert spread([95.0, 99.0], 14.0, 0.0, 100.0) == [86.0, 100.0]


def test_a_line_is_cut_where_it_leaves_the_band():
    line = [(0.0, 5.0), (10.0, 15.0), (20.0, 5.0), (30.0, -5.0)]
    assert pieces_within(line, 0.0, 10.0) == [[(0.0, 5.0), (5.0, 10.0)], [(15.0, 10.0), (20.0, 5.0), (25.0, 0.0)]]


def test_a_line_that_crosses_the_whole_band_keeps_the_piece_inside():
    assert pieces_within([(0.0, -10.0), (4.0, 30.0)], 0.0, 10.0) == [[(1.0, 0.0), (2.0, 10.0)]]
    assert pieces_within([(0.0, 30.0), (4.0, -10.0)], 0.0, 10.0) == [[(2.0, 10.0), (3.0, 0.0)]]


def test_a_line_outside_leaves_nothing():
    assert pieces_within([(0.0, 11.0), (9.0, 12.0)], 0.0, 10.0) == []


@given(st.lists(st.tuples(st.floats(0, 100), HEIGHTS), min_size=2, max_size=20))
def test_an_area_is_held_inside_the_band(points):
    assert all(0.0 <= y <= 10.0 for _, y in held_within(points, 0.0, 10.0))


@given(st.text(max_size=80), st.floats(20, 400))
def test_shortened_text_fits(text, width):
    assert text_width(shortened(text, width, 12.0), 12.0) <= width


def test_text_that_fits_is_left_alone():
    assert shortened("drop pipe", 100.0, 12.0) == "drop pipe"


@pytest.mark.parametrize(("narrow", "wide"), [("illi", "mmmm"), ("pipe", "PIPE"), ("abcd", "漢字漢字")])
def test_wide_letters_are_wider(narrow, wide):
    assert text_width(narrow, 12.0) < text_width(wide, 12.0)
