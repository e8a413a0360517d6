"""Numbers as they are written for people."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.contract.quantities import Flow, Length, Temperature
from footvalve.drawings.figures import as_written, figure, percent, share_told, told


@pytest.mark.parametrize(
    ("value", "written"),
    [(0.0, "0"), (-0.0, "0"), (3.0, "3"), (-4.5, "−4.5"), (15.4697, "15.5"), (1294.64, "1295"), (999.6, "1000")],
)
def test_a_figure_has_three_digits_and_a_minus_sign(value, written):
    assert figure(value) == written


@given(st.floats(-1e9, 1e9))
def test_a_figure_never_has_an_exponent_and_is_near_its_number(value):
    written = figure(value)
    assert "e" not in written.replace("nearly", "")
    if abs(value) >= 1e-6:
        assert float(written.replace("−", "-")) == pytest.approx(value, rel=0.006)


def test_a_quantity_is_told_with_its_unit_as_it_is_written():
    assert told(Length(-4.2, "ft")) == "−4.2\u00a0ft"
    assert told(Flow(0.504, "m^3/h")) == "0.504\u00a0m³/h"
    assert told(Temperature(12.0, "degC")) == "12\u00a0°C"


def test_a_share_is_a_whole_percentage_and_a_small_one_keeps_its_digits():
    assert percent(0.7218) == "72\u00a0%"
    assert share_told(0.00449) == "0.449\u00a0%"


@pytest.mark.parametrize(
    ("sentence", "written"),
    [
        ("an elevation of -4.5 ft", "an elevation of −4.5 ft"),
        ("0.504 m^3/h of air, or 2.19 in^2 each", "0.504 m³/h of air, or 2.19 in² each"),
        ("at 12 degC.", "at 12 °C."),
        ("IAPWS R7-97(2012), 1-1/4 in, 1939-1941, p V^n", "IAPWS R7-97(2012), 1-1/4 in, 1939-1941, p V^n"),
        ("the pre-filter", "the pre-filter"),
    ],
)
def test_units_and_minus_signs_in_a_sentence_are_written_for_people(sentence, written):
    assert as_written(sentence) == written
