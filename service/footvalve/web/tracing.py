"""Spans by OpenTelemetry, where they are asked for; else nothing of it is imported.

Where they go, how many are kept and how the service is called there is said by OpenTelemetry's own variables, such as
OTEL_EXPORTER_OTLP_ENDPOINT, OTEL_TRACES_SAMPLER and OTEL_SERVICE_NAME. They are sent by OTLP over HTTP.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from typing import TYPE_CHECKING, Final

from litestar.types import ASGIApp

from footvalve.web.layer import Layer
from footvalve.web.setting import BadSetting
from footvalve.web.settings import Settings

if TYPE_CHECKING:
    from opentelemetry.trace import Tracer

_NEEDED: Final = ("opentelemetry", "opentelemetry.sdk", "opentelemetry.exporter.otlp.proto.http")


class _Tracing:
    """Who makes the spans of this process; None for nobody."""

    tracer: "Tracer | None" = None


_TRACING: Final = _Tracing()


def check_tracing(settings: Settings) -> None:
    """Raises BadSetting where spans are asked for and nothing is there that makes them."""
    if settings.tracing == "on" and not _is_installed():
        raise BadSetting(
            "FOOTVALVE_TRACING is on, but OpenTelemetry is not installed: install footvalve[tracing], or set it to off."
        )


@contextmanager
def tracing(settings: Settings) -> Iterator[None]:
    """Let this process make spans while the context lasts, if they are asked for. Raises BadSetting."""
    check_tracing(settings)
    if settings.tracing == "off":
        yield
        return
    from footvalve.web.tracing_export import exporting  # noqa: PLC0415

    with exporting() as tracer:
        _TRACING.tracer = tracer
        try:
            yield
        finally:
            _TRACING.tracer = None


def tracing_layer(paths: Iterable[str]) -> Layer:
    """The layer that makes a span of each request to a service of these paths; none where nobody makes spans."""
    if _TRACING.tracer is None:
        return _as_it_is
    from footvalve.web.tracing_spans import Spans  # noqa: PLC0415

    return Spans(_TRACING.tracer, paths).layer


def _as_it_is(app: ASGIApp) -> ASGIApp:
    return app


def _is_installed() -> bool:
    try:
        return all(find_spec(name) for name in _NEEDED)
    except ModuleNotFoundError:
        return False
