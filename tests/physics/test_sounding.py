"""What must hold for a tape, an air line and an echo."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.method import OutsideDomain
from footvalve.physics.si import STANDARD_GRAVITY
from footvalve.physics.sounding import air_line_depth, echo_depth, tape_depth

WATER_DENSITY = 1000.0  # kg/m^3


@given(st.floats(1, 200), st.floats(0, 199), st.floats(950, 1000))
def test_an_air_line_finds_the_water_that_made_its_pressure(line_length, depth, density):
    """The tolerance is rounding alone, on lengths up to 200 m."""
    pressure = max(line_length - depth, 0) * density * STANDARD_GRAVITY
    found = air_line_depth(line_length=line_length, pressure=pressure, water_density=density)
    assert found == pytest.approx(min(depth, line_length), abs=1e-10)


def test_an_air_line_may_find_water_above_the_measuring_point():
    """A flowing well is no error of the reading: 3 m of line under 5 m of water."""
    head = 5 * WATER_DENSITY * STANDARD_GRAVITY
    assert air_line_depth(line_length=3, pressure=head, water_density=WATER_DENSITY) == pytest.approx(-2)


@pytest.mark.parametrize(("held", "cut"), [(3.0, 3.1), (3.0, -0.1), (math.nan, 1.0), (3.0, math.nan), (math.inf, 1.0)])
def test_a_tape_wet_beyond_its_length_is_refused(held, cut):
    with pytest.raises(OutsideDomain):
        tape_depth(held=held, cut=cut)


@pytest.mark.parametrize(
    "wrong", [{"line_length": 0.0}, {"pressure": -1.0}, {"pressure": math.nan}, {"water_density": 0.0}]
)
def test_an_air_line_that_cannot_be_is_refused(wrong):
    with pytest.raises(OutsideDomain):
        air_line_depth(**{"line_length": 30.0, "pressure": 1e5, "water_density": 1000.0} | wrong)


@pytest.mark.parametrize("wrong", [{"time": -0.1}, {"time": math.nan}, {"speed_of_sound": 0.0}])
def test_an_echo_that_cannot_be_is_refused(wrong):
    with pytest.raises(OutsideDomain):
        echo_depth(**{"time": 0.05, "speed_of_sound": 340.0} | wrong)


def test_a_tape_that_is_dry_or_wet_to_its_mark():
    """Dry, it only tells that the water is deeper than what was let down; wet to the mark, water stands at it."""
    assert tape_depth(held=4.0, cut=0.0) == 4.0
    assert tape_depth(held=4.0, cut=4.0) == 0.0


def test_an_echo_that_takes_no_time_comes_from_the_measuring_point():
    assert echo_depth(time=0.0, speed_of_sound=340.0) == 0.0


def test_slow_sound_and_thin_water_are_reckoned_like_any_other():
    """0.5 m/s for 8 s there and back are 2 m; 9.80665 Pa lift a water of 0.5 kg/m^3 by 2 m."""
    assert echo_depth(time=8.0, speed_of_sound=0.5) == pytest.approx(2.0)
    found = air_line_depth(line_length=5.0, pressure=STANDARD_GRAVITY, water_density=0.5)
    assert found == pytest.approx(3.0)


@pytest.mark.parametrize(("held", "cut"), [(3.0, 3.001), (3.0, -0.001)])
def test_a_tape_is_refused_with_what_is_wrong(held, cut):
    with pytest.raises(OutsideDomain, match=r"^the wetted part of a tape .cut. must lie between 0 and the length"):
        tape_depth(held=held, cut=cut)


@pytest.mark.parametrize(
    "wrong",
    [
        {"line_length": 0.0},
        {"line_length": math.inf},
        {"pressure": -0.1},
        {"pressure": math.inf},
        {"water_density": 0.0},
    ],
)
def test_an_air_line_is_refused_with_what_is_wrong(wrong):
    with pytest.raises(OutsideDomain, match=r"^an air line has a length, a gauge pressure"):
        air_line_depth(**{"line_length": 30.0, "pressure": 1e5, "water_density": 1000.0} | wrong)


@pytest.mark.parametrize(
    "wrong", [{"time": -0.001}, {"time": math.inf}, {"speed_of_sound": 0.0}, {"speed_of_sound": math.inf}]
)
def test_an_echo_is_refused_with_what_is_wrong(wrong):
    with pytest.raises(OutsideDomain, match=r"^an echo takes time and runs at a positive speed"):
        echo_depth(**{"time": 0.05, "speed_of_sound": 340.0} | wrong)
