"""Losses that are known by a rating, against the definitions of the ratings."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.method import OutsideDomain
from footvalve.physics.rated_loss import (
    REFERENCE_DENSITY,
    flow_coefficient_drop,
    kv_of_cv,
    square_law_drop,
    strainer_drop,
)

GALLON_PER_MINUTE = 231 * 0.0254**3 / 60
PSI = 4.4482216152605 / 0.0254**2
flows = st.floats(1e-7, 0.1)


@given(flows, st.floats(1.0, 1e6), st.floats(0.01, 100))
def test_a_turbulent_passage_follows_the_square(flow, drop, ratio):
    found = square_law_drop(flow=flow * ratio, known_flow=flow, known_drop=drop)
    assert found == pytest.approx(drop * ratio**2, rel=1e-9)


@given(flows, st.floats(1.0, 1e6), st.floats(0.001, 1.0), st.floats(1.0, 1000.0))
def test_a_strainer_follows_the_line_below_its_rating_and_the_square_above(flow, drop, below, above):
    """The greater of the two laws, so it never tells less than either."""
    at = {"rated_flow": flow, "rated_drop": drop}
    assert strainer_drop(flow=flow, **at) == pytest.approx(drop, rel=1e-12)
    assert strainer_drop(flow=flow * below, **at) == pytest.approx(drop * below, rel=1e-9)
    assert strainer_drop(flow=flow * above, **at) == pytest.approx(drop * above**2, rel=1e-9)


def test_cv_is_a_gallon_a_minute_at_a_pound_of_water_at_sixty_degrees():
    drop = flow_coefficient_drop(flow=7 * GALLON_PER_MINUTE, kv=kv_of_cv(cv=7.0), density=REFERENCE_DENSITY)
    assert drop == pytest.approx(PSI, rel=1e-9)


def test_kv_is_a_cubic_metre_an_hour_at_a_bar():
    drop = flow_coefficient_drop(flow=3 / 3600, kv=3.0, density=REFERENCE_DENSITY)
    assert drop == pytest.approx(1e5, rel=1e-12)


def test_kv_over_cv_is_the_printed_ratio():
    """0.865, IEC 60534-1 (from memory), half the last digit."""
    assert kv_of_cv(cv=1.0) == pytest.approx(0.865, abs=5e-4)


@given(flows, st.floats(0.01, 1000), st.floats(950, 1000))
def test_heavier_water_takes_more_pressure_but_the_same_head(flow, kv, density):
    drop = flow_coefficient_drop(flow=flow, kv=kv, density=density)
    reference = flow_coefficient_drop(flow=flow, kv=kv, density=REFERENCE_DENSITY)
    assert drop / density == pytest.approx(reference / REFERENCE_DENSITY, rel=1e-12)


@pytest.mark.parametrize(
    ("function", "wrong"),
    [
        (square_law_drop, {"known_flow": 0.0, "known_drop": 1.0}),
        (strainer_drop, {"rated_flow": 0.0, "rated_drop": 1.0}),
        (flow_coefficient_drop, {"kv": 0.0, "density": 999.0}),
    ],
)
def test_a_rating_of_nothing_is_refused(function, wrong):
    with pytest.raises(OutsideDomain):
        function(flow=1e-3, **wrong)


@pytest.mark.parametrize(
    ("function", "wrong", "told"),
    [
        (square_law_drop, {"known_flow": 0.0, "known_drop": 1.0}, "^the known flow must be above zero"),
        (strainer_drop, {"rated_flow": 0.0, "rated_drop": 1.0}, "^the rated flow must be above zero"),
        (flow_coefficient_drop, {"kv": 0.0, "density": 999.0}, "^the flow coefficient must be above zero"),
    ],
)
def test_a_rating_is_refused_with_what_is_wrong(function, wrong, told):
    with pytest.raises(OutsideDomain, match=told):
        function(flow=1e-3, **wrong)
