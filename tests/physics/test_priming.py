"""The time to draw a line's air out, against the equation integrated step by step.

The pump takes a volume Q of air a second at the pressure p that stands in the line, so that p V, which is as the mass
of the air at constant temperature, falls by p Q a second. The water follows: p = rho g (H - z), z the highest place
that its top has reached, H the head of the air outside (less the vapour's, which fills the room too).
"""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from footvalve.physics.priming import AirLength, above_the_water, priming_time

HEAD = 10.2


def integrated(lengths, flow, head):
    """Seconds until no air is left, by the mass of the air as the one unknown."""
    volumes = [length.volume for length in lengths]
    total = sum(volumes)

    def column(filled):
        """Over the water's own volume in the line: what is left of the air, and the head that presses on it."""
        top, start = 0.0, 0.0
        for length in lengths:
            share = min(1.0, max(0.0, (filled - start) / length.volume))
            if filled >= start:
                top = max(top, length.start_height + share * (length.end_height - length.start_height))
            start += length.volume
        return total - filled, head - top

    def mass(filled):
        left, pressing = column(filled)
        return left * pressing

    def pressing_at(air):
        return column(brentq(lambda filled: mass(filled) - air, 0.0, total, xtol=1e-13 * total))[1]

    def falling(_, air):
        return [-pressing_at(min(max(air[0], 0.0), mass(0.0))) * flow]

    def empty(_, air):
        return air[0] - 1e-9 * mass(0.0)

    empty.terminal = True
    solution = solve_ivp(
        falling, (0, 1e3 * total / flow), [mass(0.0)], events=empty, max_step=total / flow / 300, rtol=1e-7
    )
    return float(solution.t[-1])


heights = st.lists(st.floats(-8.0, 8.0), min_size=1, max_size=4)


@settings(max_examples=20, deadline=None)
@given(heights, st.lists(st.floats(1e-4, 5e-3), min_size=4, max_size=4), st.floats(5e-5, 1e-3))
def test_priming_takes_as_long_as_the_equation_integrated(ends, volumes, flow):
    """From the water up over crests and dips; the integration stops at a thousand-millionth of the air."""
    places = [0.0, abs(ends[0]), *ends[1:]]
    lengths = [AirLength(start, end, volume) for (start, end), volume in zip(pairwise(places), volumes, strict=False)]
    time = priming_time(air=lengths, flow=flow, atmospheric_head=HEAD)
    assert time == pytest.approx(integrated(lengths, flow, HEAD), rel=2e-5)


@settings(max_examples=10, deadline=None)
@given(st.floats(-12, -0.5), st.floats(0.5, 8), st.floats(1e-3, 2e-2), st.floats(1e-4, 1e-3))
def test_a_line_partly_under_water_is_dry_above_it_only(start, end, volume, flow):
    air = above_the_water(start_height=start, end_height=end, volume=volume)
    assert air.volume == pytest.approx(volume * end / (end - start), rel=1e-12)
    assert (air.start_height, air.end_height) == (0.0, end)
    time = priming_time(air=[air], flow=flow, atmospheric_head=HEAD)
    assert time == pytest.approx(integrated([air], flow, HEAD), rel=2e-5)


def test_a_level_line_is_emptied_at_the_pressure_of_the_air():
    """Nothing to lift, so the pump moves the line's volume once."""
    air = [AirLength(0.0, 0.0, 0.004)]
    assert priming_time(air=air, flow=2e-4, atmospheric_head=HEAD) == pytest.approx(20.0, rel=1e-12)


def test_the_first_lift_thins_all_the_air_in_the_line():
    """A rise of next to no volume before a long level run: ln(H/(H-z)) volumes, then the volume itself."""
    air = [AirLength(0.0, 6.0, 1e-12), AirLength(6.0, 6.0, 0.01)]
    time = priming_time(air=air, flow=1e-4, atmospheric_head=HEAD)
    assert time == pytest.approx(100 * (1 + math.log(HEAD / (HEAD - 6.0))), rel=1e-6)


@pytest.mark.parametrize("dust", [5e-324, 1e-310, 1e-15, 1e-12, 1e-9])
def test_a_rise_of_next_to_nothing_takes_next_to_no_time(dust):
    """Two statements of one elevation differ by the last digit of a conversion: the run is level all the same."""
    crest = 5.0 if dust > 1e-16 else 0.0
    before = [AirLength(0.0, crest, 0.002)]
    level = priming_time(air=[*before, AirLength(crest, crest, 0.004)], flow=1e-4, atmospheric_head=HEAD)
    dusty = priming_time(air=[*before, AirLength(crest, crest + dust, 0.004)], flow=1e-4, atmospheric_head=HEAD)
    assert dusty == pytest.approx(level, rel=1e-8)


@given(st.floats(0.0, 12.0))
def test_air_does_not_push_water_higher_than_its_own_head(crest):
    air = [AirLength(0.0, crest, 0.002), AirLength(crest, 1.0, 0.002)]
    time = priming_time(air=air, flow=1e-4, atmospheric_head=HEAD)
    assert (time is None) == (crest >= HEAD or HEAD <= 1.0)


def test_nothing_to_draw_takes_no_time():
    assert priming_time(air=[], flow=1e-4, atmospheric_head=HEAD) == 0.0


@pytest.mark.parametrize(
    ("start", "end"),
    [(-5.0, -1.0), (-1.0, -5.0), (-5.0, 0.0), (0.0, -5.0)],
    ids=["rising below", "falling below", "up to the surface", "down from the surface"],
)
def test_a_length_below_the_surface_holds_no_air(start, end):
    assert above_the_water(start_height=start, end_height=end, volume=0.01) is None


@pytest.mark.parametrize(("start", "end"), [(2.0, -2.0), (-2.0, 2.0)])
def test_half_of_a_length_that_crosses_the_surface_midway_is_dry(start, end):
    air = above_the_water(start_height=start, end_height=end, volume=0.01)
    assert air == AirLength(max(start, 0.0), max(end, 0.0), 0.005)


@pytest.mark.parametrize(("start", "end"), [(0.0, 0.0), (0.0, 3.0), (4.0, 1.0)])
def test_a_length_at_or_above_the_surface_is_dry(start, end):
    assert above_the_water(start_height=start, end_height=end, volume=0.01) == AirLength(start, end, 0.01)


def test_a_crest_as_high_as_the_airs_own_head_is_out_of_reach():
    assert priming_time(air=[AirLength(0.0, HEAD, 0.002)], flow=1e-4, atmospheric_head=HEAD) is None


def test_up_over_a_crest_into_a_dip_and_up_again_by_quadrature():
    """Volume and fall of pressure of each climb by scipy: t = (1/Q) [sum of the volumes + integral of V dz / (H - z)]
    over the climbs that go higher than ever before, V the air that is left, a straight line in z on each length."""
    line = [AirLength(0.0, 4.0, 0.002), AirLength(4.0, 2.0, 0.001), AirLength(2.0, 8.0, 0.003)]

    def first_climb(z):
        return (0.006 - 0.002 * z / 4.0) / (HEAD - z)

    def second_climb(z):
        return 0.003 * (8.0 - z) / 6.0 / (HEAD - z)

    parts = [quad(first_climb, 0.0, 4.0), quad(second_climb, 4.0, 8.0)]
    expected = (0.006 + sum(part for part, _ in parts)) / 2e-4
    found = priming_time(air=line, flow=2e-4, atmospheric_head=HEAD)
    assert found == pytest.approx(expected, rel=1e-9)
