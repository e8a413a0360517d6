"""The headers that hold a browser back, on every kind of answer that there is."""

import json

import pytest

from footvalve.contract.examples import examples

JSON = {"content-type": "application/json"}
PLAN = json.dumps(examples("site-plan")[0].request).encode()
BATCH = json.dumps(examples("batch")[0].request).encode()

ANSWERS = {
    "an answer": ("POST", "/v1/site-plan", JSON, PLAN, 200),
    "a sheet": ("POST", "/v1/site-plan", JSON | {"accept": "text/html"}, PLAN, 200),
    "a drawing": ("POST", "/v1/site-plan", JSON | {"accept": "image/svg+xml"}, PLAN, 200),
    "a batch": ("POST", "/v1/batch", JSON, BATCH, 200),
    "a refused body": ("POST", "/v1/friction", JSON, b"{}", 400),
    "a refusal by physics": (
        "POST",
        "/v1/friction",
        JSON,
        json.dumps(examples("friction")[0].request | {"site": {"altitude": {"value": 20_000, "unit": "m"}}}).encode(),
        422,
    ),
    "another media type": ("POST", "/v1/friction", {"content-type": "text/plain"}, b"{}", 415),
    "another method": ("DELETE", "/v1/friction", {}, b"", 405),
    "nothing": ("GET", "/wp-login.php", {}, b"", 404),
    "a table": ("GET", "/v1/tables/pipes", {}, b"", 200),
    "a table that is held": ("GET", "/v1/tables/pipes", {"if-none-match": "*"}, b"", 304),
    "options": ("OPTIONS", "/v1/friction", {}, b"", 204),
    "head": ("HEAD", "/docs", {}, b"", 200),
    "the index": ("GET", "/", {}, b"", 200),
    "a sign of life": ("GET", "/live", {}, b"", 200),
    "the contract": ("GET", "/openapi.json", {}, b"", 200),
    "the docs": ("GET", "/docs", {}, b"", 200),
    "a program": ("GET", "/docs/assets/docs.js", {}, b"", 200),
    "a problem's page": ("GET", "/problems/schema", {"accept": "text/html"}, b"", 200),
    "the demo": ("GET", "/embed/v1/demo", {}, b"", 200),
    "the page of a sheet": ("GET", "/embed/v1/site-sheet", {}, b"", 200),
    "the embedded script": ("GET", "/embed/v1/suction-check.js", {}, b"", 200),
}
SHOWN = ("text/html", "image/svg+xml")
"""What a browser makes a document of."""


@pytest.fixture(params=ANSWERS.values(), ids=ANSWERS)
def answer(request, caller):
    method, path, headers, body, status = request.param
    response = caller.request(method, path, headers=headers, content=body)
    assert response.status_code == status, response.text
    return response


def test_no_type_is_guessed_and_no_address_passed_on(answer):
    assert answer.headers.get_list("x-content-type-options") == ["nosniff"]
    assert answer.headers.get_list("referrer-policy") == ["no-referrer"]


def test_what_runs_here_is_not_told(answer):
    assert "server" not in answer.headers
    assert "x-powered-by" not in answer.headers


def test_nothing_is_kept_in_the_browser_and_transport_is_left_to_the_proxy(answer):
    assert "set-cookie" not in answer.headers
    assert "strict-transport-security" not in answer.headers  # on a plain connection it says nothing


def test_no_other_origin_is_let_in_unless_the_operator_says_so(answer):
    assert not [name for name in answer.headers if name.startswith("access-control-")]


def test_a_document_loads_nothing_from_elsewhere_and_is_framed_by_nobody(answer):
    if not answer.headers.get("content-type", "").startswith(SHOWN):
        assert "content-security-policy" not in answer.headers
        return
    directives = dict(part.strip().split(" ", 1) for part in answer.headers["content-security-policy"].split(";"))
    assert {name: directives[name] for name in ("default-src", "base-uri", "form-action", "frame-ancestors")} == {
        "default-src": "'none'",
        "base-uri": "'none'",
        "form-action": "'none'",
        "frame-ancestors": "'none'",
    }
    allowed = {"'none'", "'self'", "data:"}
    for name, sources in directives.items():
        beyond = set(sources.split()) - allowed
        assert all(name == "style-src" and source.startswith("'sha256-") for source in beyond), (name, sources)
    assert "data:" not in directives.get("script-src", "")


def test_a_problem_is_kept_by_no_cache(answer):
    if answer.status_code >= 400:
        assert answer.headers["cache-control"] == "no-store"
        assert answer.headers["content-type"] == "application/problem+json"
