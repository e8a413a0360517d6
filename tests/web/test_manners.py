"""The manners of HTTP: methods, media types, codings, sizes, and the headers of every answer."""

import hashlib
import json

import pytest

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.answers.tables import TABLES
from footvalve.contract.examples import examples
from footvalve.web.answer_forms import DRAWN
from footvalve.web.application import create_app
from footvalve.web.embed_script import ALIAS, embed_script
from footvalve.web.embed_texts import texts_by_language
from footvalve.web.problem_types import PROBLEM_TYPES
from footvalve.web.settings import Settings

TABLES_READ = [f"/v1/tables/{name}" for name in TABLES]
NAMES = [endpoint.name for endpoint in ENDPOINTS]
POSTED = [*(f"/v1/{name}" for name in NAMES), "/v1/batch"]
SCRIPT = embed_script()
EMBED_FILES = [
    "demo",
    "demo.css",
    "demo.js",
    "site-sheet",
    "site-sheet.css",
    "site-sheet.js",
    "integrity.json",
    "texts",
]
DOCS_FILES = ["docs.css", "docs.js", "swagger-ui.css", "swagger-ui-bundle.js"]
KEPT = [
    "/",
    "/openapi.json",
    *TABLES_READ,
    ALIAS,
    SCRIPT.address,
    *(f"/embed/v1/{name}" for name in EMBED_FILES),
    *(f"/embed/v1/texts/{language}.json" for language in texts_by_language()),
    "/docs",
    *(f"/docs/assets/{name}" for name in DOCS_FILES),
]
READ = ["/live", "/ready", *KEPT, *(kind.uri for kind in PROBLEM_TYPES)]


def sound(name):
    return json.dumps(examples(name)[0].request).encode()


def problem_slug(response):
    assert response.headers["content-type"] == "application/problem+json"
    return response.json()["type"].removeprefix("/problems/")


@pytest.mark.parametrize("path", READ)
def test_head_answers_as_get_does_but_without_a_body(send, path):
    get, head = send("GET", path), send("HEAD", path)
    assert (get.status_code, head.status_code) == (200, 200)
    assert get.content
    assert not head.content
    varying = {"x-request-id"}
    assert {k: v for k, v in head.headers.items() if k not in varying} == {
        k: v for k, v in get.headers.items() if k not in varying
    }
    assert int(head.headers["content-length"]) == len(get.content)


@pytest.mark.parametrize("path", KEPT)
def test_what_never_changes_has_a_tag_and_is_not_sent_to_who_holds_it(send, path):
    whole = send("GET", path)
    assert whole.headers["etag"] == f'"{hashlib.sha256(whole.content).hexdigest()[:32]}"'
    assert "cache-control" in whole.headers
    for method in ("GET", "HEAD"):
        held = send(method, path, headers={"if-none-match": whole.headers["etag"]})
        assert (held.status_code, held.content) == (304, b"")
        kept = {name: held.headers[name] for name in ("etag", "cache-control")}
        assert kept == {name: whole.headers[name] for name in kept}
        assert "content-type" not in held.headers
    assert send("GET", path, headers={"if-none-match": '"other"'}).status_code == 200


@pytest.mark.parametrize(
    ("path", "methods"),
    [*((path, "OPTIONS, POST") for path in POSTED), *((path, "GET, HEAD, OPTIONS") for path in READ)],
)
def test_options_tells_the_methods(send, path, methods):
    response = send("OPTIONS", path)
    assert response.status_code == 204
    assert response.headers["allow"] == methods
    assert not response.content


@pytest.mark.parametrize("method", ["GET", "HEAD", "PUT", "PATCH", "DELETE", "TRACE", "QUERY", "FETCH"])
@pytest.mark.parametrize("path", POSTED)
def test_an_endpoint_takes_post_alone(send, path, method):
    response = send(method, path)
    assert response.status_code == 405
    assert response.headers["allow"] == "OPTIONS, POST"
    assert method == "HEAD" or problem_slug(response) == "method-not-allowed"


@pytest.mark.parametrize("method", ["POST", "PUT", "PATCH", "DELETE"])
@pytest.mark.parametrize("path", READ)
def test_what_is_read_is_not_written(send, path, method):
    response = send(method, path)
    assert response.status_code == 405
    assert response.headers["allow"] == "GET, HEAD, OPTIONS"


@pytest.mark.parametrize("method", ["GET", "POST", "HEAD", "OPTIONS", "DELETE"])
@pytest.mark.parametrize(
    "path", ["/v1", "/v1/soundings", "/v2/sounding", "/problems", "/problems/no-such", "/%00", "/a\u202e"]
)
def test_nothing_is_found_where_nothing_is(send, path, method):
    response = send(method, path)
    assert response.status_code == 404
    assert method == "HEAD" or problem_slug(response) == "not-found"
    assert response.text.isprintable()


@pytest.mark.parametrize("method", ["GET", "POST", "HEAD", "OPTIONS", "DELETE"])
@pytest.mark.parametrize(
    ("path", "meant"),
    [
        ("/v1/friction/", "/v1/friction"),
        ("/v1//friction", "/v1/friction"),
        ("//live", "/live"),
        ("/v1/tables/pipes/", "/v1/tables/pipes"),
        ("/v1/frictions", "/v1/friction"),
    ],
)
def test_a_path_has_one_spelling_and_the_right_one_is_named(send, method, path, meant):
    response = send(method, f"http://service.test{path}")
    assert response.status_code == 404
    assert response.headers["x-request-id"]
    if method != "HEAD":
        assert problem_slug(response) == "not-found"
        assert response.json()["detail"] == f"There is nothing at {path}; did you mean `{meant}`?"


@pytest.mark.parametrize(
    "accept",
    [
        "application/json",
        "*/*",
        "application/*",
        "",
        "text/html, application/json;q=0.1",
        "text/html;q=0.9, */*;q=0.1",
        "APPLICATION/JSON",
        "application/json; charset=utf-8",
        "application/problem+json, application/json",
    ],
)
def test_json_is_given_to_who_admits_it(post, accept):
    assert post(NAMES[0], sound(NAMES[0]), accept=accept).status_code == 200


@pytest.mark.parametrize(
    "accept",
    ["text/html", "application/xml, text/*", "application/json;q=0", "*/*;q=0", "application/json;q=0, */*", "image/*"],
)
@pytest.mark.parametrize("name", [name for name in NAMES if name not in DRAWN])
def test_who_does_not_admit_json_gets_nothing_acceptable(post, name, accept):
    response = post(name, sound(name), accept=accept)
    assert response.status_code == 406
    assert problem_slug(response) == "not-acceptable"


def test_accept_may_come_in_two_headers(send):
    headers = [("accept", "application/json"), ("accept", "text/html"), ("content-type", "application/json")]
    response = send("POST", POSTED[0], content=sound(NAMES[0]), headers=headers)
    assert response.status_code == 200


@pytest.mark.parametrize(
    "content_type",
    ["application/json", "application/json; charset=utf-8", 'Application/JSON;charset="UTF-8"', "application/json;"],
)
def test_json_in_utf_8_is_read(post, content_type):
    assert post(NAMES[0], sound(NAMES[0]), content_type=content_type).status_code == 200


@pytest.mark.parametrize(
    "content_type",
    [
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data; boundary=x",
        "application/problem+json",
        "application/jsonx",
        "application/json; charset=utf-16",
        "application/json; charset=latin-1",
        "application/json, text/plain",
        "json",
        ";",
        "",
    ],
)
@pytest.mark.parametrize("name", NAMES)
def test_another_content_type_is_refused(post, name, content_type):
    response = post(name, sound(name), content_type=content_type)
    assert response.status_code == 415
    assert problem_slug(response) == "unsupported-media-type"
    assert response.headers["accept"] == "application/json"


def test_a_missing_content_type_is_refused(send):
    assert send("POST", POSTED[0], content=sound(NAMES[0])).status_code == 415


def test_two_content_types_are_refused(send):
    headers = [("content-type", "text/plain"), ("content-type", "application/json")]
    assert send("POST", POSTED[0], content=sound(NAMES[0]), headers=headers).status_code == 415


@pytest.mark.parametrize("coding", ["gzip", "br", "deflate, gzip", "identity, gzip", ""])
@pytest.mark.parametrize("name", NAMES)
def test_a_coded_body_is_refused(post, name, coding):
    response = post(name, sound(name), content_encoding=coding)
    assert response.status_code == 415
    assert response.headers["accept-encoding"] == "identity"


def test_the_identity_coding_is_no_coding(post):
    assert post(NAMES[0], sound(NAMES[0]), content_encoding="identity").status_code == 200


@pytest.mark.parametrize("announced", [True, False])
@pytest.mark.parametrize("name", NAMES)
def test_a_body_beyond_the_limit_is_too_large(send, name, announced):
    raw = b'{"x": "' + b"x" * 300_000 + b'"}'

    async def pieces():
        for start in range(0, len(raw), 10_000):
            yield raw[start : start + 10_000]

    headers = {"content-type": "application/json"}
    response = send("POST", f"/v1/{name}", content=raw if announced else pieces(), headers=headers)
    assert response.status_code == 413
    assert problem_slug(response) == "body-too-large"
    assert "256000 bytes" in response.json()["detail"]


def test_the_limit_is_a_setting_and_may_be_reached(send_to):
    send = send_to(create_app(Settings(body_limit_bytes=2_000)))
    raw = sound("friction")
    headers = {"content-type": "application/json"}
    assert send("POST", "/v1/friction", content=raw.ljust(2_000), headers=headers).status_code == 200
    assert send("POST", "/v1/friction", content=raw.ljust(2_001), headers=headers).status_code == 413


def test_a_body_may_come_in_pieces(send):
    raw = sound("friction")

    async def pieces():
        for octet in raw:
            yield bytes([octet])

    response = send("POST", "/v1/friction", content=pieces(), headers={"content-type": "application/json"})
    assert response.status_code == 200


@pytest.mark.parametrize("path", POSTED + READ)
def test_query_parameters_are_refused(send, path):
    headers = {"content-type": "application/json"} if path in POSTED else {}
    response = send("POST" if path in POSTED else "GET", f"{path}?units=metric&\u202e=%0a", headers=headers)
    assert response.status_code == 400
    assert problem_slug(response) == "unknown-query"


@pytest.mark.parametrize(
    ("method", "path"), [("POST", POSTED[0]), ("GET", "/live"), ("GET", "/x"), ("PUT", "/live"), ("OPTIONS", "/live")]
)
def test_every_answer_carries_the_request_id_and_forbids_sniffing(send, method, path):
    response = send(method, path, headers={"x-request-id": "Order-17"})
    assert response.headers["x-request-id"] == "Order-17"
    assert response.headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize("given", [None, "", "two words", "a" * 65, "a_b", "a\tb", "caf\u00e9"])
def test_a_request_id_that_will_not_do_is_replaced(send, given):
    headers = {} if given is None else {"x-request-id": given.encode()}
    first, second = (send("GET", "/live", headers=headers).headers["x-request-id"] for _ in range(2))
    assert first != second
    assert given not in (first, second)


def test_a_problem_tells_the_request_id_and_an_instance_of_its_own(send):
    first, second = (send("GET", "/x", headers={"x-request-id": "a-1"}).json() for _ in range(2))
    assert first["request_id"] == second["request_id"] == "a-1"
    assert first["instance"].startswith("urn:uuid:")
    assert first["instance"] != second["instance"]


def test_the_index_points_to_the_contract_and_to_every_endpoint(send):
    index = send("GET", "/").json()
    assert send("GET", index["contract"]).json()["openapi"] == "3.1.0"
    assert index["endpoints"] == POSTED
    assert index["tables"] == TABLES_READ


@pytest.mark.parametrize("name", NAMES)
def test_the_same_body_gives_the_same_answer(post, name):
    first, second = (post(name, sound(name)) for _ in range(2))
    assert first.content == second.content
