"""Where logging begins in a process: one line of JSON a record, on the standard error."""

import logging
import sys
import threading
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from typing import Final

from footvalve.web.log_line import line_of
from footvalve.web.log_writer import LogWriter
from footvalve.web.metrics import COUNTED
from footvalve.web.settings import Settings

_OWN: Final = ("footvalve", "uvicorn")
_CLOSED: Final = -1

_log = logging.getLogger(__name__)


class _LineHandler(logging.Handler):
    def __init__(self, writer: LogWriter) -> None:
        super().__init__()
        self._writer = writer

    def emit(self, record: logging.LogRecord) -> None:
        """Write a record soon. What it holds cannot harm who logs it."""
        try:
            self._writer.put(line_of(record))
        except Exception:
            COUNTED.log_lines_lost()

    def createLock(self) -> None:  # noqa: N802
        """None is needed: the writer takes lines from any thread."""
        self.lock = None


@contextmanager
def logging_lines(settings: Settings) -> Iterator[None]:
    """Log as the settings say while the context lasts. Other libraries are heard from warnings on."""
    writer = LogWriter(sys.stderr.fileno() if sys.stderr else _CLOSED)
    with ExitStack() as until_the_end:
        until_the_end.callback(writer.close)
        root = logging.getLogger()
        _put(until_the_end, root, "handlers", [_LineHandler(writer)])
        _put(until_the_end, threading, "excepthook", _thread_has_failed)
        _put(until_the_end, sys, "unraisablehook", _nobody_to_raise_to)
        level = logging.getLevelNamesMapping()[settings.log_level.upper()]
        for name, lowest in ((None, max(level, logging.WARNING)), *((name, level) for name in _OWN)):
            logger = logging.getLogger(name)
            until_the_end.callback(logger.setLevel, logger.level)
            logger.setLevel(lowest)
        logging.captureWarnings(True)
        until_the_end.callback(logging.captureWarnings, False)
        yield


def _put(until_the_end: ExitStack, owner: object, name: str, value: object) -> None:
    """Let an attribute be another for a while."""
    until_the_end.callback(setattr, owner, name, getattr(owner, name))
    setattr(owner, name, value)


def _thread_has_failed(failure: threading.ExceptHookArgs) -> None:
    _log.error("a thread ended by an exception", exc_info=failure.exc_value)


def _nobody_to_raise_to(failure: "sys.UnraisableHookArgs") -> None:
    _log.error("an exception came about where nobody could be told", exc_info=failure.exc_value)
