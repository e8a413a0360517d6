"""The way of spans out of the process; only for a process that makes them."""

from collections.abc import Iterator
from contextlib import contextmanager

from opentelemetry.exporter.otlp.proto.http.trace_exporter import OTLPSpanExporter
from opentelemetry.sdk.resources import SERVICE_NAME, SERVICE_VERSION, OTELResourceDetector, Resource
from opentelemetry.sdk.trace import TracerProvider
from opentelemetry.sdk.trace.export import BatchSpanProcessor
from opentelemetry.trace import Tracer

from footvalve import __version__


@contextmanager
def exporting() -> Iterator[Tracer]:
    """What makes spans that are sent away in a thread; at the end, those that are left."""
    own = Resource.create({SERVICE_NAME: "footvalve", SERVICE_VERSION: __version__})
    provider = TracerProvider(resource=own.merge(OTELResourceDetector().detect()), shutdown_on_exit=False)
    provider.add_span_processor(BatchSpanProcessor(OTLPSpanExporter()))
    try:
        yield provider.get_tracer("footvalve", __version__)
    finally:
        provider.shutdown()
