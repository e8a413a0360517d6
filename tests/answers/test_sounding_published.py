"""The public answer of `sounding` against published values and an integrated fall.

Where a published row leaves something out (the drag of the air), the answer is asked under conditions that make
it small, and the tolerance grows by what is left of it.
"""

import csv
import json
import math
from pathlib import Path

import msgspec
import pytest
from scipy.integrate import solve_ivp

from footvalve.answers.endpoints import ENDPOINT
from footvalve.physics.si import STANDARD_GRAVITY
from footvalve.physics.stone_fall import DRAG_COEFFICIENT, STONE_DENSITY

REFERENCE = Path(__file__).parents[1] / "reference"
SEA_LEVEL_AIR = {"density": 1.2250, "sound": 340.294}  # U.S. Standard Atmosphere 1976, 15 degC
KELVIN_OF_SOUND = 288.15 / 340.294**2  # the speed grows with the root of the temperature; same source


def rows(file, quantity):
    with (REFERENCE / file).open(encoding="utf-8") as text:
        found = [row for row in csv.DictReader(text) if row["quantity"] == quantity]
    assert found, f"{file} has no row of {quantity!r}: the file was changed, follow it here"
    return [pytest.param(row, json.loads(row["inputs"]), id=row["id"]) for row in found]


def ask(measurement, *, units="metric", site=None, height=None):
    """What the service answers."""
    body = {"units": units, "measurement": measurement, "site": site or {}}
    if height is not None:
        body["measuring_point_height"] = height
    endpoint = ENDPOINT["sounding"]
    return endpoint(msgspec.json.decode(msgspec.json.encode(body), type=endpoint.request))


def air_with_sound_at(speed):
    return {"value": KELVIN_OF_SOUND * speed**2, "unit": "K"}


def seconds(*values):
    return [{"value": value, "unit": "s"} for value in values]


HEAVY_STONE = {"value": 0.5, "unit": "m"}
THIN_AIR = {"value": 5000, "unit": "m"}
HEAVY_TERMINAL_SPEED = 225.0
"""In m/s, of half a metre of rock at 5000 m: sqrt[4 g 0.5 2670 / (3 0.47 0.69)] is 232 at the coldest of the rows."""


def drag_share(time):
    """Of the depth, to first order: ln cosh x is x^2 / 2 (1 - x^2 / 6)."""
    return (STANDARD_GRAVITY * time / HEAVY_TERMINAL_SPEED) ** 2 / 6


@pytest.mark.parametrize(
    ("row", "inputs"),
    [*rows("stone_drop.csv", "depth without drag"), *rows("stone_drop.csv", "depth without drag, reaction removed")],
)
def test_a_heavy_stone_in_thin_air_agrees_with_depths_without_drag(row, inputs):
    """The tolerance is the row's, and 1.1 times what first-order drag takes off this stone (0.2 % at 2.4 s)."""
    watch = inputs.get("T_s", inputs.get("T_watch_s"))
    delay = inputs.get("reaction_s", 0.0)
    drop = {"method": "stone-drop", "times": seconds(watch), "stone_diameter": HEAVY_STONE}
    drop["reaction_delay"] = {"value": delay, "unit": "s"}
    site = {"altitude": THIN_AIR, "air_temperature": air_with_sound_at(inputs["v_sound"])}
    expected = float(row["expected"])
    allowed = float(row["tolerance"]) + 1.1 * drag_share(watch - delay) * expected
    assert ask(drop, site=site).depth_to_water.value == pytest.approx(expected, rel=0, abs=allowed)


@pytest.mark.parametrize(("row", "inputs"), rows("stone_drop.csv", "fall time"))
def test_the_depth_of_a_published_time_of_fall_is_found_again(row, inputs):
    """The stone is as large as its terminal speed asks at sea level. The tolerance is what the row's digits allow:
    its error in s times the stone's speed, below 20 m/s, and six digits of a stone's size and of the answer."""
    fallen, limit = inputs["h_m"], inputs["v_t"]
    air = SEA_LEVEL_AIR["density"]
    diameter = 3 * DRAG_COEFFICIENT * air * limit**2 / (4 * STANDARD_GRAVITY * (STONE_DENSITY - air))
    drop = {
        "method": "stone-drop",
        "times": seconds(float(row["expected"]) + fallen / SEA_LEVEL_AIR["sound"]),
        "stone_diameter": {"value": diameter, "unit": "m"},
    }
    answer = ask(drop, site={"air_temperature": {"value": 15, "unit": "degC"}})
    assert answer.depth_to_water.value == pytest.approx(fallen, rel=0, abs=20 * float(row["tolerance"]) + 1e-4)


@pytest.mark.parametrize(("row", "inputs"), rows("water_level.csv", "tape"))
def test_a_tape_agrees_with_the_field_form(row, inputs):
    """USGS GWPD 1, figure 1: the subtraction is exact, and so is its answer in the form's digits."""
    pair = {"held": {"value": inputs["hold"], "unit": "ft"}, "cut": {"value": inputs["cut"], "unit": "ft"}}
    answer = ask({"method": "wetted-tape", "pairs": [pair]}, units="us")
    assert answer.depth_to_water.value == float(row["expected"])


def test_the_depth_below_ground_agrees_with_the_field_form():
    """USGS GWPD 1, figure 1 (seen): 13.71 ft below a point 0.85 ft above the ground is 12.86 ft. Exact."""
    pair = {"held": {"value": 14.99, "unit": "ft"}, "cut": {"value": 1.28, "unit": "ft"}}
    height = {"value": 0.85, "unit": "ft"}
    answer = ask({"method": "wetted-tape", "pairs": [pair]}, units="us", height=height)
    assert answer.depth_below_ground.value == 12.86


def test_an_electric_tape_agrees_with_the_field_form():
    """USGS GWPD 4, figure 4 (seen): the same well by an electric tape. Exact."""
    direct = {"method": "direct", "depths": [{"value": 13.71, "unit": "ft"}]}
    answer = ask(direct, units="us", height={"value": 0.85, "unit": "ft"})
    assert (answer.depth_to_water.value, answer.depth_below_ground.value) == (13.71, 12.86)


DENSEST_WATER = {"water_temperature": {"value": 4, "unit": "degC"}}
"""The procedures reckon with 1000 kg/m^3; water at 4 degC has 999.97, which is 0.003 % of the column."""


def air_line_depth(length, reading, unit):
    line = {"method": "air-line", "line_length": {"value": length, "unit": "ft"}}
    line["pressures"] = [{"value": reading, "unit": unit}]
    return ask(line, units="us", site=DENSEST_WATER).depth_to_water.value


@pytest.mark.parametrize(("row", "inputs"), rows("water_level.csv", "air line, altitude gauge"))
def test_an_air_line_with_a_gauge_in_feet_agrees_with_the_field_example(row, inputs):
    """USGS GWPD 13, example 1, to its own rounding."""
    computed = air_line_depth(inputs["k"], inputs["h"], "ftH2O")
    assert computed == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))


@pytest.mark.parametrize(("row", "inputs"), rows("water_level.csv", "air line, psi gauge"))
def test_an_air_line_with_a_gauge_in_psi_agrees_with_the_field_example(row, inputs):
    """USGS GWPD 13, example 2, which rounds 41.5 ft to 41 on its way."""
    computed = air_line_depth(inputs["k"], inputs["psi"], "psi")
    assert computed == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))


@pytest.mark.parametrize(("row", "inputs"), rows("water_level.csv", "feet of water per psi"))
def test_one_psi_is_as_many_feet_as_the_procedures_say(row, inputs):
    """USGS GWPD 12 and 13: 2.307 ft, to half the last digit and what six digits of the answer lose."""
    assert not inputs
    computed = air_line_depth(100, 10, "psi") - air_line_depth(100, 11, "psi")
    assert computed == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]) + 1e-4)


@pytest.mark.parametrize(("row", "inputs"), rows("water_level.csv", "echo"))
def test_an_echo_agrees_with_half_the_way_of_sound(row, inputs):
    """To half the last digit of the row."""
    echo = {"method": "echo", "times": [{"value": inputs["t_round_ms"] / 1000, "unit": "s"}]}
    answer = ask(echo, site={"air_temperature": air_with_sound_at(inputs["v_sound"])})
    assert answer.depth_to_water.value == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))


@pytest.mark.parametrize(("row", "inputs"), rows("atmosphere.csv", "speed of sound"))
def test_an_echo_of_two_seconds_is_as_deep_as_sound_runs_in_one(row, inputs):
    """The published speeds, each with the tolerance that its row gives reasons for."""
    echo = {"method": "echo", "times": seconds(2.0)}
    units = {"m/s": "metric", "ft/s": "us"}[row["unit"]]
    answer = ask(echo, units=units, site={"air_temperature": {"value": inputs["T_C"], "unit": "degC"}})
    assert answer.depth_to_water.value == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))


def integrated_depth(time, diameter):
    """Depth at which a stone is, by its equation of motion with buoyancy, when its sound from there is heard."""
    air, sound = SEA_LEVEL_AIR["density"], SEA_LEVEL_AIR["sound"]
    drag = 3 / 4 * DRAG_COEFFICIENT * air / (STONE_DENSITY * diameter)
    weight = STANDARD_GRAVITY * (1 - air / STONE_DENSITY)

    def heard(t, state):
        return t + state[0] / sound - time

    heard.terminal = True
    motion = solve_ivp(
        lambda _, state: (state[1], weight - drag * state[1] ** 2),
        (0, time),
        (0.0, 0.0),
        method="DOP853",
        events=heard,
        rtol=1e-10,
        atol=1e-12,
    )
    return motion.y_events[0][0][0]


@pytest.mark.parametrize("diameter", [0.005, 0.025, 0.1, 0.3])
def test_a_stone_drop_agrees_with_the_integrated_fall(diameter):
    """Buoyancy, which the answer leaves out of the acceleration, is 0.046 % of the depth at most."""
    times = (0.1, 0.5, 1.0, 1.5, 2.5, 5.0, 10.0)
    drop = {"method": "stone-drop", "times": seconds(*times), "stone_diameter": {"value": diameter, "unit": "m"}}
    answer = ask(drop, site={"air_temperature": {"value": 15, "unit": "degC"}})
    expected = [integrated_depth(time, diameter) for time in times]
    assert [reading.value for reading in answer.readings] == pytest.approx(expected, rel=5e-4)
    assert answer.depth_to_water.value == pytest.approx(math.fsum(expected) / len(times), rel=5e-4)


def test_a_stone_heard_after_1_3_seconds_agrees_with_the_closed_form():
    """Closed form without drag (computed): 7.99 m at 340.3 m/s. The tolerance is half its last digit and the drag."""
    drop = {"method": "stone-drop", "times": seconds(1.3), "stone_diameter": HEAVY_STONE}
    site = {"altitude": THIN_AIR, "air_temperature": air_with_sound_at(340.3)}
    allowed = 0.001 + 1.1 * drag_share(1.3) * 7.99
    assert ask(drop, site=site).depth_to_water.value == pytest.approx(7.99, rel=0, abs=allowed)
