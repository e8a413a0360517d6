"""The metrics of the real service with several processes: exact, also after one of them was killed."""

import json
import os
import signal
import socket
import subprocess
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from http.client import HTTPConnection
from pathlib import Path

import pytest
from prometheus_client.parser import text_string_to_metric_families

from footvalve.web.metrics_folder import Folder

from .free_port import free_port
from .service_process import COMMAND, PATIENCE_S, is_running, serving, until

ALL_TOLD = {"FOOTVALVE_LOG_REQUESTS": "all"}
REQUESTS = 400
PATHS = ("/live", "/v1/tables/units", "/nowhere")
LABELS = ("/live", "/v1/tables/units", "unknown")


@contextmanager
def counting():
    """A service of two workers, and the port on which it tells its metrics."""
    port = free_port()
    with serving("--workers", "2", environment=ALL_TOLD | {"FOOTVALVE_METRICS_PORT": str(port)}) as service:
        wait_for_workers(port)
        yield service, port


@pytest.fixture(scope="module")
def counted():
    with counting() as service_and_port:
        yield service_and_port


def got(port, path):
    """The status and the body of an answer over a connection of its own."""
    with closing(HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)) as connection:
        connection.request("GET", path, headers={"connection": "close"})
        answer = connection.getresponse()
        return answer.status, answer.read().decode()


def told(port):
    """Each sample's value by its name and its labels, as Prometheus reads it."""
    families = text_string_to_metric_families(got(port, "/metrics")[1])
    return {(s.name, frozenset(s.labels.items())): s.value for family in families for s in family.samples}


def settled(port):
    """The same once no request is under way: one is counted at its end, and its answer may be there before."""
    until(lambda: total(told(port), "footvalve_requests_in_progress") == 0, "no request is under way")
    return told(port)


def total(samples, metric, **labels):
    wanted = set(labels.items())
    return sum(number for (name, has), number in samples.items() if name == metric and wanted <= has)


def wait_for_workers(port):
    until(lambda: total(told(port), "footvalve_workers_up") == 2, "two workers run")


def ask(service):
    """Send requests, each over a connection of its own, so that every worker gets some."""
    with ThreadPoolExecutor(8) as pool:
        statuses = list(pool.map(lambda place: got(service.port, PATHS[place % len(PATHS)])[0], range(REQUESTS)))
    assert statuses == [(200, 200, 404)[place % 3] for place in range(REQUESTS)]


def test_a_head_that_cannot_be_read_is_counted(counted):
    service, port = counted
    with socket.create_connection((service.host, service.port), timeout=20) as connection:
        connection.sendall(b"nonsense\r\n\r\n")
        assert connection.recv(12) == b"HTTP/1.1 400"
    assert total(told(port), "footvalve_refused_unread_total", problem="bad-request") == 1


def test_metrics_are_not_told_on_the_public_port(counted):
    service, _ = counted
    assert got(service.port, "/metrics")[0] == 404


def test_sums_and_logs_are_exact_and_outlive_a_worker_that_is_killed(counted):
    service, port = counted

    def grown(metric, **labels):
        return total(settled(port), metric, **labels) - total(before, metric, **labels)

    before = settled(port)
    ask(service)
    assert grown("footvalve_requests_total") == REQUESTS
    assert grown("footvalve_request_seconds_count") == REQUESTS
    for place, label in enumerate(LABELS):
        assert grown("footvalve_requests_total", path=label) == len(range(place, REQUESTS, len(LABELS)))
    assert grown("footvalve_problems_total", problem="not-found") == len(range(2, REQUESTS, len(LABELS)))

    os.kill(service.worker_pids[0], signal.SIGKILL)
    until(lambda: grown("footvalve_worker_restarts_total") == 1, "the worker is replaced")
    wait_for_workers(port)
    assert grown("footvalve_requests_total") == REQUESTS
    ask(service)
    assert grown("footvalve_requests_total") == 2 * REQUESTS
    assert grown("footvalve_request_seconds_bucket", le="+Inf") == 2 * REQUESTS
    last = settled(port)
    until(lambda: service.errors.count('"duration_ms"') >= total(last, "footvalve_requests_total"), "all is logged")
    lines = [json.loads(line) for line in service.errors.splitlines()]
    told_requests = [line for line in lines if line["logger"] == "footvalve.requests"]
    assert len(told_requests) == total(last, "footvalve_requests_total")
    assert len({line["request_id"] for line in told_requests}) == len(told_requests)
    assert len({dict(labels)["process"] for name, labels in last if name == "process_open_fds"}) == 3


KEEPS_THE_SECOND_WAITING = """
import os, sys, time
if "footvalve.serving.worker" in sys.orig_argv:
    try:
        os.close(os.open({first!r}, os.O_CREAT | os.O_EXCL))
    except FileExistsError:
        while not os.path.exists({switch!r}):
            time.sleep(0.02)
"""


def test_a_worker_is_up_once_it_answers(tmp_path):
    first, switch, port = tmp_path / "first", tmp_path / "switch", free_port()
    (tmp_path / "sitecustomize.py").write_text(KEEPS_THE_SECOND_WAITING.format(first=str(first), switch=str(switch)))
    environment = {
        "PYTHONPATH": f"{tmp_path}:{os.environ.get('PYTHONPATH', '')}",
        "FOOTVALVE_METRICS_PORT": str(port),
    }
    with serving("--workers", "2", environment=environment) as service:
        until(lambda: len(service.worker_pids) == 2, "both are started")
        assert until(lambda: total(told(port), "footvalve_workers_up"), "the first answers") == 1
        switch.touch()
        wait_for_workers(port)


def folder_of(service):
    spoken = Path(f"/proc/{service.worker_pids[0]}/environ").read_bytes().split(b"\0")
    return Path(
        next(pair for pair in spoken if pair.startswith(b"FOOTVALVE_METRICS_FOLDER=")).partition(b"=")[2].decode()
    )


def test_what_a_killed_service_leaves_is_cleared_away_by_the_next():
    with counting() as (service, _):
        left_behind, workers = folder_of(service), service.worker_pids
        service.process.kill()
        service.wait()
        assert left_behind.is_dir()
        until(lambda: not any(map(is_running, workers)), "the workers of a dead keeper have ended")
    Folder().close()
    until(lambda: not left_behind.exists(), "it is cleared away, by this start or by another that came first")


def test_a_metrics_port_that_is_taken_stops_the_start_with_a_sentence():
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        ended = subprocess.run(
            [COMMAND, "serve", "--port", "0", "--workers", "2"],
            env=os.environ | {"FOOTVALVE_METRICS_PORT": str(port)},
            capture_output=True,
            text=True,
            timeout=PATIENCE_S,
            check=False,
        )
    assert ended.returncode == 2
    assert ended.stderr.startswith(f"footvalve: FOOTVALVE_METRICS_PORT cannot be {port}: ")
    assert ended.stderr.count("\n") == 1
