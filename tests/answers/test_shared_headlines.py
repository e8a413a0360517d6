"""Headlines near a known request, which share what it has found already: they are those that are found alone."""

import msgspec
import pytest

from footvalve.answers.endpoints import ENDPOINT, ENDPOINTS
from footvalve.answers.propagation import headline_at
from footvalve.answers.uncertain_inputs import stated_inputs
from footvalve.contract.examples import examples
from footvalve.contract.pointed import changed_at, tokens
from footvalve.contract.ranges import stated_quantities

SHARING = [
    (endpoint, example) for endpoint in ENDPOINTS if endpoint.with_headlines for example in examples(endpoint.name)
]
MOST_MOVED = 12
"""Quantities of one example that are moved; of a site plan, which has a hundred, every eighth or so."""


def uncertain(request):
    """Every quantity uncertain by a fiftieth of what it is."""
    for at in stated_quantities(request):
        sigma = abs(at.quantity.value) / 50.0
        request = changed_at(
            request,
            tokens(at.pointer),
            lambda quantity, sigma=sigma: msgspec.structs.replace(quantity, uncertainty=sigma),
        )
    return request


def test_some_endpoints_share():
    names = {"sounding", "suction-feasibility", "site-plan", "well-recovery", "battery-runtime"}
    assert {endpoint.name for endpoint, _ in SHARING} == names


@pytest.mark.parametrize(
    ("endpoint", "example"), SHARING, ids=[f"{endpoint.name}: {example.name}" for endpoint, example in SHARING]
)
def test_a_shared_headline_is_that_which_is_found_alone(endpoint, example):
    request = uncertain(msgspec.convert(example.request, endpoint.request))
    shared = endpoint.with_headlines(request)
    assert shared.answer == endpoint.compute(request)
    assert shared.headline(request) == endpoint.headline(request)
    inputs = stated_inputs(stated_quantities(request))
    for moved in inputs[:: 1 + len(inputs) // MOST_MOVED]:
        for sigmas in (-1.0, 1.0):
            near, alone = (headline_at(request, [(moved, sigmas)], of) for of in (shared.headline, endpoint.headline))
            assert near == alone, moved.pointer


@pytest.mark.parametrize("example", examples("site-plan"), ids=lambda example: example.name)
def test_the_spares_that_are_drawn_near_a_plan_are_those_of_its_headline(example):
    endpoint = ENDPOINT["site-plan"]
    request = uncertain(msgspec.convert(example.request, endpoint.request))
    spares = endpoint.with_headlines(request).spares
    inputs = [at for at in stated_inputs(stated_quantities(request)) if endpoint.suction.bears(at.pointer)]
    assert len(inputs) > MOST_MOVED
    for moved in inputs[:: 1 + len(inputs) // MOST_MOVED]:
        near, alone = (headline_at(request, [(moved, 1.0)], of) for of in (spares, endpoint.headline))
        assert (near is None) == (alone is None), moved.pointer
        assert near is None or near.spares == alone.spares, moved.pointer


@pytest.mark.parametrize(
    ("endpoint", "example"), SHARING, ids=[f"{endpoint.name}: {example.name}" for endpoint, example in SHARING]
)
def test_readings_scatter_alike_whether_their_fit_is_shared_or_found_alone(endpoint, example):
    request = msgspec.convert(example.request, endpoint.request)
    shared, alone = list(endpoint.with_headlines(request).scatter), list(endpoint.scatter(request))
    assert [(at.pointer, at.kind, at.method) for at in shared] == [(at.pointer, at.kind, at.method) for at in alone]
    for one, other in zip(shared, alone, strict=True):
        assert one.shifted(request, 1.0) == other.shifted(request, 1.0)


def test_more_than_one_input_may_move_and_come_back():
    """What is shared is that of the first request, whatever was asked in between."""
    endpoint = next(endpoint for endpoint, _ in SHARING if endpoint.name == "suction-feasibility")
    request = uncertain(msgspec.convert(examples(endpoint.name)[0].request, endpoint.request))
    shared = endpoint.with_headlines(request).headline
    inputs = {moved.pointer: moved for moved in stated_inputs(stated_quantities(request))}
    flow, depth = inputs["/flow"], inputs["/depth_to_water"]
    for moves in ([(flow, 1.0)], [(depth, -2.0)], [(flow, -1.0), (depth, 1.0)], []):
        assert headline_at(request, moves, shared) == headline_at(request, moves, endpoint.headline)
