"""A record of the log as one line of JSON.

A line never holds what a caller sent: of an exception it tells the type and where it came about, but not its message,
and of other libraries' records the text without what was put into it. What exports spans knows nothing of a caller's:
its text is filled in, of an exception again with the type.
"""

import logging
import re
from collections import deque
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from select import PIPE_BUF
from traceback import walk_tb
from typing import Any, Final

import msgspec

from footvalve.contract.fault_wording import cleaned
from footvalve.web.log_context import CURRENT
from footvalve.web.request_id import request_id
from footvalve.web.trace_context import trace_of

TOLD: Final = "told"
"""The attribute of a record that holds what else it tells, by name."""

MOST_BYTES: Final = PIPE_BUF
"""A line that is no longer goes into a pipe whole, however many processes write into it."""

_OWN: Final = ("footvalve", "uvicorn", "py.warnings")
_FILLED_IN: Final = "opentelemetry.exporter"
_PLACES: Final = (20, 3, 0)
"""How many places of an exception are told: the fewer, the longer the line would get."""

_MOST_CAUSES: Final = 3
_MOST_CHARACTERS: Final = 400

_beyond_the_words = re.compile(r"[\n(<{\[]").split
_encode = msgspec.json.Encoder().encode


def line_of(record: logging.LogRecord) -> bytes:
    """The line of a record, of at most MOST_BYTES with the line feed at its end."""
    told = _told(record)
    error = record.exc_info[1] if record.exc_info else None
    line = b""
    for places in _PLACES if record.levelno >= logging.WARNING else _PLACES[1:]:
        exceptions = [_exception(cause, places) for cause in _causes(error)]
        line = _encode({**told, "exceptions": exceptions} if error else told) + b"\n"
        if len(line) <= MOST_BYTES:
            break
    return line


def _told(record: logging.LogRecord) -> dict[str, Any]:
    time = datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds")
    return {
        "time": f"{time.removesuffix('+00:00')}Z",
        "level": record.levelname.lower(),
        "logger": record.name,
        "message": _message(record),
        **_request(),
        **getattr(record, TOLD, {}),
    }


def _message(record: logging.LogRecord) -> str:
    told = _text(record)
    return told if told.isprintable() and len(told) <= _MOST_CHARACTERS else cleaned(told, _MOST_CHARACTERS)


def _text(record: logging.LogRecord) -> str:
    if record.name.startswith(_OWN):
        return record.getMessage().partition("\n")[0]
    if record.name.startswith(_FILLED_IN):
        return _filled_in(str(record.msg), record.args).partition("\n")[0]
    return _beyond_the_words(str(record.msg), 1)[0]


def _filled_in(text: str, arguments: tuple[object, ...] | Mapping[str, object] | None) -> str:
    if not arguments:
        return text
    if isinstance(arguments, Mapping):
        return text % {name: _by_type(argument) for name, argument in arguments.items()}
    return text % tuple(map(_by_type, arguments))


def _by_type(argument: object) -> object:
    return type(argument).__qualname__ if isinstance(argument, BaseException) else argument


def _request() -> dict[str, str]:
    scope = CURRENT.get()
    if scope is None:
        return {}
    trace = trace_of(scope)
    return {"request_id": request_id(scope), **(trace._asdict() if trace else {})}


def _causes(error: BaseException | None) -> Iterator[BaseException]:
    for _ in range(_MOST_CAUSES):
        if error is None:
            return
        yield error
        error = error.__cause__ or (None if error.__suppress_context__ else error.__context__)


def _exception(error: BaseException, most: int) -> dict[str, Any]:
    """The type of an exception, and the last places that it passed: at the end the one where it came about."""
    at: deque[str] = deque(maxlen=most)
    for frame, line in walk_tb(error.__traceback__):
        at.append(cleaned(f"{frame.f_globals.get('__name__')}:{line} {frame.f_code.co_name}"))
    return {"type": cleaned(type(error).__qualname__), "at": list(at)}
