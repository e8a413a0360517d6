"""How far a well falls: at a known drawdown, by its specific capacity, and no further than a limit."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.method import OutsideDomain
from footvalve.physics.pumping_level import PumpingLevel

FLOWS = st.floats(1e-7, 0.01)


def test_a_fixed_drawdown_is_the_same_at_any_flow():
    level = PumpingLevel(fixed=1.5)
    assert level.drawdown_at(1e-6) == level.drawdown_at(1e-2) == 1.5


def test_a_specific_capacity_of_a_litre_a_second_and_metre_falls_a_metre_at_a_litre_a_second():
    assert PumpingLevel(specific_capacity=1e-3).drawdown_at(1e-3) == pytest.approx(1.0)


def test_a_well_that_nothing_flows_into_falls_to_its_limit():
    assert PumpingLevel(specific_capacity=0.0, limit=7.0).drawdown_at(1e-6) == 7.0


@given(st.floats(1e-7, 1.0), st.floats(0.0, 100.0), FLOWS, FLOWS)
def test_more_flow_never_raises_the_level_and_the_limit_holds(capacity, limit, one, other):
    level = PumpingLevel(specific_capacity=capacity, limit=limit)
    less, more = sorted((one, other))
    assert level.drawdown_at(less) <= level.drawdown_at(more) <= limit


@pytest.mark.parametrize(
    "wrong",
    [
        {"fixed": -0.1},
        {"limit": -1.0},
        {"specific_capacity": -1e-4},
        {"specific_capacity": 0.0},
        {"fixed": float("nan")},
    ],
)
def test_what_no_well_is_is_refused(wrong):
    with pytest.raises(OutsideDomain):
        PumpingLevel(**wrong)


def test_without_a_limit_the_fall_has_no_end_of_its_own():
    assert PumpingLevel(specific_capacity=1e-7).drawdown_at(0.01) == pytest.approx(1e5)
    assert PumpingLevel().limit == inf


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ({"fixed": -0.1}, "^a drawdown is not below zero"),
        ({"limit": -0.1}, "^a drawdown is not below zero"),
        ({"specific_capacity": -1e-9}, "^a specific capacity is not below zero"),
        ({"specific_capacity": 0.0}, "^where nothing flows in, only a limit ends the drawdown"),
    ],
)
def test_what_no_well_is_is_refused_with_what_is_wrong(wrong, told):
    with pytest.raises(OutsideDomain, match=told):
        PumpingLevel(**wrong)
