"""The log: one line of JSON a record, nothing of what a caller sent, and no harm where it cannot be written."""

import asyncio
import json
import logging
import os
import sys
import threading
import time
import warnings
from contextlib import contextmanager
from errno import ENOSPC
from itertools import count
from select import PIPE_BUF
from types import SimpleNamespace

import httpx
import pytest

from footvalve.answers.endpoints import ENDPOINTS, Endpoint
from footvalve.contract.examples import examples
from footvalve.contract.friction import FrictionAnswer, FrictionRequest
from footvalve.contract.problem import Fault, Refused
from footvalve.web import log_writer
from footvalve.web.application import create_app
from footvalve.web.key_making import entry_of, made_key
from footvalve.web.log_context import CURRENT
from footvalve.web.log_line import line_of
from footvalve.web.log_start import logging_lines
from footvalve.web.log_writer import LogWriter
from footvalve.web.metrics import COUNTED
from footvalve.web.metrics_board import Board
from footvalve.web.observation import Observation
from footvalve.web.problem_types import BAD_REQUEST, PROBLEM_TYPES, REQUEST_TIMEOUT
from footvalve.web.problems import Declined, problem_answer
from footvalve.web.settings import Settings

SECRET = "MARKER9317"
"""What must not be found again: it stands in every part of what the caller sends."""

TRACEPARENT = "00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01"
JSON = {"content-type": "application/json"}
FRICTION = next(endpoint for endpoint in ENDPOINTS if endpoint.name == "friction")
EVERY = Settings(log_level="debug", log_requests="all")


@pytest.fixture
def log(tmp_path, monkeypatch):
    """A context in which is logged, and in which `lines()` tells afterwards what was."""

    class Log:
        def __init__(self):
            self._numbers = count()

        @contextmanager
        def by(self, settings):
            self._file = tmp_path / f"{next(self._numbers)}.log"
            with self._file.open("w") as stream, monkeypatch.context() as patched:
                patched.setattr(sys, "stderr", stream)
                with logging_lines(settings):
                    yield

        @property
        def text(self):
            return self._file.read_text(encoding="utf-8")

        def lines(self):
            assert self.text == "" or self.text.endswith("\n")
            return [json.loads(line) for line in self.text.removesuffix("\n").split("\n") if self.text]

    return Log()


@pytest.fixture
def counted():
    """Numbers of what happens meanwhile, by the metric's name."""
    board = Board()
    COUNTED.begin(board)
    yield lambda name: {labels: numbers[0] for (told, labels), numbers in board.readings() if told == name}
    COUNTED.end()


def friction_with(compute):
    return Endpoint("friction", "T", "D", FrictionRequest, FrictionAnswer, compute)


def raising(make):
    """An endpoint that ends in an exception which holds the whole request."""

    def compute(request):
        try:
            raise LookupError(f"within: {request}")
        except LookupError as inner:
            raise make(f"{request}") from inner

    return friction_with(compute)


def body_with(secret):
    """A sound body that holds the secret."""
    flow = {"value": 5, "unit": "gal/min"}
    line = [{"part": "resistance", "flow_coefficient": 5, "basis": "Cv", "name": secret}]
    return json.dumps({"flow": flow, "line": line}).encode()


def test_a_request_is_told_on_one_line(log, send_to):
    with log.by(EVERY):
        response = send_to(create_app(EVERY))(
            "POST", "/v1/friction", json=examples("friction")[0].request, headers={"traceparent": TRACEPARENT}
        )
    (line,) = log.lines()
    assert line["time"].endswith("Z")
    assert line["time"][10] == "T"
    assert (line["level"], line["logger"]) == ("info", "footvalve.requests")
    assert line["message"] == "POST /v1/friction ended with 200"
    assert line["request_id"] == response.headers["x-request-id"]
    assert line["trace_id"] == "4bf92f3577b34da6a3ce929d0e0e4736"
    assert line["span_id"] == "00f067aa0ba902b7"
    assert (line["method"], line["route"], line["status"]) == ("POST", "/v1/friction", 200)
    assert line["request_bytes"] == int(response.request.headers["content-length"])
    assert line["answer_bytes"] == len(response.content)
    assert 0 < line["duration_ms"] < 60_000
    assert not {"problem", "key", "cut_short", "exceptions"} & line.keys()


@pytest.mark.parametrize("traceparent", ["", "00-0-0-01", TRACEPARENT.upper(), f"{TRACEPARENT}-more"])
def test_a_traceparent_that_breaks_the_standard_is_no_trace(log, send_to, traceparent):
    with log.by(EVERY):
        send_to(create_app(EVERY))("GET", "/live", headers={"traceparent": traceparent})
    (line,) = log.lines()
    assert not {"trace_id", "span_id"} & line.keys()


@pytest.mark.parametrize(
    ("make", "status", "level"),
    [(KeyError, 500, "error"), (RuntimeError, 500, "error"), (ArithmeticError, 422, "info")],
)
def test_an_exception_is_told_without_its_message(log, send_to, make, status, level):
    with log.by(EVERY):
        send = send_to(create_app(EVERY, [raising(make)]))
        response = send("POST", "/v1/friction", content=body_with("x"), headers=JSON | {"traceparent": TRACEPARENT})
    assert response.status_code == status
    failure, ended = log.lines()
    assert failure["level"] == level
    assert failure["request_id"] == ended["request_id"] == response.json()["request_id"]
    assert failure["trace_id"] == ended["trace_id"] == "4bf92f3577b34da6a3ce929d0e0e4736"
    assert [told["type"] for told in failure["exceptions"]] == [make.__name__, "LookupError"]
    assert failure["exceptions"][0]["at"][-1].startswith(f"{__name__}:")
    assert failure["exceptions"][0]["at"][-1].endswith(" compute")


def refused(request):
    raise Refused(Fault("/line", f"is not {request}"))


@pytest.mark.parametrize(
    ("endpoint", "status"),
    [
        (FRICTION, 200),
        (raising(KeyError), 500),
        (raising(UnicodeError), 500),
        (raising(OverflowError), 422),
        (friction_with(refused), 422),
    ],
)
def test_nothing_of_what_a_caller_sends_is_logged(log, send_to, endpoint, status):
    headers = {
        "authorization": f"Bearer {SECRET}",
        "cookie": f"session={SECRET}",
        "user-agent": SECRET,
        "x-forwarded-for": SECRET,
        "tracestate": f"a={SECRET}",
    }
    body = body_with(SECRET)
    batch = b'{"items":[{"id":"%b","endpoint":"friction","body":%b}]}' % (SECRET.encode(), body)
    with log.by(EVERY):
        send = send_to(create_app(EVERY, [endpoint]))
        answers = [
            send("POST", "/v1/friction", content=body, headers=JSON | headers),
            send("POST", "/v1/batch", content=batch, headers=JSON | headers),
            send("POST", f"/v1/friction?key={SECRET}", content=body, headers=JSON | headers),
            send("POST", "/v1/friction", content=body[:-1], headers=JSON | headers),
            send("POST", "/v1/friction", content=body.replace(b"flow", SECRET.encode()), headers=JSON | headers),
            send("GET", f"/{SECRET}", headers=headers),
            send(SECRET, "/live", headers=headers),
        ]
    assert answers[0].status_code == status
    assert len(log.lines()) >= len(answers)
    assert {answer.headers["x-request-id"] for answer in answers} <= {line["request_id"] for line in log.lines()}
    assert SECRET not in log.text


def test_a_key_is_told_by_its_name_and_never_itself(log, send_to, tmp_path):
    key, expired, file = made_key(), made_key(), tmp_path / "keys.toml"
    file.write_text(f"{entry_of('shop', key)}{entry_of('past', expired)}expires = 2020-01-31\n")
    settings = Settings(log_level="debug", log_requests="all", keys_file=file, anonymous_limit=None)
    with log.by(settings):
        send = send_to(create_app(settings))
        for presented in (key, expired, f"{key}x", key[:-1]):
            headers = {"authorization": f"Bearer {presented}"}
            send("POST", "/v1/friction", json=examples("friction")[0].request, headers=headers)
        send("POST", f"/{key}", headers={"authorization": f"Basic {key}", "x-api-key": key})
    lines = [line for line in log.lines() if line["logger"] == "footvalve.requests"]
    assert [line["status"] for line in lines] == [200, 403, 401, 401, 404]
    assert [line.get("key") for line in lines] == ["shop", None, None, None, None]
    assert [line["level"] for line in lines] == ["info", "warning", "warning", "warning", "info"]
    assert key[:-1] not in log.text
    assert expired not in log.text


def test_no_text_can_break_a_line(log):
    nasty = 'a\r\nb\x1b[31m\x00\u2028\x85\ud800"\\ end'
    with log.by(EVERY):
        logging.getLogger("footvalve.test").warning("%s", nasty)
        logging.getLogger("footvalve.test").warning("first %s", "x" * 5000)
    first, second = log.lines()
    assert first["message"].startswith("a")
    assert len(log.text.splitlines()) == 2
    assert "\x1b" not in log.text
    assert len(second["message"]) <= 400


def test_another_librarys_words_are_told_without_what_was_put_into_them(log):
    with log.by(EVERY):
        logging.getLogger("asyncio").error(f"Exception in callback handler({SECRET!r})\nhandle: <Handle {SECRET}>")
        logging.getLogger("somebody.else").warning("could not send %s", SECRET)
        logging.getLogger("somebody.else").info("is not heard")
    assert [line["message"] for line in log.lines()] == ["Exception in callback handler", "could not send %s"]


def test_the_words_of_what_exports_spans_are_filled_in(log):
    """As it says them where no collector is there: opentelemetry-exporter-otlp-common, http.py."""
    exporter = logging.getLogger("opentelemetry.exporter.otlp.proto.http.trace_exporter")
    told = "Transient error %s encountered while exporting %s batch, retrying in %.2fs."
    with log.by(EVERY):
        exporter.warning(told, ConnectionError(SECRET), "span", 1.03)
        exporter.warning(told, "Service Unavailable", "span", 2)
        exporter.error("Failed to export %(kind)s batch", {"kind": "span"})
        exporter.warning("Exporter already shutdown, ignoring batch (100 %)")
    assert [line["message"] for line in log.lines()] == [
        "Transient error ConnectionError encountered while exporting span batch, retrying in 1.03s.",
        "Transient error Service Unavailable encountered while exporting span batch, retrying in 2.00s.",
        "Failed to export span batch",
        "Exporter already shutdown, ignoring batch (100 %)",
    ]
    assert SECRET not in log.text


def test_warnings_and_what_ends_a_thread_are_lines_too(log):
    with log.by(EVERY):
        warnings.simplefilter("always")
        warnings.warn("mind the gap", UserWarning, stacklevel=1)
        thread = threading.Thread(target={}.__getitem__, args=(SECRET,))
        thread.start()
        thread.join()
    warned, ended = log.lines()
    assert "UserWarning: mind the gap" in warned["message"]
    assert ended["exceptions"][0]["type"] == "KeyError"
    assert SECRET not in log.text


def test_a_line_fits_into_a_pipe_whole():
    def deep(number):
        if number:
            deep(number - 1)
        raise OverflowError

    with pytest.raises(OverflowError) as raised:
        deep(200)
    error = (raised.type, raised.value, raised.tb)
    record = logging.LogRecord("footvalve.test", logging.ERROR, "", 0, "\U0001f4a7" * 5000, None, error)
    line = line_of(record)
    assert len(line) <= PIPE_BUF
    assert json.loads(line)["exceptions"][0]["type"] == "OverflowError"


def answering(status):
    async def answer(_scope, _receive, send):
        await send({"type": "http.response.start", "status": status, "headers": []})
        await send({"type": "http.response.body", "body": b"", "more_body": False})

    return answer


def asked(settings, app):
    """What a client hears from an ASGI application behind the layer."""

    async def ask():
        layered = Observation(settings, ["/known"]).layer(app)
        transport = httpx.ASGITransport(stateful(layered), raise_app_exceptions=False)
        async with httpx.AsyncClient(transport=transport, base_url="http://service.test") as client:
            return (await client.get("/known")).status_code

    return asyncio.run(ask())


def stateful(app):
    async def with_state(scope, receive, send):
        await app({**scope, "state": {}}, receive, send)

    return with_state


@pytest.mark.parametrize(
    ("choice", "level", "told"),
    [
        ("failed", "info", {401, 403, 429, *range(500, 600)}),
        ("failed", "error", set(range(500, 600))),
        ("all", "info", set(range(200, 600))),
        ("all", "warning", {401, 403, 429, *range(500, 600)}),
        ("none", "debug", set()),
    ],
)
def test_which_requests_are_told(log, choice, level, told):
    settings = Settings(log_requests=choice, log_level=level)
    statuses = [200, 204, 304, *sorted({kind.status for kind in PROBLEM_TYPES})]
    with log.by(settings):
        for status in statuses:
            asked(settings, answering(status))
    assert [line["status"] for line in log.lines()] == [status for status in statuses if status in told]


def test_what_ends_in_an_exception_is_told_though_the_server_answers(log):
    async def failing(_scope, _receive, _send):
        raise RuntimeError(SECRET)

    settings = Settings()
    with log.by(settings):
        assert asked(settings, failing) == 500
    (line,) = log.lines()
    assert (line["level"], line["status"], line["route"]) == ("error", 500, "/known")
    assert SECRET not in log.text
    assert CURRENT.get() is None


def test_what_the_server_says_in_place_of_a_late_application_is_told(log):
    async def late(scope, receive, send):
        problem_answer(scope, Declined(REQUEST_TIMEOUT, "the server's words, which go out"))
        await problem_answer(scope, Declined(BAD_REQUEST, "the application's, which nobody hears"))(
            scope, receive, send
        )

    settings = Settings(log_requests="all")
    with log.by(settings):
        asked(settings, late)
    (line,) = log.lines()
    assert (line["problem"], line["status"]) == ("request-timeout", 408)


def test_an_answer_that_was_cut_short_is_told_as_such(log):
    async def stopping(_scope, _receive, send):
        await send({"type": "http.response.start", "status": 200, "headers": []})
        await send({"type": "http.response.body", "body": b"half", "more_body": True})

    settings = Settings(log_requests="all")
    with log.by(settings), pytest.raises(AssertionError):
        asked(settings, stopping)
    (line,) = log.lines()
    assert line["cut_short"] is True
    assert line["answer_bytes"] == 4


def wrote(writer, *lines):
    for line in lines:
        writer.put(line)
    writer.close()


def test_lines_that_find_no_room_are_counted_and_harm_no_request(counted, send_to, monkeypatch):
    with open("/dev/full", "w") as full, monkeypatch.context() as patched:
        patched.setattr(sys, "stderr", full)
        with logging_lines(EVERY):
            send = send_to(create_app(EVERY))
            assert [send("GET", "/live").status_code for _ in range(5)] == [200] * 5
    assert counted("footvalve_log_lines_lost") == {(): 5}


@pytest.mark.parametrize("descriptor", ["closed", "without a reader"])
def test_lines_that_nobody_reads_are_counted(counted, descriptor):
    reading, writing = os.pipe()
    os.close(reading)
    wrote(LogWriter(-1 if descriptor == "closed" else writing), b"one\n", b"two\n")
    os.close(writing)
    assert counted("footvalve_log_lines_lost") == {(): 2}


def test_a_reader_who_stops_reading_holds_nobody_up(counted, monkeypatch):
    monkeypatch.setattr(log_writer, "MOST_WAITING", 100)
    monkeypatch.setattr(log_writer, "_SECONDS_TO_END", 0.1)
    reading, writing = os.pipe()
    writer = LogWriter(writing)
    line = b"x" * 1000 + b"\n"
    for _ in range(1000):
        writer.put(line)
    lost = counted("footvalve_log_lines_lost")[()]
    assert lost > 700
    writer.close()
    received = b""
    while len(received) < (1000 - lost) * len(line):
        received += os.read(reading, 65_536)
    writer._thread.join(20)
    os.close(reading)
    os.close(writing)
    assert received == line * int(1000 - lost)


def test_a_line_that_was_broken_off_does_not_spoil_the_next(counted, monkeypatch):
    taken, room = bytearray(), iter([3, 0, 1000])

    def write(_, octets):
        free = next(room)
        if not free:
            raise OSError(ENOSPC, "No space left on device")
        taken.extend(octets[:free])
        return min(free, len(octets))

    monkeypatch.setattr(log_writer, "os", SimpleNamespace(write=write))
    writer = LogWriter(-1)
    writer.put(b"broken off\n")
    while not counted("footvalve_log_lines_lost")[()]:
        time.sleep(0.001)
    wrote(writer, b"next\n")
    assert bytes(taken) == b"bro\nnext\n"
    assert counted("footvalve_log_lines_lost") == {(): 1}
