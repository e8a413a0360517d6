"""Callers who are slow, who have said all, who do not listen, or who are too many: nobody else is harmed by them."""

import socket
import time
from contextlib import ExitStack, suppress
from select import select

import pytest

from .raw_caller import ALIVE, BODY, LAST_REQUEST, REQUEST, all_that_comes, connected, one_answer, told_problem
from .service_process import serving, until

IMPATIENT = {
    "FOOTVALVE_RECEIVE_SECONDS": "1",
    "FOOTVALVE_SEND_SECONDS": "1",
    "FOOTVALVE_KEEP_ALIVE_SECONDS": "1",
}
HEAD = REQUEST[: len(REQUEST) - len(BODY)]
SOON_S = 20
"""Far less than the limits' defaults, far more than a loaded machine needs for those above."""


@pytest.fixture(scope="module")
def service():
    with serving(environment=IMPATIENT) as service:
        yield service


def sent_slowly(connection, request):
    """Send an octet at a time, until the service answers or all is sent; then what it says."""
    connection.settimeout(0.1)
    for octet in request:
        connection.sendall(bytes((octet,)))
        try:
            first = connection.recv(65_536)
        except TimeoutError:
            continue
        connection.settimeout(SOON_S)
        return first + all_that_comes(connection)
    raise AssertionError("all of it was taken")


@pytest.mark.parametrize("at_once", [b"", HEAD], ids=["head", "body"])
def test_who_sends_an_octet_at_a_time_is_told_that_time_is_up(service, at_once):
    with connected(service, SOON_S) as connection:
        connection.sendall(at_once)
        answer = sent_slowly(connection, REQUEST[len(at_once) :])
    assert told_problem(answer) == (408, "request-timeout")


def test_slow_callers_keep_nobody_waiting(service):
    with ExitStack() as slow:
        for number in range(50):
            caller = slow.enter_context(connected(service))
            caller.sendall(HEAD if number % 2 else HEAD[:30])
        with connected(service, SOON_S) as other:
            other.sendall(LAST_REQUEST)
            assert all_that_comes(other).startswith(b"HTTP/1.1 200 ")


def test_who_says_nothing_is_left_without_a_word(service):
    with connected(service, SOON_S) as connection:
        assert all_that_comes(connection) == b""


def test_an_idle_connection_is_closed_in_time_and_in_order(service):
    with connected(service, SOON_S) as connection:
        opened = time.monotonic()
        while time.monotonic() - opened < 2.5:  # far longer than it is kept idle
            connection.sendall(ALIVE)
            one_answer(connection)
            start = time.monotonic()
            time.sleep(0.1)
        assert all_that_comes(connection) == b""
        assert time.monotonic() - start > 0.9


def test_an_early_refusal_does_not_end_the_time_for_the_body(service):
    announced = HEAD.replace(b"Content-Length: %d" % len(BODY), b"Content-Length: 9000000")
    with connected(service, SOON_S) as connection:
        connection.sendall(announced)
        head, _ = one_answer(connection)
        assert head.startswith(b"HTTP/1.1 413 ")
        assert all_that_comes(connection) == b""


def test_who_has_said_all_still_gets_the_answers(service):
    with connected(service, SOON_S) as connection:
        connection.sendall(REQUEST + REQUEST)
        connection.shutdown(socket.SHUT_WR)
        assert all_that_comes(connection).count(b"HTTP/1.1 200 ") == 2


def test_who_ends_before_the_body_does_is_told_so(service):
    with connected(service, SOON_S) as connection:
        connection.sendall(REQUEST[:-5])
        connection.shutdown(socket.SHUT_WR)
        assert told_problem(all_that_comes(connection)) == (400, "bad-request")


def test_who_takes_nothing_of_an_answer_is_cut_off(service):
    with connected(service) as other:
        other.sendall(ALIVE)
        one_answer(other)
    until(lambda: _connections(service) == 0, "all others have gone")
    with socket.socket() as deaf:
        deaf.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4_096)
        deaf.connect(("127.0.0.1", service.port))
        until(lambda: _connections(service) == 1, "it is taken")
        deaf.sendall(b"GET /openapi.json HTTP/1.1\r\nHost: localhost\r\n\r\n" * 40)
        until(lambda: _connections(service) == 0, "it is cut off", SOON_S)
        with pytest.raises(ConnectionResetError):
            all_that_comes(deaf)


def _connections(service):
    """How many connections the service holds, as the kernel tells it."""
    held = 0
    with open("/proc/net/tcp", encoding="ascii") as table:
        for line in list(table)[1:]:
            _, local, _, state, *_ = line.split()
            held += local.endswith(f":{service.port:04X}") and state in {"01", "04", "05", "08"}
    return held


def test_one_connection_too_many_is_refused_at_once_and_the_next_is_not():
    with serving(environment={"FOOTVALVE_CONNECTION_LIMIT": "5"}) as service, ExitStack() as held:
        for _ in range(5):
            connection = held.enter_context(connected(service))
            connection.sendall(ALIVE)
            one_answer(connection)
        for request in (b"", REQUEST):
            with connected(service) as sixth:
                sixth.sendall(request)
                answer = all_that_comes(sixth)
            assert told_problem(answer) == (503, "overloaded")
            assert b"\r\nretry-after: 1\r\n" in answer
        connection.sendall(ALIVE)
        one_answer(connection)
        connection.close()
        until(lambda: _is_taken(service), "there is room again")


def _is_taken(service):
    with suppress(ConnectionError), connected(service) as connection:
        connection.sendall(ALIVE)
        return connection.recv(65_536).startswith(b"HTTP/1.1 200 ")
    return False


def test_long_bodies_that_never_end_take_no_more_memory_than_they_may():
    """Each caller announces a batch of nearly the greatest length, sends all but its end, and stays."""
    megabyte, callers, length = 1_000_000, 60, 3_900_000
    head = b"POST /v1/batch HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n"
    with serving(environment={"FOOTVALVE_BODY_MEMORY_BYTES": str(20 * megabyte)}) as service, ExitStack() as staying:
        before = service.resident_bytes
        stayed = [staying.enter_context(connected(service, SOON_S)) for _ in range(callers)]
        for caller in stayed:
            with suppress(ConnectionError):
                caller.sendall(head % length + b" " * (length - 1))
        until(lambda: len(select(stayed, [], [], 0)[0]) > callers / 2, "most are refused")
        assert service.resident_bytes - before < 100 * megabyte
        with connected(service, SOON_S) as other:
            other.sendall(LAST_REQUEST)
            assert all_that_comes(other).startswith(b"HTTP/1.1 200 ")
