"""Several workers: one that dies is replaced, and all are renewed without anybody noticing."""

import json
import os
import re
import signal
import time
from pathlib import Path

import httpx
import pytest

from footvalve.web.key_making import entry_of, made_key

from .load import CALLERS, load
from .raw_caller import ALIVE, connected, one_answer
from .service_process import PATIENCE_S, is_running, serving, until

DRAINING = {"FOOTVALVE_DRAIN_SECONDS": "3"}
"""Longer than a busy machine keeps a caller from asking again: who is idle at the end of it is seen off."""

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
    """The two workers' processes, once there are two."""

    def two():
        pids = service.worker_pids
        return pids if len(pids) == 2 else None

    return until(two, "there are two workers")


def busier_and_other(service):
    """The worker that holds more of the callers, and the other, which may have no caller yet."""
    return sorted(both(service), key=lambda pid: -len(os.listdir(f"/proc/{pid}/fd")))


def test_a_killed_worker_is_replaced_and_the_other_goes_on(pair):
    with load(pair.port, "keep_alive") as seen:
        until(lambda: seen.answered > 200, "the load runs")
        killed, other = busier_and_other(pair)
        os.kill(killed, signal.SIGKILL)
        until(lambda: not is_running(killed), "it is dead")
        until(lambda: seen.lost, "those who were with it miss it")
        until(lambda: len(set(pair.worker_pids) - {killed}) == 2, "another takes its place")
        before = seen.answered
        until(lambda: seen.answered > before + 500, "the callers go on")
        assert other in pair.worker_pids
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
        told, other = busier_and_other(pair)
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
    with serving("--workers", "2", environment=customized(tmp_path)) as service:
        start = time.monotonic()
        assert service.wait() == 1
        assert time.monotonic() - start > 1, "it did not pause between them"
        assert re.search(r"^footvalve: [56] workers in a row ended as soon as they had started", service.errors, re.M)


def customized(folder):
    """The environment in which every process begins with the folder's sitecustomize.py."""
    return {"PYTHONPATH": f"{folder}:{os.environ.get('PYTHONPATH', '')}"}


ENDS_AT_ONCE_WHERE_IT_IS_SAID = """
import os, sys
if "footvalve.serving.worker" in sys.orig_argv:
    if os.path.exists({switch!r}):
        os._exit(3)
    open(f"{folder}/{{os.getpid()}}", "w").close()
"""


def test_while_one_worker_is_well_the_keeper_tries_again_without_end(tmp_path):
    switch = tmp_path / "none comes up"
    custom = ENDS_AT_ONCE_WHERE_IT_IS_SAID.format(switch=str(switch), folder=str(tmp_path))
    (tmp_path / "sitecustomize.py").write_text(custom)
    with serving("--workers", "2", environment=customized(tmp_path)) as service:
        killed, other = both(service)
        until((tmp_path / str(other)).exists, "it is on its way")
        switch.touch()
        os.kill(killed, signal.SIGKILL)
        until(
            lambda: len(lines(service, "ended by itself with 3")) > 4,
            "so many die that a service without others would end",
        )
        pauses = [float(re.search(r"([0-9.]+) s$", line["message"])[1]) for line in lines(service, "the next is tried")]
        assert pauses == sorted(pauses)
        assert pauses[-1] > pauses[0]
        with connected(service) as connection:
            connection.sendall(ALIVE)
            assert one_answer(connection)[0].startswith(b"HTTP/1.1 200 ")
        switch.unlink()
        until(
            lambda: any((tmp_path / str(pid)).exists() for pid in set(service.worker_pids) - {killed, other}),
            "another takes the place",
        )
        assert other in service.worker_pids
        assert "footvalve: " not in service.errors


def by_keys(file):
    return {"FOOTVALVE_KEYS_FILE": str(file), "FOOTVALVE_LOG_LEVEL": "debug"}


def got(service, path, key="none"):
    return httpx.get(f"{service.url}{path}", headers={"authorization": f"Bearer {key}"}, timeout=PATIENCE_S)


def put(text, file):
    """Let a file hold this, at once: nobody reads half of it."""
    draft = file.with_suffix(".draft")
    draft.write_text(text)
    draft.replace(file)


def kill(pids):
    """End processes, and wait until they have."""
    for pid in pids:
        os.kill(pid, signal.SIGKILL)
    until(lambda: not any(map(is_running, pids)), "they are dead")


def test_a_worker_that_starts_with_spoiled_keys_begins_with_those_from_before(tmp_path):
    first, key, keys = made_key(), made_key(), tmp_path / "keys.toml"
    keys.write_text(entry_of("first", first))
    with serving("--workers", "2", environment=by_keys(keys)) as service:
        both(service)
        put(entry_of("shop", key), keys)
        until(lambda: lines(service, "workers that are to come are handed on"), "the keeper has seen it")
        for spoil in (lambda: put("nonsense", keys), keys.unlink):
            spoil()
            kill(both(service))
            both(service)
            asked = [
                *(got(service, "/v1/tables/units", told) for told in (key, first) * 6),
                *(got(service, "/ready") for _ in range(6)),
            ]
            assert [answer.status_code for answer in asked] == [200, 401] * 6 + [200] * 6
            assert {answer.json()["keys"] for answer in asked[-6:]} == {"outdated"}
        told = until(lambda: lines(service, "the keys from before go on"), "it says so")
        assert str(keys) in told[-1]["message"]


SPOILS_A_SETTING = """
import os, sys
if "footvalve.serving.worker" in sys.orig_argv:
    os.environ["FOOTVALVE_LOG_LEVEL"] = "loud"
"""


def test_a_worker_that_cannot_start_says_why_on_one_line(tmp_path):
    (tmp_path / "sitecustomize.py").write_text(SPOILS_A_SETTING)
    with serving("--workers", "2", environment=customized(tmp_path)) as service:
        assert service.wait() == 1
        told = lines(service, "this worker cannot start")
        assert len(told) >= 5
        assert told[0]["level"] == "error"
        assert "FOOTVALVE_LOG_LEVEL must be debug, info, warning or error, but it is 'loud'." in told[0]["message"]


RENEWING = "renewing the workers one by one"
RENEWED = "the workers have been renewed"


def test_a_renewal_is_told_at_its_begin_and_its_end(pair):
    before = both(pair)
    begun, ended = (len(lines(pair, told)) for told in (RENEWING, RENEWED))
    pair.send_signal(signal.SIGHUP)
    until(lambda: not any(map(is_running, before)), "the old ones have ended")
    until(lambda: len(lines(pair, RENEWED)) > ended, "it says so")
    assert len(lines(pair, RENEWING)) == begun + 1


def children(service):
    """All processes that the keeper has, whether they answer already or not."""
    return Path(f"/proc/{service.process.pid}/task/{service.process.pid}/children").read_text().split()


def test_a_worker_that_dies_while_its_successor_comes_up_leaves_none_too_many(pair):
    before = both(pair)
    ended = len(lines(pair, RENEWED))
    pair.send_signal(signal.SIGHUP)
    until(lambda: len(children(pair)) == 3, "the first successor is on its way")
    os.kill(before[0], signal.SIGKILL)
    until(lambda: len(lines(pair, RENEWED)) > ended, "the others are renewed all the same")
    assert not set(both(pair)) & set(before)


def test_a_worker_that_hangs_is_killed_and_holds_no_renewal_up():
    with serving("--workers", "2", environment={"FOOTVALVE_STOP_SECONDS": "1"}) as service:
        before = both(service)
        os.kill(before[0], signal.SIGSTOP)
        service.send_signal(signal.SIGHUP)
        until(lambda: lines(service, RENEWED), "they are renewed")
        assert not any(map(is_running, before))
        assert [line["message"] for line in lines(service, "does not end")] == [
            f"worker {before[0]} does not end, and is killed"
        ]


def lines(service, part):
    """The lines of the log with this in their message."""
    told = [json.loads(line) for line in service.errors.splitlines() if line.startswith("{") and line.endswith("}")]
    return [line for line in told if part in line["message"]]
