"""Readings that were repeated tell by their scatter how well their mean is known (type A)."""

from copy import deepcopy
from math import hypot, sqrt
from statistics import fmean, stdev

import msgspec
import pytest

from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.reading_scatter import SCATTER, no_scatter, sounding_scatter
from footvalve.answers.uncertain_inputs import OutOfRange
from footvalve.contract.sounding import SoundingRequest
from footvalve.quantity import to_base

SOUNDING = ENDPOINT["sounding"]

TEMPERATURES = (96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95)
TEMPERATURES += (101.11, 101.20, 101.57, 101.84, 102.36, 102.72)
"""The readings of JCGM 100:2008, Table 1, whose mean 4.4.3 gives as 100.14 with 0.33: from memory, and the mean and
deviation that are computed of them agree. Here they are depths in m."""


def of(value, unit, uncertainty=None):
    return {"value": value, "unit": unit} | ({} if uncertainty is None else {"uncertainty": uncertainty})


def direct(*depths, unit="m", **more):
    return {
        "units": "metric",
        "measurement": {"method": "direct", "depths": [of(depth, unit) for depth in depths]},
    } | more


def ask(body):
    return SOUNDING(msgspec.convert(body, SoundingRequest))


def scatter_of(body):
    request = msgspec.convert(body, SoundingRequest)
    return list(sounding_scatter(request.measurement, "/measurement"))


def test_the_readings_of_the_guide():
    found = ask(direct(*TEMPERATURES)).depth_to_water
    assert found.value == pytest.approx(100.145, abs=0.005)
    assert found.uncertainty == pytest.approx(0.33, abs=0.005)


def test_the_mean_is_as_uncertain_as_the_scatter_over_the_root_of_their_number():
    found = ask(direct(4.0, 4.1, 4.3))
    expected = stdev((4.0, 4.1, 4.3)) / sqrt(3)
    assert found.depth_to_water.uncertainty == pytest.approx(expected, rel=1e-5)
    assert found.depth_below_ground.uncertainty == found.depth_to_water.uncertainty


def test_the_answer_speaks_of_it_in_its_own_units():
    metric = ask(direct(4.0, 4.1, 4.3)).depth_to_water
    us = ask(direct(4.0, 4.1, 4.3, units="us")).depth_to_water
    assert us.unit == "ft"
    assert us.uncertainty * 0.3048 == pytest.approx(metric.uncertainty, rel=1e-5)


READINGS = {
    "stone-drop": {"times": [of(1.0, "s"), of(1.1, "s"), of(1.15, "s")], "stone_diameter": of(25, "mm")},
    "echo": {"times": [of(0.050, "s"), of(0.052, "s"), of(0.053, "s")]},
    "air-line": {"line_length": of(30, "ft"), "pressures": [of(5.0, "psi"), of(5.4, "psi"), of(5.1, "psi")]},
    "direct": {"depths": [of(12.0, "ft"), of(12.2, "ft"), of(12.1, "ft")]},
    "wetted-tape": {
        "pairs": [
            {"held": of(20, "ft"), "cut": of(5.0, "ft")},
            {"held": of(21, "ft"), "cut": of(5.9, "ft")},
            {"held": of(20, "ft"), "cut": of(5.05, "ft")},
        ]
    },
}
SHOWN = [method for method in READINGS if method != "stone-drop"]
"""What an instrument shows: a time by hand scatters, whatever it shows (test_scatter_doubts.py)."""
LISTS = {"stone-drop": "times", "echo": "times", "air-line": "pressures", "direct": "depths", "wetted-tape": "pairs"}


def measured(method):
    return {"measurement": {"method": method} | deepcopy(READINGS[method])}


def values(method, body):
    """What is read each time, in its own unit."""
    rows = body["measurement"][LISTS[method]]
    if method == "wetted-tape":
        return [row["held"]["value"] - row["cut"]["value"] for row in rows]
    return [row["value"] for row in rows]


@pytest.mark.parametrize("method", READINGS)
def test_the_depth_moves_with_the_readings_as_the_answer_itself_says(method):
    """All readings are moved up and down by the uncertainty of their mean, and the public answer asked again."""
    body = measured(method)
    sigma = stdev(values(method, body)) / sqrt(3)

    def depth_with(by):
        moved = deepcopy(body)
        for row in moved["measurement"][LISTS[method]]:
            (row["held"] if method == "wetted-tape" else row)["value"] += by
        return ask(moved).depth_to_water.value

    change = abs(depth_with(sigma) - depth_with(-sigma)) / 2.0
    assert ask(body).depth_to_water.uncertainty == pytest.approx(change, rel=1e-3)


@pytest.mark.parametrize("method", READINGS)
def test_it_is_near_the_scatter_of_the_depths_themselves(method):
    """As all these methods run nearly straight over their readings."""
    found = ask(measured(method))
    depths = [reading.value for reading in found.readings]
    assert found.depth_to_water.uncertainty == pytest.approx(stdev(depths) / sqrt(3), rel=0.02)


@pytest.mark.parametrize("method", READINGS)
def test_the_list_of_readings_is_told_as_one_input_of_type_a(method):
    found = ask(measured(method) | {"contributions": True})
    pointer = f"/measurement/{LISTS[method]}"
    row = next(row for row in found.contributions if row.quantity == "/depth_to_water")
    effect = "lowers" if method == "air-line" else "raises"
    assert [(share.pointer, share.kind, share.effect, share.variance_fraction) for share in row.inputs] == [
        (pointer, "scatter", effect, 1.0)
    ]
    assert SCATTER.name in [step.method for step in found.basis]


@pytest.mark.parametrize("method", SHOWN)
def test_one_reading_alone_does_not_scatter(method):
    body = measured(method)
    del body["measurement"][LISTS[method]][1:]
    assert not scatter_of(body)
    found = ask(body)
    assert not found.depth_to_water.uncertainty
    assert SCATTER.name not in [step.method for step in found.basis]


@pytest.mark.parametrize("method", SHOWN)
def test_readings_that_agree_do_not_scatter(method):
    body = measured(method)
    rows = body["measurement"][LISTS[method]]
    body["measurement"][LISTS[method]] = [rows[0]] * 5
    assert not scatter_of(body)
    assert not ask(body).depth_to_water.uncertainty


def test_what_is_stated_of_a_reading_comes_on_top():
    """The instrument's own uncertainty of 0.05 m on each of three readings is 0.05 m / sqrt(3) of their mean."""
    body = direct(4.0, 4.1, 4.3, contributions=True)
    for depth in body["measurement"]["depths"]:
        depth["uncertainty"] = 0.05
    found = ask(body)
    scatter, stated = stdev((4.0, 4.1, 4.3)) / sqrt(3), 0.05 / sqrt(3)
    assert found.depth_to_water.uncertainty == pytest.approx(hypot(scatter, stated), rel=1e-5)
    shares = {share.pointer: share.variance_fraction for share in found.contributions[0].inputs}
    assert shares["/measurement/depths"] == pytest.approx(scatter**2 / (scatter**2 + stated**2), rel=1e-4)
    assert len(shares) == 4


def test_the_readings_keep_their_places_and_their_own_uncertainties_when_they_are_moved():
    body = direct(4.0, 4.1, 4.3)
    body["measurement"]["depths"][1]["uncertainty"] = 0.05
    request = msgspec.convert(body, SoundingRequest)
    (scatter,) = scatter_of(body)
    moved = scatter.shifted(request, 2.0).measurement.depths
    by = 2.0 * stdev((4.0, 4.1, 4.3)) / sqrt(3)
    assert [depth.value for depth in moved] == pytest.approx([4.0 + by, 4.1 + by, 4.3 + by])
    assert moved[1].uncertainty == 0.05
    assert [depth.value for depth in request.measurement.depths] == [4.0, 4.1, 4.3]


def test_readings_of_several_units_are_one_list():
    body = direct(4.0)
    body["measurement"]["depths"] += [of(410, "cm"), of(4.3 / 0.3048, "ft")]
    assert ask(body).depth_to_water.uncertainty == pytest.approx(stdev((4.0, 4.1, 4.3)) / sqrt(3), rel=1e-5)


def test_a_scatter_that_leads_out_of_the_contract_is_said_to():
    """A pressure of nearly nothing and a wild one: the mean less its uncertainty puts the first below nought."""
    body = measured("air-line")
    body["measurement"] |= {"line_length": of(50, "ft"), "pressures": [of(0.5, "psi"), of(9.0, "psi")]}
    request = msgspec.convert(body, SoundingRequest)
    (scatter,) = scatter_of(body)
    with pytest.raises(OutOfRange):
        scatter.shifted(request, -1.0)
    found = ask(body)
    assert found.depth_to_water.uncertainty > 0.0
    told = [warning.detail for warning in found.warnings if warning.pointer == "/measurement/pressures"]
    assert any("only the value plus its uncertainty was tried" in detail for detail in told)


def test_a_request_without_readings_has_no_scatter():
    assert list(no_scatter(None)) == []


def test_more_readings_make_the_mean_surer():
    few, many = ask(direct(4.0, 4.2)), ask(direct(*((4.0, 4.2) * 20)))
    assert many.depth_to_water.uncertainty < few.depth_to_water.uncertainty / 4.0
    assert fmean((4.0, 4.2)) == pytest.approx(to_base(many.depth_to_water.value, "m"))
