"""The batch: each item comes to exactly what its endpoint alone would have answered, and spoils nothing but itself."""

import asyncio
import json
import logging
import threading
import time
from collections import Counter

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footvalve.answers.endpoints import ENDPOINTS, Endpoint
from footvalve.contract.batch import MOST_ITEMS, BatchAnswer
from footvalve.contract.examples import examples
from footvalve.contract.faults import Misfit
from footvalve.contract.friction import FrictionAnswer, FrictionRequest
from footvalve.web.application import create_app
from footvalve.web.batch_decoding import decoded_batch
from footvalve.web.document import contract_document
from footvalve.web.settings import Settings

NAMES = [endpoint.name for endpoint in ENDPOINTS]
JSON = {"content-type": "application/json"}
VARYING = ("instance", "request_id")
SOUND = b'{"measurement": {"method": "direct", "depths": [{"value": 5, "unit": "m"}]}}'


def batch_of(*items):
    """The text of a batch of items, each an endpoint's name and the bytes of a body; the ids are their places."""
    written = (
        b'{"id": "%d", "endpoint": %b, "body": %b}' % (place, json.dumps(endpoint).encode(), body)
        for place, (endpoint, body) in enumerate(items)
    )
    return b'{"items": [' + b", ".join(written) + b"]}"


def answered(response):
    """The items of a batch's answer; it keeps the contract."""
    assert response.status_code == 200, response.text
    assert response.headers["content-type"] == "application/json"
    return msgspec.json.decode(response.content, type=BatchAnswer).items


def without_ids(body):
    return {key: value for key, value in json.loads(bytes(body)).items() if key not in VARYING}


@pytest.mark.parametrize("name", NAMES)
def test_a_sound_item_comes_to_the_bytes_that_its_endpoint_answers(post, name):
    bodies = [json.dumps(example.request).encode() for example in examples(name)]
    items = answered(post("batch", batch_of(*((name, body) for body in bodies))))
    assert [item.status for item in items] == [200] * len(bodies)
    assert [bytes(item.body) for item in items] == [post(name, body).content for body in bodies]


def spoiled(name):
    """Bodies that an endpoint refuses, as bytes: what a decoder, the schema, a range or a table has against them."""
    sound = examples(name)[0].request
    without_site = {key: value for key, value in sound.items() if key not in ("units", "site")}

    def at(altitude):
        return json.dumps(sound | {"site": {"altitude": "@"}}).replace('"@"', altitude).encode()

    def opened(opening):
        return (opening + json.dumps(without_site).removeprefix("{")).encode()

    return [
        *(b"null", b"true", b"5", b'"units"', b"[]", b"[{}]", b"{}", b'"\\ud83d\\ude00"'),
        at('{"value": "5", "unit": "m"}'),
        *(
            at(f'{{"value": {number}, "unit": "m"}}')
            for number in ("1e400", "9" * 5000, "true", "null", "1e10", "20000")
        ),
        *(at(altitude) for altitude in ("300", '{"value": 1, "unit": "gal"}', '{"value": 1}', "[" * 100 + "]" * 100)),
        *(opened('{"units": "us", "units": "us", '), opened('{"units": "us", "unit\\u0073": "us", ')),
        opened('{"site": {"altitude": {"value": 1, "unit": "m", "value": 1}}, '),
        json.dumps(sound | {"units": "imperial", "site": {"altitude": 5, "wind": 3}, "extra": 1}).encode(),
        json.dumps(sound | {"untis": "us", "a\u202eb" + "x" * 500: 1}, ensure_ascii=False).encode(),
        *(b'{"units": "\xff"}', b'{"\xff": 1}', b'{"units": "\xed\xa0\x80"}'),
        json.dumps({f"x{number}": number for number in range(200)}).encode(),
        b'{"x": "' + b"x" * 300_000 + b'"}',
    ]


@pytest.mark.parametrize("name", NAMES)
def test_a_bad_item_comes_to_the_problem_that_its_endpoint_answers(post, name):
    bodies = spoiled(name)
    items = answered(post("batch", batch_of(*((name, body) for body in bodies))))
    statuses = Counter(item.status for item in items)
    assert statuses.keys() == {400, 413, 422}, "a body that should be refused was answered"
    for item, body in zip(items, bodies, strict=True):
        alone = post(name, body)
        assert item.status == alone.status_code, body[:200]
        assert without_ids(item.body) == without_ids(alone.content), body[:200]


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=8,
)
FIELDS = [field for endpoint in ENDPOINTS for field in endpoint.request.__struct_fields__]


@settings(deadline=None, max_examples=60)
@given(st.sampled_from(NAMES), st.dictionaries(st.sampled_from(FIELDS), ANYTHING, max_size=4), ANYTHING)
def test_whatever_the_body_an_item_is_its_endpoints_own(post, name, changes, anything):
    bodies = [json.dumps(examples(name)[0].request | changes).encode(), json.dumps(anything).encode()]
    items = answered(post("batch", batch_of(*((name, body) for body in bodies))))
    for item, body in zip(items, bodies, strict=True):
        assert without_ids(item.body) == without_ids(post(name, body).content)


def test_a_thousand_items_keep_their_order_and_a_bad_one_spoils_only_itself(post):
    bad = {place: (b"{}" if place % 2 else b"[]") for place in range(0, MOST_ITEMS, 7)}
    items = answered(post("batch", batch_of(*(("sounding", bad.get(place, SOUND)) for place in range(MOST_ITEMS)))))
    assert [item.id for item in items] == [str(place) for place in range(MOST_ITEMS)]
    assert {place for place, item in enumerate(items) if item.status != 200} == bad.keys()
    assert {bytes(item.body) for item in items if item.status == 200} == {post("sounding", SOUND).content}


def test_a_problem_tells_the_call_and_the_items_place(post):
    response = post("batch", batch_of(("sounding", SOUND), ("sounding", b"{}"), ("friction", b"5")), x_request_id="Q-1")
    _, first, second = (json.loads(bytes(item.body)) for item in answered(response))
    assert first["request_id"] == second["request_id"] == response.headers["x-request-id"] == "Q-1"
    assert first["instance"].startswith("urn:uuid:")
    assert first["instance"].removesuffix("1") == second["instance"].removesuffix("2")
    assert first["instance"].endswith("#/items/1")
    assert [error["pointer"] for error in first["errors"]] == ["/measurement"]


@pytest.mark.parametrize(
    ("endpoint", "ending"),
    [
        ("soundings", "; did you mean `sounding`?"),
        ("Friction", "; did you mean `friction`?"),
        ("batch", "."),
        ("/v1/x\u202e", "."),
        ("zzz", "."),
    ],
)
def test_an_unknown_endpoint_spoils_its_item_alone_and_there_is_no_batch_in_a_batch(post, endpoint, ending):
    bad, good = answered(post("batch", batch_of((endpoint, b'{"items": []}'), ("sounding", SOUND))))
    problem = json.loads(bytes(bad.body))
    assert (bad.status, problem["status"], problem["type"]) == (404, 404, "/problems/unknown-endpoint")
    shown = endpoint.replace("\u202e", "?")
    told = f"`{shown}` is no endpoint that a batch takes: use one of {', '.join(NAMES)}{ending}"
    assert problem["detail"] == told
    assert good.status == 200


@pytest.mark.parametrize("endpoint", ["soundings", "Friction", "zzz"])
def test_an_item_of_an_unknown_endpoint_has_the_status_that_its_path_has(post, endpoint):
    (item,) = answered(post("batch", batch_of((endpoint, SOUND))))
    assert item.status == post(endpoint, SOUND).status_code


def test_an_id_that_stands_twice_is_answered_with_a_warning(post):
    items = [{"id": name, "endpoint": "sounding", "body": {}} for name in ("a", "b", "a", "a")]
    answer = post("batch", json.dumps({"items": items}).encode()).json()
    assert [item["id"] for item in answer["items"]] == ["a", "b", "a", "a"]
    assert [warning["pointer"] for warning in answer["warnings"]] == ["/items/2/id", "/items/3/id"]
    assert all(warning["detail"].startswith("item 0 has the same id") for warning in answer["warnings"])


def item(**changes):
    return json.dumps({"id": "a", "endpoint": "sounding", "body": {"a": 1}} | changes)


BROKEN_BATCHES = {
    "no object": ("[]", [""]),
    "no items": ("{}", ["/items"]),
    "null for the items": ('{"items": null}', ["/items"]),
    "an object for the items": ('{"items": {}}', ["/items"]),
    "an empty list": ('{"items": []}', ["/items"]),
    "one item too many": ('{"items": [' + ", ".join([item()] * (MOST_ITEMS + 1)) + "]}", ["/items"]),
    "items that are no objects": ('{"items": [5, null, []]}', ["/items/0", "/items/1", "/items/2"]),
    "an empty item": ('{"items": [{}]}', ["/items/0/id", "/items/0/endpoint", "/items/0/body"]),
    "a field of another kind of request": ('{"units": "us", "items": [' + item() + "]}", ["/units"]),
    "an unknown field of an item": ('{"items": [' + item(method="POST") + "]}", ["/items/0/method"]),
    "a number for an id": ('{"items": [' + item(id=5) + "]}", ["/items/0/id"]),
    "an empty id": ('{"items": [' + item(id="") + "]}", ["/items/0/id"]),
    "an id that is too long": ('{"items": [' + item(id="x" * 81) + "]}", ["/items/0/id"]),
    "a control character in an id": ('{"items": [' + item(id="a\n") + "]}", ["/items/0/id"]),
    "a list for an endpoint": ('{"items": [' + item(endpoint=["sounding"]) + "]}", ["/items/0/endpoint"]),
    "an endpoint without a name": ('{"items": [' + item(endpoint="") + "]}", ["/items/0/endpoint"]),
    "two lists of items": ('{"items": [' + item() + '], "items": [' + item() + "]}", ["/items"]),
    "two ids": ('{"items": [{"id": "x", ' + item()[1:] + "]}", ["/items/0/id"]),
    "two bodies": ('{"items": [{"body": {}, ' + item()[1:] + "]}", ["/items/0/body"]),
    "two bodies, one spelled with an escape": ('{"items": [{"b\\u006fdy": {}, ' + item()[1:] + "]}", ["/items/0/body"]),
    "two places": (
        '{"items": [' + item(id=1) + ", " + item() + ", " + item(body=None, no=1) + "]}",
        ["/items/0/id", "/items/2/no"],
    ),
}


@pytest.mark.parametrize(("raw", "pointers"), BROKEN_BATCHES.values(), ids=BROKEN_BATCHES)
def test_what_is_wrong_outside_the_bodies_refuses_the_batch_and_is_pointed_to(post, raw, pointers):
    response = post("batch", raw.encode())
    assert response.status_code == 400, response.text
    assert response.headers["content-type"] == "application/problem+json"
    problem = response.json()
    assert problem["type"] == "/problems/schema"
    assert [error["pointer"] for error in problem["errors"]] == pointers


def test_a_missing_body_is_told_in_words(post):
    problem = post("batch", b'{"items": [{"id": "a", "endpoint": "sounding"}]}').json()
    assert problem["errors"] == [
        {"pointer": "/items/0/body", "detail": "required, but missing: expected any JSON value"}
    ]


NO_JSON = {
    "a word": b"hello",
    "a cut batch": batch_of(("sounding", SOUND))[:-2],
    "a comma too many": batch_of(("sounding", SOUND))[:-2] + b",]}",
    "two batches": batch_of(("sounding", SOUND)) * 2,
    "NaN in an item": batch_of(("sounding", SOUND), ("sounding", b'{"site": NaN}')),
    "half a surrogate pair in an item": batch_of(("sounding", b'{"site": "\\ud800"}'), ("sounding", SOUND)),
    "an item nested deep": batch_of(("sounding", SOUND), ("sounding", b"[" * 100_000 + b"]" * 100_000)),
    "an item of objects nested deep": batch_of(("sounding", b'{"site":' * 20_000 + b"1" + b"}" * 20_000)),
    "a batch nested deep": b'{"items": ' * 20_000,
    "an octet that is no UTF-8 in an id": batch_of(("sounding", SOUND)).replace(b'"0"', b'"\xff"'),
    "a byte order mark": b"\xef\xbb\xbf" + batch_of(("sounding", SOUND)),
}


@pytest.mark.parametrize("raw", NO_JSON.values(), ids=NO_JSON)
def test_a_batch_that_is_no_json_or_is_nested_too_deeply_is_refused_whole(post, raw):
    """It is one JSON text: where that ends too early or has another grammar, no item can be told from the next."""
    response = post("batch", raw)
    assert response.status_code == 400, response.text
    problem = response.json()
    assert problem["type"] == "/problems/not-json"
    assert problem["detail"].rstrip(".")
    assert "errors" not in problem


class Members(list):
    """An object as its members stand in the text."""


KEYS = st.sampled_from(["id", "endpoint", "body", 'q"\\'])
BODIES = st.lists(st.tuples(KEYS, st.sampled_from(['"', "\\", "x", 1, None])), max_size=4).map(Members)


def written(value):
    match value:
        case Members():
            return "{" + ", ".join(f"{json.dumps(key)} : {written(member)}" for key, member in value) + "}"
        case list():
            return "[" + ", ".join(map(written, value)) + "]"
    return json.dumps(value)


@st.composite
def items_with_repeats(draw):
    """Items of which some have a member twice, with bodies in which members stand as they like."""
    members = [("id", draw(st.text('a"\\', min_size=1, max_size=3))), ("endpoint", "friction"), ("body", draw(BODIES))]
    return Members(members + draw(st.lists(st.sampled_from(members), max_size=1)))


@given(st.lists(items_with_repeats(), min_size=1, max_size=4))
def test_a_member_that_stands_twice_is_found_outside_the_bodies_and_never_imagined(items):
    raw = written(Members([("items", items)])).encode()
    if any(len(members) > 3 for members in items):
        with pytest.raises(Misfit, match="more than once"):
            decoded_batch(raw)
    else:
        assert [bytes(item.body).decode() for item in decoded_batch(raw).items] == [
            written(dict(members)["body"]) for members in items
        ]


def test_a_batch_of_faults_at_the_limit_is_refused_quickly():
    """What is refused must not bind the process: four megabytes, in this process's own time."""
    body = b'{"a": [' + b'{"x": 1e0, "y": "z"}, ' * 180 + b"1]}"
    raw = batch_of(*[("sounding", body)] * 999).replace(b'"id"', b'"idea"', 1)
    assert 3_900_000 < len(raw) < 4_100_000
    start = time.process_time()
    with pytest.raises(Misfit):
        decoded_batch(raw)
    assert time.process_time() - start < 2.0


def test_a_batch_may_be_longer_than_a_single_body_and_has_a_limit_of_its_own(send_to):
    send = send_to(create_app(Settings(body_limit_bytes=2_000, batch_limit_bytes=50_000)))
    raw = batch_of(*[("sounding", SOUND)] * 200)
    assert send("POST", "/v1/batch", content=raw.ljust(50_000), headers=JSON).status_code == 200
    refused = send("POST", "/v1/batch", content=raw.ljust(50_001), headers=JSON)
    assert refused.status_code == 413
    assert "50000 bytes" in refused.json()["detail"]


def test_the_limit_of_a_single_body_holds_for_the_body_of_an_item(send_to):
    send = send_to(create_app(Settings(body_limit_bytes=2_000)))
    long = SOUND[:-1] + b" " * (2_000 - len(SOUND)) + b"}"
    items = answered(
        send(
            "POST",
            "/v1/batch",
            headers=JSON,
            content=batch_of(("sounding", long), ("sounding", long + b" "), ("sounding", long[:-1] + b" }")),
        )
    )
    assert [item.status for item in items] == [200, 200, 413], "blanks around a body are no part of it"


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"content-type": "text/plain"}, 415),
        ({}, 415),
        (JSON | {"content-encoding": "gzip"}, 415),
        (JSON | {"accept": "text/html"}, 406),
    ],
)
def test_the_manners_of_a_single_request_hold_for_a_batch(send, headers, status):
    assert send("POST", "/v1/batch", content=batch_of(("sounding", SOUND)), headers=headers).status_code == status


def service_of(compute):
    endpoint = Endpoint("friction", "T", "D", FrictionRequest, FrictionAnswer, compute)
    return create_app(Settings(), [endpoint])


LINE = json.dumps(examples("friction")[2].request).encode()


def test_an_item_that_the_service_fails_on_spoils_only_itself_and_is_logged(send_to, caplog):
    calls = []

    def compute(request):
        calls.append(request)
        if len(calls) == 2:
            raise KeyError("a secret of the inside")
        return examples_answer(request)

    examples_answer = next(endpoint for endpoint in ENDPOINTS if endpoint.name == "friction").compute
    send = send_to(service_of(compute))
    response = send("POST", "/v1/batch", content=batch_of(*[("friction", LINE)] * 3), headers=JSON)
    assert [item.status for item in answered(response)] == [200, 500, 200]
    assert "secret" not in response.text
    problem = response.json()["items"][1]["body"]
    assert problem["type"] == "/problems/internal-error"
    logged = caplog.records[-1]
    assert logged.levelno == logging.ERROR
    assert problem["instance"] in logged.getMessage()


def test_no_item_ever_carries_a_number_that_is_not_finite(send_to):
    real = next(endpoint for endpoint in ENDPOINTS if endpoint.name == "friction").compute

    def compute(request):
        answer = real(request)
        return msgspec.structs.replace(
            answer, total_head_loss=msgspec.structs.replace(answer.total_head_loss, value=float("nan"))
        )

    (item,) = answered(
        send_to(service_of(compute))("POST", "/v1/batch", content=batch_of(("friction", LINE)), headers=JSON)
    )
    assert item.status == 422
    assert json.loads(bytes(item.body))["type"] == "/problems/beyond-reckoning"


def test_once_the_caller_has_gone_no_more_is_worked_out():
    """Straight at the ASGI border: the connection ends while the first items are worked out."""
    calls, begun = [], threading.Event()

    def compute(request):
        calls.append(request)
        begun.set()
        time.sleep(0.001)
        return real(request)

    real = next(endpoint for endpoint in ENDPOINTS if endpoint.name == "friction").compute
    app, sent = service_of(compute), []
    scope = {
        "type": "http",
        "method": "POST",
        "path": "/v1/batch",
        "query_string": b"",
        "headers": [(b"content-type", b"application/json")],
    }
    messages = iter(
        [{"type": "http.request", "body": batch_of(*[("friction", LINE)] * MOST_ITEMS), "more_body": False}]
    )

    async def receive():
        for message in messages:
            return message
        while not begun.is_set():
            await asyncio.sleep(0.001)
        return {"type": "http.disconnect"}

    async def send(message):
        sent.append(message["type"])

    asyncio.run(app(scope, receive, send))
    assert 0 < len(calls) < MOST_ITEMS / 4
    assert sent[0] == "http.response.start"
    assert len(sent) < 5, "the pieces that were under way, and no end"


def test_the_document_shows_what_the_service_answers(send):
    operation = contract_document(ENDPOINTS)["paths"]["/v1/batch"]["post"]
    asked = operation["requestBody"]["content"]["application/json"]["examples"]
    told = operation["responses"]["200"]["content"]["application/json"]["examples"]
    assert asked.keys() == told.keys() == {example.name for example in examples("batch")}
    for name, example in asked.items():
        answer = send("POST", "/v1/batch", json=example["value"]).json()
        assert [plain(item) for item in answer["items"]] == [plain(item) for item in told[name]["value"]["items"]]
        assert answer["warnings"] == told[name]["value"]["warnings"]
    statuses = [item["status"] for item in told["bad-items"]["value"]["items"]]
    assert statuses == [200, 400, 422, 404]


def plain(item):
    return item | {"body": {key: value for key, value in item["body"].items() if key not in VARYING}}


def test_the_document_shows_how_a_batch_is_refused(send):
    operation = contract_document(ENDPOINTS)["paths"]["/v1/batch"]["post"]
    (shown,) = operation["responses"]["400"]["content"]["application/problem+json"]["examples"].values()
    request = json.loads(json.dumps(examples("batch")[0].request))
    del request["items"][0]["id"]
    answer = send("POST", "/v1/batch", json=request)
    assert answer.status_code == 400
    assert without_ids(answer.content) == without_ids(json.dumps(shown["value"]).encode())
