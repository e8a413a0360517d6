"""Who may ask, and how much: keys, limits, and whose address it is."""

import json
from datetime import UTC, datetime, timedelta

import pytest

from footvalve.contract.examples import examples
from footvalve.web.access_layer import Access
from footvalve.web.application import create_app
from footvalve.web.client_address import ClientAddresses
from footvalve.web.key_making import entry_of, made_key
from footvalve.web.settings import Settings

SOUNDING = examples("sounding")[0].request
KEY, NARROW, OLD, SLOW = (made_key() for _ in range(4))
FREE = ["/", "/live", "/ready", "/openapi.json", "/problems/schema", "/docs", "/embed/v1/suction-check.js"]
JSON = {"content-type": "application/json"}


@pytest.fixture(scope="module")
def keys_file(tmp_path_factory):
    file = tmp_path_factory.mktemp("keys") / "keys.toml"
    yesterday = datetime.now(UTC).date() - timedelta(days=1)
    file.write_text(
        entry_of("shop", KEY)
        + entry_of("narrow", NARROW)
        + 'endpoints = ["sounding"]\n'
        + entry_of("old", OLD)
        + f"expires = {yesterday}\n"
        + entry_of("slow", SLOW)
        + 'limit = "3/hour"\n'
    )
    return str(file)


@pytest.fixture(scope="module")
def service(send_to):
    """A service of its own with some settings, and the function that sends it a request, perhaps with a key."""

    def made(**settings):
        told = {f"FOOTVALVE_{name.upper()}": value for name, value in settings.items()}
        send = send_to(create_app(Settings.from_environment(told)))

        def asked(method="POST", path="/v1/sounding", key=None, headers=(), body=SOUNDING, **parts):
            headers = dict(headers) | ({} if key is None else {"authorization": f"Bearer {key}"})
            if method == "POST" and "content" not in parts:
                parts["json"] = body
            return send(method, path, headers=headers, **parts)

        return asked

    return made


@pytest.fixture(scope="module")
def guarded(service, keys_file):
    """A service that wants a key."""
    return service(keys_file=keys_file)


@pytest.fixture(scope="module")
def unguarded(service, keys_file):
    """A service that knows keys, and wants none."""
    return service(keys_file=keys_file, access="open")


def problem(response):
    assert response.headers["content-type"] == "application/problem+json"
    return response.json()["type"].removeprefix("/problems/")


def batch(*endpoints):
    return {"items": [{"id": str(place), "endpoint": name, "body": SOUNDING} for place, name in enumerate(endpoints)]}


# Keys


@pytest.mark.parametrize("path", ["/v1/sounding", "/v1/batch", "/v1/tables/units", "/v1/no-such"])
def test_without_a_key_everything_under_v1_is_refused(guarded, path):
    response = guarded("GET" if "tables" in path else "POST", path)
    assert (response.status_code, problem(response)) == (401, "unauthenticated")
    assert response.headers["www-authenticate"] == "Bearer"
    assert response.headers["cache-control"] == "no-store"
    assert "ratelimit" not in response.headers


@pytest.mark.parametrize("path", FREE)
def test_all_else_is_free(guarded, path):
    response = guarded("GET", path)
    assert response.status_code == 200
    assert "ratelimit" not in response.headers


@pytest.mark.parametrize("scheme", ["Bearer", "bearer", "BEARER", "Bearer  "])
def test_with_a_key_it_answers(guarded, scheme):
    assert guarded(headers={"authorization": f"{scheme} {KEY}"}).status_code == 200


@pytest.mark.parametrize(
    "told",
    [
        f"Basic {KEY}",
        f"Bearer{KEY}",
        f"Bearer {KEY} {KEY}",
        f"Bearer {KEY},",
        "Bearer",
        "Bearer ",
        "",
        KEY,
        f"Bearer {KEY[:-1]}",
        f"Bearer {KEY}=",
        f"Bearer {KEY.upper()}",
        "Bearer " + "k" * 5_000,
        "Bearer \u00e9".encode(),
        b"Bearer \xff\xfe",
    ],
)
def test_what_is_no_key_is_refused_where_none_is_needed_too(guarded, unguarded, told):
    for asked in (guarded, unguarded):
        response = asked(headers=[("authorization", told)])
        assert (response.status_code, problem(response)) == (401, "unauthenticated")
        assert response.headers["www-authenticate"].startswith("Bearer")
        assert KEY[:-1] not in response.text


def test_two_keys_are_refused_good_as_they_may_be(send_to, keys_file):
    send = send_to(create_app(Settings.from_environment({"FOOTVALVE_KEYS_FILE": keys_file})))
    twice = [("authorization", f"Bearer {KEY}")] * 2
    assert send("POST", "/v1/sounding", json=SOUNDING, headers=twice).status_code == 401


def test_open_access_answers_without_a_key(unguarded):
    assert unguarded().status_code == 200


def test_a_key_that_has_run_out_is_forbidden(guarded):
    response = guarded(key=OLD)
    assert (response.status_code, problem(response)) == (403, "forbidden")
    assert "www-authenticate" not in response.headers


def test_a_key_for_some_endpoints_is_for_no_other(guarded):
    assert guarded(key=NARROW).status_code == 200
    assert guarded("GET", "/v1/tables/units", key=NARROW).status_code == 200
    assert guarded("POST", "/v1/no-such", key=NARROW).status_code == 404
    response = guarded("POST", "/v1/friction", key=NARROW)
    assert (response.status_code, problem(response)) == (403, "forbidden")
    assert "friction" in response.json()["detail"]


def test_a_key_for_some_endpoints_is_so_inside_a_batch(guarded):
    response = guarded("POST", "/v1/batch", key=NARROW, body=batch("sounding", "friction", "sounding", "no-such"))
    assert [item["status"] for item in response.json()["items"]] == [200, 403, 200, 404]
    assert response.json()["items"][1]["body"]["type"] == "/problems/forbidden"


@pytest.mark.parametrize("path", ["//v1/sounding", "/v1//sounding", "/V1/sounding", "/v1/sounding/", "/./v1/sounding"])
def test_no_spelling_of_a_path_goes_round_the_keys(guarded, path):
    assert guarded("POST", f"http://service.test{path}").status_code in {401, 404}


def test_an_encoded_path_needs_a_key_like_any_other(guarded):
    assert guarded("POST", "/v1/%73ounding").status_code == 401
    assert guarded("POST", "/%76%31/sounding").status_code == 401


def test_a_preflight_needs_no_key_and_a_page_can_read_the_refusal(service, keys_file):
    shop = {"origin": "https://shop.example"}
    asked = service(keys_file=keys_file, allowed_origins="https://shop.example", anonymous_limit="1/hour")
    preflight = {**shop, "access-control-request-method": "POST", "access-control-request-headers": "authorization"}
    for _ in range(3):
        response = asked("OPTIONS", headers=preflight)
        assert response.status_code == 204
        assert "authorization" in response.headers["access-control-allow-headers"].lower()
    refused = asked(headers=shop)
    assert refused.status_code == 401
    assert refused.headers["access-control-allow-origin"] == "https://shop.example"


# Limits


def test_every_counted_answer_tells_what_is_left(service):
    asked = service(anonymous_limit="3/hour")
    answers = [asked(), asked("POST", "/v1/no-such"), asked(content=b"{", headers=JSON), asked()]
    assert [answer.status_code for answer in answers] == [200, 404, 400, 429]
    assert {answer.headers["ratelimit-policy"] for answer in answers} == {'"anonymous";q=3;w=3600'}
    left = [answer.headers["ratelimit"].rpartition(";t=")[0] for answer in answers]
    assert left == [f'"anonymous";r={number}' for number in (2, 1, 0, 0)]
    assert problem(answers[-1]) == "too-many-requests"
    assert 0 < int(answers[-1].headers["retry-after"]) <= 3601


def test_what_is_free_and_options_are_not_counted(service):
    asked = service(anonymous_limit="1/hour")
    for path in FREE:
        asked("GET", path)
    assert asked("OPTIONS").status_code == 204
    assert [asked().status_code for _ in range(2)] == [200, 429]
    assert asked("GET", "/ready").status_code == 200


def test_a_head_is_counted_as_a_get(service):
    asked = service(anonymous_limit="2/hour")
    assert [asked(method, "/v1/tables/units").status_code for method in ("HEAD", "GET", "HEAD")] == [200, 200, 429]


def test_a_key_has_an_allowance_of_its_own(service, keys_file):
    asked = service(keys_file=keys_file, access="open", anonymous_limit="1/hour", key_limit="2/hour")
    assert [asked().status_code for _ in range(2)] == [200, 429]
    assert [asked(key=KEY).status_code for _ in range(3)] == [200, 200, 429]
    assert [asked(key=SLOW).status_code for _ in range(4)] == [200, 200, 200, 429]
    assert asked(key=KEY).headers["ratelimit-policy"] == '"key";q=2;w=3600'
    assert asked(key=made_key()).status_code == 401


def test_a_key_without_a_limit_is_told_of_none(guarded):
    assert "ratelimit" not in guarded(key=KEY).headers


def test_a_batch_counts_as_many_requests_as_it_has_items(service):
    asked = service(anonymous_limit="10/hour")
    response = asked("POST", "/v1/batch", body=batch(*["sounding"] * 7))
    assert response.status_code == 200
    assert response.headers["ratelimit"].startswith('"anonymous";r=3;')
    refused = asked("POST", "/v1/batch", body=batch(*["sounding"] * 4))
    assert (refused.status_code, problem(refused)) == (429, "too-many-requests")
    assert refused.headers["ratelimit"].startswith('"anonymous";r=3;'), "what was refused is not counted"
    assert "4 questions" in refused.json()["detail"]
    assert asked("POST", "/v1/batch", body=batch(*["sounding"] * 3)).status_code == 200
    assert asked("POST", "/v1/batch", body=batch("sounding")).status_code == 429


def test_a_batch_that_could_never_pass_is_too_large(service):
    response = service(anonymous_limit="10/hour")("POST", "/v1/batch", body=batch(*["sounding"] * 11))
    assert (response.status_code, problem(response)) == (413, "body-too-large")
    assert "10 requests in 3600 s" in response.json()["detail"]
    assert "retry-after" not in response.headers


@pytest.mark.parametrize("content", [b"{", b'{"items": []}', b""])
def test_a_batch_that_cannot_be_read_counts_as_one_request(service, content):
    asked = service(anonymous_limit="2/hour")
    told = [asked("POST", "/v1/batch", content=content, headers=JSON) for _ in range(3)]
    assert [response.status_code for response in told][2] == 429
    assert [response.headers["ratelimit"].split(";")[1] for response in told] == ["r=1", "r=0", "r=0"]


def test_without_keys_and_limits_nothing_stands_between():
    async def app(*_): ...

    assert Access(Settings(), ["sounding"]).layer(app) is app


def test_without_a_file_of_keys_a_key_is_not_looked_at(service):
    asked = service(anonymous_limit="5/hour")
    assert asked(key=KEY).headers["ratelimit-policy"].startswith('"anonymous"')


def test_no_key_gets_into_a_log(guarded, caplog):
    caplog.set_level("DEBUG")
    for key in (KEY, OLD, made_key()):
        guarded(key=key)
        assert key not in caplog.text


def test_ready_tells_of_the_keys_and_nothing_where_there_are_none(guarded, service):
    assert guarded("GET", "/ready").json() == {"status": "ready", "keys": "current"}
    assert service()("GET", "/ready").json() == {"status": "ready"}
    assert service(anonymous_limit="5/hour")("GET", "/ready").json() == {"status": "ready"}


# Addresses

PROXIES = ("10.0.0.0/8", "fd00::/8")


@pytest.mark.parametrize(
    ("peer", "forwarded", "address"),
    [
        ("203.0.113.7", None, "203.0.113.7"),
        ("203.0.113.7", "198.51.100.1", "203.0.113.7"),
        ("10.0.0.1", None, "10.0.0.1"),
        ("10.0.0.1", "198.51.100.1", "198.51.100.1"),
        ("10.0.0.1", "1.2.3.4, 198.51.100.1", "198.51.100.1"),
        ("10.0.0.1", "1.2.3.4, 198.51.100.1, 10.9.9.9", "198.51.100.1"),
        ("10.0.0.1", "10.3.3.3, 10.9.9.9", "10.3.3.3"),
        ("10.0.0.1", "198.51.100.1:4711", "198.51.100.1"),
        ("10.0.0.1", "[2001:db8:1:2:3::4]:4711", "2001:db8:1:2::/64"),
        ("fd00::1", "2001:db8:1:2:ffff::9", "2001:db8:1:2::/64"),
        ("2001:db8:1:2:3::4", None, "2001:db8:1:2::/64"),
        ("fe80::1%eth0", None, "fe80::/64"),
        ("::ffff:203.0.113.7", None, "203.0.113.7"),
        ("::ffff:10.0.0.1", "198.51.100.1", "198.51.100.1"),
        ("10.0.0.1", "198.51.100.1, garbage", "10.0.0.1"),
        ("10.0.0.1", "198.51.100.1, garbage, 10.2.2.2", "10.2.2.2"),
        ("10.0.0.1", "", "10.0.0.1"),
        ("10.0.0.1", ",,,", "10.0.0.1"),
        ("10.0.0.1", "198.51.100.1, " + "10.0.0.1, " * 3_000, "10.0.0.1"),
        ("10.0.0.1", "\u00ff\u0000[[[::%", "10.0.0.1"),
        ("10.0.0.1", "unknown", "10.0.0.1"),
        ("", "198.51.100.1", "unknown"),
        ("testclient", None, "unknown"),
    ],
)
def test_a_request_is_counted_by_the_address_of_its_client(peer, forwarded, address):
    headers = [] if forwarded is None else [(b"x-forwarded-for", forwarded.encode("latin-1"))]
    headers.append((b"forwarded", b"for=192.0.2.99"))
    scope = {"client": (peer, 5), "headers": headers}
    assert ClientAddresses(PROXIES).of(scope) == address


def test_several_headers_are_one_list():
    headers = [(b"x-forwarded-for", b"198.51.100.1"), (b"x-forwarded-for", b"198.51.100.2, 10.1.1.1")]
    assert ClientAddresses(PROXIES).of({"client": ("10.0.0.1", 5), "headers": headers}) == "198.51.100.2"


@pytest.mark.parametrize("client", [None, ()])
def test_a_socket_without_an_address_is_counted_as_one(client):
    assert ClientAddresses().of({"client": client, "headers": []}) == "unknown"


def test_nobody_is_believed_by_default():
    scope = {"client": ("127.0.0.1", 5), "headers": [(b"x-forwarded-for", b"198.51.100.1")]}
    assert ClientAddresses().of(scope) == "127.0.0.1"


def test_each_client_behind_a_trusted_proxy_has_an_allowance(service):
    """The peer of these requests is 127.0.0.1."""
    asked = service(anonymous_limit="1/hour", trusted_proxies="127.0.0.0/8")
    by = [{"x-forwarded-for": address} for address in ("198.51.100.1", "198.51.100.2", "9.9.9.9, 198.51.100.1")]
    assert [asked(headers=headers).status_code for headers in by] == [200, 200, 429]


def test_a_batch_body_is_what_it_was(guarded):
    """A guard that reads a body must give it on."""
    response = guarded("POST", "/v1/batch", key=KEY, content=json.dumps(batch("sounding")).encode(), headers=JSON)
    assert [item["status"] for item in response.json()["items"]] == [200]
