"""An uncertain input makes the figures of an answer uncertain, by what the answer itself does when the input moves."""

from copy import deepcopy
from math import hypot

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from footvalve.answers.endpoints import ENDPOINT, ENDPOINTS
from footvalve.contract.examples import examples
from footvalve.contract.pointed import changed_at, tokens, value_at
from footvalve.contract.problem import Refused
from footvalve.contract.ranges import stated_quantities
from footvalve.quantity import from_base, to_base

DIGITS = 5e-6
"""Of a told value, by which it may be off: it has six digits."""


def of(value, unit):
    return {"value": value, "unit": unit}


def example(name, which, **changes):
    return deepcopy(next(each.request for each in examples(name) if each.name == which)) | changes


def changed(body, pointer, **fields):
    """The body with other fields in what the pointer leads to."""
    body = deepcopy(body)
    part = body
    for step in pointer.split("/")[1:]:
        part = part[int(step) if isinstance(part, list) else step]
    part |= fields
    return body


def uncertain(body, **sigmas):
    """The body with standard uncertainties, each in the unit of its quantity, at pointers without the first slash."""
    for pointer, sigma in sigmas.items():
        body = changed(body, f"/{pointer}", uncertainty=sigma)
    return body


def moved(body, pointer, by):
    part = body
    for step in pointer.split("/")[1:]:
        part = part[int(step) if isinstance(part, list) else step]
    return changed(body, pointer, value=part["value"] + by)


def ask(name, body):
    endpoint = ENDPOINT[name]
    return endpoint(msgspec.convert(body, endpoint.request))


def uncertainties(name, body):
    """The uncertainty in SI of every figure of the answer's headline, with its pointer; what has none is not there."""
    endpoint = ENDPOINT[name]
    request = msgspec.convert(body, endpoint.request)
    answer = endpoint(request)
    told = {pointer: value_at(answer, pointer) for pointer in endpoint.headline(request).figures}
    return {pointer: quantity.base_uncertainty for pointer, quantity in told.items() if quantity.uncertainty}


TEST_OF_WELL = example("well-recovery", "pumping-test")
TANKS = example("tank-cycle", "us")
BATTERY = example("battery-runtime", "us")
PLAN = example("site-plan", "us", sounding=None, depth_to_water=of(13.5, "ft"))
del PLAN["sounding"]

MOVES = [
    ("well-recovery", TEST_OF_WELL, "/pumping_test/flow", 0.1),
    ("well-recovery", TEST_OF_WELL, "/pumping_test/pumping_depth", 0.05),
    ("well-recovery", TEST_OF_WELL, "/casing_diameter", 0.1),
    ("well-recovery", TEST_OF_WELL, "/design_flow", 0.05),
    ("tank-cycle", TANKS, "/tanks/0/volume", 1.0),
    ("tank-cycle", TANKS, "/tanks/0/precharge", 0.5),
    ("tank-cycle", TANKS, "/switch/cut_out", 0.5),
    ("tank-cycle", TANKS, "/demands/1", 0.05),
    ("battery-runtime", BATTERY, "/battery/capacity", 2.0),
    ("battery-runtime", BATTERY, "/loads/0/current", 0.2),
    ("battery-runtime", BATTERY, "/pump_flow", 0.05),
    ("battery-runtime", BATTERY, "/wire/length", 0.5),
    ("site-plan", PLAN, "/depth_to_water", 0.5),
    ("site-plan", PLAN, "/well/pumping_test/flow", 0.2),
    ("site-plan", PLAN, "/pump/rated_suction_lift", 0.5),
    ("site-plan", PLAN, "/pump/points/1/flow", 0.05),
    ("site-plan", PLAN, "/suction_line/3/length", 0.1),
    ("site-plan", PLAN, "/delivery_line/1/length", 0.5),
    ("site-plan", PLAN, "/switch/cut_in", 0.5),
    ("site-plan", PLAN, "/tanks/0/volume", 1.0),
    ("site-plan", PLAN, "/daily_water", 5.0),
    ("site-plan", PLAN, "/battery/capacity", 3.0),
    ("site-plan", PLAN, "/site/altitude", 50.0),
]


@pytest.mark.parametrize(
    ("name", "body", "pointer", "sigma"), MOVES, ids=lambda row: row if isinstance(row, str) else ""
)
def test_a_figure_is_as_uncertain_as_the_answer_moves(name, body, pointer, sigma):
    """Asked again one standard uncertainty up and down, through the same endpoint; within the digits on the wire."""
    answer = ask(name, uncertain(body, **{pointer[1:]: sigma}))
    up, down = (ask(name, moved(body, pointer, by)) for by in (sigma, -sigma))
    figures = ENDPOINT[name].headline(msgspec.convert(body, ENDPOINT[name].request)).figures
    seen = 0
    for place in figures:
        told, above, below = (value_at(each, place) for each in (answer, up, down))
        if below is msgspec.UNSET or above is msgspec.UNSET:
            continue
        change = abs(above.base - below.base) / 2.0
        slack = DIGITS * max(abs(above.value), abs(below.value)) * to_base(1.0, told.unit)
        assert told.base_uncertainty == pytest.approx(change, rel=1e-5, abs=slack), place
        seen += bool(told.uncertainty)
    assert seen, "nothing moved"


def test_uncertain_inputs_add_in_quadrature():
    one = uncertain(TANKS, **{"tanks/0/volume": 1.0})
    other = uncertain(TANKS, **{"switch/cut_out": 0.5})
    both = uncertain(one, **{"switch/cut_out": 0.5})
    alone, beside, together = (uncertainties("tank-cycle", body)["/drawdown"] for body in (one, other, both))
    assert together == pytest.approx(hypot(alone, beside), rel=1e-5)


def test_a_tanks_drawdown_by_hand():
    """V (p0/p1 - p0/p2) by Boyle; its derivatives by V, and by the precharge p0."""
    body = TANKS | {"gas_exponent": 1.0, "tanks": [{"volume": of(100, "L"), "precharge": of(200, "kPa")}]}
    body |= {"switch": {"cut_in": of(210, "kPa"), "cut_out": of(345, "kPa")}, "units": "metric", "site": {}}
    air = 101.325
    fraction = (200 + air) * (1 / (210 + air) - 1 / (345 + air))
    by_volume = uncertainties("tank-cycle", uncertain(body, **{"tanks/0/volume": 2.0}))["/drawdown"]
    assert by_volume == pytest.approx(0.002 * fraction, rel=1e-5)
    by_precharge = uncertainties("tank-cycle", uncertain(body, **{"tanks/0/precharge": 3.0}))["/drawdown"]
    assert by_precharge == pytest.approx(3.0 * 0.1 * fraction / (200 + air), rel=1e-5)


def test_the_drop_in_a_wire_is_as_uncertain_as_its_length():
    found = ask("battery-runtime", uncertain(BATTERY, **{"wire/length": 0.5}))
    drop, length = found.voltage_drop.volts, BATTERY["wire"]["length"]["value"]
    assert drop.uncertainty == pytest.approx(drop.value * 0.5 / length, rel=1e-5)
    assert not found.runtime.uncertainty


def test_a_precharge_that_explains_an_observation_is_as_uncertain_as_that():
    body = example("tank-cycle", "observed-drawdown")
    found = ask("tank-cycle", uncertain(body, **{"observed_drawdown": 0.2}))
    assert found.diagnosis.precharge.uncertainty == found.diagnosis.shift.uncertainty > 0.0


def test_a_figure_that_may_not_be_there_is_warned_of():
    """With a little more demand the pump runs on, and there is no run to tell of."""
    body = example("tank-cycle", "us") | {"pump": {"flow": of(5, "gal/min")}}
    del body["demands"]
    found = ask("tank-cycle", body | {"demand": of(4.9, "gal/min") | {"uncertainty": 0.2}})
    assert found.run_time is not msgspec.UNSET
    assert found.demand.uncertainty
    assert any(w.pointer == "/demand" and "`run_time`" in w.detail for w in found.warnings)


@pytest.mark.parametrize(
    ("name", "body", "pointer", "sigma"), MOVES, ids=lambda row: row if isinstance(row, str) else ""
)
def test_the_contributions_point_into_the_answer_and_the_request_as_they_are_on_the_wire(name, body, pointer, sigma):
    answer = ask(name, uncertain(body, **{pointer[1:]: sigma}) | {"contributions": True})
    on_the_wire = msgspec.to_builtins(answer)
    assert answer.contributions
    for row in answer.contributions:
        part = on_the_wire
        for step in row.quantity.split("/")[1:]:
            part = part[step]
        assert part["uncertainty"] > 0.0
        assert [(share.pointer, share.variance_fraction) for share in row.inputs if share.kind == "stated"] == [
            (pointer, 1.0)
        ] or name == "site-plan"
        assert sum(share.variance_fraction for share in row.inputs) == pytest.approx(1.0, abs=1e-5)


METRIC = {"ft": "m", "in": "mm", "gal/min": "L/min", "gal": "L", "psi": "kPa"}


def in_metric(part):
    """A body in metric units, uncertainties too; temperatures are left as they are."""
    if isinstance(part, list):
        return [in_metric(each) for each in part]
    if not isinstance(part, dict):
        return part
    if part.get("unit") in METRIC:
        unit = METRIC[part["unit"]]
        scale = to_base(1.0, part["unit"]) / to_base(1.0, unit)
        told = {"value": from_base(to_base(part["value"], part["unit"]), unit), "unit": unit}
        return told | ({"uncertainty": part["uncertainty"] * scale} if "uncertainty" in part else {})
    return {key: in_metric(value) for key, value in part.items()}


@pytest.mark.parametrize(
    ("name", "body", "pointer", "sigma"), MOVES, ids=lambda row: row if isinstance(row, str) else ""
)
def test_the_same_in_feet_and_in_metres_is_as_uncertain(name, body, pointer, sigma):
    us = uncertain(body, **{pointer[1:]: sigma})
    one, other = uncertainties(name, us | {"units": "us"}), uncertainties(name, in_metric(us) | {"units": "metric"})
    per_volume = "/duty/charge_per_volume/charge"  # for 100 gal, or for 100 L
    assert one.keys() == other.keys()
    for place in one.keys() - {per_volume}:
        # a step of Brent's method ends a little elsewhere: what hardly moves is all rounding
        assert other[place] == pytest.approx(one[place], rel=1e-3, abs=1e-9), place


def test_too_great_an_uncertainty_is_told_of_and_breaks_nothing():
    """Neither side can be reckoned."""
    found = ask("battery-runtime", uncertain(BATTERY, **{"battery/capacity": 1e6}))
    assert not found.runtime.uncertainty
    assert "/battery/capacity" in [warning.pointer for warning in found.warnings]


def test_a_request_that_is_refused_stays_refused():
    body = uncertain(TANKS | {"switch": {"cut_in": of(50, "psi"), "cut_out": of(40, "psi")}}, **{"tanks/0/volume": 1.0})
    with pytest.raises(Refused):
        ask("tank-cycle", body)


ALL = [(endpoint, each.request) for endpoint in ENDPOINTS for each in examples(endpoint.name)]


@settings(max_examples=60)
@given(st.sampled_from(ALL), st.lists(st.tuples(st.integers(0, 200), st.floats(-9.0, 4.0)), min_size=1, max_size=8))
def test_no_uncertainty_breaks_an_answer(asked, drawn):
    """From a hair to far beyond the value, of any quantities: there is an answer, or a refusal with pointers."""
    endpoint, body = asked
    request = replace(msgspec.convert(body, endpoint.request), contributions=True)
    stated = list(stated_quantities(request))
    for place, power in drawn if stated else ():
        at = stated[place % len(stated)]
        sigma = (abs(at.quantity.value) or 1.0) * 10.0**power
        request = changed_at(request, tokens(at.pointer), lambda old, of=sigma: replace(old, uncertainty=of))
    answer = endpoint(request)
    for row in answer.contributions:
        told = value_at(answer, row.quantity)
        assert 0.0 < told.uncertainty < float("inf")
        assert sum(share.variance_fraction for share in row.inputs) == pytest.approx(1.0, abs=1e-4)
