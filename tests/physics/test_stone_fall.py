"""The dropped stone against textbook problems, an integrated motion, and what must hold for any fall."""

import csv
import json
import math
from pathlib import Path

import pytest
from fluids.drag import drag_sphere
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from footvalve.physics.method import OutsideDomain
from footvalve.physics.si import STANDARD_GRAVITY
from footvalve.physics.stone_fall import (
    DRAG_COEFFICIENT,
    RULE_OF_THUMB,
    STONE_DENSITY,
    depth_of_fall,
    depth_without_sound,
    fall_time,
    no_drag_depth,
    rule_of_thumb_depth,
    sounding_time,
    stone_drop_depth,
    terminal_speed,
)

REFERENCE = Path(__file__).parents[1] / "reference" / "stone_drop.csv"
ROWS = list(csv.DictReader(REFERENCE.read_text(encoding="utf-8").splitlines()))
AIR = {"density": 1.225, "viscosity": 1.79e-5}  # U.S. Standard Atmosphere 1976 at sea level
SOUND = 340.294  # m/s, U.S. Standard Atmosphere 1976 at sea level


def speed_of_stone(diameter, **more):
    return terminal_speed(stone_diameter=diameter, air_density=AIR["density"], **more)


def terminal_speed_of_body(inputs):
    """A body as a sphere of the same mass and frontal area."""
    diameter = math.sqrt(4 * inputs["A_m2"] / math.pi)
    return terminal_speed(
        stone_diameter=diameter,
        stone_density=inputs["m"] / (math.pi / 6 * diameter**3),
        air_density=inputs["rho"],
        drag_coefficient=inputs["C"],
    )


def depth_at_95_percent(inputs):
    time = inputs["v_t"] / STANDARD_GRAVITY * math.atanh(0.95)
    return depth_of_fall(time=time, terminal_speed=inputs["v_t"])


def without_sound(inputs):
    return depth_without_sound(time=inputs["T_s"])


def without_drag(inputs):
    return no_drag_depth(time=inputs["T_s"], speed_of_sound=inputs["v_sound"])


QUANTITY = {
    "overstatement without sound": lambda inputs: 100 * (without_sound(inputs) / without_drag(inputs) - 1),
    "terminal speed of a body": terminal_speed_of_body,
    "depth at 95 % of terminal speed": depth_at_95_percent,
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_stone_agrees_with_published_values(row):
    """Each row's tolerance is its rounding, or what the source's g of 9.8 makes."""
    computed = QUANTITY[row["quantity"]](json.loads(row["inputs"]))
    assert computed == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))


def integrated_depth(time, acceleration):
    """Depth at which the stone is when its sound, sent from there, comes up at the given time."""

    def heard(t, state):
        return t + state[0] / SOUND - time

    heard.terminal = True
    motion = solve_ivp(
        lambda _, state: (state[1], acceleration(state[1])),
        (0, time),
        (0.0, 0.0),
        method="DOP853",
        events=heard,
        rtol=1e-11,
        atol=1e-13,
    )
    return motion.y_events[0][0][0]


@pytest.mark.parametrize(
    ("diameter", "latest", "bound"),
    [
        (0.005, 2.0, 0.021),
        (0.02, 3.0, 0.006),
        (0.05, 3.0, 0.001),
        (0.1, 3.0, 0.001),
        (0.3, 3.0, 0.004),
        (0.005, 10.0, 0.07),
        (0.1, 10.0, 0.07),
    ],
)
def test_a_constant_drag_coefficient_is_as_good_as_is_said(diameter, latest, bound):
    """Against a smooth sphere's coefficient that follows the Reynolds number, and with buoyancy counted."""
    per_kilogram = math.pi / 4 * diameter**2 / (STONE_DENSITY * math.pi / 6 * diameter**3)
    buoyancy = STANDARD_GRAVITY * AIR["density"] / STONE_DENSITY

    def acceleration(v):
        reynolds = max(AIR["density"] * v * diameter / AIR["viscosity"], 1e-3)
        drag = drag_sphere(reynolds) * AIR["density"] * v**2 / 2 * per_kilogram
        return STANDARD_GRAVITY - buoyancy - drag

    for time in (0.05, 0.5, 1.0, 1.5, 2.0, latest):
        ours = stone_drop_depth(time=time, terminal_speed=speed_of_stone(diameter), speed_of_sound=SOUND)
        assert ours == pytest.approx(integrated_depth(time, acceleration), rel=bound)


def test_the_drag_coefficient_is_that_of_a_sphere_in_the_stated_range():
    """Correlations for smooth spheres give 0.41 to 0.47 from Reynolds numbers of 1e4 to 1e5."""
    for reynolds in (1e4, 3e4, 1e5):
        assert drag_sphere(reynolds) == pytest.approx(DRAG_COEFFICIENT, abs=0.07)


def test_a_light_ball_is_carried_by_its_buoyancy():
    """Twice as heavy as the air, a ball weighs half: v_t^2 = 4 g D / (3 C_D)."""
    ball = terminal_speed(stone_diameter=0.3, stone_density=10.0, air_density=5.0, drag_coefficient=0.4)
    assert ball**2 == pytest.approx(4 * STANDARD_GRAVITY * 0.3 / (3 * 0.4), rel=1e-12)


def test_a_natural_stone_shallows_the_depth_by_what_is_said():
    """The note beside the drag coefficient says 0.14 m for 25 mm at 1.3 s."""
    sphere, natural = (
        stone_drop_depth(time=1.3, terminal_speed=speed_of_stone(0.025, drag_coefficient=c), speed_of_sound=SOUND)
        for c in (DRAG_COEFFICIENT, 1.0)
    )
    assert sphere - natural == pytest.approx(0.14, abs=0.01)


@pytest.mark.parametrize("diameter", [0.01, 0.02, 0.025, 0.05, 0.1])
def test_the_rule_of_thumb_crosses_the_true_depth_near_1_3_seconds(diameter):
    """Too deep before (a good well may be given up), not deep enough after (a bad one may be trusted)."""

    def excess(time):
        true = stone_drop_depth(time=time, terminal_speed=speed_of_stone(diameter), speed_of_sound=SOUND)
        return rule_of_thumb_depth(time=time) - true

    crossing = brentq(excess, 0.5, 3.0)
    assert crossing == pytest.approx(1.3, abs=0.05)
    assert 1.2 <= crossing <= 1.4
    assert "1.2 to 1.4 s" in RULE_OF_THUMB.note
    assert excess(crossing - 0.1) > 0 > excess(crossing + 0.1)
    assert excess(0.3) > 0 > excess(10.0)


times = st.floats(0.05, 10)
speeds = st.floats(10, 200)
sounds = st.floats(300, 370)


@given(times, speeds, sounds)
def test_the_time_of_the_depth_is_the_time_again(time, limit, sound):
    """Only rounding may be lost on the way there and back."""
    depth = stone_drop_depth(time=time, terminal_speed=limit, speed_of_sound=sound)
    again = sounding_time(depth=depth, terminal_speed=limit, speed_of_sound=sound)
    assert again == pytest.approx(time, rel=1e-9)


@given(st.floats(0, 60), st.floats(0.1, 1e6), st.floats(10, 1e4))
def test_the_search_ends_for_every_sensible_input(time, limit, sound):
    """Far outside the method's range, from a feather to a fall in vacuum."""
    depth = stone_drop_depth(time=time, terminal_speed=limit, speed_of_sound=sound)
    again = sounding_time(depth=depth, terminal_speed=limit, speed_of_sound=sound)
    assert again == pytest.approx(time, rel=1e-9, abs=1e-150)


@given(times, speeds, sounds, st.floats(1e-6, 1))
def test_a_longer_time_is_a_deeper_well(time, limit, sound, more):
    air = {"terminal_speed": limit, "speed_of_sound": sound}
    assert stone_drop_depth(time=time + more, **air) > stone_drop_depth(time=time, **air)


@given(times, speeds, sounds)
def test_drag_and_sound_never_deepen_the_well(time, limit, sound):
    with_both = stone_drop_depth(time=time, terminal_speed=limit, speed_of_sound=sound)
    without_drag = no_drag_depth(time=time, speed_of_sound=sound)
    assert with_both < without_drag < depth_without_sound(time=time)
    assert with_both < depth_of_fall(time=time, terminal_speed=limit)


@given(times, sounds)
def test_a_stone_that_air_hardly_slows_falls_as_without_drag(time, sound):
    """At a terminal speed of 1e6 m/s the drag's share is (g t / v)^2 / 6, under 2e-9."""
    heavy = stone_drop_depth(time=time, terminal_speed=1e6, speed_of_sound=sound)
    assert heavy == pytest.approx(no_drag_depth(time=time, speed_of_sound=sound), rel=3e-9)


@given(st.floats(1e-9, 60), st.floats(0.1, 1e6))
def test_fall_time_undoes_depth_of_fall(time, limit):
    """No digits are lost near the surface, nor where the stone has long reached its terminal speed."""
    depth = depth_of_fall(time=time, terminal_speed=limit)
    assert fall_time(depth=depth, terminal_speed=limit) == pytest.approx(time, rel=1e-12)


def test_no_time_is_no_depth():
    assert stone_drop_depth(time=0.0, terminal_speed=30.0, speed_of_sound=SOUND) == 0.0


@pytest.mark.parametrize("function", [depth_without_sound, rule_of_thumb_depth])
@pytest.mark.parametrize("time", [-0.1, 61.0, math.nan, math.inf])
def test_a_time_that_no_fall_can_take_is_refused(function, time):
    with pytest.raises(OutsideDomain):
        function(time=time)


@pytest.mark.parametrize(
    "wrong",
    [
        {"time": -0.1},
        {"time": math.nan},
        {"terminal_speed": 0.0},
        {"terminal_speed": math.inf},
        {"speed_of_sound": -340.0},
    ],
)
def test_a_drop_that_cannot_be_is_refused(wrong):
    with pytest.raises(OutsideDomain):
        stone_drop_depth(**{"time": 1.0, "terminal_speed": 30.0, "speed_of_sound": SOUND} | wrong)


@pytest.mark.parametrize(
    "wrong",
    [{"stone_diameter": 0.0}, {"stone_density": 0.5}, {"air_density": -1.0}, {"drag_coefficient": math.nan}],
)
def test_a_stone_that_cannot_be_is_refused(wrong):
    with pytest.raises(OutsideDomain):
        terminal_speed(**{"stone_diameter": 0.02, "air_density": 1.225} | wrong)


@pytest.mark.parametrize("depth", [-1.0, math.nan, 1e6])
def test_a_depth_that_no_well_has_is_refused(depth):
    with pytest.raises(OutsideDomain):
        sounding_time(depth=depth, terminal_speed=30.0, speed_of_sound=SOUND)


@pytest.mark.parametrize(
    ("function", "wrong"),
    [
        (depth_of_fall, {"time": -0.1}),
        (depth_of_fall, {"terminal_speed": 0.0}),
        (fall_time, {"depth": -0.1}),
        (fall_time, {"terminal_speed": 0.0}),
        (no_drag_depth, {"time": -0.1}),
        (no_drag_depth, {"speed_of_sound": -340.0}),
    ],
)
def test_each_input_of_a_fall_is_refused_with_what_can_be_meant(function, wrong):
    right = {
        depth_of_fall: {"time": 1.0, "terminal_speed": 30.0},
        fall_time: {"depth": 10.0, "terminal_speed": 30.0},
        no_drag_depth: {"time": 1.0, "speed_of_sound": SOUND},
    }
    with pytest.raises(OutsideDomain, match=r"is outside what can be meant: .*" + next(iter(wrong))):
        function(**right[function] | wrong)
