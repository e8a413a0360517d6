"""Limits on work, on lists and on nesting: refused before any work is done, and long work keeps nobody waiting."""

import asyncio
import json
import re
import threading
import time
from dataclasses import replace

import httpx
import pytest
from msgspec import inspect
from tests.faults.service_process import serving

from footvalve.answers.endpoints import ENDPOINT, ENDPOINTS
from footvalve.contract.batch import MOST_ITEMS, BatchRequest
from footvalve.contract.examples import examples
from footvalve.contract.quantities import Quantity
from footvalve.web import body_shape
from footvalve.web.application import create_app
from footvalve.web.batch_decoding import decoded_batch
from footvalve.web.batch_items import BatchDesk
from footvalve.web.body_shape import LONGEST_LIST, refuse_deep
from footvalve.web.problems import Declined
from footvalve.web.settings import BadSetting, Settings

JSON = {"content-type": "application/json"}
FRICTION = ENDPOINT["friction"]


def friction(parts=1, flows=0, **more):
    body = {
        "flow": {"value": 5, "unit": "gal/min"},
        "line": [{"part": "resistance", "flow_coefficient": 5, "basis": "Cv"}] * parts,
    }
    if flows:
        body["flows"] = [{"value": 1 + place / 100, "unit": "gal/min"} for place in range(flows)]
    return body | more


def uncertain(body, inputs):
    """The body with its first quantities uncertain."""
    left = [inputs]

    def walked(part):
        if isinstance(part, list):
            return [walked(item) for item in part]
        if not isinstance(part, dict):
            return part
        if part.keys() == {"value", "unit"} and part["value"] and left[0]:
            left[0] -= 1
            return part | {"uncertainty": abs(part["value"]) / 1000}
        return {key: walked(value) for key, value in part.items()}

    found = walked(body)
    assert not left[0], "the body has too few quantities"
    return found


def recorded(calls):
    """The endpoint of friction, noting the thread of every call."""

    def compute(request):
        calls.append(threading.get_ident())
        return FRICTION.compute(request)

    return replace(FRICTION, compute=compute)


def asked(send, body, path="/v1/friction"):
    return send("POST", path, content=json.dumps(body).encode(), headers=JSON)


def problem(response, status, slug):
    assert response.status_code == status, response.text[:300]
    assert response.json()["type"] == f"/problems/{slug}"
    return response.json()


def test_work_over_the_limit_is_refused_before_it_is_begun_and_told(send_to):
    calls = []
    send = send_to(create_app(Settings(work_limit=50), [recorded(calls)]))
    told = problem(asked(send, friction(parts=900, flows=30)), 422, "too-much-work")
    assert re.search(r"may come to \d+ times", told["detail"])
    assert "900 parts, 30 flows; at most 50 are allowed" in told["detail"]
    assert not calls
    assert asked(send, friction(parts=20)).status_code == 200
    assert len(calls) == 1


def test_uncertain_inputs_count_however_they_are_spelled(send_to):
    calls = []
    send = send_to(create_app(Settings(work_limit=40), [recorded(calls)]))
    plain = friction(parts=50, flows=60)
    assert asked(send, plain).status_code == 200
    assert len(calls) == 1
    spelled = json.dumps(uncertain(plain, 50))
    for text in (spelled, spelled.replace("uncertainty", "uncertaint\\u0079")):
        refused = send("POST", "/v1/friction", content=text.encode(), headers=JSON)
        assert "50 uncertain inputs, 50 parts" in problem(refused, 422, "too-much-work")["detail"]
    assert len(calls) == 1


def test_what_is_wrong_is_told_before_what_is_too_much(send_to):
    send = send_to(create_app(Settings(work_limit=10)))
    problem(asked(send, friction(parts=900, method="none")), 400, "schema")


def batch_of(*bodies, endpoint="friction"):
    return {"items": [{"id": str(n), "endpoint": endpoint, "body": body} for n, body in enumerate(bodies)]}


def test_a_batch_over_its_limit_is_refused_whole_before_any_item_is_begun(send_to):
    calls = []
    send = send_to(create_app(Settings(batch_work_limit=100), [recorded(calls)]))
    bodies = [friction(), *[friction(parts=100)] * 3, friction(parts=900), friction()]
    told = problem(asked(send, batch_of(*bodies), "/v1/batch"), 422, "too-much-work")
    assert "for 6 items, of which /items/4 takes" in told["detail"]
    assert "at most 100" in told["detail"]
    assert not calls
    response = asked(send, batch_of(*bodies[:4]), "/v1/batch")
    assert [item["status"] for item in response.json()["items"]] == [200] * 4


def test_an_item_over_the_limit_of_one_request_spoils_itself_alone(send_to):
    send = send_to(create_app(Settings(work_limit=50, batch_work_limit=60)))
    bodies = [friction(), friction(parts=900), friction(parts=5)]
    items = asked(send, batch_of(*bodies), "/v1/batch").json()["items"]
    assert [item["status"] for item in items] == [200, 422, 200]
    alone = asked(send, bodies[1])
    assert items[1]["body"]["detail"] == problem(alone, 422, "too-much-work")["detail"]


def admitted(items):
    raw = json.dumps({"items": items}).encode()
    BatchDesk(ENDPOINTS, Settings()).refuse_too_much(decoded_batch(raw))
    return True


@pytest.mark.parametrize("name", ENDPOINT)
def test_a_batch_of_a_thousand_plain_items_is_let_in(name):
    body = examples(name)[0].request
    assert admitted([{"id": str(n), "endpoint": name, "body": body} for n in range(MOST_ITEMS)])


def test_a_batch_of_a_thousand_items_with_six_uncertain_inputs_is_let_in():
    body = uncertain(examples("suction-feasibility")[0].request, 6)
    assert admitted([{"id": str(n), "endpoint": "suction-feasibility", "body": body} for n in range(MOST_ITEMS)])


def test_faults_are_work_too(send_to):
    """An item that must be walked for its faults costs by its length."""
    send = send_to(create_app(Settings(batch_work_limit=100)))
    bad = {"a": [1] * 10_000}
    assert asked(send, batch_of(bad), "/v1/batch").json()["items"][0]["status"] == 400
    problem(asked(send, batch_of(bad, bad), "/v1/batch"), 422, "too-much-work")


def test_a_list_over_the_limit_is_refused_and_pointed_to(send_to):
    send = send_to(create_app(Settings(list_limit=20)))
    assert asked(send, friction(parts=20, flows=20)).status_code == 200
    told = problem(asked(send, friction(parts=21)), 422, "too-much-work")
    assert told["detail"] == "The list at /line has 21 entries, and this service takes 20 at most."
    told = problem(asked(send, friction(parts=2, flows=21)), 422, "too-much-work")
    assert "/flows has 21" in told["detail"]
    spoiled, whole = asked(send, batch_of(friction(parts=21), friction()), "/v1/batch").json()["items"]
    assert (spoiled["status"], whole["status"]) == (422, 200)
    told = problem(asked(send, batch_of(*[friction()] * 21), "/v1/batch"), 422, "too-much-work")
    assert "/items has 21" in told["detail"]


def test_a_long_list_inside_another_is_found(send_to):
    modes = examples("manifold-check")[0].request["modes"]
    wide = dict(modes[0], closed=[f"valve {n}" for n in range(30)])
    send = send_to(create_app(Settings(list_limit=20)))
    body = examples("manifold-check")[0].request | {"modes": [modes[1], wide]}
    told = problem(asked(send, body, "/v1/manifold-check"), 422, "too-much-work")
    assert "/modes/1/closed has 30" in told["detail"]


def test_lists_are_not_looked_at_where_the_contract_is_the_limit(send_to, monkeypatch):
    looked = []
    monkeypatch.setattr("footvalve.web.work_intake.refuse_long_lists", lambda *_: looked.append(1))
    assert asked(send_to(create_app(Settings())), friction(parts=900)).status_code == 200
    shorter = send_to(create_app(Settings(list_limit=LONGEST_LIST - 1)))
    assert asked(shorter, friction(parts=1)).status_code == 200
    assert not looked
    assert asked(shorter, friction(parts=900)).status_code == 200
    assert looked


def lengths(info):
    match info:
        case inspect.Metadata():
            yield from lengths(info.type)
        case inspect.StructType() if not issubclass(info.cls, Quantity):
            for field in info.fields:
                yield from lengths(field.type)
        case inspect.UnionType():
            for member in info.types:
                yield from lengths(member)
        case inspect.ListType():
            yield info.max_length
            yield from lengths(info.item_type)


def depth(info):
    match info:
        case inspect.Metadata():
            return depth(info.type)
        case inspect.StructType():
            return 1 + max(depth(field.type) for field in info.fields)
        case inspect.UnionType():
            return max(map(depth, info.types))
        case inspect.ListType():
            return 1 + depth(info.item_type)
    return 0


REQUESTS = [endpoint.request for endpoint in ENDPOINTS]


def test_no_list_of_the_contract_is_longer_than_is_said():
    longest = [length for kind in (*REQUESTS, BatchRequest) for length in lengths(inspect.type_info(kind))]
    assert None not in longest, "a list without an end"
    assert max(longest) == LONGEST_LIST


def test_no_sound_body_is_nested_as_deep_as_the_least_limit():
    deepest = max(depth(inspect.type_info(kind)) for kind in REQUESTS)
    with pytest.raises(BadSetting):
        Settings.from_environment({"FOOTVALVE_NESTING_LIMIT": str(deepest)})


@pytest.mark.parametrize(
    ("raw", "deep"),
    [
        (b"", 0),
        (b'{"a": 1}', 1),
        (b'{"a": [1, [2, {"b": []}]], "c": [[]]}', 5),
        (b'["[[[[", "\\"[[[[", "\\\\", ["]]]]]"]]', 2),
        (b"[" * 40, 40),
        (b"[" * 40 + b"]" * 40, 40),
        (b"[{}, " * 40 + b"]" * 40, 41),
        (b'{"a":' * 40 + b"1" + b"}" * 40, 40),
        (b'["[[[[[[[[[[', 1),
        (b'"' + b'\\"' * 50_000, 0),
        (b"[]," * 50_000, 1),
    ],
)
def test_the_depth_is_that_of_the_brackets_outside_of_strings(raw, deep):
    refuse_deep(raw, deep)
    if deep:
        with pytest.raises(Declined, match=f"more than {deep - 1} deep"):
            refuse_deep(raw, deep - 1)


@pytest.mark.parametrize("deep", [13, 40, 900, 100_000])
def test_a_body_that_nests_too_deep_is_refused_with_the_limit(send_to, deep):
    send = send_to(create_app(Settings(nesting_limit=12)))
    raw = b'{"site": ' + b"[" * deep + b"]" * deep + b"}"
    told = problem(send("POST", "/v1/friction", content=raw, headers=JSON), 400, "not-json")
    assert told["detail"] == "The body is nested more than 12 deep, and no sound body is."
    raw = b'{"items": [{"id": "a", "endpoint": "friction", "body": ' + raw + b"}], 5}"
    told = problem(send("POST", "/v1/batch", content=raw, headers=JSON), 400, "not-json")
    assert told["detail"] == "The body is nested more than 15 deep, and no sound body is."


def test_light_work_is_done_where_it_stands_and_long_work_beside_it(send_to):
    calls = []
    send = send_to(create_app(Settings(), [recorded(calls)]))
    for parts in (5, 300, 5):
        assert asked(send, friction(parts=parts)).status_code == 200
    here = threading.get_ident()
    assert [call == here for call in calls] == [True, False, True]


@pytest.mark.parametrize(("octets", "beside"), [(100, False), (100_000, True)])
def test_a_long_body_is_searched_for_its_faults_beside_the_event_loop(send, monkeypatch, octets, beside):
    threads = []
    monkeypatch.setattr(
        "footvalve.web.strict_decoding.refuse_deep",
        lambda raw, limit: (threads.append(threading.get_ident()), body_shape.refuse_deep(raw, limit)),
    )
    bad = b'{"flow": 1, "x": "' + b"x" * octets + b'"}'
    problem(send("POST", "/v1/friction", content=bad, headers=JSON), 400, "schema")
    assert [thread != threading.get_ident() for thread in threads] == [beside]


def test_a_full_line_is_refused_at_once_and_light_questions_are_answered():
    """One long answer at work, one in line, and no place for another."""
    begun, let_go = threading.Event(), threading.Event()

    def compute(request):
        if len(request.line) > 300:
            begun.set()
            assert let_go.wait(20)
        return FRICTION.compute(request)

    app = create_app(Settings(concurrency_limit=2), [replace(FRICTION, compute=compute)])
    app.entrance = None  # its places would be taken before the line is full

    async def asking():
        transport = httpx.ASGITransport(app)
        async with httpx.AsyncClient(transport=transport, base_url="http://service.test", timeout=20) as client:

            def post(parts):
                return client.post("/v1/friction", json=friction(parts=parts))

            first = asyncio.ensure_future(post(400))
            while not begun.is_set():
                await asyncio.sleep(0.001)
            others = [asyncio.ensure_future(post(400 + n)) for n in range(2)]
            done, _ = await asyncio.wait(others, return_when=asyncio.FIRST_COMPLETED)
            (refused,) = (task.result() for task in done)
            light = await post(3)
            let_go.set()
            statuses = [(await task).status_code for task in (first, *others)]
            return refused, light, statuses

    refused, light, statuses = asyncio.run(asking())
    problem(refused, 503, "overloaded")
    assert int(refused.headers["retry-after"]) > 0
    assert light.status_code == 200
    assert sorted(statuses) == [200, 200, 503]


def test_the_work_of_a_caller_who_has_gone_is_never_begun():
    begun, let_go, calls = threading.Event(), threading.Event(), []

    def compute(request):
        calls.append(len(request.line))
        begun.set()
        assert let_go.wait(20)
        return FRICTION.compute(request)

    app = create_app(Settings(), [replace(FRICTION, compute=compute)])
    head = {"type": "http", "method": "POST", "path": "/v1/friction", "query_string": b""}

    async def ask(parts, leaves):
        messages = [{"type": "http.request", "body": json.dumps(friction(parts=parts)).encode(), "more_body": False}]
        sent = []

        async def receive():
            if messages:
                return messages.pop()
            await leaves.wait()
            return {"type": "http.disconnect"}

        async def send(message):
            sent.append(message)

        await app(head | {"headers": [(b"content-type", b"application/json")], "state": {}}, receive, send)
        return sent[0]["status"]

    async def asking():
        never, now = asyncio.Event(), asyncio.Event()
        first = asyncio.ensure_future(ask(400, never))
        while not begun.is_set():
            await asyncio.sleep(0.001)
        second, third = asyncio.ensure_future(ask(500, now)), asyncio.ensure_future(ask(600, never))
        await asyncio.sleep(0.05)
        now.set()
        await second
        let_go.set()
        assert await asyncio.gather(first, third) == [200, 200]

    asyncio.run(asking())
    assert calls == [400, 600]


def test_while_eight_ask_for_much_the_service_is_well_and_answers_others():
    """Were the answers worked out where requests are taken, nobody would hear anything before all eight were done."""
    heavy = json.dumps(uncertain(friction(parts=400, flows=45), 45)).encode()
    light = json.dumps(friction(parts=3)).encode()
    waits, ended = [], []

    with (
        serving(environment={"FOOTVALVE_QUEUE_SECONDS": "120"}) as service,
        httpx.Client(base_url=service.url, timeout=120, headers=JSON) as client,
    ):

        def ask_for_much():
            status = httpx.post(f"{service.url}/v1/friction", content=heavy, headers=JSON, timeout=120).status_code
            ended.append((status, time.monotonic()))

        assert client.get("/live").status_code == 200
        began = time.monotonic()
        threads = [threading.Thread(target=ask_for_much) for _ in range(8)]
        for thread in threads:
            thread.start()
        while len(ended) < len(threads):
            asked_at = time.monotonic()
            assert client.get("/live").status_code == 200
            assert client.post("/v1/friction", content=light).status_code == 200
            waits.append(time.monotonic() - asked_at)
            time.sleep(0.02)
        for thread in threads:
            thread.join()

    assert [status for status, _ in ended] == [200] * 8
    took = max(at for _, at in ended) - began
    assert len(waits) > 16, "two for each of the eight"
    assert sorted(waits)[int(0.9 * len(waits))] < took / 8, "nearly all wait for less than one of the eight takes"
