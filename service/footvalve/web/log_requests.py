"""What is logged of requests: each on a line of its own, or those that failed.

A line tells neither the client's address nor a path that the service does not have: people put secrets into paths.
"""

import logging
from typing import Any, Final, NamedTuple

from litestar.types import Scope

from footvalve.web.log_context import noted_problem
from footvalve.web.log_line import TOLD
from footvalve.web.visit import visit_of
from footvalve.web.whole_number import whole_number

_REFUSED: Final = frozenset((401, 403, 429))
"""What is refused because of who asks. What another 4xx means concerns the caller alone."""

_LENGTHS: Final = range(10**18)

_log = logging.getLogger("footvalve.requests")


class Ended(NamedTuple):
    """A request that has ended, and how; without a status where no answer had begun."""

    route: str
    method: str
    status: int | None
    seconds: float
    answer_bytes: int
    is_whole: bool
    has_failed: bool


class RequestLog:
    """The lines of requests: of `all`, of those that `failed` (5xx, 401, 403, 429, or an exception), or of `none`."""

    def __init__(self, choice: str) -> None:
        self._all = choice == "all"
        self._failed = choice == "failed"

    def wants(self, status: int | None, has_failed: bool) -> bool:
        """Whether a request has a line."""
        return self._all or (
            self._failed and (has_failed or (status is not None and (status >= 500 or status in _REFUSED)))
        )

    def tell(self, scope: Scope, ended: Ended) -> None:
        """Log a request."""
        level = _level(ended)
        if _log.isEnabledFor(level):
            told = f"{ended.method} {ended.route} ended with {ended.status or 'no answer'}"
            record = logging.LogRecord(_log.name, level, __file__, 0, told, None, None)  # where it was made is known
            setattr(record, TOLD, _facts(scope, ended))
            _log.handle(record)


def _level(ended: Ended) -> int:
    if ended.has_failed or (ended.status or 0) >= 500:
        return logging.ERROR
    return logging.WARNING if ended.status in _REFUSED else logging.INFO


def _facts(scope: Scope, ended: Ended) -> dict[str, Any]:
    visit, problem = visit_of(scope), noted_problem(scope)
    facts = {
        "method": ended.method,
        "route": ended.route,
        "status": ended.status,
        "problem": problem.slug if problem else None,
        "duration_ms": round(ended.seconds * 1000, 3),
        "request_bytes": _announced_length(scope),
        "answer_bytes": ended.answer_bytes,
        "key": visit.key_name if visit else None,
    }
    if not ended.is_whole:
        facts["cut_short"] = True
    return {name: fact for name, fact in facts.items() if fact is not None}


def _announced_length(scope: Scope) -> int | None:
    """The body's length as its header tells it; a body that comes in chunks has none, and a GET mostly no body."""
    lengths = [value for name, value in scope["headers"] if name == b"content-length"]
    return whole_number(lengths[0].decode("latin-1"), _LENGTHS) if lengths else None
