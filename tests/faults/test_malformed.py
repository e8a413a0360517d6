"""What is no sound HTTP/1.1: one problem document, then the end of the connection, and no second reading of it."""

import re
import socket

import pytest

from .raw_caller import ALIVE, BODY, REQUEST, all_that_comes, connected, header, one_answer, told_problem
from .service_process import serving

HEAD_LIMIT = 2_000
POST = b"POST /v1/friction HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
HIDDEN = b"GET /live HTTP/1.1\r\nHost: localhost\r\n\r\n"
BAD = (400, "bad-request")
UNKNOWN = (501, "unknown-method")
TOO_LARGE = (431, "head-too-large")


@pytest.fixture(scope="module")
def service():
    with serving(environment={"FOOTVALVE_HEAD_LIMIT_BYTES": str(HEAD_LIMIT)}) as service:
        yield service


def exchanged(service, *pieces):
    with connected(service) as connection:
        for piece in pieces:
            connection.sendall(piece)
        return all_that_comes(connection)


def statuses(answers):
    """The status of each answer."""
    return re.findall(rb"HTTP/1\.1 ([0-9]{3}) [A-Z]", answers)


def refused(service, *pieces):
    """The one problem that comes of it, and that nothing else does."""
    answer = exchanged(service, *pieces)
    assert len(statuses(answer)) == 1
    return told_problem(answer)


@pytest.mark.parametrize(
    "request_bytes",
    [
        pytest.param(b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + bytes(500), id="TLS"),
        pytest.param(b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", id="HTTP/2"),
        pytest.param(b"nonsense\r\n\r\n", id="no request line"),
        pytest.param(b"GET /live HTTP/9.9\r\nHost: localhost\r\n\r\n", id="unknown version"),
        pytest.param(b"GET /live HTTP/2.0\r\nHost: localhost\r\n\r\n", id="version 2 in text"),
        pytest.param(b"GET /live\r\nHost: localhost\r\n\r\n", id="version 0.9"),
        pytest.param(b"GET /\x00 HTTP/1.1\r\nHost: localhost\r\n\r\n", id="NUL in the target"),
        pytest.param(b"GET /\xff HTTP/1.1\r\nHost: localhost\r\n\r\n", id="octet beyond ASCII"),
        pytest.param(b"GET /live HTTP/1.1\nHost: localhost\n\n", id="bare line feeds"),
        pytest.param(b"GET /live HTTP/1.1\r\n\r\n", id="no Host"),
        pytest.param(b"GET /live HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n", id="two Hosts"),
        pytest.param(b"GET /live HTTP/1.1\r\nHost: <b>\r\n\r\n", id="no host in Host"),
        pytest.param(b"GET /live HTTP/1.1\r\n Host: a\r\n\r\n", id="a space before the first header"),
        pytest.param(b"GET /live HTTP/1.1\r\nHost: a\r\nX: a\r\n b\r\n\r\n", id="a folded header"),
        pytest.param(b"GET /live HTTP/1.1\r\nHost: a\r\nX y: z\r\n\r\n", id="a space in a name"),
        pytest.param(b"GET /live HTTP/1.1\r\nHost: a\r\nX: a\x00b\r\n\r\n", id="NUL in a value"),
    ],
)
def test_what_is_no_http_is_told_so(service, request_bytes):
    assert refused(service, request_bytes) == BAD


@pytest.mark.parametrize(
    "framing",
    [
        b"Content-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
        b"Transfer-Encoding: chunked\r\nContent-Length: 4\r\n\r\n0\r\n\r\n",
        b"Content-Length: 0\r\nContent-Length: 44\r\n\r\n",
        b"Content-Length: 4\r\nContent-Length: 4\r\n\r\nabcd",
        b"Content-Length: 4, 4\r\n\r\nabcd",
        b"Content-Length: +4\r\n\r\nabcd",
        b"Content-Length: -1\r\n\r\n",
        b"Content-Length: 0x4\r\n\r\nabcd",
        b"Content-Length: 99999999999999999999999\r\n\r\nabcd",
        b"Content-Length : 4\r\n\r\nabcd",
        b"Transfer-Encoding: xchunked\r\n\r\n0\r\n\r\n",
        b"Transfer-Encoding: gzip, chunked\r\n\r\n0\r\n\r\n",
        b"Transfer-Encoding: chunked, identity\r\n\r\n0\r\n\r\n",
        b"Transfer-Encoding: identity\r\n\r\n",
        b"Transfer-Encoding: chunked\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
        b"Transfer-Encoding : chunked\r\n\r\n0\r\n\r\n",
        b"Transfer-Encoding:\x0bchunked\r\n\r\n0\r\n\r\n",
        b"Transfer-Encoding: chunked\r\n\r\n0x4\r\nabcd\r\n0\r\n\r\n",
        b"Transfer-Encoding: chunked\r\n\r\n4 \r\nabcd\r\n0\r\n\r\n",
        b"Transfer-Encoding: chunked\r\n\r\n4\nabcd\n0\n\n",
        b"Transfer-Encoding: chunked\r\n\r\nfffffffffffffffff\r\nabcd\r\n0\r\n\r\n",
        b"Transfer-Encoding: chunked\r\n\r\n4\r\nabcdef\r\n0\r\n\r\n",
    ],
)
def test_a_body_whose_end_may_be_read_in_two_ways_is_refused(service, framing):
    assert refused(service, POST + framing + HIDDEN) == BAD


@pytest.mark.parametrize("method", [b"FROB", b"get", b"CONNECT", b"G!T", b"POSTS"])
def test_an_unknown_method_is_told_so(service, method):
    target = b"localhost:80" if method == b"CONNECT" else b"/live"
    assert refused(service, method + b" " + target + b" HTTP/1.1\r\nHost: localhost\r\n\r\n") == UNKNOWN


def test_a_known_method_that_no_path_takes_is_told_by_the_application(service):
    answer = exchanged(service, b"DELETE /live HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
    assert answer.startswith(b"HTTP/1.1 405 ")


@pytest.mark.parametrize("name", [b"a", b"b" * 1_000])
def test_a_head_may_be_as_long_as_the_limit_and_no_longer(service, name):
    def request(length):
        start = b"GET /live HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n" + name + b": "
        counted = len(start) - len(b"GET  HTTP/1.1\r\n") + len(b"\r\n")
        return start + b"x" * (length - counted) + b"\r\n\r\n"

    assert exchanged(service, request(HEAD_LIMIT)).startswith(b"HTTP/1.1 200 ")
    assert refused(service, request(HEAD_LIMIT + 1)) == TOO_LARGE


@pytest.mark.parametrize("endless", [b"GET /", b"GET /live HTTP/1.1\r\nHost: localhost\r\nX: ", b"\r\n", b"GET "])
def test_a_head_without_end_is_cut_off(service, endless):
    with connected(service) as connection:
        connection.sendall(endless)
        filling = b"\r\n" if endless == b"\r\n" else b"x"
        connection.sendall(filling * 3 * HEAD_LIMIT)
        if endless != b"\r\n":
            assert told_problem(all_that_comes(connection)) == TOO_LARGE


def test_a_refusal_survives_what_is_still_being_sent(service):
    """Closed at once, with octets unread, the socket would be reset and the answer lost."""
    with connected(service) as connection:
        connection.sendall(b"GET / HTTP/1.1\r\n\r\n" + bytes(1_000_000))
        assert told_problem(all_that_comes(connection)) == BAD


def test_requests_before_the_bad_one_are_answered_first(service):
    answer = exchanged(service, REQUEST + ALIVE + b"nonsense\r\n\r\n" + ALIVE)
    assert statuses(answer) == [b"200", b"200", b"400"]
    assert told_problem(answer[answer.rindex(b"HTTP/1.1 400") :]) == BAD


def test_a_bad_body_in_line_is_told_after_the_answers_before_it(service):
    bad_body = POST + b"Transfer-Encoding: chunked\r\n\r\nzz\r\n"
    answer = exchanged(service, REQUEST + bad_body + ALIVE)
    assert statuses(answer) == [b"200", b"400"]
    assert told_problem(answer[answer.rindex(b"HTTP/1.1 400") :]) == BAD


def test_what_follows_a_body_is_no_header(service):
    body = b"%x\r\n%b\r\n0\r\nX-Request-Id: smuggled\r\n\r\n" % (len(BODY), BODY)
    answer = exchanged(service, POST + b"Connection: close\r\nTransfer-Encoding: chunked\r\n\r\n" + body)
    assert answer.startswith(b"HTTP/1.1 200 ")
    assert b"smuggled" not in answer


@pytest.mark.parametrize("body", [BODY, HIDDEN])
@pytest.mark.parametrize("pieces", [1, 3])
def test_an_upgrade_is_not_taken_up_and_leaves_the_body_a_body(service, body, pieces):
    """The parser alone would take what follows such a head for another protocol, or for the next request."""
    upgrade = POST + b"Connection: Upgrade\r\nUpgrade: h2c\r\nContent-Length: %d\r\n\r\n%b" % (len(body), body)
    length = len(upgrade) // pieces + 1
    with connected(service) as connection:
        for start in range(0, len(upgrade), length):
            connection.sendall(upgrade[start : start + length])
        head, _ = one_answer(connection)
        assert head[9:12] == (b"200" if body == BODY else b"400")
        connection.sendall(ALIVE)
        assert one_answer(connection)[1] == b'{"status":"live"}'


def test_the_older_version_is_answered_once(service):
    answer = exchanged(service, b"GET /live HTTP/1.0\r\nConnection: keep-alive\r\n\r\n" + ALIVE)
    assert statuses(answer) == [b"200"]


def test_who_asks_by_head_gets_a_refusal_without_a_body(service):
    with connected(service) as connection:
        connection.sendall(b"HEAD /live HTTP/1.1\r\nHost: localhost\r\nContent-Length: 4\r\n\r\n")
        connection.shutdown(socket.SHUT_WR)
        answer = all_that_comes(connection)
    assert answer.endswith(b"\r\n\r\n")
    assert header(answer, b"connection") in {b"close", b""}
