"""The outermost layer: each request is counted, logged where that is asked for, and known to whoever logs meanwhile."""

from collections.abc import Awaitable, Iterable
from time import perf_counter
from typing import Final

from litestar.types import ASGIApp, Message, Receive, Scope, Send

from footvalve.web.log_context import CURRENT, NotedProblem, noted_problem
from footvalve.web.log_requests import Ended, RequestLog
from footvalve.web.metrics import COUNTED
from footvalve.web.metrics_requests import RequestCounts
from footvalve.web.settings import Settings

UNKNOWN: Final = "unknown"
"""The label of every path that the service does not have."""

OTHER: Final = "other"
"""The label of every method that no path takes."""

_METHODS: Final = {method: method for method in ("GET", "HEAD", "POST", "OPTIONS")}


class Observation:
    """What is told of requests to a service of these paths, by its settings and where counting has begun."""

    def __init__(self, settings: Settings, paths: Iterable[str]) -> None:
        self._routes = {path: path for path in paths}
        self._log = RequestLog(settings.log_requests)
        self._counts = RequestCounts(COUNTED.board) if COUNTED.board else None

    def layer(self, app: ASGIApp) -> ASGIApp:
        """The application with this around it."""
        counts = self._counts

        async def observed(scope: Scope, receive: Receive, send: Send) -> None:
            token = CURRENT.set(scope)
            answer = _Answer(send)
            begun = perf_counter()
            if counts:
                counts.begin()
            try:
                await app(scope, receive, answer.send)
            except Exception:
                answer.has_failed = True
                raise
            finally:
                self._end(scope, answer, perf_counter() - begun)
                CURRENT.reset(token)

        return observed

    def _end(self, scope: Scope, answer: "_Answer", seconds: float) -> None:
        route = self._routes.get(scope["path"], UNKNOWN)
        method = _METHODS.get(str(scope.get("method")), OTHER)
        problem = noted_problem(scope)
        status = answer.status_told(problem)
        if self._counts:
            self._counts.end(route, method, status, seconds)
            if problem:
                self._counts.problem(problem.slug)
        if self._log.wants(status, answer.has_failed):
            ended = Ended(route, method, status, seconds, answer.bytes, answer.is_whole, answer.has_failed)
            self._log.tell(scope, ended)


class _Answer:
    """What has gone out of an answer."""

    __slots__ = ("_send", "bytes", "has_failed", "is_whole", "status")

    def __init__(self, send: Send) -> None:
        self._send = send
        self.status: int | None = None
        self.bytes = 0
        self.is_whole = False
        self.has_failed = False

    def status_told(self, problem: NotedProblem | None) -> int | None:
        """What the caller has heard; None where it went before there was an answer.

        The server itself answers in place of an application that is late, by a problem, or has failed, by 500.
        """
        if problem:
            return problem.status
        return 500 if self.has_failed and self.status is None else self.status

    def send(self, message: Message) -> Awaitable[None]:
        """Send a message, and note what it says."""
        if message["type"] == "http.response.start":
            self.status = message["status"]
        elif message["type"] == "http.response.body":
            self.bytes += len(message.get("body", b""))
            self.is_whole = not message.get("more_body", False)
        return self._send(message)
