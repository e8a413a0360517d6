"""A span for each request, by the semantic conventions for HTTP servers. It holds no body, no query and no header."""

from collections.abc import Awaitable, Iterable
from typing import Final

from litestar.types import ASGIApp, Message, Receive, Scope, Send
from opentelemetry.context import Context
from opentelemetry.semconv.attributes.error_attributes import ERROR_TYPE
from opentelemetry.semconv.attributes.http_attributes import HTTP_REQUEST_METHOD, HTTP_RESPONSE_STATUS_CODE, HTTP_ROUTE
from opentelemetry.semconv.attributes.url_attributes import URL_PATH, URL_SCHEME
from opentelemetry.trace import Span, SpanKind, StatusCode, Tracer, format_span_id, format_trace_id
from opentelemetry.trace.propagation.tracecontext import TraceContextTextMapPropagator

from footvalve.web.trace_context import Trace, keep_trace, trace_of

_KNOWN_METHODS: Final = frozenset(("GET", "HEAD", "POST", "OPTIONS", "PUT", "PATCH", "DELETE", "TRACE", "CONNECT"))
_propagator = TraceContextTextMapPropagator()


class Spans:
    """The spans of requests to a service of these paths; another path is not told."""

    def __init__(self, tracer: Tracer, paths: Iterable[str]) -> None:
        self._tracer = tracer
        self._paths = frozenset(paths)

    def layer(self, app: ASGIApp) -> ASGIApp:
        """The application with this around it."""

        async def traced(scope: Scope, receive: Receive, send: Send) -> None:
            span = self._begun(scope)
            try:
                await app(scope, receive, _noting(span, send))
            except Exception as error:
                _fail(span, type(error).__qualname__)
                raise
            finally:
                span.end()

        return traced

    def _begun(self, scope: Scope) -> Span:
        asked = str(scope.get("method"))
        method = asked if asked in _KNOWN_METHODS else "_OTHER"
        name = "HTTP" if method == "_OTHER" else method
        attributes = {HTTP_REQUEST_METHOD: method, URL_SCHEME: str(scope.get("scheme", "http"))}
        path = scope["path"]
        if path in self._paths:
            name = f"{name} {path}"
            attributes |= {HTTP_ROUTE: path, URL_PATH: path}
        span = self._tracer.start_span(name, _parent(scope), SpanKind.SERVER, attributes)
        place = span.get_span_context()
        if place.is_valid:
            keep_trace(scope, Trace(format_trace_id(place.trace_id), format_span_id(place.span_id)))
        return span


def _parent(scope: Scope) -> Context:
    """The caller's span; none where its traceparent does not count."""
    if trace_of(scope) is None:
        return Context()
    told: dict[str, list[str]] = {}
    for name, value in scope["headers"]:
        if name in {b"traceparent", b"tracestate"}:
            told.setdefault(name.decode(), []).append(value.decode("latin-1"))
    return _propagator.extract(told, Context())


def _noting(span: Span, send: Send) -> Send:
    """The way out on which the span learns the answer's status."""

    def sent(message: Message) -> Awaitable[None]:
        if message["type"] == "http.response.start":
            status = message["status"]
            span.set_attribute(HTTP_RESPONSE_STATUS_CODE, status)
            if status >= 500:
                _fail(span, str(status))
        return send(message)

    return sent


def _fail(span: Span, kind: str) -> None:
    span.set_attribute(ERROR_TYPE, kind)
    span.set_status(StatusCode.ERROR)
