"""Requests that are malformed, ambiguous or smuggled, as octets on the wire.

What two readers could read in two ways is refused, and the connection ends with it: nothing that stands behind it is
ever taken for a request.
"""

import json

import pytest
from tests.faults.raw_caller import BODY, all_that_comes, connected, header

SMUGGLED = b"GET /smuggled HTTP/1.1\r\nHost: localhost\r\n\r\n"
POST = b"POST /v1/friction HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
GET = b"GET /live HTTP/1.1\r\n"
CHUNKED = b"%x\r\n%b\r\n0\r\n\r\n" % (len(BODY), BODY)
LENGTH = b"Content-Length: %d\r\n" % len(BODY)
CLOSE = b"Connection: close\r\n"


def asked(service, raw):
    """All that comes for these octets, after which the caller says no more."""
    with connected(service) as connection:
        connection.sendall(raw)
        connection.shutdown(1)
        return all_that_comes(connection)


def statuses(answers):
    """The status of each answer in a row of them."""
    found = []
    while answers:
        head, _, rest = answers.partition(b"\r\n\r\n")
        found.append(int(head.split()[1]))
        answers = rest[int(header(head, b"content-length") or 0) :]
    return found


AMBIGUOUS = {
    "a length and chunks": POST + LENGTH + b"Transfer-Encoding: chunked\r\n\r\n" + CHUNKED + SMUGGLED,
    "chunks and a length": POST + b"Transfer-Encoding: chunked\r\n" + LENGTH + b"\r\n" + CHUNKED + SMUGGLED,
    "chunks and a length of nothing": POST
    + b"Content-Length: 0\r\nTransfer-Encoding: chunked\r\n\r\n"
    + CHUNKED
    + SMUGGLED,
    "two lengths": POST + LENGTH + b"Content-Length: 0\r\n\r\n" + BODY + SMUGGLED,
    "two lengths that agree": POST + LENGTH + LENGTH + b"\r\n" + BODY + SMUGGLED,
    "two lengths in one": POST + b"Content-Length: %d, %d\r\n\r\n" % (len(BODY), len(BODY)) + BODY + SMUGGLED,
    "a length with a sign": POST + b"Content-Length: +%d\r\n\r\n" % len(BODY) + BODY + SMUGGLED,
    "a length below nothing": POST + b"Content-Length: -1\r\n\r\n" + BODY + SMUGGLED,
    "a length in hexadecimal": POST + b"Content-Length: 0x%x\r\n\r\n" % len(BODY) + BODY + SMUGGLED,
    "a length beyond 64 bits": POST + b"Content-Length: 18446744073709551617\r\n\r\n" + BODY + SMUGGLED,
    "a length with a blank before the colon": POST + LENGTH.replace(b":", b" :") + b"\r\n" + BODY + SMUGGLED,
    "another coding": POST + b"Transfer-Encoding: gzip\r\n\r\n" + CHUNKED + SMUGGLED,
    "a coding before the chunks": POST + b"Transfer-Encoding: gzip, chunked\r\n\r\n" + CHUNKED + SMUGGLED,
    "chunks twice": POST + b"Transfer-Encoding: chunked\r\nTransfer-Encoding: chunked\r\n\r\n" + CHUNKED + SMUGGLED,
    "chunks and identity": POST
    + b"Transfer-Encoding: chunked\r\nTransfer-Encoding: identity\r\n\r\n"
    + CHUNKED
    + SMUGGLED,
    "chunks, nearly": POST + b"Transfer-Encoding: xchunked\r\n\r\n" + CHUNKED + SMUGGLED,
    "chunks after a tab that is no blank": POST + b"Transfer-Encoding:\x0bchunked\r\n\r\n" + CHUNKED + SMUGGLED,
    "a chunk of a length below nothing": POST + b"Transfer-Encoding: chunked\r\n\r\n-1\r\n" + SMUGGLED,
    "a chunk of a length beyond 64 bits": POST + b"Transfer-Encoding: chunked\r\n\r\n10000000000000001\r\n" + SMUGGLED,
    "a chunk without its end": POST + b"Transfer-Encoding: chunked\r\n\r\n2\r\n{}X\r\n0\r\n\r\n" + SMUGGLED,
    "a chunk's length without a return": POST + b"Transfer-Encoding: chunked\r\n\r\n2\n{}\r\n0\r\n\r\n" + SMUGGLED,
    "a trailer that would be a length": POST
    + b"Transfer-Encoding: chunked\r\n\r\n"
    + CHUNKED[:-2]
    + b"Content-Length: 1\r\n\r\n"
    + SMUGGLED,
    "a folded header": GET + b"Host: localhost\r\nX-A: b\r\n Content-Length: 5\r\n\r\n" + SMUGGLED,
    "a blank before the first header": GET + b" Host: localhost\r\n\r\n" + SMUGGLED,
    "a NUL in a header": GET + b"Host: localhost\r\nX-A: b\x00c\r\n\r\n" + SMUGGLED,
    "a NUL in a header's name": GET + b"Host: localhost\r\nX-\x00A: b\r\n\r\n" + SMUGGLED,
    "a return alone in a header": GET + b"Host: localhost\r\nX-A: b\rX-C: d\r\n\r\n" + SMUGGLED,
    "a header without a colon": GET + b"Host: localhost\r\nX-A\r\n\r\n" + SMUGGLED,
    "a header without a name": GET + b"Host: localhost\r\n: b\r\n\r\n" + SMUGGLED,
    "a name of two words": GET + b"Host: localhost\r\nX A: b\r\n\r\n" + SMUGGLED,
    "no host": GET + b"\r\n" + SMUGGLED,
    "two hosts": GET + b"Host: localhost\r\nHost: elsewhere\r\n\r\n" + SMUGGLED,
    "two hosts that agree": GET + b"Host: localhost\r\nHost: localhost\r\n\r\n" + SMUGGLED,
    "two hosts in one": GET + b"Host: localhost, elsewhere/x\r\n\r\n" + SMUGGLED,
    "a host with a path": GET + b"Host: localhost/v1\r\n\r\n" + SMUGGLED,
    "a host with a user": GET + b"Host: a@localhost\r\n\r\n" + SMUGGLED,
    "a host with a blank": GET + b"Host: local host\r\n\r\n" + SMUGGLED,
    "no version": b"GET /live\r\n\r\n" + SMUGGLED,
    "HTTP/0.9": b"GET /live HTTP/0.9\r\nHost: localhost\r\n\r\n" + SMUGGLED,
    "HTTP/2": b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n" + SMUGGLED,
    "HTTP/3.7": b"GET /live HTTP/3.7\r\nHost: localhost\r\n\r\n" + SMUGGLED,
    "a version in small letters": b"GET /live http/1.1\r\nHost: localhost\r\n\r\n" + SMUGGLED,
    "two blanks in the first line": b"GET  /live  HTTP/1.1 x\r\nHost: localhost\r\n\r\n" + SMUGGLED,
    "a tunnel": b"CONNECT localhost:80 HTTP/1.1\r\nHost: localhost\r\n\r\n" + SMUGGLED,
    "a target with a blank": b"GET /live /x HTTP/1.1\r\nHost: localhost\r\n\r\n" + SMUGGLED,
    "a target with a NUL": b"GET /live\x00 HTTP/1.1\r\nHost: localhost\r\n\r\n" + SMUGGLED,
    "a target that is no path": b"GET live HTTP/1.1\r\nHost: localhost\r\n\r\n" + SMUGGLED,
    "a method that is no word": b"G(T /live HTTP/1.1\r\nHost: localhost\r\n\r\n" + SMUGGLED,
    "TLS": bytes.fromhex("16030100a5010000a10303") + b"\x00" * 40 + SMUGGLED,
    "noise": b"\x80\xff\x00\x01" * 20 + b"\r\n\r\n" + SMUGGLED,
}


@pytest.mark.parametrize("raw", AMBIGUOUS.values(), ids=AMBIGUOUS)
def test_what_can_be_read_in_two_ways_is_refused_and_ends_the_connection(service, raw):
    answers = asked(service, raw)
    head, _, body = answers.partition(b"\r\n\r\n")
    found = statuses(answers)
    assert len(found) == 1, answers
    assert found[0] in {400, 405, 413, 501}, answers
    assert header(head, b"connection") == b"close"
    assert header(head, b"content-type") == b"application/problem+json"
    assert json.loads(body)["status"] == found[0]
    assert b"smuggled" not in answers


PLAIN = {
    "one chunk": (POST + CLOSE + b"Transfer-Encoding: chunked\r\n\r\n" + CHUNKED, [200]),
    "a chunk with an extension": (
        POST + CLOSE + b"Transfer-Encoding: chunked\r\n\r\n" + CHUNKED.replace(b"\r\n", b";a=b\r\n", 1),
        [200],
    ),
    "a trailer": (
        POST + CLOSE + b"Transfer-Encoding: chunked\r\n\r\n" + CHUNKED[:-2] + b"X-A: b\r\n\r\n",
        [200],
    ),
    "the whole address as the target": (b"GET http://localhost/live HTTP/1.1\r\nHost: localhost\r\n\r\n", [200]),
    "an empty line before the first": (b"\r\n" + GET + b"Host: localhost\r\n\r\n", [200]),
    "HTTP/1.0 without a host": (b"GET /live HTTP/1.0\r\n\r\n", [200]),
    "a host of IPv6": (GET + b"Host: [::1]:8000\r\n\r\n", [200]),
    "a body that GET does not ask for": (
        GET + b"Host: localhost\r\nContent-Length: 5\r\n\r\nhello" + SMUGGLED,
        [200, 404],
    ),
    "three in line": ((GET + b"Host: localhost\r\n\r\n") * 3, [200, 200, 200]),
    "one in line, then noise": (GET + b"Host: localhost\r\n\r\n" + b"\x00\xff noise\r\n\r\n", [200, 400]),
    "an upgrade that is not offered": (
        GET + b"Host: localhost\r\nConnection: Upgrade\r\nUpgrade: h2c\r\n\r\n" + GET + b"Host: localhost\r\n\r\n",
        [200, 200],
    ),
}


@pytest.mark.parametrize(("raw", "wanted"), PLAIN.values(), ids=PLAIN)
def test_what_can_be_read_in_one_way_alone_is_answered(service, raw, wanted):
    assert statuses(asked(service, raw)) == wanted


@pytest.mark.parametrize("target", [b"*", b"http://localhost", b"//elsewhere/live", b"http:///live", b"/live#a"])
def test_a_target_of_another_form_is_answered_or_refused_but_breaks_nothing(service, target):
    answers = asked(service, b"OPTIONS " + target + b" HTTP/1.1\r\nHost: localhost\r\n\r\n")
    (status,) = statuses(answers)
    assert status in {200, 204, 400, 404, 405}, answers


@pytest.mark.parametrize(
    "more",
    [b"X-A: b\r\n" * 5_000, b"X-A: " + b"b" * 60_000 + b"\r\n", b"X-" + b"A" * 60_000 + b": b\r\n"],
    ids=["many headers", "a long header", "a long name"],
)
def test_a_head_beyond_the_limit_is_refused(service, more):
    answers = asked(service, GET + b"Host: localhost\r\n" + more + b"\r\n")
    assert statuses(answers) == [431]


def test_a_target_beyond_the_limit_is_refused(service):
    assert statuses(asked(service, b"GET /" + b"a" * 60_000 + b" HTTP/1.1\r\nHost: localhost\r\n\r\n")) == [431]


def test_the_host_is_told_to_nobody(service):
    """No address is made of it: who is told a wrong one could be led elsewhere."""
    for path in (b"/", b"/openapi.json", b"/embed/v1/integrity.json", b"/v1//friction", b"/docs"):
        answers = asked(service, b"GET " + path + b" HTTP/1.1\r\nHost: led.astray.test\r\n" + CLOSE + b"\r\n")
        assert b"astray" not in answers


OTHER_SPELLINGS = [
    *("/v1/../live", "/./live", "/live/.", "/live/..", "/%2e%2e/live", "/%2e/live", "/v1/%2e%2e/live"),
    *("/v1%2ftables%2fpipes", "/v1/tables%2Fpipes", "/%2flive"),
    *("//live", "/live/", "/live//", "/live;a=b", "/live%3b", "/;/live", "/live%00", "/live%0a", "/live%20", "/live."),
    *("/\\live", "/%5clive", "/v1\\friction", "/LIVE", "/Live", "/%c0%afetc", "/%c0%ae%c0%ae/live", "/live%ff"),
    *("/%252e%252e/live", "/live%2500", "/liv%u0065", "/live%", "/live%2", "/live%zz", "/live\u00e9", "/%e2%80%aelive"),
    *("/embed/v1/../../web/application.py", "/embed/v1/%2e%2e%2f%2e%2e%2fpyproject.toml", "/docs/assets/../docs.css"),
]


@pytest.mark.parametrize("path", OTHER_SPELLINGS)
def test_a_path_in_another_spelling_leads_nowhere(service, path):
    answers = asked(service, b"GET " + path.encode() + b" HTTP/1.1\r\nHost: localhost\r\n" + CLOSE + b"\r\n")
    (status,) = statuses(answers)
    assert status in {400, 404}, answers
