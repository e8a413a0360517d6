"""The metrics: exact numbers, closed lists of labels, and several processes' numbers that become one."""

import asyncio
import os
import shutil
import socket
import string
import threading
import time
from contextlib import ExitStack, suppress
from errno import ENOSPC
from pathlib import Path
from types import SimpleNamespace

import httpx
import pytest
from prometheus_client import CollectorRegistry, generate_latest
from prometheus_client.parser import text_string_to_metric_families

from footvalve.contract.examples import examples
from footvalve.web import metrics_folder
from footvalve.web.application import create_app
from footvalve.web.metrics import COUNTED, Counted
from footvalve.web.metrics_board import MOST_CELLS, Board
from footvalve.web.metrics_catalogue import BATCH_ITEMS, BUCKETS, IN_PROGRESS, REQUESTS, SECONDS, STORE_UP
from footvalve.web.metrics_collector import MetricsCollector
from footvalve.web.metrics_folder import Folder, SharedBoard
from footvalve.web.metrics_requests import RequestCounts
from footvalve.web.metrics_server import MOST_AT_ONCE
from footvalve.web.metrics_start import counting, telling_metrics
from footvalve.web.setting import BadSetting
from footvalve.web.settings import Settings

JSON = {"content-type": "application/json"}
LIVE = ("/live", "GET", "200")


@pytest.fixture
def folder():
    folder = Folder()
    yield folder
    folder.close()


def told(board, folder=None):
    """What Prometheus reads: each sample's value by its name and its labels."""
    registry = CollectorRegistry(auto_describe=False)
    registry.register(MetricsCollector(board, folder))
    families = text_string_to_metric_families(generate_latest(registry).decode())
    return {(s.name, frozenset(s.labels.items())): s.value for family in families for s in family.samples}


def value(samples, name, **labels):
    return samples.get((name, frozenset(labels.items())))


def free_port(family=socket.AF_INET, host="127.0.0.1"):
    with socket.create_server((host, 0), family=family) as taken:
        return taken.getsockname()[1]


def read_metrics(port, host="127.0.0.1"):
    with httpx.Client(trust_env=False) as client:
        return client.get(f"http://{host}:{port}/metrics", timeout=20).text


def test_every_request_is_counted_once_where_it_belongs(board, send_to):
    send = send_to(create_app(Settings()))
    for _ in range(7):
        send("GET", "/live")
    send("HEAD", "/live")
    send("POST", "/v1/friction", json=examples("friction")[0].request)
    send("POST", "/v1/friction", content=b"{", headers=JSON)
    send("GET", "/v1/friction")
    samples = told(board)
    requests = {labels: number for (name, labels), number in samples.items() if name == "footvalve_requests_total"}
    assert requests == {
        frozenset({("path", path), ("method", method), ("status", status)}): number
        for (path, method, status), number in {
            ("/live", "GET", "200"): 7,
            ("/live", "HEAD", "200"): 1,
            ("/v1/friction", "POST", "200"): 1,
            ("/v1/friction", "POST", "400"): 1,
            ("/v1/friction", "GET", "405"): 1,
        }.items()
    }
    assert value(samples, "footvalve_request_seconds_count", path="/live") == 8
    assert value(samples, "footvalve_request_seconds_count", path="/v1/friction") == 3
    assert value(samples, "footvalve_problems_total", problem="not-json") == 1
    assert value(samples, "footvalve_problems_total", problem="method-not-allowed") == 1
    assert value(samples, "footvalve_requests_in_progress") == 0


def test_the_items_of_a_batch_are_counted_by_their_own_status(board, send_to):
    sound = {"endpoint": "friction", "body": examples("friction")[0].request}
    items = [{"id": "a", **sound}, {"id": "b", **sound}, {"id": "c", "endpoint": "friction", "body": {}}]
    assert send_to(create_app(Settings()))("POST", "/v1/batch", json={"items": items}).status_code == 200
    samples = told(board)
    assert value(samples, "footvalve_batch_items_total", status="200") == 2
    assert value(samples, "footvalve_batch_items_total", status="400") == 1
    assert value(samples, "footvalve_requests_total", path="/v1/batch", method="POST", status="200") == 1


def test_odd_paths_and_methods_make_no_labels(board):
    app = create_app(Settings())

    async def ask_oddly():
        transport = httpx.ASGITransport(app, raise_app_exceptions=False)
        async with httpx.AsyncClient(transport=transport, base_url="http://service.test") as client:
            for number in range(1000):
                method = string.ascii_uppercase[number % 26] * (1 + number % 9)
                await client.request(method, f"/{number}/%00{'x' * (number % 50)}?{number}")

    asyncio.run(ask_oddly())
    samples = told(board)
    series = [dict(labels) for name, labels in samples if name == "footvalve_requests_total"]
    assert {labels["path"] for labels in series} == {"unknown"}
    assert {labels["method"] for labels in series} == {"other"}
    assert len(series) <= 2
    assert sum(number for (name, _), number in samples.items() if name == "footvalve_requests_total") == 1000


def test_times_fall_into_the_buckets_that_hold_them():
    board = Board()
    counts = RequestCounts(board)
    times = [0.0001, BUCKETS[0], 0.02, BUCKETS[-1], 99.0]
    for seconds in times:
        counts.begin()
        counts.end("/live", "GET", 200, seconds)
    samples = told(board)
    for bound in BUCKETS:
        expected = sum(seconds <= bound for seconds in times)
        assert value(samples, "footvalve_request_seconds_bucket", path="/live", le=str(bound)) == expected
    assert value(samples, "footvalve_request_seconds_bucket", path="/live", le="+Inf") == len(times)
    assert value(samples, "footvalve_request_seconds_sum", path="/live") == pytest.approx(sum(times))


def test_what_has_begun_and_not_ended_is_in_progress_and_a_caller_who_left_has_no_status():
    board = Board()
    counts = RequestCounts(board)
    counts.begin()
    counts.begin()
    counts.end("/live", "GET", None, 1.0)
    samples = told(board)
    assert value(samples, "footvalve_requests_in_progress") == 1
    assert value(samples, "footvalve_requests_total", path="/live", method="GET", status="none") == 1


EVENTS = {
    "log_lines_lost": ((3,), "footvalve_log_lines_lost_total", {}, 3),
    "batch_item": ((422,), "footvalve_batch_items_total", {"status": "422"}, 1),
    "refused_unread": (("overloaded",), "footvalve_refused_unread_total", {"problem": "overloaded"}, 1),
    "store_up": ((), "footvalve_rate_limit_store_up", {}, 1),
    "store_away": ((), "footvalve_rate_limit_store_up", {}, 0),
    "counted_locally": ((), "footvalve_rate_limit_fallbacks_total", {}, 1),
    "keys_not_read": ((), "footvalve_key_reload_failures_total", {}, 1),
    "long_work_waits": ((2,), "footvalve_long_work_waiting", {}, 2),
    "workers_up": ((4,), "footvalve_workers_up", {}, 4),
    "worker_replaced": ((), "footvalve_worker_restarts_total", {}, 1),
}


def test_every_event_is_tried():
    assert EVENTS.keys() == {name for name in vars(Counted) if name[0] != "_"} - {"begin", "end"}


@pytest.mark.parametrize("event", EVENTS)
def test_an_event_is_counted_under_its_name(board, event):
    arguments, name, labels, number = EVENTS[event]
    getattr(COUNTED, event)(*arguments)
    assert value(told(board), name, **labels) == number


@pytest.mark.parametrize("event", EVENTS)
def test_an_event_is_free_to_happen_where_nobody_counts(event):
    assert COUNTED.board is None
    getattr(COUNTED, event)(*EVENTS[event][0])


def test_counters_are_told_before_anything_happened(board):
    samples = told(board)
    for name in ("log_lines_lost", "rate_limit_fallbacks", "key_reload_failures", "worker_restarts"):
        assert value(samples, f"footvalve_{name}_total") == 0


def test_a_process_tells_of_its_memory_and_time(board):
    samples = told(board)
    assert value(samples, "process_resident_memory_bytes", process="worker-0") > 1e6
    assert value(samples, "process_cpu_seconds_total", process="worker-0") > 0


def test_what_finds_no_place_harms_nothing_else(board):
    first = board.place(REQUESTS, LIVE)
    for number in range(MOST_CELLS):
        board.cells[board.place(BATCH_ITEMS, (str(number),))] += 1
    counts = RequestCounts(board)
    counts.begin()
    counts.end("/late", "GET", 200, 0.1)
    board.cells[first] += 1
    samples = told(board)
    assert value(samples, "footvalve_requests_total", path="/live", method="GET", status="200") == 1
    assert value(samples, "footvalve_batch_items_total", status="0") == 1
    assert value(samples, "footvalve_requests_total", path="/late", method="GET", status="200") is None


def test_several_workers_numbers_become_one(folder):
    workers = [SharedBoard(folder.path) for _ in range(3)]
    for number, worker in enumerate(workers, 1):
        worker.cells[worker.place(IN_PROGRESS)] = number
        worker.cells[worker.place(STORE_UP)] = min(number - 1, 1)
        worker.cells[worker.place(REQUESTS, LIVE)] = 10 * number
        worker.cells[worker.place(SECONDS, ("/live",)) + 2] = number
    samples = told(Board(), folder)
    assert value(samples, "footvalve_requests_total", path="/live", method="GET", status="200") == 60
    assert value(samples, "footvalve_request_seconds_count", path="/live") == 6
    assert value(samples, "footvalve_requests_in_progress") == 6
    assert value(samples, "footvalve_rate_limit_store_up") == 0
    assert value(samples, "process_open_fds", process="worker-2") > 0
    for worker in workers:
        worker.close()


def test_who_takes_a_slot_counts_on_and_how_things_stood_is_over(folder):
    before = SharedBoard(folder.path)
    before.cells[before.place(REQUESTS, LIVE)] = 5
    before.cells[before.place(IN_PROGRESS)] = 3
    before.cells[before.place(STORE_UP)] = 0
    before.close()
    samples = told(Board(), folder)
    assert value(samples, "footvalve_requests_total", path="/live", method="GET", status="200") == 5
    assert value(samples, "footvalve_requests_in_progress") is None
    after = SharedBoard(folder.path)
    samples = told(Board(), folder)
    assert value(samples, "footvalve_requests_in_progress") is None
    assert value(samples, "footvalve_rate_limit_store_up") is None
    after.cells[after.place(REQUESTS, LIVE)] += 1
    RequestCounts(after).begin()
    samples = told(Board(), folder)
    assert value(samples, "footvalve_requests_total", path="/live", method="GET", status="200") == 6
    assert value(samples, "footvalve_requests_in_progress") == 1
    assert [slot.number for slot in folder.slots()] == [0]
    after.close()


def test_a_name_that_was_broken_off_is_forgotten(folder):
    before = SharedBoard(folder.path)
    before.cells[before.place(REQUESTS, LIVE)] = 5
    before.close()
    with (folder.path / "0.names").open("ab") as names:
        names.write(b'["footvalve_prob')
    assert value(told(Board(), folder), "footvalve_requests_total", path="/live", method="GET", status="200") == 5
    after = SharedBoard(folder.path)
    after.cells[after.place(BATCH_ITEMS, ("200",))] = 2
    samples = told(Board(), folder)
    assert value(samples, "footvalve_requests_total", path="/live", method="GET", status="200") == 5
    assert value(samples, "footvalve_batch_items_total", status="200") == 2
    after.close()


@pytest.mark.parametrize("taken", [0, 5])
def test_a_full_disk_leaves_out_a_name_and_tries_again(folder, monkeypatch, taken):
    worker = SharedBoard(folder.path)

    def write(descriptor, octets):
        if taken:
            return os.write(descriptor, octets[:taken])
        raise OSError(ENOSPC, "No space left on device")

    rest = SimpleNamespace(write=write, fstat=os.fstat, ftruncate=os.ftruncate)
    with monkeypatch.context() as full:
        full.setattr(metrics_folder, "os", rest)
        worker.cells[worker.place(REQUESTS, LIVE)] += 1
    assert value(told(Board(), folder), "footvalve_requests_total", path="/live", method="GET", status="200") is None
    worker.cells[worker.place(REQUESTS, LIVE)] += 1
    assert value(told(Board(), folder), "footvalve_requests_total", path="/live", method="GET", status="200") == 1
    worker.close()


def test_folders_that_were_left_behind_are_deleted_and_those_in_use_are_not(tmp_path, monkeypatch):
    monkeypatch.setattr(metrics_folder, "_IN_MEMORY", tmp_path)
    left_behind = tmp_path / "footvalve-metrics-of-a-killed-run"
    left_behind.mkdir()
    (left_behind / "0.lock").touch()
    stranger = tmp_path / "somebody-elses"
    stranger.mkdir()
    first = Folder()
    second = Folder()
    assert not left_behind.exists()
    assert stranger.exists()
    assert first.path.exists()
    assert second.path.exists()
    first.close()
    second.close()
    assert list(tmp_path.iterdir()) == [stranger]


def test_metrics_are_told_on_a_port_of_their_own_and_nowhere_else(send_to):
    settings = Settings(metrics_port=free_port())
    with telling_metrics(settings, workers=1):
        send = send_to(create_app(settings))
        assert send("GET", "/metrics").status_code == 404
        text = read_metrics(settings.metrics_port)
    assert 'footvalve_requests_total{method="GET",path="unknown",status="404"} 1.0' in text
    assert COUNTED.board is None
    with pytest.raises(httpx.ConnectError):
        read_metrics(settings.metrics_port)


def test_who_holds_many_connections_gets_no_thread_for_each():
    settings = Settings(metrics_port=free_port())
    with telling_metrics(settings, workers=1):
        before = threading.active_count()
        with ExitStack() as held:
            for _ in range(3 * MOST_AT_ONCE):
                with suppress(ConnectionError):
                    held.enter_context(socket.create_connection(("127.0.0.1", settings.metrics_port), timeout=20))
            until(lambda: threading.active_count() == before + MOST_AT_ONCE)
            with pytest.raises(httpx.TransportError):
                read_metrics(settings.metrics_port)
        until(lambda: threading.active_count() == before)
        assert "footvalve_build_info" in read_metrics(settings.metrics_port)


def until(condition):
    give_up = time.monotonic() + 60
    while not condition():
        assert time.monotonic() < give_up
        time.sleep(0.01)


def test_metrics_are_told_over_ipv6():
    try:
        port = free_port(socket.AF_INET6, "::1")
    except OSError:
        pytest.skip("this machine has no IPv6")
    with telling_metrics(Settings(metrics_port=port, metrics_host="::1"), workers=1):
        assert "footvalve_build_info" in read_metrics(port, "[::1]")


def test_a_worker_counts_in_the_folder_that_its_keeper_has_made(send_to):
    settings = Settings(metrics_port=free_port())
    with telling_metrics(settings, workers=2):
        keepers = COUNTED.board
        COUNTED.workers_up(2)
        with counting(settings):
            send_to(create_app(settings))("GET", "/live")
        COUNTED.begin(keepers)
        text = read_metrics(settings.metrics_port)
        folder = Path(os.environ["FOOTVALVE_METRICS_FOLDER"])
        assert folder.exists()
    assert 'footvalve_requests_total{method="GET",path="/live",status="200"} 1.0' in text
    assert "footvalve_workers_up 2.0" in text
    assert not folder.exists()
    assert "FOOTVALVE_METRICS_FOLDER" not in os.environ


def test_a_worker_whose_folder_is_gone_works_on(caplog, send_to):
    settings = Settings(metrics_port=free_port())
    with telling_metrics(settings, workers=2):
        shutil.rmtree(os.environ["FOOTVALVE_METRICS_FOLDER"])
        COUNTED.end()
        with counting(settings):
            assert send_to(create_app(settings))("GET", "/live").status_code == 200
    assert "counts nothing" in caplog.text


def test_without_a_port_nothing_is_counted(send_to):
    with telling_metrics(Settings(), workers=2), counting(Settings()):
        assert send_to(create_app(Settings()))("GET", "/live").status_code == 200
        assert COUNTED.board is None


def test_a_port_that_is_taken_stops_the_start():
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with (
            pytest.raises(BadSetting, match=rf"^FOOTVALVE_METRICS_PORT cannot be {port}: .* in use\.$"),
            telling_metrics(Settings(metrics_port=port), workers=2),
        ):
            pass
    assert "FOOTVALVE_METRICS_FOLDER" not in os.environ


def test_a_machine_without_a_folder_to_write_in_stops_the_start(monkeypatch):
    def nowhere(**_):
        raise FileNotFoundError(2, "No usable temporary directory found")

    monkeypatch.setattr(metrics_folder.tempfile, "mkdtemp", nowhere)
    with (
        pytest.raises(BadSetting, match=r"^FOOTVALVE_METRICS_PORT needs a folder .* TMPDIR"),
        telling_metrics(Settings(metrics_port=free_port()), workers=2),
    ):
        pass
