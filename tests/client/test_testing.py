"""The offline transport: the service's own answers without a network, or the recorded ones without the service."""

import asyncio
import json
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx
import httpx2
import msgspec
import pytest

from footvalve_client import (
    AsyncFootvalve,
    BatchItem,
    Footvalve,
    FrictionRequest,
    NotFound,
    Pipe,
    Refused,
    _in_process,
    testing,
)
from footvalve_client._generated.endpoints import ENDPOINTS

SOURCES: list[testing.Source] = ["service", "recorded"]
URL = "http://footvalve.test"

EXAMPLES = [(endpoint, example) for endpoint in ENDPOINTS for example in testing.examples(endpoint)]  # type: ignore[call-overload]

every_source = pytest.mark.parametrize("source", SOURCES)
every_example = pytest.mark.parametrize(
    ("endpoint", "example"), EXAMPLES, ids=lambda given: given if isinstance(given, str) else given.name
)


def _ask(service: Any, endpoint: str, request: Any) -> Any:
    return getattr(service, endpoint.replace("-", "_"))(request)


@every_source
@every_example
def test_every_example_is_answered_as_the_contract_tells(source: testing.Source, endpoint: str, example: Any) -> None:
    """Where the service and the recordings differ, footvalve contract and client/generate.py are to be run."""
    with testing.offline(source) as service:
        assert _ask(service, endpoint, example.request) == example.answer


@every_source
def test_the_awaited_client_is_answered_alike(source: testing.Source) -> None:
    async def asked() -> list[Any]:
        async with testing.offline_async(source) as service:
            return [await _ask(service, endpoint, example.request) for endpoint, example in EXAMPLES]

    assert asyncio.run(asked()) == [example.answer for _, example in EXAMPLES]


@every_source
def test_clients_of_httpx2_take_the_transport_too(source: testing.Source) -> None:
    example = testing.examples("friction")[0]
    transport: Any = testing.transport(source)  # to a type checker it is one of httpx

    async def asked() -> Any:
        async with httpx2.AsyncClient(transport=transport) as http_client:
            return await AsyncFootvalve(URL, http_client=http_client).friction(example.request)

    with httpx2.Client(transport=transport) as http_client:
        assert Footvalve(URL, http_client=http_client).friction(example.request) == example.answer
    assert asyncio.run(asked()) == example.answer


@every_source
def test_many_may_ask_at_once_and_map_too(source: testing.Source) -> None:
    example = testing.examples("sounding")[1]
    with testing.offline(source) as service, ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(lambda _: service.sounding(example.request), range(40)))
        answers += [result.unwrap() for result in service.map("sounding", [example.request] * 30, batch_size=4)]
    assert answers == [example.answer] * 70


@every_source
def test_a_blocking_client_works_inside_a_running_event_loop(source: testing.Source) -> None:
    """As in a notebook."""
    example = testing.examples("friction")[0]

    async def asked() -> Any:
        return testing.offline(source).friction(example.request)

    assert asyncio.run(asked()) == example.answer


@every_source
def test_it_lives_is_ready_and_has_a_table(source: testing.Source) -> None:
    with testing.offline(source) as service:
        assert (service.live().status, service.ready().status) == ("live", "ready")
        assert any(row.valve == "spring-check" for row in service.table("valves").rows)


def test_the_service_refuses_with_its_own_problem_documents() -> None:
    with testing.offline("service") as service, pytest.raises(Refused) as raised:
        service.friction(flow="5 gpm", line=[Pipe(length="45 ft")], site={"altitude": "20000 m"})
    assert "/site/altitude" in [fault.pointer for fault in raised.value.faults]
    assert raised.value.problem.request_id == raised.value.request_id


def test_the_service_tells_of_what_is_not_there() -> None:
    with httpx.Client(transport=testing.transport("service")) as http_client, pytest.raises(NotFound):
        Footvalve(f"{URL}/elsewhere", http_client=http_client).live()


def test_a_recorded_question_is_known_by_its_meaning() -> None:
    example = testing.examples("friction")[0]
    body = msgspec.to_builtins(example.request)
    turned = dict(reversed(body.items())) | {
        "flow": {"unit": body["flow"]["unit"], "value": float(body["flow"]["value"])}
    }
    with httpx.Client(transport=testing.transport("recorded")) as http_client:
        response = http_client.post(f"{URL}/v1/friction", content=json.dumps(turned, indent=3))
    assert msgspec.json.decode(response.content, type=type(example.answer)) == example.answer


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"flow": {"value": 77, "unit": "gal/min"}}, r"nearest is the example 'us', which differs at /flow/value\."),
        ({"flow": {"value": True, "unit": "gal/min"}}, "differs at /flow/value"),
        ({"note": 1, "added": 2, "more": 3, "still": 4}, r"differs at /added, /more, /note and 1 more\."),
    ],
    ids=str,
)
def test_an_unknown_question_tells_the_nearest_that_is_recorded(change: Any, told: str) -> None:
    body = {**msgspec.to_builtins(testing.examples("friction")[0].request), **change}
    with (
        httpx.Client(transport=testing.transport("recorded")) as http_client,
        pytest.raises(testing.NotRecorded, match=told),
    ):
        http_client.post(f"{URL}/v1/friction", json=body)


def test_one_is_not_true() -> None:
    body = {**msgspec.to_builtins(testing.examples("suction-feasibility")[3].request), "limits": 1}
    with httpx.Client(transport=testing.transport("recorded")) as http_client, pytest.raises(testing.NotRecorded):
        http_client.post(f"{URL}/v1/suction-feasibility", json=body)


def test_what_no_code_may_take_for_an_answer_is_none_of_the_clients_errors() -> None:
    with testing.offline("recorded") as service:
        for ask in (lambda: service.friction(FrictionRequest(line=[])), lambda: service.table("pipes")):
            with pytest.raises(testing.NotRecorded, match="install the distribution footvalve"):
                ask()
        with pytest.raises(testing.NotRecorded):
            list(service.map("friction", [FrictionRequest(line=[])]))


def test_a_recorded_batch_is_made_of_single_recordings() -> None:
    friction, sounding = testing.examples("friction")[1], testing.examples("sounding")[0]
    items = [
        BatchItem(id="a", endpoint="friction", body=friction.request),
        BatchItem(id="b", endpoint="sounding", body=sounding.request),
    ]
    with testing.offline("recorded") as service:
        answers = service.batch(items=items).items
    assert [(item.id, item.status) for item in answers] == [("a", 200), ("b", 200)]
    assert msgspec.convert(answers[1].body, type(sounding.answer)) == sounding.answer


def test_the_site_sheet_is_not_recorded() -> None:
    body = msgspec.to_builtins(testing.examples("site-plan")[0].request)
    with (
        httpx.Client(transport=testing.transport("recorded")) as http_client,
        pytest.raises(testing.NotRecorded, match="JSON alone"),
    ):
        http_client.post(f"{URL}/v1/site-plan", json=body, headers={"accept": "text/html"})


def test_the_site_sheet_comes_from_the_service() -> None:
    body = msgspec.to_builtins(testing.examples("site-plan")[0].request)
    with httpx.Client(transport=testing.transport("service")) as http_client:
        response = http_client.post(f"{URL}/v1/site-plan", json=body, headers={"accept": "text/html"})
    assert response.text.startswith("<!doctype html>")


@pytest.fixture
def no_service(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """As where the distribution footvalve is not installed."""
    _in_process._service.cache_clear()
    for name in [name for name in sys.modules if name.partition(".")[0] == "footvalve"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "footvalve", None)
    yield
    _in_process._service.cache_clear()


@pytest.mark.usefixtures("no_service")
def test_without_the_service_it_answers_from_recordings() -> None:
    with testing.offline() as service:
        with pytest.raises(testing.NotRecorded):
            service.friction(FrictionRequest(line=[]))
        example = testing.examples("friction")[0]
        assert service.friction(example.request) == example.answer


@pytest.mark.usefixtures("no_service")
def test_without_the_service_it_cannot_be_asked_for() -> None:
    with pytest.raises(ModuleNotFoundError, match="install the distribution footvalve"):
        testing.offline("service")


def test_with_the_service_installed_it_answers_what_is_not_recorded() -> None:
    with testing.offline() as service:
        assert service.table("pipes").rows


def test_another_source_is_told() -> None:
    with pytest.raises(ValueError, match='source must be "service" or "recorded", not \'memory\''):
        testing.transport("memory")  # type: ignore[arg-type]


def test_examples_of_no_endpoint_are_told() -> None:
    with pytest.raises(ValueError, match="there is no 'pumps', only battery-runtime"):
        testing.examples("pumps")  # type: ignore[call-overload]


def test_examples_tell_what_they_show() -> None:
    example = testing.examples("suction-feasibility")[0]
    assert (example.name, example.summary[-1]) == ("us", ".")
    assert example.request.flow == msgspec.convert({"value": 4, "unit": "gal/min"}, type(example.request.flow))
    assert example.answer.verdict in ("feasible", "marginal", "infeasible")
