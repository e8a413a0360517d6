"""What a request costs is known before it is begun: it grows with all that makes the request long."""

from copy import deepcopy
from time import thread_time

import pytest
from msgspec import UNSET, convert

from footvalve.answers.cost import Cost, plain_cost, quantities_of
from footvalve.answers.endpoints import ENDPOINT, ENDPOINTS
from footvalve.answers.uncertain_inputs import MOST_UNCERTAIN
from footvalve.contract.examples import examples


def body(name, place=0):
    return deepcopy(examples(name)[place].request)


def cost(name, asked):
    return ENDPOINT[name].work(convert(asked, ENDPOINT[name].request, strict=False))


def quantity(value, unit, **more):
    return {"value": value, "unit": unit} | more


def uncertain(part, inputs):
    """A body with so many of its quantities uncertain; with all of them where there are fewer."""
    left = [inputs]

    def walked(part):
        if isinstance(part, list):
            return [walked(item) for item in part]
        if not isinstance(part, dict):
            return part
        if part.keys() == {"value", "unit"} and left[0]:
            left[0] -= 1
            return part | {"uncertainty": 0.001}
        return {key: walked(value) for key, value in part.items()}

    return walked(part)


def line(parts):
    return [{"part": "resistance", "flow_coefficient": 50, "basis": "Cv"}] * parts


def readings(number):
    return [{"elapsed": quantity(10 * n, "s"), "depth": quantity(40 - 0.01 * n, "ft")} for n in range(number)]


def manifold(elements, modes, running):
    pumps = [f"p{n}" for n in range(running)]
    found = [{"id": pump, "kind": "pump", "from": "a", "to": "b"} for pump in pumps]
    found += [{"id": f"e{n}", "kind": "pipe", "from": "a", "to": "b"} for n in range(elements - running)]
    return {
        "nodes": ["a", "b"],
        "elements": found,
        "source": "a",
        "house": "b",
        "modes": [{"name": f"m{n}", "running": pumps} for n in range(modes)],
    }


def points(number, name="flow"):
    return [{"pressure": quantity(20 + n / 2, "psi"), name: quantity(5 - n / 50, "gal/min")} for n in range(number)]


def with_stones(name, number):
    measurement = {"method": "stone-drop", "times": [quantity(1, "s")] * number}
    if name == "sounding":
        return body(name) | {"measurement": measurement}
    return body(name) | {"sounding": body(name)["sounding"] | {"measurement": measurement}}


def with_recovery(number):
    plan = body("site-plan")
    well = {key: value for key, value in plan["well"].items() if key != "pumping_test"}
    return plan | {"well": well | {"recovery": {"readings": readings(number)}}}


GROWING = {
    "sounding, stones": ("sounding", lambda n: with_stones("sounding", n), (1, 2, 30, 100)),
    "sounding, depths": (
        "sounding",
        lambda n: body("sounding") | {"measurement": {"method": "direct", "depths": [quantity(5, "m")] * n}},
        (1, 2, 30, 100),
    ),
    "well-recovery, readings": (
        "well-recovery",
        lambda n: body("well-recovery") | {"recovery": {"readings": readings(n)}},
        (2, 10, 100, 1000),
    ),
    "friction, parts": ("friction", lambda n: body("friction") | {"line": line(n)}, (1, 10, 100, 1000)),
    "friction, flows": (
        "friction",
        lambda n: body("friction") | {"flows": [quantity(1, "gal/min")] * n},
        (1, 10, 200),
    ),
    "suction-feasibility, parts": (
        "suction-feasibility",
        lambda n: body("suction-feasibility") | {"line": line(n)},
        (1, 10, 100, 1000),
    ),
    "suction-feasibility, limits": (
        "suction-feasibility",
        lambda n: body("suction-feasibility") | {"limits": bool(n)},
        (0, 1),
    ),
    "tank-cycle, points": (
        "tank-cycle",
        lambda n: body("tank-cycle") | {"pump": {"points": points(n)}},
        (2, 10, 100),
    ),
    "tank-cycle, demands": (
        "tank-cycle",
        lambda n: body("tank-cycle") | {"demands": [quantity(1, "gal/min")] * n},
        (1, 10, 100),
    ),
    "tank-cycle, tanks": (
        "tank-cycle",
        lambda n: body("tank-cycle") | {"tanks": body("tank-cycle")["tanks"] * n},
        (1, 10),
    ),
    "battery-runtime, loads": (
        "battery-runtime",
        lambda n: body("battery-runtime") | {"loads": body("battery-runtime")["loads"][:1] * n},
        (1, 10, 50),
    ),
    "battery-runtime, chargers": (
        "battery-runtime",
        lambda n: body("battery-runtime") | {"charger": {"currents": [quantity(5, "A")] * n}},
        (1, 10, 50),
    ),
    "battery-runtime, days": ("battery-runtime", lambda n: body("battery-runtime") | {"days": n}, (1, 5, 60)),
    "manifold-check, elements": ("manifold-check", lambda n: manifold(n, 2, 1), (1, 10, 100, 1000)),
    "manifold-check, modes": ("manifold-check", lambda n: manifold(30, n, 1), (1, 5, 20)),
    "manifold-check, pumps": ("manifold-check", lambda n: manifold(30, 5, n), (0, 1, 5, 20)),
    "site-plan, parts": ("site-plan", lambda n: body("site-plan") | {"suction_line": line(n)}, (1, 10, 100, 1000)),
    "site-plan, delivery": ("site-plan", lambda n: body("site-plan") | {"delivery_line": line(n)}, (1, 10, 1000)),
    "site-plan, stones": ("site-plan", lambda n: with_stones("site-plan", n), (1, 2, 30, 100)),
    "site-plan, readings": ("site-plan", with_recovery, (2, 10, 1000)),
    "site-plan, manifold": ("site-plan", lambda n: body("site-plan") | {"manifold": manifold(n, 3, 1)}, (1, 30, 1000)),
    "site-plan, points": (
        "site-plan",
        lambda n: body("site-plan") | {"pump": body("site-plan")["pump"] | {"points": points(n)}},
        (2, 10, 50),
    ),
    "site-plan, days": ("site-plan", lambda n: body("site-plan") | {"days": n}, (1, 5, 60)),
}


@pytest.mark.parametrize(("name", "grown", "sizes"), GROWING.values(), ids=GROWING)
@pytest.mark.parametrize("inputs", [0, 3])
def test_the_cost_grows_with_all_that_makes_a_request_long(name, grown, sizes, inputs):
    """Without draws, of which the fewer are taken the more quantities there are."""
    found = [cost(name, uncertain(grown(size), inputs)) for size in sizes]
    costs = [each.units - each.drawing for each in found]
    assert costs == sorted(costs)
    assert len(set(costs)) == len(costs)


@pytest.mark.parametrize("name", [name for name in ENDPOINT if name != "manifold-check"])
def test_the_cost_grows_with_every_uncertain_input(name):
    costs = [cost(name, uncertain(body(name), inputs)).units for inputs in range(5)]
    assert costs == sorted(costs)
    assert len(set(costs)) == len(costs)


def test_every_endpoint_knows_its_cost():
    assert all(endpoint.cost is not plain_cost for endpoint in ENDPOINTS)


def test_a_unit_is_a_plain_suction_feasibility():
    assert 0.7 < cost("suction-feasibility", body("suction-feasibility")).units < 1.4


@pytest.mark.parametrize("name", ENDPOINT)
def test_that_all_inputs_are_sure_saves_the_counting_and_nothing_else(name):
    request = convert(body(name), ENDPOINT[name].request, strict=False)
    assert ENDPOINT[name].work(request) == ENDPOINT[name].work(request, all_sure=True)


def test_more_uncertain_inputs_than_may_be_are_refused_and_cost_nothing():
    asked = body("friction") | {"flows": [quantity(1, "gal/min", uncertainty=0.01)] * (MOST_UNCERTAIN + 1)}
    assert cost("friction", asked).made_of["uncertain inputs"] == 0
    asked["flows"].pop()
    assert cost("friction", asked).made_of["uncertain inputs"] == MOST_UNCERTAIN


def test_an_uncertainty_of_nought_is_none():
    asked = convert(body("friction") | {"flows": [quantity(1, "gal/min", uncertainty=0)]}, ENDPOINT["friction"].request)
    assert quantities_of(asked).uncertain == 0
    assert asked.flows[0].uncertainty is not UNSET


def test_what_makes_it_long_is_told_in_words():
    asked = uncertain(body("suction-feasibility") | {"line": line(200)}, 7)
    assert cost("suction-feasibility", asked).told == "7 uncertain inputs, 200 parts"
    assert Cost(1.0, {}).told == ""
    assert cost("manifold-check", manifold(30, 5, 2)).told == "30 elements, 5 modes, 2 pumps, 10 running pumps"


def test_what_falls_away_without_draws_is_told_apart():
    plain, doubtful = body("suction-feasibility"), uncertain(body("suction-feasibility"), 3)
    assert cost("suction-feasibility", plain).drawing == 0.0
    found = cost("suction-feasibility", doubtful)
    assert found.drawing > 0.9 * found.units
    assert cost("friction", uncertain(body("friction"), 3)).drawing == 0.0


def seconds(name, asked):
    """The least of three runs in this thread's own time."""
    endpoint, took = ENDPOINT[name], []
    request = convert(asked, endpoint.request, strict=False)
    for _ in range(3):
        start = thread_time()
        endpoint(request)
        took.append(thread_time() - start)
    return min(took)


def test_the_order_of_very_different_requests_is_that_of_their_times():
    """Each takes some ten times as long as the one before, and is reckoned to; by how much is left open widely."""
    requests = [
        ("friction", body("friction", 2)),
        ("suction-feasibility", body("suction-feasibility") | {"limits": True}),
        ("friction", body("friction") | {"line": body("friction")["line"] * 100}),
        ("well-recovery", uncertain(body("well-recovery") | {"recovery": {"readings": readings(200)}}, 50)),
    ]
    reckoned = [cost(*asked).units for asked in requests]
    took = [seconds(*asked) for asked in requests]
    assert reckoned == sorted(reckoned)
    assert took == sorted(took)
    for place in range(1, len(requests)):
        ratio = (reckoned[place] / reckoned[place - 1]) / (took[place] / took[place - 1])
        assert 1 / 8 < ratio < 8, requests[place][0]
