"""What `sounding` answers, warns of and refuses, and what must hold for every well."""

import math

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.sounding import depth_readings
from footvalve.answers.sounding_by_stone import LEAST_TELLING_TIME, fall_at
from footvalve.answers.unit_system import METRIC
from footvalve.contract.examples import examples
from footvalve.contract.problem import Refused
from footvalve.contract.request import Site

FOOT = 0.3048
ENDPOINT_UNDER_TEST = ENDPOINT["sounding"]


def decoded(measurement, **more):
    body = msgspec.json.encode({"measurement": measurement} | more)
    return msgspec.json.decode(body, type=ENDPOINT_UNDER_TEST.request)


def ask(measurement, **more):
    return ENDPOINT_UNDER_TEST(decoded(measurement, **more))


def quantity(value, unit):
    return {"value": value, "unit": unit}


NO_DELAY = {"value": 1e-9, "unit": "s"}
"""So little that no depth shows it, and told all the same: nothing said is doubted."""


def stones(*times, **more):
    times = [quantity(time, "s") for time in times]
    return {"method": "stone-drop", "times": times, "reaction_delay": NO_DELAY} | more


def test_a_delay_of_the_hand_that_nobody_tells_is_doubted_however_many_stones_fall():
    untold = stones(1.12, 1.13, 1.12, 1.13)
    del untold["reaction_delay"]
    (doubt,) = ask(untold).warnings
    assert doubt.pointer == "/measurement/reaction_delay"
    told = ask(untold | {"reaction_delay": quantity(0.15, "s")})
    less = ask(untold).depth_to_water.base - told.depth_to_water.base
    assert f"{less / FOOT:.3g} ft less deep" in doubt.detail
    assert not ask(untold | {"reaction_delay": {"value": 0.15, "unit": "s", "uncertainty": 0.1}}).warnings


def tape(*pairs):
    pairs = [{"held": quantity(held, "ft"), "cut": quantity(cut, "ft")} for held, cut in pairs]
    return {"method": "wetted-tape", "pairs": pairs}


def air_line(length, *pressures):
    return {
        "method": "air-line",
        "line_length": quantity(length, "m"),
        "pressures": [quantity(pressure, "kPa") for pressure in pressures],
    }


def echo(*times):
    return {"method": "echo", "times": [quantity(time, "s") for time in times]}


def direct(*depths, unit="ft"):
    return {"method": "direct", "depths": [quantity(depth, unit) for depth in depths]}


def doubts(answer):
    """The warnings, but for that of too few readings, which test_scatter_doubts.py holds."""
    return [w for w in answer.warnings if "hardly tell how far" not in w.detail]


def warned(answer):
    return [warning.pointer for warning in doubts(answer)]


def codes(answer):
    return [caution.code for caution in answer.cautions]


# --- the answer


@pytest.mark.parametrize("example", examples("sounding"), ids=lambda example: example.name)
def test_every_example_answers(example):
    answer = ENDPOINT_UNDER_TEST(msgspec.convert(example.request, ENDPOINT_UNDER_TEST.request))
    assert 0 < answer.depth_to_water.base < 100
    assert len(answer.basis) >= 3


def test_there_is_an_example_of_every_method():
    methods = [example.request["measurement"]["method"] for example in examples("sounding")]
    assert methods == ["stone-drop", "wetted-tape", "air-line", "echo", "direct"]


def test_the_depth_is_the_mean_and_the_spread_goes_from_end_to_end():
    answer = ask(direct(20.1, 20.4, 20.3))
    assert [reading.value for reading in answer.readings] == [20.1, 20.4, 20.3]
    assert answer.depth_to_water.value == pytest.approx(20.2667, abs=5e-5)
    assert answer.spread.value == pytest.approx(0.3, rel=1e-6)


@pytest.mark.parametrize(("height", "below_ground"), [(1.5, 18.5), (0.0, 20.0), (-4.0, 24.0)])
def test_the_ground_is_as_much_nearer_to_the_water_as_the_measuring_point_is_high(height, below_ground):
    answer = ask(direct(20.0), measuring_point_height=quantity(height, "ft"))
    assert answer.depth_to_water.value == 20.0
    assert answer.depth_below_ground.value == below_ground


def test_the_answer_speaks_the_system_that_is_asked_for():
    assert ask(direct(10.0, unit="m")).depth_to_water.unit == "ft"
    assert ask(direct(10.0, unit="m"), units="metric").depth_to_water == METRIC.length(10.0)


@pytest.mark.parametrize("height", [1, 3, 7, 9])
def test_water_that_stands_at_the_ground_is_no_flowing_well(height):
    answer = ask(direct(height * FOOT, unit="m"), measuring_point_height=quantity(height, "ft"))
    assert abs(answer.depth_below_ground.value) < 1e-9
    assert "flowing-well" not in codes(answer)
    assert answer.warnings == []


def test_a_flowing_well_has_a_negative_depth_and_its_caution():
    answer = ask(direct(-2.5))
    assert answer.depth_to_water.value == -2.5
    assert "flowing-well" in codes(answer)
    assert answer.warnings == []


@pytest.mark.parametrize("measurement", [tape((20, 1)), air_line(20, 50), echo(0.05), direct(20)])
def test_only_a_stone_drop_has_a_rule_of_thumb(measurement):
    assert ask(measurement).rule_of_thumb is msgspec.UNSET


def test_the_rule_of_thumb_is_held_against_the_time_without_the_delay():
    answer = ask(stones(1.1, 1.3, reaction_delay=quantity(0.2, "s")))
    assert answer.rule_of_thumb.depth.value == pytest.approx(20.0)
    differs_by = answer.rule_of_thumb.depth.value - answer.depth_to_water.value
    assert answer.rule_of_thumb.differs_by.value == pytest.approx(differs_by, abs=1e-4)


@pytest.mark.parametrize("diameter", [15, 25, 50, 100])
@pytest.mark.parametrize(("time", "side", "says"), [(0.8, 1, "no too often"), (2.0, -1, "yes too often")])
def test_the_rule_of_thumb_says_no_too_often_before_1_3_seconds_and_yes_beyond(diameter, time, side, says):
    """An overstated depth turns good wells down, an understated one starts what cannot work."""
    rule = ask(stones(time, stone_diameter=quantity(diameter, "mm"))).rule_of_thumb
    assert rule.differs_by.value * side > 0
    assert says in rule.errs


def test_a_delay_taken_off_is_a_shorter_fall():
    late = ask(stones(1.4, 1.5, reaction_delay=quantity(0.15, "s")))
    assert late.readings == ask(stones(1.25, 1.35)).readings


def test_basis_names_sources_for_every_step():
    answer = ask(stones(1.2))
    last = ["Depth to the water", "Depth below the ground", "Scatter of readings", "Uncertainties"]
    assert [step.step for step in answer.basis][-4:] == last
    assert all(step.source and step.valid_for for step in answer.basis)


# --- cautions


@pytest.mark.parametrize(
    ("measurement", "expected"),
    [
        (stones(1.2, 1.2), ["open-shaft", "mains-electricity", "well-opened", "stone-in-well", "local-code"]),
        (tape((20, 1)), ["open-shaft", "mains-electricity", "well-opened", "local-code"]),
        (echo(0.05), ["open-shaft", "mains-electricity", "well-opened", "local-code"]),
        (direct(20), ["open-shaft", "mains-electricity", "well-opened", "local-code"]),
        (air_line(20, 50), ["local-code"]),
    ],
)
def test_each_method_brings_its_own_cautions(measurement, expected):
    assert codes(ask(measurement)) == expected


def test_a_measuring_point_below_the_ground_lies_in_a_pit():
    assert "confined-pit" in codes(ask(direct(20), measuring_point_height=quantity(-3, "ft")))


# --- warnings


@pytest.mark.parametrize(
    ("close", "apart", "pointer"),
    [
        (tape((20, 1.50), (19, 0.52)), tape((20, 1.50), (19, 0.53)), "/measurement/pairs"),
        (direct(13.71, 13.73), direct(13.71, 13.74), "/measurement/depths"),
        (air_line(30, 100, 102.9), air_line(30, 100, 103.1), "/measurement/pressures"),
        (echo(0.0500, 0.0501), echo(0.0500, 0.0504), "/measurement/times"),
        (echo(1.000, 1.004), echo(1.000, 1.006), "/measurement/times"),
        (stones(1.25, 1.34), stones(1.25, 1.36), "/measurement/times"),
    ],
    ids=["tape", "electric tape", "air line", "shallow echo", "deep echo", "stone"],
)
def test_readings_may_lie_apart_by_what_the_method_allows_and_no_more(close, apart, pointer):
    """0.02 ft for tapes (GWPD 1 and 4), 1 ft for an air line (GWPD 13), 0.1 ft or 0.5 % for an echo, 0.1 s."""
    assert warned(ask(close)) == []
    assert warned(ask(apart)) == [pointer]


def test_a_reading_far_from_the_others_is_named():
    answer = ask(tape((20, 1.50), (19, 0.51), (20, 2.30), (21, 2.50)))
    assert warned(answer) == ["/measurement/pairs", "/measurement/pairs/2"]
    assert "above the middle one" in doubts(answer)[1].detail
    below = ask(direct(20.00, 25.00, 20.01))
    assert warned(below) == ["/measurement/depths", "/measurement/depths/1"]
    assert "4.99 ft below" in doubts(below)[1].detail


@pytest.mark.parametrize("depths", [(20.0, 21.0), (20.0, 21.0, 22.0), (20.0, 20.01, 30.0, 30.01)])
def test_no_reading_is_blamed_where_there_is_no_majority(depths):
    assert warned(ask(direct(*depths))) == ["/measurement/depths"]


def test_a_single_stone_is_doubted_and_told_what_a_tenth_of_a_second_is_worth():
    answer = ask(stones(1.0))
    assert warned(answer) == ["/measurement/times"]
    assert "0.1 s on the watch is worth 3.16 ft" in doubts(answer)[0].detail


def test_a_tenth_of_a_second_is_worth_more_than_3_ft_at_one_second():
    assert fall_at(Site(), 0.025).watch_error(1.0) > 3 * FOOT


def test_a_tenth_of_a_second_is_worth_half_of_the_depth_where_times_begin_to_tell_something():
    """The limit's own note says so; it is put at the nearest round figure."""
    fall = fall_at(Site(), 0.025)
    assert fall.watch_error(LEAST_TELLING_TIME) > fall.depth(LEAST_TELLING_TIME) / 2
    assert fall.watch_error(LEAST_TELLING_TIME + 0.1) < fall.depth(LEAST_TELLING_TIME + 0.1) / 2


def test_a_time_too_short_to_tell_is_named_with_what_the_watch_is_worth():
    answer = ask(stones(0.42, 0.38))
    assert warned(answer) == ["/measurement/times/1"]
    assert "tells almost nothing" in doubts(answer)[0].detail


def test_the_delay_counts_when_a_time_is_too_short():
    answer = ask(stones(0.55, 0.56, reaction_delay=quantity(0.3, "s")))
    assert warned(answer) == ["/measurement/times/0", "/measurement/times/1"]


def test_an_assumed_stone_is_doubted_where_its_size_counts_for_more_than_the_watch():
    deep = stones(3.4, 3.4)
    assert warned(ask(deep)) == ["/measurement/stone_diameter"]
    assert warned(ask(deep | {"stone_diameter": quantity(25, "mm")})) == []
    assert warned(ask(stones(1.3, 1.3))) == []


def test_the_doubt_of_an_assumed_stone_tells_the_depths_of_half_and_twice_its_size():
    half, twice = (ask(stones(3.4, stone_diameter=quantity(size, "mm"))).depth_to_water for size in (12.5, 50))
    (doubt,) = doubts(ask(stones(3.4, 3.4)))
    assert f"deepest reading at {half}, twice of it at {twice}" in doubt.detail


def test_an_assumed_stone_falls_as_one_of_an_inch():
    assumed, stated = ask(stones(1.3)), ask(stones(1.3, stone_diameter=quantity(25, "mm")))
    assert assumed.readings == stated.readings


@pytest.mark.parametrize(
    ("measurement", "site", "pointer"),
    [
        (stones(1.2, 1.2, stone_diameter=quantity(4, "mm")), {}, "/measurement/stone_diameter"),
        (stones(1.2, 1.2), {"air_temperature": quantity(-49.5, "degC")}, "/site/air_temperature"),
        (echo(0.05), {"air_temperature": quantity(-49.5, "degC")}, "/site/air_temperature"),
        (stones(0.5, 0.5, reaction_delay=quantity(0.46, "s")), {}, "/measurement/times/1"),
    ],
    ids=["small stone", "cold air of a stone", "cold air of an echo", "short fall"],
)
def test_what_lies_outside_a_method_is_said(measurement, site, pointer):
    details = [warning.detail for warning in ask(measurement, site=site).warnings if warning.pointer == pointer]
    assert any("outside the range" in detail for detail in details)


def test_water_over_the_ground_inside_the_casing_is_doubted():
    answer = ask(tape((3, 2)), measuring_point_height=quantity(1.5, "ft"))
    assert answer.depth_below_ground.value == -0.5
    assert warned(answer) == ["/measuring_point_height"]
    assert "flowing-well" in codes(answer)


# --- refusals


@pytest.mark.parametrize(
    ("measurement", "pointers"),
    [
        (stones(0.04, 1.2, 10.1), ["/measurement/times/0", "/measurement/times/2"]),
        (stones(1.2, stone_diameter=quantity(1, "mm")), ["/measurement/stone_diameter"]),
        (stones(1.2, stone_diameter=quantity(2, "ft")), ["/measurement/stone_diameter"]),
        (stones(1.2, reaction_delay=quantity(2.1, "s")), ["/measurement/reaction_delay"]),
        (stones(1.2, 0.3, reaction_delay=quantity(0.3, "s")), ["/measurement/reaction_delay"]),
        (tape((20, 1), (20, 20.5), (20, 21)), ["/measurement/pairs/1/cut", "/measurement/pairs/2/cut"]),
        (tape((20, 0)), ["/measurement/pairs/0/cut"]),
        (tape((-20, 1)), ["/measurement/pairs/0/held"]),
        (tape((4000, -1)), ["/measurement/pairs/0/held", "/measurement/pairs/0/cut"]),
        (air_line(10, 50, 99), ["/measurement/pressures/1"]),
        (air_line(10, 0), ["/measurement/pressures/0"]),
        (air_line(10, -1), ["/measurement/pressures/0"]),
        (air_line(0, 20), ["/measurement/line_length"]),
        (echo(0.05, 6.1), ["/measurement/times/1"]),
        (echo(0), ["/measurement/times/0"]),
        (direct(20, -101, 1001, unit="m"), ["/measurement/depths/1", "/measurement/depths/2"]),
    ],
)
def test_what_no_well_can_give_is_refused_with_every_fault(measurement, pointers):
    with pytest.raises(Refused) as refused:
        ask(measurement)
    assert [fault.pointer for fault in refused.value.faults] == pointers
    assert all(fault.detail for fault in refused.value.faults)


@pytest.mark.parametrize(
    ("more", "pointer"),
    [
        ({"measuring_point_height": quantity(11, "m")}, "/measuring_point_height"),
        ({"measuring_point_height": quantity(-40, "ft")}, "/measuring_point_height"),
        ({"site": {"altitude": quantity(5001, "m")}}, "/site/altitude"),
        ({"site": {"air_temperature": quantity(61, "degC")}}, "/site/air_temperature"),
    ],
)
def test_a_place_that_cannot_be_is_refused(more, pointer):
    with pytest.raises(Refused) as refused:
        ask(direct(20), **more)
    assert [fault.pointer for fault in refused.value.faults] == [pointer]


@pytest.mark.parametrize(
    "measurement",
    [
        {"method": "dowsing", "times": [quantity(1, "s")]},
        {"times": [quantity(1, "s")]},
        {"method": "stone-drop"},
        stones(),
        direct(*[20] * 101),
        stones(1.2, stone_weight=quantity(1, "m")),
        {"method": "stone-drop", "times": [1.2]},
        {"method": "direct", "depths": [quantity(20, "s")]},
        {"method": "wetted-tape", "pairs": [{"held": quantity(20, "ft")}]},
    ],
)
def test_what_breaks_the_schema_is_no_request(measurement):
    with pytest.raises(msgspec.ValidationError):
        decoded(measurement)


# --- what must hold for every well

site_temperatures = st.floats(-30, 45)
fall_times = st.floats(0.2, 9.5)


@st.composite
def wells_in_two_systems(draw):
    """One measurement and its place in metres, and the same in feet, inches, minutes and degrees Fahrenheit."""
    places = [draw(st.floats(-400, 4900)), draw(st.floats(1, 90)), draw(site_temperatures)]
    metric = {
        "altitude": quantity(places[0], "m"),
        "water_temperature": quantity(places[1], "degC"),
        "air_temperature": quantity(places[2], "degC"),
    }
    us = {
        "altitude": quantity(places[0] / FOOT, "ft"),
        "water_temperature": quantity(places[1] * 9 / 5 + 32, "degF"),
        "air_temperature": quantity(places[2] * 9 / 5 + 32, "degF"),
    }
    in_metres, in_feet = draw(st.one_of(stone_twice(), tape_twice(), air_line_twice(), echo_twice(), direct_twice()))
    height = draw(st.floats(-9, 9))
    return (
        {"measurement": in_metres, "site": metric, "measuring_point_height": quantity(height, "m")},
        {"measurement": in_feet, "site": us, "measuring_point_height": quantity(height / FOOT, "ft")},
    )


@st.composite
def stone_twice(draw):
    # Where a warning sets in, the last digit of a conversion decides: keep off 0.4 s, 5 mm and 300 mm.
    times = draw(st.lists(st.one_of(st.floats(0.2, 0.39), st.floats(0.41, 9.5)), min_size=1, max_size=3))
    diameter = draw(st.one_of(st.floats(3, 4.9), st.floats(5.1, 299), st.floats(301, 490)))
    in_minutes = [quantity(time / 60, "min") for time in times]
    return (
        stones(*times, stone_diameter=quantity(diameter, "mm")),
        stones(stone_diameter=quantity(diameter / 25.4, "in")) | {"times": in_minutes},
    )


@st.composite
def tape_twice(draw):
    held = draw(st.floats(1, 900))
    cut = draw(st.floats(0.001, 0.99)) * held
    pair = {"held": quantity(held, "m"), "cut": quantity(cut, "m")}
    return {"method": "wetted-tape", "pairs": [pair]}, tape((held / FOOT, cut / FOOT))


@st.composite
def air_line_twice(draw):
    length = draw(st.floats(1, 900))
    pressure = draw(st.floats(0.01, 0.9)) * length * 9.4  # kPa, below the column of hot water of that length
    psi = pressure / 6.894757293168361
    in_feet = {"line_length": quantity(length / FOOT, "ft"), "pressures": [quantity(psi, "psi")]}
    return air_line(length, pressure), {"method": "air-line"} | in_feet


@st.composite
def echo_twice(draw):
    time = draw(st.floats(0.001, 5.9))
    return echo(time), {"method": "echo", "times": [quantity(time / 60, "min")]}


@st.composite
def direct_twice(draw):
    depth = draw(st.floats(-99, 990))
    return direct(depth, unit="m"), direct(depth / FOOT)


@given(wells_in_two_systems())
def test_the_same_well_in_feet_and_in_metres_has_the_same_depths(bodies):
    """To 1e-9 before the answer is rounded; a tape or air line may lose digits of the length that it starts from."""
    metres, feet = (depth_readings(decoded(**body), METRIC).depths for body in bodies)
    started_from = max(abs(depth) for depth in metres)
    if "line_length" in bodies[0]["measurement"]:
        started_from = bodies[0]["measurement"]["line_length"]["value"]
    if "pairs" in bodies[0]["measurement"]:
        started_from = bodies[0]["measurement"]["pairs"][0]["held"]["value"]
    assert feet == pytest.approx(metres, rel=1e-9, abs=1e-9 * started_from)


@given(wells_in_two_systems(), st.sampled_from(["us", "metric"]))
def test_the_same_well_in_feet_and_in_metres_has_the_same_answer(bodies, units):
    """To the six digits of the wire: one unit of the last digit, where the two round to either side."""
    metres, feet = (ask(**body, units=units) for body in bodies)
    assert feet.depth_to_water.value == pytest.approx(metres.depth_to_water.value, rel=1.1e-5, abs=1e-9)
    assert [reading.value for reading in feet.readings] == pytest.approx(
        [reading.value for reading in metres.readings], rel=1.1e-5, abs=1e-9
    )
    assert codes(feet) == codes(metres)
    assert warned(feet) == warned(metres)


@given(wells_in_two_systems())
def test_every_number_of_an_answer_is_finite(bodies):
    """Neither NaN nor infinity: both would be written as null."""
    for body in bodies:
        assert b"null" not in msgspec.json.encode(ask(**body))


@given(st.lists(st.floats(-50, 300), min_size=1, max_size=100))
def test_the_mean_lies_among_the_readings(depths):
    """The tolerance is the rounding to six digits."""
    answer = ask(direct(*depths, unit="m"), units="metric")
    rounding = 1e-5 * max(map(abs, depths))
    assert min(depths) - rounding <= answer.depth_to_water.value <= max(depths) + rounding
    assert answer.spread.value == pytest.approx(max(depths) - min(depths), abs=rounding)


def by_stone(time, *, diameter=30.0, air=12.0, altitude=0.0):
    site = {"air_temperature": quantity(air, "degC"), "altitude": quantity(altitude, "m")}
    answer = ask(stones(time, stone_diameter=quantity(diameter, "mm")), site=site, units="metric")
    return answer.depth_to_water.value


@given(fall_times, st.floats(0.001, 0.4), site_temperatures)
def test_a_longer_time_is_deeper_water(time, more, air):
    assert by_stone(time + more, air=air) > by_stone(time, air=air)
    deeper, nearer = (
        ask(echo(t), site={"air_temperature": quantity(air, "degC")}) for t in (time / 2 + more, time / 2)
    )
    assert deeper.depth_to_water.value > nearer.depth_to_water.value


@given(fall_times, site_temperatures, st.floats(2, 15))
def test_in_warmer_air_the_same_time_is_deeper_water(time, air, warmer):
    """Sound comes back sooner and the air holds the stone less: leaving out the warmth makes water look near."""
    assert by_stone(time, air=air + warmer) > by_stone(time, air=air)
    cold, warm = (ask(echo(time / 2), site={"air_temperature": quantity(t, "degC")}) for t in (air, air + warmer))
    assert warm.depth_to_water.value > cold.depth_to_water.value


@given(fall_times, st.floats(5, 100), st.floats(1.2, 4))
def test_the_air_holds_a_larger_stone_less(time, diameter, times_larger):
    assert by_stone(time, diameter=diameter * times_larger) > by_stone(time, diameter=diameter)


@given(fall_times, st.floats(-400, 3500), st.floats(300, 1400))
def test_the_thin_air_of_a_high_site_lets_a_stone_fall_further(time, altitude, higher):
    assert by_stone(time, altitude=altitude + higher) > by_stone(time, altitude=altitude)


@given(st.floats(20, 300), st.floats(0.05, 0.8), st.floats(0.01, 0.15))
def test_more_pressure_in_an_air_line_is_nearer_water(length, share, more):
    low, high = (ask(air_line(length, s * length * 9.4)).depth_to_water.value for s in (share, share + more))
    assert high < low


@given(st.floats(1, 95))
def test_an_air_line_reads_longer_columns_in_lighter_water(temperature):
    """The warmer the water, the lighter, and the nearer its surface at the same pressure; 4 degC is the densest."""
    warm, densest = (
        ask(air_line(100, 500), site={"water_temperature": quantity(t, "degC")}).depth_to_water.value
        for t in (temperature, 3.98)
    )
    assert warm <= densest or math.isclose(warm, densest, rel_tol=1e-5)
