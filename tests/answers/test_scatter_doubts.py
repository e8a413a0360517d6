"""Few readings hardly tell how far readings scatter, and readings that are all alike tell nothing of it."""

from math import sqrt
from statistics import fmean

import msgspec
import pytest

from footvalve.answers.endpoints import ENDPOINT
from footvalve.contract.sounding import SoundingRequest

NO_DELAY = {"value": 0, "unit": "s", "uncertainty": 0.05}


def of(value, unit, **more):
    return {"value": value, "unit": unit} | more


def warned(measurement):
    """What is warned of at the readings."""
    request = msgspec.convert({"units": "metric", "measurement": measurement}, SoundingRequest)
    answer = ENDPOINT["sounding"](request)
    return answer, [w.detail for w in answer.warnings if w.pointer in ("/measurement/times", "/measurement/depths")]


def depths(*metres):
    return {"method": "direct", "depths": [of(depth, "m") for depth in metres]}


def stones(*seconds, **more):
    times = [of(time, "s", **more) for time in seconds]
    return {"method": "stone-drop", "times": times, "stone_diameter": of(25, "mm"), "reaction_delay": NO_DELAY}


@pytest.mark.parametrize(
    ("metres", "number", "factor"),
    [
        ((4.0, 4.1), "two", "1.84"),
        (
            (
                4.0,
                4.1,
                4.05,
            ),
            "three",
            "1.32",
        ),
    ],
)
def test_the_scatter_of_few_readings_is_doubted_by_students_factor(metres, number, factor):
    answer, details = warned(depths(*metres))
    (doubt,) = [detail for detail in details if "hardly tell" in detail]
    assert doubt.startswith(f"{number} readings")
    assert f"{factor} times as great" in doubt
    assert f"{answer.depth_to_water.uncertainty:.3g} m" in doubt


@pytest.mark.parametrize("metres", [(4.0,), (4.0, 4.0), (4.0, 4.001), (4.0, 4.1, 4.05, 4.02)])
def test_one_reading_four_and_those_that_lie_close_are_not(metres):
    _, details = warned(depths(*metres))
    assert not [detail for detail in details if "hardly tell" in detail]


def test_many_times_that_hardly_differ_are_doubted_and_not_where_their_uncertainty_is_told():
    _, doubted = warned(stones(1.1, 1.1, 1.1, 1.1))
    assert [detail for detail in doubted if "so much alike" in detail]
    told = {"uncertainty": 0.1}
    for measurement in (
        stones(1.1, 1.1, 1.1, 1.1, **told),
        stones(1.1, 1.12, 1.1, 1.11),
        stones(1.1, 1.1),
        stones(1.1),
    ):
        _, details = warned(measurement)
        assert not [detail for detail in details if "so much alike" in detail]


@pytest.mark.parametrize("seconds", [(1.1, 1.1), (1.13, 1.131), (1.1, 1.1, 1.1)])
def test_few_times_by_hand_are_no_surer_than_a_hand_is(seconds):
    """A difference of 0.1 s between two times is 0.1 s over the root of 2 of each; the mean of n over the root of n."""
    by_each = 0.1 / sqrt(2) / sqrt(len(seconds))
    found, told = (warned(stones(*seconds, **more))[0] for more in ({}, {"uncertainty": 0.1 / sqrt(2)}))
    at = 1e-4
    slope = (warned(stones(fmean(seconds) + at))[0].depth_to_water.value - found.depth_to_water.value) / at
    hand = found.depth_to_water.uncertainty**2 - (slope * by_each) ** 2
    assert hand == pytest.approx((slope * 0.05) ** 2, rel=0.05), "what is left is the hand's delay, 0.05 s"
    assert told.depth_to_water.uncertainty == pytest.approx(found.depth_to_water.uncertainty, rel=0.01)
