"""Where a pump runs, against an independent root finder and a square law that can be solved by hand."""

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq

from footvalve.physics.line_element import LocalResistance, RatedStrainer, RoughPipe, SquareLawPassage
from footvalve.physics.method import OutsideDomain
from footvalve.physics.operating_point import (
    PumpedSystem,
    operating_point,
    tank_pressure,
    tank_pressure_span,
)
from footvalve.physics.pump_curve import PumpCurve
from footvalve.physics.pumping_level import PumpingLevel
from footvalve.physics.water import water

GRAVITY = 9.80665
COLD = water(temperature=285.15)
PUMP = PumpCurve((1.0e5, 3.0e5, 5.0e5), (3.0e-4, 2.6e-4, 1.0e-4))
LINE = (
    RoughPipe(0.026, 40.0, 1.5e-6),
    LocalResistance(0.026, 3.0, cracking_pressure=3.0e3),
    RatedStrainer(3.0e-4, 8.0e3),
)
SYSTEM = PumpedSystem(LINE, COLD, PumpingLevel(specific_capacity=2.0e-4), static_head=9.0)


def heads(system, flow):
    """The head of the lines and the well summed up by itself."""
    level = system.level
    fall = level.fixed if level.specific_capacity is None else flow / level.specific_capacity
    return system.static_head + min(fall, level.limit) + sum(e.head_loss(flow, system.water) for e in system.elements)


def test_a_square_law_and_a_straight_pump_meet_where_the_quadratic_says():
    """dp = a - b Q against dp = p + rho g z + k Q^2 gives Q = (-b + sqrt(b^2 + 4 k (a - p - rho g z))) / (2 k)."""
    system = PumpedSystem((SquareLawPassage(3.0e-4, 4.0e4),), COLD, PumpingLevel(), static_head=5.0)
    pump = PumpCurve((1.0e5, 4.0e5), (4.0e-4, 1.0e-4))
    slope, start, square = 1.0e9, 5.0e5, 4.0e4 / 3.0e-4**2
    left = start - 2.0e5 - COLD.density * GRAVITY * 5.0
    by_hand = (-slope + math.sqrt(slope**2 + 4 * square * left)) / (2 * square)
    found = operating_point(system, pump, pressure=2.0e5)
    assert found.flow == pytest.approx(by_hand, rel=1e-9)
    assert found.rise == pytest.approx(start - slope * by_hand, rel=1e-9)


@given(st.floats(0.05, 0.95))
def test_it_is_the_root_that_brentq_finds_in_the_flow(share):
    least, greatest = tank_pressure_span(SYSTEM, PUMP)
    pressure = min(least + (greatest - least) * share, greatest)

    def excess(flow):
        return PUMP.pressure_at(flow) - pressure - COLD.density * GRAVITY * heads(SYSTEM, flow)

    expected = brentq(excess, 1.0e-4, 3.0e-4, xtol=1e-16, rtol=1e-12)
    assert operating_point(SYSTEM, PUMP, pressure=pressure).flow == pytest.approx(expected, rel=1e-8)


@given(st.floats(1.0e5, 5.0e5), st.floats(1.0e5, 5.0e5))
def test_the_tank_pressure_grows_with_the_rise(one, other):
    low, high = sorted((one, other))
    assert tank_pressure(SYSTEM, PUMP, rise=low) <= tank_pressure(SYSTEM, PUMP, rise=high)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_more_pressure_in_the_tank_means_less_flow(one, other):
    least, greatest = tank_pressure_span(SYSTEM, PUMP)
    low, high = (least + (greatest - least) * share for share in sorted((one, other)))
    assert operating_point(SYSTEM, PUMP, pressure=low).flow >= operating_point(SYSTEM, PUMP, pressure=high).flow


@pytest.mark.parametrize(
    "harder",
    [
        replace(SYSTEM, static_head=10.0),
        replace(SYSTEM, level=PumpingLevel(specific_capacity=1.0e-4)),
        replace(SYSTEM, elements=(*LINE, RoughPipe(0.02, 20.0, 1.5e-6))),
        replace(SYSTEM, elements=(RoughPipe(0.020, 40.0, 1.5e-6), *LINE[1:])),
    ],
    ids=["more height", "a poorer well", "more pipe", "less bore"],
)
def test_what_makes_the_way_harder_makes_the_flow_less(harder):
    assert operating_point(harder, PUMP, pressure=1.5e5).flow < operating_point(SYSTEM, PUMP, pressure=1.5e5).flow


def test_a_pump_of_one_flow_keeps_it_and_makes_the_rise_that_is_asked():
    steady = PumpCurve((5.0e4, 9.0e5), (2.0e-4, 2.0e-4))
    found = operating_point(SYSTEM, steady, pressure=2.5e5)
    assert found.flow == 2.0e-4
    assert found.rise == pytest.approx(2.5e5 + COLD.density * GRAVITY * heads(SYSTEM, 2.0e-4), rel=1e-12)


@given(st.floats(0.0, 1.0), st.floats(0.004, 0.08), st.floats(1e-5, 1e-3), st.floats(0.0, 1.0))
def test_a_point_is_found_even_where_the_regime_turns(share, bore, flow, fall):
    """From laminar to turbulent the loss jumps: the equation may have no root there, but it changes its sign."""
    pump = PumpCurve((0.0, 8.0e5), (flow, max(flow * (1 - fall), 1e-6)))
    system = PumpedSystem((RoughPipe(bore, 10.0, 0.0),), COLD, PumpingLevel(), static_head=0.0)
    least, greatest = tank_pressure_span(system, pump)
    assume(greatest > least)
    pressure = min(least + (greatest - least) * share, greatest)
    found = operating_point(system, pump, pressure=pressure)
    below, above = (min(max(found.rise + step, 0.0), 8.0e5) for step in (-1e-3, 1e-3))
    rounding = 1e-9 * abs(pressure)
    assert tank_pressure(system, pump, rise=below) <= pressure + rounding
    assert tank_pressure(system, pump, rise=above) >= pressure - rounding


@pytest.mark.parametrize("outside", [-1.0, 1.0])
def test_a_pressure_that_the_points_do_not_tell_of_is_refused(outside):
    least, greatest = tank_pressure_span(SYSTEM, PUMP)
    with pytest.raises(OutsideDomain, match="points tell of tank pressures"):
        operating_point(SYSTEM, PUMP, pressure=least - 1.0 if outside < 0 else greatest + 1.0)


def test_the_span_goes_from_the_first_point_to_the_last():
    """By hand, without losses: each rise less the weight of 10 m of water."""
    system = PumpedSystem((), COLD, PumpingLevel(), static_head=10.0)
    weight = COLD.density * GRAVITY * 10.0
    assert tank_pressure_span(system, PUMP) == pytest.approx((1.0e5 - weight, 5.0e5 - weight), rel=1e-12)
