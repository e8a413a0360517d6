"""Few readings hardly tell how far readings scatter, and times by hand that are all alike tell nothing of it."""

from itertools import pairwise
from math import sqrt
from statistics import stdev

import msgspec
import pytest

from footvalve.answers.endpoints import ENDPOINT
from footvalve.contract.examples import examples
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.contract.sounding import SoundingRequest

PLAN = examples("site-plan")[0].request
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


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (
            (1.12, 1.16, 1.10),
            "three readings hardly tell how far readings scatter: a hand's 0.07 s, more than these show",
        ),
        ((1.1, 1.1), "two readings hardly tell how far readings scatter: a hand's 0.07 s, more than these show"),
        ((1.1, 1.2, 2.4), "if it is taken 1.32 times as great"),
        ((1.1, 1.3), "if it is taken 1.84 times as great"),
    ],
)
def test_the_uncertainty_that_is_doubted_is_the_one_that_the_answer_carries(seconds, words):
    """Also where what is known of a hand stands in for a scatter that few times do not show; Student's factor is then
    none of theirs, and the times that lie apart count in seconds, not in the depths of each."""
    times = {"method": "stone-drop", "times": [of(time, "s") for time in seconds]}
    answer, details = warned(times)
    (doubt,) = [detail for detail in details if "hardly tell" in detail]
    assert f"{answer.depth_to_water.uncertainty:.3g} m" in doubt
    assert words in doubt


def test_a_plan_doubts_the_uncertainty_that_its_sounding_carries():
    body = {name: value for name, value in PLAN.items() if name not in ("sounding", "depth_to_water")}
    times = [of(time, "s") for time in (1.12, 1.16, 1.10)]
    body["well"] = {"drawdown": of(1, "ft")}
    body["sounding"] = {"measurement": {"method": "stone-drop", "times": times}}
    answer = ENDPOINT["site-plan"](msgspec.convert(body, SitePlanRequest))
    (doubt,) = [w.detail for w in answer.warnings if "hardly tell how far readings" in w.detail]
    assert f"by {answer.sounding.depth_to_water.uncertainty:.3g} ft" in doubt


@pytest.mark.parametrize("metres", [(4.0,), (4.0, 4.0), (4.0, 4.001), (4.0, 4.1, 4.05, 4.02)])
def test_one_reading_four_and_those_that_lie_close_are_not(metres):
    _, details = warned(depths(*metres))
    assert not [detail for detail in details if "hardly tell" in detail]


HAND = 0.1 / sqrt(2)
"""s: two times of one fall differ by 0.1 s where each scatters by so much. Common practice, no source."""
DIFFERING = (1.1, 1.13, 1.11, 1.12)


def pooled(seconds):
    """JCGM 100:2008, 4.2.4: a hand's own scatter with three degrees of freedom, and that of the times with theirs."""
    freedom = len(seconds) - 1
    found = stdev(seconds) if freedom else 0.0
    return max(found, sqrt((3 * HAND**2 + freedom * found**2) / (3 + freedom)))


@pytest.mark.parametrize(
    "seconds",
    [(1.1,), (1.1, 1.1), (1.13, 1.131), (1.1, 1.1, 1.1), (1.1, 1.1, 1.11, 1.1), DIFFERING, (1.0, 1.2, 1.35, 0.9)],
)
def test_times_by_hand_are_pooled_with_what_a_hand_is_known_to_scatter(seconds):
    """The mean of n is surer by the root of n (JCGM 100:2008, 4.2.3)."""
    found = warned(stones(*seconds))[0].depth_to_water
    at = 1e-3
    slope = (warned(stones(*(time + at for time in seconds)))[0].depth_to_water.value - found.value) / at
    hand = found.uncertainty**2 - (slope * pooled(seconds) / sqrt(len(seconds))) ** 2
    assert hand == pytest.approx((slope * 0.05) ** 2, rel=0.07), "what is left is the hand's delay, 0.05 s"


def test_one_more_time_that_agrees_makes_the_depth_a_little_surer_and_never_far_surer():
    """Nor does it leap where the times differ by a hair more."""
    sure = [warned(stones(*[1.18] * number))[0].depth_to_water.uncertainty for number in range(1, 9)]
    assert sure == sorted(sure, reverse=True)
    assert all(more > 0.6 * fewer for fewer, more in pairwise(sure))
    hair = [warned(stones(1.18, 1.18, 1.18, 1.18 + by))[0].depth_to_water.uncertainty for by in (0.009, 0.01, 0.011)]
    assert max(hair) < 1.01 * min(hair)


def test_what_is_told_of_the_times_stands_in_for_the_hand():
    by_each = {"uncertainty": pooled((1.1, 1.1))}
    told, found = (warned(stones(1.1, 1.1, **more))[0].depth_to_water.uncertainty for more in (by_each, {}))
    assert told == pytest.approx(found, rel=0.01)
    surer = warned(stones(1.1, 1.1, uncertainty=0.01))[0].depth_to_water.uncertainty
    assert surer < found
