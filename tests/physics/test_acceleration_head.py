"""Acceleration head against the motion of crank, rod and piston.

A single-acting chamber of area A on a crank of radius r and a rod of length l = r / q, turning at w, draws
A r w (sin t + q sin 2t / (2 sqrt(1 - q^2 sin^2 t))) while that is above zero, t = w time. Chambers in even phase add
up to Q(t), and the line of bore area a carries V = Q / a. A rigid column of length L takes the head
L / g max(dV/dt) to be sped up. With N turns a minute, w = 2 pi N / 60, so

    h = C L V_mean N / g,    C = max(dQ/dt) / (Q_mean N)

which needs neither A nor r. For one chamber on a long rod Q = A r w sin t, Q_mean = A r w / pi, and
C = pi w / N = pi^2 / 30 = 0.329. The trade's C are those of a rod of five cranks, and its k = 1.4 takes a part off for
the give of water and pipe.
"""

import math

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.acceleration_head import (
    CHAMBER_FACTORS,
    WATER_FACTOR,
    acceleration_head,
)
from footvalve.physics.method import OutsideDomain

GRAVITY = 9.80665
ROD_OF_FIVE_CRANKS = 0.2


def piston_speed(turn, rod_ratio):
    """Over r w; above zero while the chamber draws."""
    rod = numpy.sqrt(1 - (rod_ratio * numpy.sin(turn)) ** 2)
    return numpy.sin(turn) + rod_ratio * numpy.sin(2 * turn) / (2 * rod)


def greatest_acceleration(phases, rod_ratio, double_acting=False):
    """C of a rigid column, by differences over one turn."""
    turn = numpy.linspace(0.0, 2 * math.pi, 100_000, endpoint=False)
    flow = numpy.zeros_like(turn)
    for phase in phases:
        speed = piston_speed(turn + phase, rod_ratio)
        flow += numpy.abs(speed) if double_acting else numpy.maximum(speed, 0.0)
    slope = (numpy.roll(flow, -1) - flow) / (turn[1] - turn[0])
    return float(slope.max() / flow.mean() * 2 * math.pi / 60)


def even(count):
    return [2 * math.pi * index / count for index in range(count)]


def test_one_chamber_on_a_long_rod_accelerates_by_pi_squared_over_thirty():
    assert greatest_acceleration([0.0], 0.0) == pytest.approx(math.pi**2 / 30, rel=1e-4)


@pytest.mark.parametrize("chambers", [1, 2, 3, 5, 7, 9])
def test_the_factors_are_those_of_a_rod_of_five_cranks(chambers):
    """Within 1.5 %, which is what the factors are rounded by."""
    derived = greatest_acceleration(even(chambers), ROD_OF_FIVE_CRANKS)
    assert CHAMBER_FACTORS[chambers] == pytest.approx(derived, rel=0.015)


def test_four_and_six_chambers_are_two_and_three_pistons_that_draw_both_ways():
    """Two cranks at a right angle, three at a third of a turn; single-acting chambers in even phase take less."""
    two = greatest_acceleration([0.0, math.pi / 2], ROD_OF_FIVE_CRANKS, double_acting=True)
    three = greatest_acceleration(even(3), ROD_OF_FIVE_CRANKS, double_acting=True)
    assert CHAMBER_FACTORS[4] == pytest.approx(two, rel=0.015)
    assert CHAMBER_FACTORS[6] == pytest.approx(three, rel=0.015)
    for chambers in (4, 6):
        assert CHAMBER_FACTORS[chambers] > greatest_acceleration(even(chambers), ROD_OF_FIVE_CRANKS)


@pytest.mark.parametrize("chambers", CHAMBER_FACTORS)
def test_a_wholly_rigid_line_takes_at_most_one_and_a_half_times_what_is_told(chambers):
    """k = 1.4 and the rounding of C; the method's note tells of it, since the trade's formula is no upper bound."""
    rigid = greatest_acceleration(even(chambers), ROD_OF_FIVE_CRANKS) * 12.0 * 0.4 * 150 / GRAVITY
    told = acceleration_head(length=12.0, velocity=0.4, strokes_per_minute=150, chambers=chambers)
    assert told > rigid / 1.45
    assert WATER_FACTOR == 1.4


@given(
    st.floats(0.01, 1e3),
    st.floats(0.01, 10),
    st.floats(10, 1000),
    st.sampled_from(sorted(CHAMBER_FACTORS)),
)
def test_it_grows_with_length_speed_and_strokes_alike(length, velocity, strokes, chambers):
    given_line = {"length": length, "velocity": velocity, "strokes_per_minute": strokes}
    once = acceleration_head(**given_line, chambers=chambers)
    for name, value in given_line.items():
        doubled = acceleration_head(**given_line | {name: 2 * value}, chambers=chambers)
        assert doubled == pytest.approx(2 * once, rel=1e-12)


@pytest.mark.parametrize("chambers", [0, 8, 10])
def test_chambers_that_no_factor_is_known_for_are_refused(chambers):
    with pytest.raises(OutsideDomain, match="1, 2, 3, 4, 5, 6, 7, 9"):
        acceleration_head(length=1.0, velocity=1.0, strokes_per_minute=100.0, chambers=chambers)
