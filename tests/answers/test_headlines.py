"""Each headline is the answer before it is told in anybody's units: the same figures, none forgotten."""

import json
from copy import deepcopy
from pathlib import Path
from typing import get_args, get_type_hints

import msgspec
import pytest

from footvalve.answers.endpoints import ENDPOINT, ENDPOINTS
from footvalve.answers.plan_duty import pump_duty
from footvalve.answers.plan_state import plan_state
from footvalve.answers.plan_steps import step_requests
from footvalve.answers.plan_suction_chance import BESIDE_IT, NOTHING_DRAWN, planned_spares
from footvalve.contract.examples import examples
from footvalve.contract.pointed import value_at
from footvalve.contract.quantities import Quantity
from footvalve.contract.site_plan import SitePlanRequest

DEMO = Path(__file__).parents[2] / "deploy/demo"

_SOUGHT = "it is sought by the function that answers, and to seek it anew for every uncertain input costs too much"

LEFT_OUT = {
    "sounding": {
        "readings": "each is as uncertain as its own reading, and the answer is asked for their mean",
        "spread": "it tells itself how well the readings agree",
    },
    "suction-feasibility": dict.fromkeys(("greatest_flow", "greatest_depth_to_water", "greatest_altitude"), _SOUGHT),
}
"""Quantities of an answer's first level that carry no uncertainty, with the reason."""

DUTY_LEFT_OUT = {"/charge_per_volume/volume": "a round figure that the charge is told for"}


def of(value, unit):
    return {"value": value, "unit": unit}


def example(name, which):
    return deepcopy(next(each.request for each in examples(name) if each.name == which))


def bodies(name):
    """All examples of an endpoint, the demo's sites, and requests that bring out what no example holds."""
    yield from ((each.name, each.request) for each in examples(name))
    yield from demo_bodies(name)
    if name == "tank-cycle":
        plain = example("tank-cycle", "us")
        curve = [{"pressure": of(psi, "psi"), "flow": of(gpm, "gal/min")} for psi, gpm in ((20, 6), (80, 2))]
        yield "settling", plain | {"pump": {"points": curve}, "demands": [of(4.5, "gal/min")]}
    if name == "site-plan":
        yield "beyond the pump", example("site-plan", "us") | {"tank_elevation": of(400, "ft")}


def demo_bodies(name):
    """What the demo asks, with what an answer hands on to the next question."""
    for site in ("site-us", "site-metric"):
        told = json.loads((DEMO / f"{site}.json").read_text(encoding="utf-8"))
        everywhere = {key: told[key] for key in ("units", "site")}
        if name not in told:
            continue
        body = everywhere | told[name]
        if name == "suction-feasibility":
            sounding, well = (computed(step, everywhere | told[step])[1] for step in ("sounding", "well-recovery"))
            handed_on = {"depth_to_water": sounding.depth_below_ground, "specific_capacity": well.specific_capacity}
            body = msgspec.to_builtins(handed_on) | body
        yield f"demo {site}", body


def computed(name, body):
    endpoint = ENDPOINT[name]
    request = msgspec.convert(body, endpoint.request)
    return request, endpoint.compute(request)


ASKED = [pytest.param(e.name, body, id=f"{e.name}: {which}") for e in ENDPOINTS for which, body in bodies(e.name)]


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize(("name", "body"), ASKED)
def test_every_figure_is_the_one_that_is_told(name, body, units):
    """To the last digit: else there would be a second way to reckon it."""
    request, answer = computed(name, body | {"units": units})
    for pointer, figure in ENDPOINT[name].headline(request).figures.items():
        told = value_at(answer, pointer)
        assert isinstance(told, Quantity), f"{pointer} leads to no quantity of the answer"
        assert type(told).from_base(figure, told.unit) == told, pointer


def quantity_types(hint):
    """The types of quantities that a field may hold, found through unions, lists and annotations."""
    if isinstance(hint, type) and issubclass(hint, Quantity):
        return {hint}
    return {kind for argument in get_args(hint) for kind in quantity_types(argument)}


@pytest.mark.parametrize("endpoint", ENDPOINTS, ids=lambda endpoint: endpoint.name)
def test_no_quantity_of_an_answer_is_forgotten(endpoint):
    """A new field goes into the headline, or into the list above with the reason."""
    hints = get_type_hints(endpoint.answer, include_extras=True)
    held = {field.encode_name for field in msgspec.structs.fields(endpoint.answer) if quantity_types(hints[field.name])}
    told = {
        pointer.split("/")[1]
        for _, body in bodies(endpoint.name)
        for pointer in endpoint.headline(msgspec.convert(body, endpoint.request)).figures
    }
    left_out = set(LEFT_OUT.get(endpoint.name, {}))
    assert held - told == left_out
    assert not told & left_out


def quantities_in(body, pointer=""):
    """Every quantity of a part of an answer, under its pointer."""
    for field in msgspec.structs.fields(body):
        value, place = getattr(body, field.name), f"{pointer}/{field.encode_name}"
        if isinstance(value, Quantity):
            yield place
        elif isinstance(value, msgspec.Struct):
            yield from quantities_in(value, place)


PLANS = [pytest.param(body, id=which) for which, body in bodies("site-plan")]


@pytest.mark.parametrize("body", PLANS)
def test_no_quantity_of_a_plans_duty_is_forgotten(body):
    request, answer = computed("site-plan", body)
    told = {pointer for pointer in ENDPOINT["site-plan"].headline(request).figures if pointer.startswith("/duty/")}
    assert told == {f"/duty{place}" for place in quantities_in(answer.duty) if place not in DUTY_LEFT_OUT}


@pytest.mark.parametrize("body", PLANS)
def test_a_plan_has_every_figure_of_every_step_that_it_asks(body):
    request, _ = computed("site-plan", body)
    state = plan_state(request)
    asked = step_requests(state, pump_duty(state))
    figures = ENDPOINT["site-plan"].headline(request).figures
    for name, question in {
        "sounding": state.sounded.question,
        "well-recovery": asked.well,
        "suction-feasibility": asked.suction,
        "friction": asked.friction,
        "tank-cycle": asked.tank,
        "battery-runtime": asked.battery,
    }.items():
        of_step = {} if question is None else ENDPOINT[name].headline(question).figures
        found = {place: figure for place, figure in figures.items() if place.startswith(f"/{name}/")}
        assert found == {f"/{name}{place}": figure for place, figure in of_step.items()}


@pytest.mark.parametrize(("name", "body"), [row for row in ASKED if ENDPOINT[row.values[0]].suction])
def test_the_spares_tell_the_verdict(name, body):
    """None below zero where it is feasible, and only there; with a pump that gives nothing all are."""
    endpoint = ENDPOINT[name]
    request, answer = computed(name, body)
    spares = endpoint.headline(request).spares
    told = value_at(answer, endpoint.suction.pointer)
    assert (min(spares) >= 0.0) == (told is not msgspec.UNSET and told.verdict == "feasible")
    shared = endpoint.with_headlines(request)
    asked = shared.spares or shared.headline
    assert asked(request).spares == spares, "the chance is drawn from other spares than the answer's"


def test_a_pump_that_gives_nothing_fails_every_condition():
    """As many as a suction line has, or a plan at the edge could not be reckoned."""
    request, _ = computed("site-plan", example("site-plan", "us"))
    assert len(NOTHING_DRAWN) == len(planned_spares(request).spares)
    assert max(NOTHING_DRAWN) < -100.0


def test_what_is_said_not_to_bear_on_the_suction_side_are_fields_of_a_plan():
    assert set(BESIDE_IT) <= {field.encode_name for field in msgspec.structs.fields(SitePlanRequest)}


def spare_wholes(body, pointer=""):
    """Every quantity of a plan's request that is said not to bear on the suction side, a little changed."""
    for key, value in body.items() if isinstance(body, dict) else enumerate(body):
        place = f"{pointer}/{key}"
        if not pointer and key not in BESIDE_IT:
            continue
        if isinstance(value, dict) and {"value", "unit"} <= value.keys():
            yield place, {**value, "value": value["value"] * 1.01}
        elif isinstance(value, (dict, list)):
            yield from spare_wholes(value, place)


@pytest.mark.parametrize("which", ["us", "metric-marginal"])
def test_what_is_said_not_to_bear_on_the_suction_side_does_not(which):
    body = example("site-plan", which)
    request, _ = computed("site-plan", body)
    spares = ENDPOINT["site-plan"].headline(request).spares
    moved = list(spare_wholes(body))
    assert len(moved) >= 5
    for pointer, value in moved:
        other = deepcopy(body)
        *way, last = (int(step) if step.isdigit() else step for step in pointer.split("/")[1:])
        part = other
        for step in way:
            part = part[step]
        part[last] = value
        assert ENDPOINT["site-plan"].headline(computed("site-plan", other)[0]).spares == spares, pointer
