"""The proxy as it is shipped, before servers that tell what reaches them, or that fail as a process can."""

import gzip
import json
import re
import socket
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, suppress
from http.client import HTTPConnection, RemoteDisconnected
from pathlib import Path
from urllib.parse import urlsplit

import msgspec
import pytest
from load.running_proxy import running_proxy

from footvalve.contract.problem import Problem

from .backend import LONG, Backend, backends
from .tools import PATIENCE_S, PROXY, passes, tool

pytestmark = pytest.mark.usefixtures("_haproxy")


@pytest.fixture(scope="module")
def _haproxy() -> None:
    tool("haproxy")


@pytest.fixture
def pair() -> Iterator[tuple[list[Backend], str]]:
    """Two processes, and the proxy's address before them."""
    with backends(2) as both, running_proxy([one.address for one in both]) as proxy:
        yield both, proxy.url


def asked(url: str, method: str = "GET", body: str = "", path: str = "/v1", **headers: str):
    """The answer to one request on a connection of its own: its status, headers and content."""
    connection = HTTPConnection(urlsplit(url).netloc, timeout=PATIENCE_S)
    try:
        named = {name.replace("_", "-"): value for name, value in headers.items()}
        connection.request(method, path, body=body or None, headers=named)
        answer = connection.getresponse()
        return answer.status, answer.headers, answer.read()
    finally:
        connection.close()


def told(url: str, **headers: str) -> dict[str, list[str]]:
    """Which headers reach the process, each with all its values."""
    status, _, content = asked(url, **headers)
    assert status == 200
    seen: dict[str, list[str]] = {}
    for name, value in json.loads(content)["headers"]:
        seen.setdefault(name.lower(), []).append(value)
    return seen


@pytest.mark.parametrize("backend", ["backend-local.cfg", "backend-container.cfg"])
def test_haproxy_finds_nothing_wrong(backend):
    said = passes(tool("haproxy"), "-c", "-f", str(PROXY / "front.cfg"), "-f", str(PROXY / backend))
    assert said.strip() == "Configuration file is valid"


def test_who_asked_is_told_by_the_proxy_alone(pair):
    seen = told(pair[1], X_Forwarded_For="192.0.2.1", Forwarded="for=192.0.2.1", X_Real_IP="192.0.2.1")
    assert seen["x-forwarded-for"] == ["127.0.0.1"]
    assert not {"forwarded", "x-real-ip"} & seen.keys()


def test_a_request_keeps_its_id(pair):
    assert told(pair[1], X_Request_Id="job-17")["x-request-id"] == ["job-17"]


@pytest.mark.parametrize("given", ["", "no id", "a" * 65, "<b>"])
def test_a_request_without_an_id_gets_one(pair, given):
    (made,) = told(pair[1], X_Request_Id=given)["x-request-id"]
    assert re.fullmatch(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", made)


def test_a_key_and_a_trace_reach_the_service(pair):
    seen = told(pair[1], Authorization="Bearer x", traceparent="00-1-1-00")
    assert (seen["authorization"], seen["traceparent"]) == (["Bearer x"], ["00-1-1-00"])


def test_answers_are_made_small(pair):
    status, headers, content = asked(pair[1], Accept_Encoding="gzip")
    assert (status, headers["Content-Encoding"], headers["Vary"]) == (200, "gzip", "Accept-Encoding")
    assert len(content) < len(LONG) / 4
    assert json.loads(gzip.decompress(content))["long"] == LONG


def test_metrics_stay_inside(pair):
    status, _, content = asked(pair[1], path="/metrics")
    problem = msgspec.json.decode(content, type=Problem)
    assert (status, problem.status) == (404, 404)
    assert sum(one.asked for one in pair[0]) == 0


def test_what_a_lost_process_had_is_asked_of_another(pair):
    both, url = pair
    both[0].failing = "gone"
    answers = [asked(url, "POST", body=f"body {number}") for number in range(20)]
    assert [status for status, *_ in answers] == [200] * 20
    assert [json.loads(content)["body"] for *_, content in answers] == [f"body {number}" for number in range(20)]
    assert both[0].asked > 0


def test_a_process_that_is_not_there_costs_no_request():
    with backends(1) as (alive,), socket.socket() as nobody:
        nobody.bind(("127.0.0.1", 0))  # it does not listen, and nobody else can
        with running_proxy(["{}:{}".format(*nobody.getsockname()), alive.address]) as proxy:
            assert [asked(proxy.url)[0] for _ in range(10)] == [200] * 10


def test_a_refusal_is_not_asked_again(pair):
    both, url = pair
    for one in both:
        one.failing = "overloaded"
    assert asked(url, "POST", body="one")[0] == 503
    assert sum(one.asked for one in both) == 1


def test_a_process_that_drains_gets_no_more(pair):
    both, url = pair
    both[0].ready = False
    give_up = time.monotonic() + PATIENCE_S
    quiet = 0
    while quiet < 20:
        assert time.monotonic() < give_up, "the proxy goes on asking who is not ready"
        before = both[0].asked
        assert asked(url)[0] == 200
        quiet = quiet + 1 if both[0].asked == before else 0
        time.sleep(0.01)


@pytest.mark.parametrize(("failing", "status"), [("gone", 502), ("not ready", 503)])
def test_what_the_proxy_refuses_is_a_problem_document(failing, status):
    with backends(1) as (only,), running_proxy([only.address]) as proxy:
        only.failing = failing
        only.ready = failing != "not ready"
        give_up = time.monotonic() + PATIENCE_S
        while (answer := asked(proxy.url, X_Request_Id="job-17"))[0] != status:
            assert time.monotonic() < give_up
        problem = msgspec.json.decode(answer[2], type=Problem)
        assert (problem.status, problem.request_id) == (status, "job-17")
        assert answer[1]["Content-Type"] == "application/problem+json"
        assert int(answer[1]["Retry-After"]) > 0


@pytest.mark.parametrize(
    "request_text",
    [
        b"POST /v1 HTTP/1.1\r\nHost: a\r\nContent-Length: 4\r\nContent-Length: 5\r\n\r\nbody",
        b"GET /v1 HTTP/1.1\r\nHost: a\r\nX: " + b"a" * 40_000 + b"\r\n\r\n",
        b"GET /v1 HTTP/1.1\r\nHost : a\r\n\r\n",
        b"POST /v1 HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: identity, chunked, x\r\n\r\n0\r\n\r\n",
    ],
    ids=["two lengths", "a long head", "a space in a name", "an unknown coding"],
)
def test_what_breaks_http_never_reaches_the_service(pair, request_text):
    answer = exchanged(pair[1], request_text)
    assert re.match(rb"HTTP/1\.1 4\d\d ", answer), answer[:100]
    assert sum(one.asked for one in pair[0]) == 0


def test_two_framings_reach_the_service_as_one(pair):
    """Of a length and chunks the length goes (RFC 9112, section 6.1): nothing is left over as a next request."""
    head = (
        b"POST /v1 HTTP/1.1\r\nHost: a\r\nContent-Length: 4\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n"
    )
    exchanged(pair[1], head + b"0\r\n\r\nGET /smuggled HTTP/1.1\r\nHost: a\r\n\r\n")
    assert {path for one in pair[0] for path in one.paths} <= {"/v1"}


def shipped_but_for(folder: Path, line: str, other: str) -> Path:
    """The front as it is shipped, with another line in the place of one that stands there once."""
    shipped = (PROXY / "front.cfg").read_text(encoding="utf-8")
    assert shipped.count(line) == 1
    front = folder / "front.cfg"
    front.write_text(shipped.replace(line, other))
    return front


def test_who_never_ends_a_request_is_let_go(tmp_path):
    """With a shorter time than the shipped one, which is in its place."""
    front = shipped_but_for(tmp_path, "timeout http-request 10s", "timeout http-request 300ms")
    with backends(1) as (only,), running_proxy([only.address], front) as proxy:
        answer = exchanged(proxy.url, b"POST /v1 HTTP/1.1\r\nHost: a\r\nContent-Length: 9\r\n\r\nhal")
        assert answer.startswith(b"HTTP/1.1 408 ")
        assert exchanged(proxy.url, b"GET /v1 HT").startswith(b"HTTP/1.1 408 ")
        assert only.asked == 0


def test_one_address_does_not_hold_all_connections(tmp_path):
    """With a smaller number than the shipped one, which is in its place."""
    front = shipped_but_for(tmp_path, "sc0_conn_cur gt 256", "sc0_conn_cur gt 5")
    with backends(1) as (only,), running_proxy([only.address], front) as proxy:
        assert asked(proxy.url)[0] == 200
        with ExitStack() as idle:
            for _ in range(8):
                # Who is one too many may hear of it before the connection stands.
                with suppress(ConnectionError):
                    idle.enter_context(connected(proxy.url))
            until(lambda: not answers(proxy.url), "more are taken than may be")
        until(lambda: answers(proxy.url), "its place is not given back")


def until(condition: Callable[[], bool], otherwise: str) -> None:
    """Wait until it holds."""
    give_up = time.monotonic() + PATIENCE_S
    while not condition():
        assert time.monotonic() < give_up, otherwise


def answers(url: str) -> bool:
    """Whether a connection is taken and answered."""
    try:
        return asked(url)[0] == 200
    except (ConnectionError, RemoteDisconnected):
        return False


def exchanged(url: str, request: bytes) -> bytes:
    """All that comes back on a connection, until the other side ends it; by a reset where it had not read all."""
    answer = b""
    with connected(url) as connection, suppress(ConnectionError):
        with suppress(ConnectionError):
            connection.sendall(request)
        while more := connection.recv(65_536):
            answer += more
    return answer


def connected(url: str) -> socket.socket:
    """A connection on which nothing is said yet."""
    parts = urlsplit(url)
    return socket.create_connection((parts.hostname, parts.port), timeout=PATIENCE_S)
