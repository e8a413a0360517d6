"""The uncertainty of an answer's figures, against draws of the same answer (JCGM 101) and against what the equations
say; and what must hold whatever is uncertain."""

import json
import math
from copy import deepcopy

import httpx
import msgspec
import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from footvalve.answers.endpoints import ENDPOINT, ENDPOINTS
from footvalve.answers.headline import Headline
from footvalve.answers.propagation import effects, propagated
from footvalve.answers.propagation_doubts import propagation_doubts
from footvalve.answers.uncertain_inputs import MOST_UNCERTAIN, UncertainInput
from footvalve.contract.answer import Answer
from footvalve.contract.examples import examples
from footvalve.contract.pointed import value_at
from footvalve.contract.problem import Refused
from footvalve.quantity import to_base

UNSET = msgspec.UNSET
FOOT, INCH = 0.3048, 0.0254


def of(value, unit, uncertainty=None):
    return {"value": value, "unit": unit} | ({} if uncertainty is None else {"uncertainty": uncertainty})


def example(name, which, **changes):
    return deepcopy(next(each.request for each in examples(name) if each.name == which)) | changes


def part_at(body, pointer):
    for step in pointer.split("/")[1:]:
        body = body[int(step) if isinstance(body, list) else step]
    return body


def uncertain(body, sigmas):
    """The body with standard uncertainties at some pointers, each in the unit of its quantity."""
    body = deepcopy(body)
    for pointer, sigma in sigmas.items():
        part_at(body, pointer)["uncertainty"] = sigma
    return body


def moved(body, moves):
    body = deepcopy(body)
    for pointer, by in moves.items():
        part_at(body, pointer)["value"] += by
    return body


def ask(name, body):
    endpoint = ENDPOINT[name]
    return endpoint(msgspec.convert(body, endpoint.request))


def figures(name, body):
    """The pointers to the figures of an answer."""
    endpoint = ENDPOINT[name]
    return list(endpoint.headline(msgspec.convert(body, endpoint.request)).figures)


SOUNDED = {
    "units": "metric",
    "measurement": {
        "method": "stone-drop",
        "times": [of(1.4, "s")],
        "stone_diameter": of(25, "mm"),
        "reaction_delay": of(0.2, "s"),
    },
    "measuring_point_height": of(0.5, "m"),
}
SUCTION = example("suction-feasibility", "us")
ONCE = deepcopy(SUCTION)
"""The same with the pump's inlet told once, so that a draw that moves it alone does not tear the line."""
del ONCE["line"][8]["end_elevation"]
STROKES = example("suction-feasibility", "metric-reciprocating")
FRICTION = example("friction", "us")
WELL = example("well-recovery", "pumping-test")
TANK = example("tank-cycle", "us")
BATTERY = example("battery-runtime", "us")

NEARLY_STRAIGHT = {
    "sounding": (
        SOUNDED,
        {
            "/measurement/times/0": 0.03,
            "/measurement/stone_diameter": 1.0,
            "/measurement/reaction_delay": 0.02,
            "/measuring_point_height": 0.05,
        },
    ),
    "friction": (FRICTION, {"/flow": 0.15, "/line/1/length": 3.0, "/line/5/dirty_drop": 0.1}),
    "suction-feasibility": (
        ONCE,
        {
            "/depth_to_water": 0.3,
            "/seasonal_fall": 0.5,
            "/specific_capacity": 0.1,
            "/flow": 0.1,
            "/pump/rated_suction_lift": 0.5,
            "/pump/inlet_elevation": 0.2,
            "/line/7/dirty_drop": 0.2,
            "/site/altitude": 100.0,
            "/site/water_temperature": 2.0,
        },
    ),
    "suction-feasibility strokes": (STROKES, {"/flow": 0.4, "/depth_to_water": 0.1, "/pump/npsh_required": 0.2}),
    "well-recovery": (WELL, {"/pumping_test/flow": 0.1, "/pumping_test/pumping_depth": 0.1, "/design_flow": 0.05}),
    "tank-cycle": (TANK, {"/tanks/0/volume": 1.0, "/switch/cut_in": 0.3, "/switch/cut_out": 0.5}),
    "battery-runtime": (BATTERY, {"/battery/capacity": 3.0, "/loads/0/current": 0.2, "/wire/length": 0.5}),
}
"""Bodies with uncertainties over which their figures run nearly straight, each in the unit of its quantity."""

DRAWS = 800
SAMPLING = 4.0 / math.sqrt(2.0 * DRAWS)
"""Relative error of a standard deviation of so many normal draws, at four standard deviations: 10 %."""


@pytest.mark.parametrize("which", NEARLY_STRAIGHT)
def test_every_figure_is_as_uncertain_as_draws_of_the_answer_scatter(which):
    """JCGM 101: the same public answer, asked at draws of the inputs."""
    name = which.split()[0]
    body, sigmas = NEARLY_STRAIGHT[which]
    answer = ask(name, uncertain(body, sigmas))
    rows = np.random.default_rng(4).normal(0.0, list(sigmas.values()), (DRAWS, len(sigmas)))
    drawn = [ask(name, moved(body, dict(zip(sigmas, row, strict=True)))) for row in rows.tolist()]
    for pointer in figures(name, body):
        told = value_at(answer, pointer)
        values = [value_at(each, pointer) for each in drawn]
        if UNSET in values:
            continue
        scatter = float(np.std([each.value for each in values]))
        digits = 1e-5 * abs(told.value)
        assert (told.uncertainty or 0.0) == pytest.approx(scatter, rel=SAMPLING, abs=digits), pointer
    assert any(value_at(answer, pointer).uncertainty for pointer in figures(name, body))


# --- against what the equations say


def test_the_static_lift_adds_the_depths_in_quadrature():
    sigmas = {"/depth_to_water": 0.3, "/seasonal_fall": 0.4, "/pump/inlet_elevation": 1.2}
    found = ask("suction-feasibility", uncertain(SUCTION, sigmas))
    assert found.static_lift.uncertainty == pytest.approx(1.3, rel=1e-5)
    assert found.pumping_depth.uncertainty == pytest.approx(0.5, rel=1e-5)


def test_the_drawdown_is_flow_over_specific_capacity():
    body = uncertain(SUCTION, {"/specific_capacity": 0.05, "/flow": 0.08})
    found = ask("suction-feasibility", body)
    drawdown = 4.0 / 2.5
    assert found.pumping_depth.uncertainty == pytest.approx(drawdown * math.hypot(0.05 / 2.5, 0.08 / 4.0), rel=1e-3)


def test_the_npsh_required_is_as_uncertain_as_the_rated_lift():
    found = ask("suction-feasibility", uncertain(SUCTION, {"/pump/rated_suction_lift": 0.5}))
    assert found.npsh_required.uncertainty == found.margin.uncertainty == pytest.approx(0.5, rel=1e-5)
    assert not found.npsh_available.uncertainty


def test_the_acceleration_head_grows_with_the_flow():
    found = ask("suction-feasibility", uncertain(STROKES, {"/flow": 0.11}))
    assert found.acceleration_head.uncertainty == pytest.approx(0.01 * found.acceleration_head.value, rel=1e-5)


def straight_pipe(**more):
    bore = {"diameter": of(25, "mm"), "roughness": of(0.0, "mm"), "hazen_williams_coefficient": 140}
    pipe = {"part": "pipe", "bore": bore, "length": of(40, "m")}
    return {"units": "metric", "flow": of(20, "L/min"), "line": [pipe], "method": "hazen-williams"} | more


@pytest.mark.parametrize(
    ("pointer", "sigma", "exponent"),
    [("/flow", 0.02, 1.852), ("/line/0/length", 0.04, 1.0), ("/line/0/bore/diameter", 0.025, 4.8704)],
)
def test_hazen_and_williams_exponents_are_those_of_the_uncertainties(pointer, sigma, exponent):
    """h ~ Q^1.852 L / d^4.8704, so that each relative uncertainty counts by its exponent."""
    body = straight_pipe()
    found = ask("friction", uncertain(body, {pointer: sigma}))
    relative = sigma / part_at(body, pointer)["value"]
    assert found.total_head_loss.uncertainty / found.total_head_loss.value == pytest.approx(
        exponent * relative, rel=1e-4
    )
    assert found.total_pressure_drop.uncertainty / found.total_pressure_drop.value == pytest.approx(
        exponent * relative, rel=1e-4
    )


def test_a_passage_by_the_square_law_counts_the_flow_twice():
    pump = {"part": "idle-pump", "flow": of(20, "L/min"), "drop": of(4, "kPa")}
    found = ask("friction", {"units": "metric", "flow": of(10, "L/min", 0.1), "line": [pump]})
    assert found.total_head_loss.uncertainty / found.total_head_loss.value == pytest.approx(2 * 0.01, rel=1e-5)


def test_a_wetted_tape_adds_both_ends_of_its_reading():
    pair = {"held": of(40, "ft", 0.03), "cut": of(6, "ft", 0.04)}
    body = {"measurement": {"method": "wetted-tape", "pairs": [pair]}, "measuring_point_height": of(1, "ft", 0.12)}
    found = ask("sounding", body)
    assert found.depth_to_water.uncertainty == pytest.approx(0.05, rel=1e-5)
    assert found.depth_below_ground.uncertainty == pytest.approx(0.13, rel=1e-5)


def test_a_tenth_of_a_second_on_the_watch_is_what_half_the_answers_difference_says():
    body = {"measurement": {"method": "stone-drop", "times": [of(1.0, "s", 0.1)]}}
    low, high = (ask("sounding", {"measurement": {"method": "stone-drop", "times": [of(t, "s")]}}) for t in (0.9, 1.1))
    found = ask("sounding", body).depth_to_water
    assert found.uncertainty == pytest.approx((high.depth_to_water.value - low.depth_to_water.value) / 2.0, rel=1e-5)
    assert 3.0 < found.uncertainty < 3.3, "ft"


# --- units


@pytest.mark.parametrize(
    ("pointer", "one", "other"),
    [
        ("/site/water_temperature", of(51.8, "degF", 1.8), of(11.0, "degC", 1.0)),
        ("/site/water_temperature", of(51.8, "degF", 1.8), of(284.15, "K", 1.0)),
        ("/line/0/bore/diameter", of(1.0, "in", 0.1), of(25.4, "mm", 2.54)),
        ("/depth_to_water", of(15, "ft", 0.5), of(15 * FOOT * 100, "cm", 0.5 * FOOT * 100)),
        ("/line/1/drop", of(0.6, "psi", 0.1), of(0.6 * 6894.757293168, "Pa", 689.4757293168)),
    ],
)
def test_an_uncertainty_is_in_the_unit_of_its_value(pointer, one, other):
    """Of a temperature it is a difference: 1.8 degF are 1 degC and 1 K."""
    answers = []
    for quantity in (one, other):
        body = deepcopy(SUCTION)
        part_at(body, pointer).update(quantity)
        answers.append(ask("suction-feasibility", body))
    for place in figures("suction-feasibility", SUCTION):
        by_one, by_other = (value_at(answer, place) for answer in answers)
        assert (by_one.uncertainty or 0.0) == pytest.approx(by_other.uncertainty or 0.0, rel=1e-4, abs=1e-9), place
    assert answers[0].margin.uncertainty


@pytest.mark.parametrize("which", NEARLY_STRAIGHT)
def test_the_answer_is_as_uncertain_in_feet_as_in_metres(which):
    name = which.split()[0]
    body, sigmas = NEARLY_STRAIGHT[which]
    us, metric = (ask(name, uncertain(body, sigmas) | {"units": units}) for units in ("us", "metric"))
    for pointer in figures(name, body):
        one, other = value_at(us, pointer), value_at(metric, pointer)
        assert one.base_uncertainty == pytest.approx(other.base_uncertainty, rel=1e-4, abs=1e-9), pointer


# --- what is told beside it


def shares_of(answer, quantity):
    return next(row.inputs for row in answer.contributions if row.quantity == quantity)


@pytest.mark.parametrize("which", NEARLY_STRAIGHT)
def test_the_contributions_add_up_to_one_and_the_greatest_comes_first(which):
    name = which.split()[0]
    body, sigmas = NEARLY_STRAIGHT[which]
    answer = ask(name, uncertain(body, sigmas) | {"contributions": True})
    assert {row.quantity for row in answer.contributions} == {
        pointer for pointer in figures(name, body) if value_at(answer, pointer).uncertainty
    }
    for row in answer.contributions:
        fractions = [share.variance_fraction for share in row.inputs]
        assert sum(fractions) == pytest.approx(1.0, abs=1e-5)
        assert fractions == sorted(fractions, reverse=True)
        assert {share.pointer for share in row.inputs} <= set(sigmas)


def test_a_contribution_is_the_part_of_the_variance_and_says_which_way_it_goes():
    body = uncertain(SUCTION, {"/depth_to_water": 0.3, "/pump/rated_suction_lift": 0.4}) | {"contributions": True}
    shares = shares_of(ask("suction-feasibility", body), "/margin")
    assert [(share.pointer, share.kind, share.effect) for share in shares] == [
        ("/pump/rated_suction_lift", "stated", "raises"),
        ("/depth_to_water", "stated", "lowers"),
    ]
    assert [share.variance_fraction for share in shares] == pytest.approx([0.64, 0.36], rel=1e-5)


def test_an_input_that_has_nothing_to_do_with_a_quantity_is_not_among_its_contributions():
    policy = {"margin": of(3, "ft", 0.1)}
    body = uncertain(SUCTION, {"/depth_to_water": 0.3}) | {"policy": policy, "contributions": True}
    answer = ask("suction-feasibility", body)
    assert [share.pointer for share in shares_of(answer, "/margin")] == ["/depth_to_water"]
    assert "/npsh_required" not in [row.quantity for row in answer.contributions]


def test_contributions_are_told_on_request_alone():
    body = uncertain(SUCTION, {"/depth_to_water": 0.3})
    assert ask("suction-feasibility", body).contributions is UNSET
    assert ask("suction-feasibility", SUCTION | {"contributions": True}).contributions == []


WITHOUT_SCATTER = [
    pytest.param(endpoint.name, each.request, id=f"{endpoint.name} {each.name}")
    for endpoint in ENDPOINTS
    for each in examples(endpoint.name)
    if not list(endpoint.scatter(msgspec.convert(each.request, endpoint.request))) and "uncertainty" not in str(each)
]


@pytest.mark.parametrize(("name", "body"), WITHOUT_SCATTER)
def test_without_uncertain_inputs_the_answer_is_to_the_byte_that_without_this_chapter(name, body):
    endpoint = ENDPOINT[name]
    request = msgspec.convert(body, endpoint.request)
    assert msgspec.json.encode(endpoint(request)) == msgspec.json.encode(endpoint.compute(request))


@pytest.mark.parametrize(("name", "body"), WITHOUT_SCATTER)
def test_an_uncertainty_of_nought_is_none(name, body):
    nought = dict.fromkeys(quantities_in(body), 0)
    assert msgspec.json.encode(ask(name, uncertain(body, nought))) == msgspec.json.encode(ask(name, body))


def test_what_is_not_uncertain_is_as_it_was():
    """The values stand as they were, and what is added comes after what was there."""
    plain = json.loads(msgspec.json.encode(ask("suction-feasibility", SUCTION)))
    found = json.loads(msgspec.json.encode(ask("suction-feasibility", uncertain(SUCTION, {"/depth_to_water": 0.3}))))
    assert found.pop("chance_feasible") is not None
    for key in ("reasons", "basis", "warnings"):
        assert found.pop(key)[: len(plain[key])] == plain.pop(key)
    for key in ("margin", "npsh_available", "pumping_depth", "static_lift"):
        assert found[key].pop("uncertainty") == pytest.approx(0.3, rel=1e-5)
    assert found == plain


# --- places that a line tells twice


@pytest.mark.parametrize("ends_there_too", [True, False])
def test_the_inlet_moves_with_the_end_of_the_last_pipe(ends_there_too):
    """The example tells of the same place twice; moved alone, the inlet would be below the end of its pipe."""
    body = uncertain(SUCTION, {"/pump/inlet_elevation": 1.0})
    if not ends_there_too:
        del body["line"][8]["end_elevation"]
    found = ask("suction-feasibility", body)
    assert found.static_lift.uncertainty == pytest.approx(1.0, rel=1e-5)
    assert not any("uncertainty" in warning.detail for warning in found.warnings)


def test_a_place_that_is_told_twice_counts_once():
    one = ask("suction-feasibility", uncertain(SUCTION, {"/pump/inlet_elevation": 1.0}))
    other = ask("suction-feasibility", uncertain(SUCTION, {"/line/8/end_elevation": 1.0}))
    both = uncertain(SUCTION, {"/pump/inlet_elevation": 1.0, "/line/8/end_elevation": 0.5})
    assert one.margin == other.margin == ask("suction-feasibility", both).margin


@pytest.mark.parametrize("pointer", ["/intake_elevation", "/line/1/end_elevation", "/pump/inlet_elevation"])
def test_a_pipe_that_hangs_straight_stretches_with_its_ends(pointer):
    """The example's drop pipe is just as long as it is high: to move an end alone would tear it."""
    body = deepcopy(STROKES)
    body["line"][3]["length"] = of(1.8, "m")
    found = ask("suction-feasibility", uncertain(body, {pointer: 0.1}))
    assert not any("uncertainty" in warning.detail for warning in found.warnings)
    assert found.losses.uncertainty or pointer == "/pump/inlet_elevation"


def test_a_pipe_that_is_longer_than_it_is_high_does_not():
    body = deepcopy(STROKES)
    body["line"][1]["length"] = of(12, "m")
    found = ask("suction-feasibility", uncertain(body, {"/intake_elevation": 0.1}))
    assert not found.losses.uncertainty


# --- what cannot be carried through is said


def warnings_at(answer, pointer):
    return [
        warning.detail for warning in answer.warnings if warning.pointer == pointer and "uncertainty" in warning.detail
    ]


def test_one_side_that_cannot_be_is_told_of():
    body = SUCTION | {"drawdown": of(0.0, "ft", 0.5)}
    del body["specific_capacity"]
    found = ask("suction-feasibility", body)
    (told,) = warnings_at(found, "/drawdown")
    assert told.startswith(
        "the value less its uncertainty cannot be, and only the value plus its uncertainty was tried"
    )
    assert found.pumping_depth.uncertainty == pytest.approx(0.5, rel=1e-5)


def test_the_other_side_too():
    body = SUCTION | {"site": {"water_temperature": of(368.0, "K", 1.0)}}
    (told,) = warnings_at(ask("suction-feasibility", body), "/site/water_temperature")
    assert told.startswith(
        "the value plus its uncertainty cannot be, and only the value less its uncertainty was tried"
    )


def test_an_uncertainty_that_is_lost_is_told_of_and_the_others_count():
    found = ask("suction-feasibility", uncertain(SUCTION, {"/flow": 1e6, "/depth_to_water": 0.3}))
    (told,) = warnings_at(found, "/flow")
    assert "not counted" in told
    assert found.margin.uncertainty == pytest.approx(0.3, rel=1e-5)


def test_a_figure_that_bends_is_told_of():
    """A bore to the fifth power, uncertain by a fifth."""
    found = ask("friction", uncertain(straight_pipe(), {"/line/0/bore/diameter": 5.0}))
    (told,) = warnings_at(found, "/line/0/bore/diameter")
    assert "`total_head_loss`" in told
    assert "more to one side than to the other" in told


def test_a_summit_is_told_of():
    """A figure that falls to both sides is not uncertain by the first order, and still less sure than that."""

    def headline(moved):
        return Headline({"/margin": 2.0 - moved * moved, "/losses": 3.0 + moved})

    tried = UncertainInput("/flow", "stated", lambda centre, sigmas: centre + sigmas)
    centre, found = headline(0.0), effects(0.0, [tried], headline)
    (told,) = propagation_doubts(centre, found, propagated(centre, found))
    assert told.pointer == "/flow"
    assert "`margin`" in told.detail
    assert "`losses`" not in told.detail


def test_a_figure_that_runs_straight_is_not_warned_of():
    assert not warnings_at(ask("friction", uncertain(straight_pipe(), {"/line/0/length": 5.0})), "/line/0/length")


def test_a_figure_that_may_vanish_on_one_side_is_told_of():
    """With a demand just short of the pump's flow there may be no run to tell of."""
    body = TANK | {"pump": {"flow": of(5, "gal/min")}, "demand": of(4.9, "gal/min", 0.2)}
    del body["demands"]
    found = ask("tank-cycle", body)
    assert any("may not be in the answer at all" in told for told in warnings_at(found, "/demand"))


# --- what is refused


@pytest.mark.parametrize("uncertainty", [-0.1, 1e10, "0.1", None, True])
def test_what_is_no_uncertainty_breaks_the_schema(uncertainty):
    with pytest.raises(msgspec.ValidationError):
        ask(
            "suction-feasibility",
            uncertain(SUCTION, {"/depth_to_water": 0})
            | {"depth_to_water": {**of(15, "ft"), "uncertainty": uncertainty}},
        )


def many_lengths(count):
    pipe = {"part": "pipe", "size": {"product": "pe-sidr-15", "nominal": "1"}, "length": of(1, "m", 0.01)}
    return {"flow": of(4, "gal/min"), "line": [pipe] * count}


def test_too_many_uncertain_inputs_are_refused_at_the_first_that_is_too_many():
    assert ask("friction", many_lengths(MOST_UNCERTAIN)).total_head_loss.uncertainty
    with pytest.raises(Refused) as refused:
        ask("friction", many_lengths(MOST_UNCERTAIN + 1))
    assert [fault.pointer for fault in refused.value.faults] == [f"/line/{MOST_UNCERTAIN}/length/uncertainty"]


def test_over_http_the_one_is_a_400_and_the_other_a_422_with_pointers(base_url):
    negative = uncertain(SUCTION, {"/depth_to_water": -0.1})
    one = httpx.post(f"{base_url}/v1/suction-feasibility", json=negative)
    other = httpx.post(f"{base_url}/v1/friction", json=many_lengths(MOST_UNCERTAIN + 1))
    assert (one.status_code, other.status_code) == (400, 422)
    assert [error["pointer"] for error in one.json()["errors"]] == ["/depth_to_water/uncertainty"]
    assert [error["pointer"] for error in other.json()["errors"]] == [f"/line/{MOST_UNCERTAIN}/length/uncertainty"]


def test_all_faults_of_a_body_come_at_once():
    body = many_lengths(MOST_UNCERTAIN + 1) | {"site": {"altitude": of(20_000, "m")}}
    with pytest.raises(Refused) as refused:
        ask("friction", body)
    assert len(refused.value.faults) == 2


# --- whatever is uncertain


def quantities_in(body, pointer=""):
    """The pointers to all quantities of a body."""
    if isinstance(body, dict) and {"value", "unit"} <= body.keys():
        yield pointer
    elif isinstance(body, dict | list):
        for key, value in body.items() if isinstance(body, dict) else enumerate(body):
            yield from quantities_in(value, f"{pointer}/{key}")


ANY = [
    pytest.param(endpoint.name, each.request, id=f"{endpoint.name} {each.name}")
    for endpoint in ENDPOINTS
    for each in examples(endpoint.name)
    if list(quantities_in(each.request))
]
SIGMAS = st.floats(-9.0, 9.0).map(lambda power: 10.0**power) | st.floats(0.0, 1e9)


@pytest.mark.parametrize(("name", "body"), ANY)
@given(data=st.data())
@settings(max_examples=12, suppress_health_check=[HealthCheck.too_slow])
def test_no_uncertainty_breaks_an_answer(name, body, data):
    """An answer or a refusal, and no number that JSON does not have."""
    chosen = data.draw(st.lists(st.sampled_from(list(quantities_in(body))), min_size=1, max_size=4, unique=True))
    asked = uncertain(body, {pointer: data.draw(SIGMAS) for pointer in chosen}) | {"contributions": True}
    try:
        answer = ask(name, asked)
    except Refused:
        return
    assert isinstance(answer, Answer)
    assert b"null" not in msgspec.json.encode(answer)
    for pointer in figures(name, asked):
        told = value_at(answer, pointer)
        assert told.uncertainty is UNSET or 0.0 <= told.uncertainty <= 1e9
    for row in answer.contributions:
        assert all(0.0 <= share.variance_fraction <= 1.0 for share in row.inputs)


def test_the_uncertainty_of_a_told_value_is_in_its_own_unit():
    found = ask("friction", uncertain(straight_pipe(units="us"), {"/line/0/length": 0.4}))
    assert found.total_head_loss.unit == "ft"
    assert found.total_head_loss.base_uncertainty == pytest.approx(0.01 * found.total_head_loss.base, rel=1e-5)
    assert to_base(found.total_head_loss.uncertainty, "ft") == pytest.approx(found.total_head_loss.base_uncertainty)


UNSURE_TEST = {
    "static_depth": {"value": 17, "unit": "ft"},
    "casing_diameter": {"value": 6, "unit": "in"},
    "pumping_test": {
        "flow": {"value": 5, "unit": "gal/min"},
        "pumping_depth": {"value": 21, "unit": "ft", "uncertainty": 1},
        "duration": {"value": 4, "unit": "h"},
    },
    "design_flow": {"value": 3, "unit": "gal/min"},
    "limit_depth": {"value": 20, "unit": "ft"},
}


def test_a_well_that_sustains_by_luck_alone_is_warned_of():
    """3.75 gal/min give or take 1 are there at the limit, and 3 are wanted: two sigma less is not enough."""
    endpoint = ENDPOINT["well-recovery"]
    answer = endpoint(msgspec.convert(UNSURE_TEST, endpoint.request))
    assert (answer.verdict, answer.warnings[-1].pointer) == ("sustains", "/pumping_test/pumping_depth")
    assert "not proven" in answer.reasons[-1]
    sure = {
        **UNSURE_TEST,
        "pumping_test": {
            **UNSURE_TEST["pumping_test"],
            "pumping_depth": {"value": 21, "unit": "ft", "uncertainty": 0.1},
        },
    }
    assert not any("not proven" in reason for reason in endpoint(msgspec.convert(sure, endpoint.request)).reasons)
