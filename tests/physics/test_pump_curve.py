"""A pump's flow over pressure: straight between its points, and nothing made up beyond them."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.method import OutsideDomain
from footvalve.physics.pump_curve import PumpCurve

CURVE = PumpCurve((2.0e5, 3.0e5, 4.5e5, 5.0e5), (3.0e-4, 2.6e-4, 1.0e-4, 0.0))


@given(st.floats(2.0e5, 5.0e5))
def test_flow_is_that_of_an_independent_interpolation(pressure):
    assert CURVE.flow_at(pressure) == pytest.approx(
        np.interp(pressure, CURVE.pressures, CURVE.flows), rel=1e-9, abs=1e-18
    )


@given(st.floats(1.0e-5, 3.0e-4))
def test_the_pressure_at_a_flow_gives_that_flow_back(flow):
    assert CURVE.flow_at(CURVE.pressure_at(flow)) == pytest.approx(flow, rel=1e-9)


def test_the_pressure_at_a_flow_is_the_lowest_of_a_flat_stretch():
    flat = PumpCurve((1e5, 2e5, 3e5, 4e5), (3e-4, 2e-4, 2e-4, 1e-4))
    assert flat.pressure_at(2e-4) == pytest.approx(2e5)


def test_beyond_shut_off_there_is_no_flow():
    assert CURVE.shut_off_pressure == 5.0e5
    assert CURVE.flow_at(9.0e5) == 0


def test_nothing_is_made_up_below_the_first_point():
    with pytest.raises(OutsideDomain, match="begin"):
        CURVE.flow_at(1.9e5)


def test_nothing_is_made_up_above_a_last_point_that_still_flows():
    open_ended = PumpCurve((2.0e5, 3.0e5), (3.0e-4, 2.6e-4))
    assert open_ended.shut_off_pressure is None
    with pytest.raises(OutsideDomain, match="end"):
        open_ended.flow_at(3.1e5)


def test_a_flow_that_the_points_do_not_reach_has_no_pressure():
    with pytest.raises(OutsideDomain):
        CURVE.pressure_at(4e-4)


def test_a_constant_pump_flows_alike_at_every_pressure():
    constant = PumpCurve.constant(2e-4)
    assert {constant.flow_at(p) for p in (0.0, 1e5, 3.3e5, 1e9)} == {2e-4}


def test_pieces_join_without_a_gap():
    pieces = list(CURVE.pieces_between(2.5e5, 6.0e5))
    assert [(p.low, p.high) for p in pieces] == [(2.5e5, 3e5), (3e5, 4.5e5), (4.5e5, 5e5), (5e5, 6e5)]
    assert all(one.flow_at_high == other.flow_at_low for one, other in pairwise(pieces))


@pytest.mark.parametrize(
    ("pressures", "flows"),
    [
        ((1e5,), (1e-4,)),
        ((1e5, 2e5), (1e-4,)),
        ((2e5, 1e5), (2e-4, 1e-4)),
        ((1e5, 1e5), (2e-4, 1e-4)),
        ((1e5, 2e5), (1e-4, 2e-4)),
        ((1e5, 2e5), (1e-4, -1e-4)),
        ((1e5, 2e5), (0.0, 0.0)),
        ((1e5, float("nan")), (2e-4, 1e-4)),
    ],
    ids=[
        "one point",
        "unequal",
        "falling",
        "twice",
        "rising flow",
        "negative flow",
        "no flow",
        "not a number",
    ],
)
def test_points_that_are_no_pump_are_refused(pressures, flows):
    with pytest.raises(OutsideDomain):
        PumpCurve(pressures, flows)


@pytest.mark.parametrize(
    ("pressures", "flows", "told"),
    [
        ((1e5,), (1e-4,), "^a pump curve needs two or more points"),
        ((1e5, 2e5), (1e-4,), "^a pump curve needs two or more points"),
        ((1e5, 1e5), (2e-4, 1e-4), "^the pressures of a pump curve must rise from point to point"),
        ((1e5, 2e5), (1e-4, 2e-4), "^the flow of a pump must not rise with the pressure"),
        ((1e5, 2e5, 3e5), (2e-4, 1e-4, -1e-4), "^the flow of a pump is positive, and at shut-off zero"),
        ((1e5, 2e5), (0.0, 0.0), "^the flow of a pump is positive, and at shut-off zero"),
    ],
)
def test_points_are_refused_with_what_is_wrong(pressures, flows, told):
    with pytest.raises(OutsideDomain, match=told):
        PumpCurve(pressures, flows)


def test_what_the_points_do_not_cover_is_refused_with_where_they_end():
    curve = PumpCurve((2.0e5, 3.0e5, 4.0e5), (3.0e-4, 2.6e-4, 1.0e-4))
    with pytest.raises(OutsideDomain, match=r"^the pump's points begin at 200000 Pa, above 190000 Pa"):
        curve.flow_at(1.9e5)
    with pytest.raises(OutsideDomain, match=r"^the pump's points end at 400000 Pa, below 410000 Pa"):
        curve.flow_at(4.1e5)
    with pytest.raises(OutsideDomain, match=r"^the pump's points do not cover a flow of 0.0004"):
        curve.pressure_at(4e-4)


def test_the_flow_of_a_flat_beginning_has_a_pressure():
    flat = PumpCurve((1e5, 2e5, 3e5), (2e-4, 2e-4, 1e-4))
    assert flat.flow_at(flat.pressure_at(2e-4)) == 2e-4
