"""Tape, air line and echo against the field examples of the USGS procedures."""

import csv
import json
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.method import OutsideDomain
from footvalve.physics.si import STANDARD_GRAVITY
from footvalve.physics.sounding import air_line_depth, echo_depth, tape_depth

REFERENCE = Path(__file__).parents[1] / "reference" / "water_level.csv"
ROWS = list(csv.DictReader(REFERENCE.read_text(encoding="utf-8").splitlines()))
FOOT = 0.3048
PSI = 6894.757293168
SCALE = {"ft": FOOT, "ft/psi": FOOT, "m": 1}
WATER_DENSITY = 1000.0  # the examples' 2.307 ft for each psi is this density


def air_line_with_altitude_gauge(k, h):
    """Such a gauge shows feet of water: k is the length of the line, h the reading."""
    head = h * FOOT * WATER_DENSITY * STANDARD_GRAVITY
    return air_line_depth(line_length=k * FOOT, pressure=head, water_density=WATER_DENSITY)


def air_line_with_psi_gauge(k, psi):
    return air_line_depth(line_length=k * FOOT, pressure=psi * PSI, water_density=WATER_DENSITY)


QUANTITY = {
    "tape": lambda hold, cut: tape_depth(held=hold * FOOT, cut=cut * FOOT),
    "air line, altitude gauge": air_line_with_altitude_gauge,
    "air line, psi gauge": air_line_with_psi_gauge,
    "feet of water per psi": lambda: air_line_with_psi_gauge(100, 0) - air_line_with_psi_gauge(100, 1),
    "echo": lambda t_round_ms, v_sound: echo_depth(time=t_round_ms / 1000, speed_of_sound=v_sound),
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_water_level_agrees_with_field_examples(row):
    """Each row's tolerance is half its last digit, or the rounding in the source's own working."""
    computed = QUANTITY[row["quantity"]](**json.loads(row["inputs"])) / SCALE[row["unit"]]
    assert computed == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))


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
