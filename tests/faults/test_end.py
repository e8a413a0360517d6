"""The end of the service: no request that was accepted is lost, and no new connection is reset."""

import signal

import pytest

from .load import load
from .raw_caller import ALIVE, BODY, REQUEST, all_that_comes, connected, header, is_read, one_answer, told_problem
from .service_process import serving, until

DRAINING = {"FOOTVALVE_DRAIN_SECONDS": "3"}
"""Longer than a busy machine keeps a caller from asking again: who is idle at the end of it is seen off."""
LONG_DRAINING = {"FOOTVALVE_DRAIN_SECONDS": "60", "FOOTVALVE_STOP_SECONDS": "60"}
SOON_S = 30
"""Half of either of those."""

READY = ALIVE.replace(b"/live", b"/ready")
HALF = len(REQUEST) - len(BODY) // 2


def answers(service):
    """Wait until it answers, so that a signal finds it at work."""
    with connected(service) as connection:
        connection.sendall(ALIVE)
        one_answer(connection)


@pytest.mark.parametrize("workers", ["1", "2"])
@pytest.mark.parametrize("manner", ["keep_alive", "closing"])
def test_under_load_nothing_is_lost(manner, workers):
    with serving("--workers", workers, environment=DRAINING) as service, load(service.port, manner) as seen:
        until(lambda: seen.answered > 200, "the load runs")
        service.send_signal(signal.SIGTERM)
        before = seen.answered
        assert service.wait() == 0
        until(lambda: seen.counts["refused"], "a caller hears that nobody listens")
    assert seen.lost == []
    assert seen.answered > before
    assert set(seen.counts) == {"200", "refused"}


@pytest.mark.parametrize("workers", ["1", "2"])
def test_while_it_drains_it_answers_but_says_that_it_is_not_ready(workers):
    with serving("--workers", workers, environment=LONG_DRAINING) as service:
        answers(service)
        with connected(service) as held:
            held.sendall(ALIVE)
            head, _ = one_answer(held)
            assert header(head, b"connection") == b""
            service.send_signal(signal.SIGTERM)
            until(lambda: _closing_down(service), "it drains")
            held.sendall(REQUEST)
            answer = all_that_comes(held)
            assert answer.startswith(b"HTTP/1.1 200 ")
            assert b"\r\nconnection: close\r\n" in answer
        with connected(service) as new:
            new.sendall(REQUEST * 3)
            answer = all_that_comes(new)
            assert answer.count(b"HTTP/1.1 200 ") == 3
            assert answer.count(b"connection: close") == 1
        service.send_signal(signal.SIGTERM)  # the second leaves the rest of the minute out
        assert service.wait(SOON_S) == 0


def _closing_down(service):
    with connected(service) as connection:
        connection.sendall(READY.replace(b"\r\n\r\n", b"\r\nConnection: close\r\n\r\n"))
        answer = all_that_comes(connection)
    if answer.startswith(b"HTTP/1.1 200 "):
        return False
    assert told_problem(answer) == (503, "closing-down")
    assert b"\r\nretry-after: 1\r\n" in answer
    return True


def test_what_is_under_way_at_the_end_is_still_answered():
    with serving() as service:
        answers(service)
        with connected(service) as half_sent, connected(service) as head_begun, connected(service) as idle:
            half_sent.sendall(REQUEST[:HALF])
            head_begun.sendall(REQUEST[:20])
            idle.sendall(ALIVE)
            one_answer(idle)
            service.send_signal(signal.SIGTERM)
            assert idle.recv(1) == b""  # an orderly end, no reset
            until(lambda: _is_refused(service), "it listens no more")
            for connection, rest in ((half_sent, REQUEST[HALF:]), (head_begun, REQUEST[20:])):
                connection.sendall(rest)
                answer = all_that_comes(connection)
                assert answer.startswith(b"HTTP/1.1 200 ")
                assert b"\r\nconnection: close\r\n" in answer
        assert service.wait() == 0


def _is_refused(service):
    try:
        with connected(service):
            return False
    except ConnectionError:
        return True


def test_what_takes_too_long_at_the_end_is_told_so():
    with serving(environment={"FOOTVALVE_STOP_SECONDS": "1"}) as service:
        answers(service)
        with connected(service) as half_sent, connected(service) as head_begun:
            half_sent.sendall(REQUEST[:HALF])
            head_begun.sendall(REQUEST[:20])
            until(lambda: is_read(half_sent) and is_read(head_begun), "both are under way")
            service.send_signal(signal.SIGTERM)
            for connection in (half_sent, head_begun):
                assert told_problem(all_that_comes(connection)) == (503, "closing-down")
        assert service.wait() == 0


def test_a_third_signal_waits_for_nobody():
    with serving("--workers", "2", environment=LONG_DRAINING) as service:
        answers(service)
        with connected(service) as half_sent:
            half_sent.sendall(REQUEST[:HALF])
            until(lambda: is_read(half_sent), "it is under way")
            service.send_signal(signal.SIGINT)
            until(lambda: _closing_down(service), "it drains")
            service.send_signal(signal.SIGINT)
            until(lambda: _is_refused(service), "it listens no more")
            service.send_signal(signal.SIGINT)
            assert service.wait(SOON_S) == 0
            assert told_problem(all_that_comes(half_sent)) == (503, "closing-down")
