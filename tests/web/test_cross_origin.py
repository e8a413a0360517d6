"""What pages of other origins may read: what the operator has allowed, and nothing where nothing was."""

import json

import pytest

from footvalve.contract.examples import examples
from footvalve.web.application import create_app
from footvalve.web.settings import BadSetting, Settings

SHOP = "https://shop.example"
OTHER = "https://other.example"
BODY = json.dumps(examples("sounding")[0].request).encode()
JSON = {"content-type": "application/json"}
COVERED = ["/v1/tables/units", "/embed/v1/suction-check.js", "/embed/v1/texts", "/embed/v1/demo", "/openapi.json"]
UNCOVERED = ["/", "/live", "/docs", "/docs/assets/docs.js", "/problems/schema", "/v1", "/embed", "/openapi.json.bak"]
PREFLIGHT = {"access-control-request-method": "POST", "access-control-request-headers": "content-type"}


@pytest.fixture(scope="module")
def ask(send_to):
    """Send a request from a page of an origin to a service that allows the shop."""
    return _asking(send_to, Settings.from_environment({"FOOTVALVE_ALLOWED_ORIGINS": f"{SHOP}, http://127.0.0.1:9000"}))


def _asking(send_to, settings):
    send = send_to(create_app(settings))

    def asked(method, path, origin=SHOP, headers=(), **parts):
        from_page = {} if origin is None else {"origin": origin}
        return send(method, path, headers=from_page | dict(headers), **parts)

    return asked


def cors_headers(response):
    return {name for name in response.headers if name.startswith("access-control-")}


@pytest.mark.parametrize("path", COVERED)
@pytest.mark.parametrize("origin", [SHOP, "http://127.0.0.1:9000"])
def test_a_page_of_an_allowed_origin_may_read(ask, path, origin):
    response = ask("GET", path, origin)
    assert response.status_code == 200
    assert response.headers["access-control-allow-origin"] == origin
    assert response.headers["vary"] == "Origin"
    assert "access-control-allow-credentials" not in response.headers


def test_an_answer_may_be_read_with_its_tag_and_id(ask):
    response = ask("POST", "/v1/sounding", headers=JSON, content=BODY)
    assert response.status_code == 200
    assert response.headers["access-control-allow-origin"] == SHOP
    exposed = {name.strip().lower() for name in response.headers["access-control-expose-headers"].split(",")}
    assert exposed == {"etag", "ratelimit", "ratelimit-policy", "retry-after", "x-request-id"}


def test_what_varies_already_goes_on_varying(ask):
    response = ask("POST", "/v1/site-plan", headers=JSON, content=b"{}")
    assert response.status_code == 400
    sound = ask("POST", "/v1/site-plan", headers=JSON, content=json.dumps(examples("site-plan")[0].request))
    assert {name.strip() for name in sound.headers["vary"].split(",")} == {"Accept", "Origin"}


@pytest.mark.parametrize(
    ("method", "path", "status", "more"),
    [
        ("POST", "/v1/sounding", 400, {"headers": JSON, "content": b"{"}),
        ("POST", "/v1/sounding", 413, {"headers": JSON, "content": b" " * 300_000}),
        ("POST", "/v1/sounding", 415, {"content": BODY}),
        ("POST", "/v1/no-such", 404, {}),
        ("GET", "/v1/sounding", 405, {}),
        ("GET", "/v1//sounding", 404, {}),
        ("GET", "/embed/v1/demo?lang=xx", 400, {}),
        (
            "POST",
            "/v1/batch",
            200,
            {"headers": JSON, "content": b'{"items": [{"id": "a", "endpoint": "x", "body": {}}]}'},
        ),
    ],
)
def test_problems_and_streams_may_be_read_too(ask, method, path, status, more):
    """Without these headers the page would be told of a network error instead of its fault."""
    response = ask(method, f"http://service.test{path}", **more)
    assert response.status_code == status
    assert response.headers["access-control-allow-origin"] == SHOP


def test_who_holds_a_resource_is_told_so_with_the_same_headers(ask):
    tag = ask("GET", "/embed/v1/texts").headers["etag"]
    response = ask("GET", "/embed/v1/texts", headers={"if-none-match": tag})
    assert response.status_code == 304
    assert response.headers["access-control-allow-origin"] == SHOP


@pytest.mark.parametrize(
    "origin",
    [OTHER, "null", "", "https://shop.example:8443", "http://shop.example", "https://shop.example.evil.example", "*"],
)
@pytest.mark.parametrize("method", ["GET", "OPTIONS"])
def test_a_page_of_another_origin_is_told_nothing(ask, method, origin):
    response = ask(method, "/embed/v1/texts", origin, headers=PREFLIGHT)
    assert cors_headers(response) == set()
    assert response.headers["vary"] == "Origin", "a cache must not give this answer to the shop"


def test_without_an_origin_the_answer_still_varies_by_it(ask):
    response = ask("GET", "/embed/v1/texts", None)
    assert cors_headers(response) == set()
    assert response.headers["vary"] == "Origin"


@pytest.mark.parametrize("path", UNCOVERED)
def test_other_paths_are_for_pages_of_the_service_alone(ask, path):
    response = ask("GET", path)
    assert cors_headers(response) == set()
    assert "Origin" not in response.headers.get("vary", "")


@pytest.mark.parametrize(
    ("path", "methods"), [("/v1/sounding", {"POST"}), ("/v1/tables/units", {"GET", "HEAD"}), ("/v1/batch", {"POST"})]
)
def test_a_preflight_is_told_what_it_asks_for(ask, path, methods):
    response = ask("OPTIONS", path, headers=PREFLIGHT)
    assert response.status_code == 204
    assert response.headers["access-control-allow-origin"] == SHOP
    assert {name.strip() for name in response.headers["access-control-allow-methods"].split(",")} - {
        "OPTIONS"
    } == methods
    allowed = {name.strip().lower() for name in response.headers["access-control-allow-headers"].split(",")}
    assert {"content-type", "if-none-match", "x-request-id"} <= allowed
    assert 600 <= int(response.headers["access-control-max-age"]) <= 86_400


def test_options_that_are_no_preflight_say_only_who_may_read(ask):
    response = ask("OPTIONS", "/v1/sounding")
    assert response.headers["allow"] == "OPTIONS, POST"
    assert "access-control-allow-methods" not in response.headers


def test_a_preflight_of_nothing_stays_a_404(ask):
    response = ask("OPTIONS", "/v1/no-such", headers=PREFLIGHT)
    assert response.status_code == 404
    assert "access-control-allow-methods" not in response.headers


@pytest.mark.parametrize("path", COVERED)
@pytest.mark.parametrize("method", ["GET", "OPTIONS"])
def test_by_default_no_other_origin_is_allowed(send, path, method):
    response = send(method, path, headers={"origin": SHOP, **PREFLIGHT})
    assert cors_headers(response) == set()
    assert "vary" not in response.headers


def test_the_star_allows_every_origin_and_needs_no_vary(send_to):
    ask = _asking(send_to, Settings.from_environment({"FOOTVALVE_ALLOWED_ORIGINS": "*"}))
    response = ask("GET", "/embed/v1/texts", OTHER)
    assert response.headers["access-control-allow-origin"] == "*"
    assert "vary" not in response.headers
    preflight = ask("OPTIONS", "/v1/sounding", OTHER, headers=PREFLIGHT)
    assert "POST" in preflight.headers["access-control-allow-methods"]


@pytest.mark.parametrize(
    ("value", "origins"),
    [
        ("", set()),
        ("  ", set()),
        ("*", {"*"}),
        ("https://shop.example", {"https://shop.example"}),
        (" https://a.example ,http://b.example:8080", {"https://a.example", "http://b.example:8080"}),
        (
            "http://localhost,http://[::1]:3000,http://10.0.0.7",
            {"http://localhost", "http://[::1]:3000", "http://10.0.0.7"},
        ),
    ],
)
def test_origins_are_taken_from_their_variable(value, origins):
    assert Settings.from_environment({"FOOTVALVE_ALLOWED_ORIGINS": value}).allowed_origins == origins


MALFORMED = [
    "shop.example",
    "https://shop.example/",
    "https://shop.example/path",
    "https://Shop.example",
    "HTTPS://shop.example",
    "https://*.example",
    "https://shop.example:443",
    "http://shop.example:80",
    "https://shop.example:0",
    "https://shop.example:65536",
    "https://shop.example:",
    "https://user@shop.example",
    "https://",
    "ftp://shop.example",
    "null",
    "https://caf\u00e9.example",
    "https://shop.ex\nample",
    "https://a.example https://b.example",
]


@pytest.mark.parametrize("value", [*MALFORMED, "*,https://a.example", "https://a.example,", ","])
def test_a_malformed_origin_stops_the_start_with_the_name_of_its_variable(value):
    """A browser sends none of these: the shop would be locked out, and nobody would know why."""
    with pytest.raises(BadSetting, match=r"^FOOTVALVE_ALLOWED_ORIGINS must be \*, or origins as browsers send them"):
        Settings.from_environment({"FOOTVALVE_ALLOWED_ORIGINS": value})


@pytest.mark.parametrize("value", [*MALFORMED, "*", "https://a.example,https://b.example"])
def test_the_public_origin_is_one_origin(value):
    with pytest.raises(BadSetting, match=r"^FOOTVALVE_PUBLIC_ORIGIN must be an origin"):
        Settings.from_environment({"FOOTVALVE_PUBLIC_ORIGIN": value})
