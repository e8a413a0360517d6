"""Numbers as they are written for people."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.contract.quantities import Flow, Length, Temperature
from footvalve.drawings.figures import as_written, chance_told, figure, percent, share_told, told, told_alone


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


@pytest.mark.parametrize(
    ("value", "uncertainty", "written"),
    [
        (4.2712, 0.3141, "4.27 ± 0.31 ft"),
        (64.61, 0.5249, "64.6 ± 0.5 ft"),
        (1299.7, 52.3, "1300 ± 52 ft"),
        (13000.0, 5230.0, "13000 ± 5200 ft"),
        (-0.0123, 0.5, "−0.0123 ± 0.5 ft"),
        (0.0, 0.0123, "0 ± 0.012 ft"),
        (4.2712, 0.004, "4.27 ft"),  # less than its digits show
        (4.2712, 0.0, "4.27 ft"),
    ],
)
def test_an_uncertainty_is_told_to_two_digits_and_no_finer_than_its_quantity(value, uncertainty, written):
    quantity = Length(value, "ft", uncertainty)
    assert told(quantity).replace("\u00a0", " ") == written
    assert told_alone(quantity) == told(Length(value, "ft"))


@given(st.floats(-1e9, 1e9), st.floats(1e-6, 1e9))
def test_any_uncertainty_is_told_near_what_it_is_or_not_at_all(value, uncertainty):
    written = told(Length(value, "ft", uncertainty)).replace("\u00a0", " ")
    assert "e" not in written.replace("nearly", "")
    if "±" in written:
        seen = float(written.split("± ")[1].removesuffix(" ft"))
        assert seen == pytest.approx(uncertainty, rel=1.0)
    else:
        assert uncertainty <= max(abs(value), 1e-6) * 0.006


def test_a_chance_is_never_told_as_certain():
    told_as = [chance_told(chance).replace("\u00a0", " ") for chance in (0.0, 0.004, 0.06, 0.5, 0.994, 0.9999, 1.0)]
    assert told_as == ["under 1 %", "under 1 %", "6 %", "50 %", "99 %", "over 99 %", "over 99 %"]


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
