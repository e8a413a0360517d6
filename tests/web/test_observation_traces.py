"""The trace that a request belongs to (W3C Trace Context), and the spans that OpenTelemetry makes of it."""

import subprocess
import sys
import threading
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import pytest
from opentelemetry.proto.collector.trace.v1.trace_service_pb2 import ExportTraceServiceRequest
from opentelemetry.sdk.trace import TracerProvider
from opentelemetry.sdk.trace.export import SimpleSpanProcessor
from opentelemetry.sdk.trace.export.in_memory_span_exporter import InMemorySpanExporter
from opentelemetry.trace import SpanKind, StatusCode

from footvalve.answers.endpoints import Endpoint
from footvalve.contract.examples import examples
from footvalve.contract.friction import FrictionAnswer, FrictionRequest
from footvalve.web import tracing
from footvalve.web.application import create_app
from footvalve.web.setting import BadSetting
from footvalve.web.settings import Settings
from footvalve.web.trace_context import Trace, traced

TRACE_ID = "4bf92f3577b34da6a3ce929d0e0e4736"
SPAN_ID = "00f067aa0ba902b7"
TRACEPARENT = f"00-{TRACE_ID}-{SPAN_ID}-01"


@pytest.mark.parametrize(
    "value",
    [
        TRACEPARENT,
        f"00-{TRACE_ID}-{SPAN_ID}-00",
        f"00-{TRACE_ID}-{SPAN_ID}-ff",
        f" {TRACEPARENT}\t",
        f"cc-{TRACE_ID}-{SPAN_ID}-01",
        f"cc-{TRACE_ID}-{SPAN_ID}-01-what-the-future-will-be-like",
        f"fe-{TRACE_ID}-{SPAN_ID}-01-",
    ],
)
def test_a_traceparent_by_the_standard_is_taken(value):
    assert traced([value.encode()]) == Trace(TRACE_ID, SPAN_ID)


@pytest.mark.parametrize(
    "value",
    [
        "",
        "00",
        f"ff-{TRACE_ID}-{SPAN_ID}-01",
        f"00-{'0' * 32}-{SPAN_ID}-01",
        f"00-{TRACE_ID}-{'0' * 16}-01",
        f"00-{TRACE_ID}-{SPAN_ID}-01-more",
        f"00-{TRACE_ID}-{SPAN_ID}-01-",
        f"cc-{TRACE_ID}-{SPAN_ID}-01.more",
        f"00-{TRACE_ID.upper()}-{SPAN_ID}-01",
        f"00-{TRACE_ID[:-1]}-{SPAN_ID}-01",
        f"00-{TRACE_ID}0-{SPAN_ID}-01",
        f"00-{TRACE_ID}-{SPAN_ID[:-1]}g-01",
        f"00-{TRACE_ID}-{SPAN_ID}-1",
        f"00-{TRACE_ID}-{SPAN_ID}",
        f"00_{TRACE_ID}_{SPAN_ID}_01",
        f"0-{TRACE_ID}-{SPAN_ID}-01",
        f"{TRACEPARENT}\n",
        f"{TRACEPARENT},{TRACEPARENT}",
    ],
)
def test_any_other_is_treated_as_if_none_had_come(value):
    assert traced([value.encode()]) is None


def test_two_are_treated_as_none():
    assert traced([TRACEPARENT.encode()] * 2) is None


@pytest.fixture
def spans(monkeypatch):
    """The spans that are made meanwhile."""
    exporter = InMemorySpanExporter()
    provider = TracerProvider()
    provider.add_span_processor(SimpleSpanProcessor(exporter))
    monkeypatch.setattr(tracing._TRACING, "tracer", provider.get_tracer("test"))
    yield exporter.get_finished_spans
    provider.shutdown()


def test_a_request_is_a_span_of_its_callers_trace(spans, send_to):
    send_to(create_app(Settings()))(
        "POST",
        "/v1/friction",
        json=examples("friction")[0].request,
        headers={"traceparent": TRACEPARENT, "tracestate": "shop=a1"},
    )
    (span,) = spans()
    assert span.name == "POST /v1/friction"
    assert span.kind is SpanKind.SERVER
    assert dict(span.attributes) == {
        "http.request.method": "POST",
        "http.route": "/v1/friction",
        "url.path": "/v1/friction",
        "url.scheme": "http",
        "http.response.status_code": 200,
    }
    assert f"{span.context.trace_id:032x}" == TRACE_ID
    assert f"{span.parent.span_id:016x}" == SPAN_ID
    assert span.context.trace_state.to_header() == "shop=a1"
    assert span.status.status_code is StatusCode.UNSET


@pytest.mark.parametrize("traceparent", [None, "malformed", f"00-{'0' * 32}-{SPAN_ID}-01"])
def test_without_a_sound_traceparent_a_new_trace_begins(spans, send_to, traceparent):
    headers = {"traceparent": traceparent, "tracestate": "shop=a1"} if traceparent else {}
    send_to(create_app(Settings()))("GET", "/live", headers=headers)
    (span,) = spans()
    assert span.parent is None
    assert f"{span.context.trace_id:032x}" != TRACE_ID
    assert not span.context.trace_state


def test_a_span_that_its_caller_does_not_sample_is_not_kept(spans, send_to):
    send_to(create_app(Settings()))("GET", "/live", headers={"traceparent": f"{TRACEPARENT[:-1]}0"})
    assert spans() == ()


def test_a_span_holds_nothing_that_its_caller_made_up(spans, send_to):
    send = send_to(create_app(Settings()))
    send("GET", "/live?key=MARKER", headers={"user-agent": "MARKER"})
    send("MARKER", "/MARKER")
    assert [span.name for span in spans()] == ["GET /live", "HTTP"]
    assert spans()[1].attributes["http.request.method"] == "_OTHER"
    assert "MARKER" not in "".join(span.to_json() for span in spans())


def test_a_failure_of_the_service_is_an_error_of_the_span_without_its_words(spans, send_to):
    def fail(_):
        raise RuntimeError("MARKER")

    app = create_app(Settings(), [Endpoint("friction", "T", "D", FrictionRequest, FrictionAnswer, fail)])
    send_to(app)("POST", "/v1/friction", json=examples("friction")[0].request)
    (span,) = spans()
    assert span.status.status_code is StatusCode.ERROR
    assert span.attributes["error.type"] == "500"
    assert "MARKER" not in span.to_json()


def test_the_log_names_the_span_of_the_service(spans, send_to, caplog):
    caplog.set_level("INFO", "footvalve")
    app = create_app(Settings(log_requests="all"))
    seen = []
    entrance = app.entrance

    async def noting(scope, receive, send):
        await entrance(scope, receive, send)
        seen.append(scope["state"]["trace"])

    app.entrance = noting
    send_to(app)("GET", "/live", headers={"traceparent": TRACEPARENT})
    (span,) = spans()
    assert seen == [Trace(TRACE_ID, f"{span.context.span_id:016x}")]


@contextmanager
def collector():
    """A collector on a free port, and what it has received."""
    received = []

    class Collecting(BaseHTTPRequestHandler):
        def do_POST(self):
            body = self.rfile.read(int(self.headers["content-length"]))
            received.append((self.path, ExportTraceServiceRequest.FromString(body)))
            self.send_response(200)
            self.end_headers()

        def log_message(self, *_):
            pass

    with ThreadingHTTPServer(("127.0.0.1", 0), Collecting) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{server.server_port}", received
        server.shutdown()
        thread.join()


def test_spans_go_to_the_collector_that_the_environment_names(send_to, monkeypatch):
    with collector() as (url, received):
        monkeypatch.setenv("OTEL_EXPORTER_OTLP_ENDPOINT", url)
        monkeypatch.setenv("OTEL_RESOURCE_ATTRIBUTES", "deployment.environment.name=test")
        monkeypatch.setenv("NO_PROXY", "127.0.0.1")
        settings = Settings(tracing="on")
        with tracing.tracing(settings):
            send = send_to(create_app(settings))
            for _ in range(3):
                send("GET", "/live")
    assert {path for path, _ in received} == {"/v1/traces"}
    resources = [spans for _, export in received for spans in export.resource_spans]
    told = {pair.key: pair.value.string_value for pair in resources[0].resource.attributes}
    assert told["service.name"] == "footvalve"
    assert told["deployment.environment.name"] == "test"
    names = [span.name for resource in resources for scope in resource.scope_spans for span in scope.spans]
    assert names == ["GET /live"] * 3


def test_a_collector_that_is_away_harms_no_request(send_to, monkeypatch):
    monkeypatch.setenv("OTEL_EXPORTER_OTLP_ENDPOINT", "http://127.0.0.1:1")
    monkeypatch.setenv("OTEL_EXPORTER_OTLP_TIMEOUT", "1")
    settings = Settings(tracing="on")
    with tracing.tracing(settings):
        assert send_to(create_app(settings))("GET", "/live").status_code == 200


def test_without_the_extra_the_start_stops_with_a_sentence(monkeypatch):
    monkeypatch.setitem(sys.modules, "opentelemetry", None)
    for name in [name for name in sys.modules if name.startswith("opentelemetry.")]:
        monkeypatch.delitem(sys.modules, name)
    with (
        pytest.raises(BadSetting, match=r"^FOOTVALVE_TRACING is on, .* footvalve\[tracing\]"),
        tracing.tracing(Settings(tracing="on")),
    ):
        pass


def test_who_asks_for_nothing_imports_nothing():
    program = """
import sys
from footvalve.serving.processes import around_service
from footvalve.web.application import create_app
from footvalve.web.settings import Settings
with around_service(Settings(), 1):
    create_app(Settings())
print(sys.modules.keys() & {"opentelemetry.sdk", "opentelemetry.exporter", "opentelemetry.trace", "prometheus_client"})
"""
    ended = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert ended.stdout == "set()\n"
