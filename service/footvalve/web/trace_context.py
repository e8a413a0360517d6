"""The trace that a request belongs to, as its caller tells it (W3C Trace Context, level 1)."""

import re
from typing import Final, NamedTuple

from litestar.types import Scope

_TRACEPARENT: Final = re.compile(rb"([0-9a-f]{2})-([0-9a-f]{32})-([0-9a-f]{16})-([0-9a-f]{2})(-.*)?", re.DOTALL)
_PLACE: Final = "trace"


class Trace(NamedTuple):
    """A place in a trace, in hexadecimal digits: the trace, and the span within it."""

    trace_id: str
    span_id: str


def trace_of(scope: Scope) -> Trace | None:
    """Where in a trace the request stands: at its own span, where it has one, else at its caller's.

    None where no traceparent came, more than one, or one that breaks the standard: as the standard asks, such a one is
    treated as if none had come.
    """
    state = scope["state"]
    if _PLACE not in state:
        state[_PLACE] = traced([value for name, value in scope["headers"] if name == b"traceparent"])
    found: Trace | None = state[_PLACE]
    return found


def keep_trace(scope: Scope, trace: Trace) -> None:
    """The request has a span of its own."""
    scope["state"][_PLACE] = trace


def traced(values: list[bytes]) -> Trace | None:
    """What the header fields named traceparent tell.

    >>> traced([b"00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01"])
    Trace(trace_id='4bf92f3577b34da6a3ce929d0e0e4736', span_id='00f067aa0ba902b7')
    >>> traced([b"00-00000000000000000000000000000000-00f067aa0ba902b7-01"])
    """
    found = _TRACEPARENT.fullmatch(values[0].strip(b" \t")) if len(values) == 1 else None
    if found is None:
        return None
    version, trace_id, span_id, _, more = found.groups()
    wrong_version = version == b"ff" or (version == b"00" and more is not None)
    if wrong_version or not trace_id.strip(b"0") or not span_id.strip(b"0"):
        return None
    return Trace(trace_id.decode(), span_id.decode())
