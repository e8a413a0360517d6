"""Several workers: one that dies is replaced, and all are renewed without anybody noticing."""

import os
import signal
import time

import pytest

from .load import CALLERS, load
from .raw_caller import ALIVE, connected, one_answer
from .service_process import is_running, serving, until

DRAINING = {"FOOTVALVE_DRAIN_SECONDS": "1"}

ENDS_AT_ONCE = """
import os, sys
if "footvalve.serving.worker" in sys.orig_argv:
    os._exit(3)
"""


@pytest.fixture(scope="module")
def pair():
    """A service of two workers, which each test leaves as one of two workers."""
    with serving("--workers", "2", environment=DRAINING) as service:
        yield service


def both(service):
    """The two workers' processes, once there are two that answer."""
    until(lambda: len(service.worker_pids) == 2, "there are two workers")
    return service.worker_pids


def test_a_killed_worker_is_replaced_and_the_other_goes_on(pair):
    with load(pair.port, "keep_alive") as seen:
        until(lambda: seen.answered > 200, "the load runs")
        killed, other = both(pair)
        os.kill(killed, signal.SIGKILL)
        until(lambda: not is_running(killed), "it is dead")
        lost_with_it = until(lambda: len(seen.lost) or seen.answered > 2_000, "the callers go on")
        until(lambda: len(set(pair.worker_pids) - {killed}) == 2, "another takes its place")
        before = seen.answered
        until(lambda: seen.answered > before + 500, "the callers go on")
        assert other in pair.worker_pids
    assert lost_with_it
    assert len(seen.lost) <= CALLERS, "more is lost than what one worker held"
    assert set(seen.counts) == {"200"}


def test_all_workers_are_renewed_under_load_and_nothing_is_lost(pair):
    with load(pair.port, "keep_alive") as kept, load(pair.port, "closing") as closed:
        until(lambda: min(kept.answered, closed.answered) > 100, "the load runs")
        before = both(pair)
        pair.send_signal(signal.SIGHUP)
        until(lambda: not any(map(is_running, before)), "the old ones have ended")
        since = kept.answered + closed.answered
        until(lambda: kept.answered + closed.answered > since + 200, "the new ones answer")
        assert len(both(pair)) == 2
    assert (kept.lost, closed.lost) == ([], [])
    assert set(kept.counts | closed.counts) == {"200"}


def test_a_worker_that_is_told_to_end_is_replaced_first(pair):
    with load(pair.port, "keep_alive") as seen:
        until(lambda: seen.answered > 200, "the load runs")
        told, other = both(pair)
        os.kill(told, signal.SIGTERM)
        until(lambda: not is_running(told), "it has ended")
        new = both(pair)
        assert other in new
    assert seen.lost == []


def test_without_their_keeper_workers_end():
    with serving("--workers", "2") as service:
        workers = both(service)
        with connected(service) as connection:
            connection.sendall(ALIVE)
            one_answer(connection)
            service.process.kill()
            service.wait()
            until(lambda: not any(map(is_running, workers)), "the workers have ended")
            assert connection.recv(1) == b""


def test_workers_that_die_at_once_end_the_service(tmp_path):
    (tmp_path / "sitecustomize.py").write_text(ENDS_AT_ONCE)
    with serving(
        "--workers", "2", environment={"PYTHONPATH": f"{tmp_path}:{os.environ.get('PYTHONPATH', '')}"}
    ) as service:
        start = time.monotonic()
        assert service.wait() == 1
        assert time.monotonic() - start > 1, "it did not pause between them"
        assert "footvalve: 5 workers in a row ended as soon as they had started" in service.errors
