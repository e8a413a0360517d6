"""The elements of a drawing: well-formed whatever text comes in, and no number that is none."""

import math
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.drawings.svg import Drawing, Pen


def empty(title="title"):
    return Drawing("sample", (100.0, 50.0), title=title, description="description")


def with_text(text):
    drawing = empty(title=text)
    drawing.text((1.0, 2.0), text)
    return list(ElementTree.fromstring(drawing.markup).iter())[-1].text


@given(st.text(st.characters(min_codepoint=0x20, exclude_characters="\ufffe\uffff", exclude_categories=["Cs"])))
def test_any_text_comes_back_as_it_was(text):
    assert (with_text(text) or "") == text


@pytest.mark.parametrize("forbidden", ["\x00", "\x1b", "\ufffe", "\uffff", "\ud800"])
def test_what_xml_forbids_is_replaced(forbidden):
    assert with_text(f"a{forbidden}b") == "a\ufffdb"


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
def test_a_number_that_is_none_is_not_drawn(number):
    with pytest.raises(ArithmeticError):
        empty().line([(0.0, 0.0), (1.0, number)], Pen(1.0))


def test_coordinates_are_written_to_a_tenth():
    drawing = empty()
    drawing.line([(-0.01, 1e-9), (1234.567, 8.96)], Pen(1.0))
    assert 'points="0,0 1234.6,9"' in drawing.markup


def test_identifiers_tell_the_drawings_of_one_page_apart():
    identifiers = [e.get("id") for e in ElementTree.fromstring(empty().markup).iter() if e.get("id")]
    assert identifiers
    assert all(identifier.startswith("sample-") for identifier in identifiers)
