"""A caller that speaks to the service octet by octet, and sees what becomes of its connection."""

import json
import socket
from contextlib import closing
from pathlib import Path

from footvalve.contract.examples import examples

from .service_process import PATIENCE_S

BODY = json.dumps(examples("friction")[0].request).encode()
REQUEST = (
    b"POST /v1/friction HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%b"
) % (len(BODY), BODY)
LAST_REQUEST = REQUEST.replace(b"\r\n\r\n", b"\r\nConnection: close\r\n\r\n", 1)
ALIVE = b"GET /live HTTP/1.1\r\nHost: localhost\r\n\r\n"


def connected(service, patience=PATIENCE_S):
    """A connection, closed at the end of the with statement."""
    return closing(socket.create_connection(("127.0.0.1", service.port), timeout=patience))


def is_read(connection):
    """Whether the service has taken a connection and read all that was sent on it, as the kernel tells it."""
    here, there = (f"0100007F:{port:04X}" for _, port in (connection.getsockname(), connection.getpeername()))
    rows = map(str.split, Path("/proc/net/tcp").read_text(encoding="ascii").splitlines()[1:])
    ends = {(row[1], row[2]): (row[4], row[9]) for row in rows}
    sent, _ = ends[here, there]
    come, inode = ends.get((there, here), ("", "0"))
    return sent.startswith("00000000:") and come.endswith(":00000000") and inode != "0"


def all_that_comes(connection):
    """What comes until the service closes the connection. A reset raises ConnectionResetError."""
    pieces = []
    while piece := connection.recv(65_536):
        pieces.append(piece)
    return b"".join(pieces)


def one_answer(connection):
    """The head and the body of one answer that tells its length; the connection may stay open."""
    received = b""
    while b"\r\n\r\n" not in received:
        received += _more(connection)
    head, _, body = received.partition(b"\r\n\r\n")
    length = int(header(head, b"content-length"))
    while len(body) < length:
        body += _more(connection)
    return head, body


def header(head, name):
    """The value of a header of an answer; empty where there is none."""
    for line in head.split(b"\r\n")[1:]:
        key, _, value = line.partition(b": ")
        if key.lower() == name:
            return value
    return b""


def told_problem(answer):
    """The status and the problem of an answer that must be well-formed problem details after which all is over."""
    head, _, body = answer.partition(b"\r\n\r\n")
    assert header(head, b"content-type") == b"application/problem+json"
    assert header(head, b"connection") == b"close"
    assert header(head, b"cache-control") == b"no-store"
    assert header(head, b"x-content-type-options") == b"nosniff"
    assert int(header(head, b"content-length")) == len(body)
    problem = json.loads(body)
    assert problem["request_id"] == header(head, b"x-request-id").decode()
    assert head.startswith(b"HTTP/1.1 %d " % problem["status"])
    return problem["status"], problem["type"].removeprefix("/problems/")


def _more(connection):
    piece = connection.recv(65_536)
    assert piece, "the connection was closed before the answer was whole"
    return piece
