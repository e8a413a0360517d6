"""From octets to requests: HTTP/1.1 as uvicorn reads it, with a limit to the head, and nothing that two may read
differently. What breaks a rule is handed on as a problem."""

import asyncio
import re
import urllib.parse
from abc import abstractmethod
from typing import Any, Final, NoReturn

import httptools
from uvicorn.config import Config
from uvicorn.protocols.http.flow_control import HIGH_WATER_LIMIT
from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol, RequestResponseCycle

from footvalve.contract.fault_wording import cleaned
from footvalve.serving.answer_cycle import AnswerCycle, Outlet
from footvalve.serving.callers import NEVER, SWEEP_S, Callers
from footvalve.web import problem_types as kinds
from footvalve.web.problem_types import ProblemType

_WATCHED: Final = frozenset((b"expect", b"host", b"transfer-encoding"))
_HOST: Final = re.compile(rb"[0-9A-Za-z._~%!$&'()*+,;=\[\]:-]*")
_REQUEST_LINE: Final = re.compile(rb"(?:\r\n)*([!#$%&'*+.^_`|~0-9A-Za-z-]{1,64}) [\x21-\x7e]+ HTTP/1\.[01]\r\n")


class _Refused(Exception):
    """The head of a request cannot be taken; raised within the parser."""


class RequestReader(HttpToolsProtocol):
    """A connection as far as it is read: one request after another, each handed to the application in its turn."""

    outlet: Outlet
    """The way out, for the answers."""

    def __init__(
        self, config: Config, server_state: Callers, app_state: dict[str, Any], _loop: asyncio.AbstractEventLoop
    ) -> None:
        super().__init__(config, server_state, app_state, _loop)
        self.callers = server_state
        self.limits = server_state.settings
        self.deadline = self.in_time(self.limits.receive_seconds)
        self.in_head = False
        self.receiving = False
        self.is_over = False
        self.running: AnswerCycle | None = None
        self._refused: tuple[ProblemType, str] | None = None
        self._without_upgrade = b""
        self._head_so_far = 0
        self._read_now = 0
        self._begun_now = 0
        self._hosts = 0

    @abstractmethod
    def refuse(self, kind: ProblemType, detail: str) -> None:
        """Answer the request that is coming in with a problem."""

    def in_time(self, seconds: float) -> float:
        """The deadline that is so far away."""
        return self.callers.now + seconds + SWEEP_S  # the clock may stand a sweep behind: never too early

    def data_received(self, data: bytes) -> None:
        """Read on. What comes after the last words is thrown away."""
        if self.is_over:
            return
        was_between = not self.receiving
        self._read_now = len(data)
        self._begun_now = 0
        try:
            self._feed(data)
        except httptools.HttpParserError:
            self._refuse_unreadable(data if was_between else b"")
            return
        if self.in_head:
            self._count_head(was_between)

    def _feed(self, data: bytes) -> None:
        try:
            self.parser.feed_data(data)
        except httptools.HttpParserUpgrade as upgrade:
            head, self._without_upgrade = self._without_upgrade, b""
            self.parser = httptools.HttpRequestParser(self)
            self._feed(head + data[upgrade.args[0] :])

    def _count_head(self, was_between: bool) -> None:
        if not self._begun_now or (was_between and self._begun_now == 1):
            self._head_so_far += self._read_now
        if self._head_so_far > self.limits.head_limit_bytes:
            self.refuse(kinds.HEAD_TOO_LARGE, self._head_limit())

    def _head_limit(self) -> str:
        return f"The head of a request may hold at most {self.limits.head_limit_bytes} bytes."

    def on_message_begin(self) -> None:
        """A request begins with its first octet, and with it the time that it has."""
        super().on_message_begin()
        self.in_head = self.receiving = True
        self._begun_now += 1
        self._head_so_far = self._hosts = 0
        self.deadline = self.in_time(self.limits.receive_seconds)

    def on_header(self, name: bytes, value: bytes) -> None:
        """Take a header. One that comes after the body is thrown away: nobody has asked for it."""
        if not self.in_head:
            return
        name = name.lower()
        if name in _WATCHED:
            self._watch(name, value)
        self.headers.append((name, value))

    def _watch(self, name: bytes, value: bytes) -> None:
        if name == b"host":
            self._hosts += 1
            if not _HOST.fullmatch(value):
                self._refuse_head(kinds.BAD_REQUEST, "The header Host must hold a host and perhaps a port.")
        elif name == b"expect":
            self.expect_100_continue = value.lower() == b"100-continue"
        elif value.lower() != b"chunked":
            self._refuse_head(kinds.BAD_REQUEST, "The header Transfer-Encoding may be chunked and nothing else.")

    def on_headers_complete(self) -> None:
        """Begin to answer, or put the request in line behind the one before it."""
        version = self.parser.get_http_version()
        self.scope["method"] = self.parser.get_method().decode("ascii")
        self._check_head(version)
        if self.parser.should_upgrade():
            self._put_off_upgrade(version)
            return
        self._set_target()
        self.in_head = False
        if version != "1.1":
            self.scope["http_version"] = version
        before, self.cycle = self.cycle, self._new_cycle(version)
        if self.running is None:
            self._begin(self.cycle)
        else:
            self._queue_behind(before)

    def _put_off_upgrade(self, version: str) -> None:
        """Read the head again without its Upgrade, which is not offered here: the parser would not read the body."""
        lines = [b"%b %b HTTP/%b" % (self.scope["method"].encode(), self.url, version.encode())]
        lines += [b"%b: %b" % header for header in self.headers if header[0] != b"upgrade"]
        self._without_upgrade = b"\r\n".join([*lines, b"", b""])

    def _begin(self, cycle: Any) -> None:
        self.running = cycle
        self._start_asgi_task(cycle, self.app)

    def _check_head(self, version: str) -> None:
        if version not in {"1.1", "1.0"}:
            self._refuse_head(kinds.BAD_REQUEST, "The version must be HTTP/1.1 or HTTP/1.0.")
        if self.scope["method"] == "CONNECT":
            self._refuse_head(kinds.UNKNOWN_METHOD, "CONNECT is no method of this service.")
        if self._hosts != 1 and (version == "1.1" or self._hosts):
            self._refuse_head(kinds.BAD_REQUEST, f"There must be one header Host, but there are {self._hosts}.")
        if self._head_so_far + self._read_now > self.limits.head_limit_bytes:
            length = len(self.url) + sum(len(name) + len(value) + len(": \r\n") for name, value in self.headers)
            if length > self.limits.head_limit_bytes:
                self._refuse_head(kinds.HEAD_TOO_LARGE, self._head_limit())

    def _refuse_head(self, kind: ProblemType, detail: str) -> NoReturn:
        self._refused = self._refused or (kind, detail)
        raise _Refused

    def _set_target(self) -> None:
        try:
            target = httptools.parse_url(self.url)
        except httptools.HttpParserInvalidURLError:
            self._refuse_head(kinds.BAD_REQUEST, "The target of the request is no path.")
        raw_path = target.path or b"/"
        path = raw_path.decode("ascii")
        is_plain = "%" not in path or "%2f" in path.lower()  # an escaped slash parts no path, and so leads nowhere
        self.scope["path"] = path if is_plain else urllib.parse.unquote(path)
        self.scope["raw_path"] = raw_path
        self.scope["query_string"] = target.query or b""

    def _new_cycle(self, version: str) -> AnswerCycle:
        return AnswerCycle(
            scope=self.scope,
            transport=self.outlet,  # type: ignore[arg-type]
            flow=self.flow,
            logger=self.logger,
            access_logger=self.access_logger,
            access_log=False,
            default_headers=self.callers.default_headers,
            message_event=asyncio.Event(),
            expect_100_continue=self.expect_100_continue,
            keep_alive=version == "1.1" and not self.callers.closing and self.parser.should_keep_alive(),
            on_response=self.on_response_complete,
        )

    def _queue_behind(self, before: RequestResponseCycle) -> None:
        if not before.response_started and before.scope["http_version"] == "1.1":
            before.keep_alive = True  # the end of the connection is told with the last answer
        self.flow.pause_reading()
        self.pipeline.appendleft((self.cycle, self.app))

    def on_body(self, body: bytes) -> None:
        """Take a piece of a body; what comes after the answer is thrown away."""
        cycle = self.cycle
        if cycle.response_complete:
            return
        cycle.body += body
        if len(cycle.body) > HIGH_WATER_LIMIT:
            self.flow.pause_reading()
        cycle.message_event.set()

    def on_message_complete(self) -> None:
        """The request has come in whole: from here on the caller waits for us."""
        if self._without_upgrade:
            return
        self.receiving = False
        cycle = self.cycle
        if cycle.response_complete:
            self.deadline = self.in_time(self.limits.keep_alive_seconds)
            return
        self.deadline = NEVER
        cycle.more_body = False
        cycle.message_event.set()

    def _refuse_unreadable(self, first: bytes) -> None:
        kind, detail = self._refused or (kinds.BAD_REQUEST, "What came is no HTTP/1.1 request.")
        line = _REQUEST_LINE.match(first)
        if self._refused is None and self.in_head and not self.url and line and self._begun_now == 1:
            kind, detail = kinds.UNKNOWN_METHOD, f"{cleaned(line[1].decode('ascii'))} is no method of this service."
        self.refuse(kind, detail)

    def stop_reading(self) -> None:
        """Throw away what else comes, while earlier requests are answered."""
        self.receiving = self.in_head = False
        self.deadline = NEVER
        self.parser = _Deaf()  # type: ignore[assignment]


class _Deaf:
    """A parser that has been told enough."""

    def feed_data(self, data: bytes) -> None:
        """Throw it away."""
