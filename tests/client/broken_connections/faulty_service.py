"""A service that misbehaves as it is told: request by request, on a socket of its own, below any HTTP library."""

import socket
import struct
import threading
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from http import HTTPStatus
from typing import Self

import msgspec

LIVE = b'{"status":"live"}'
JSON = "application/json"
PROBLEM_JSON = "application/problem+json"

BEFORE_GIVING_UP_S = 20


@dataclass(frozen=True)
class Heard:
    """A request as it came in."""

    connection: int
    """Which connection it came by, counted from 1."""
    head: str
    """Its first line and its headers."""
    body: bytes

    @property
    def request_id(self) -> str:
        """The id that it names itself by."""
        return self.head.lower().partition("x-request-id: ")[2].partition("\r\n")[0]


class Line:
    """One connection, as a behaviour uses it."""

    def __init__(self, connection: socket.socket, closing: threading.Event) -> None:
        self._connection = connection
        self._closing = closing

    def send(self, content: bytes) -> None:
        """Send all of it at once."""
        self._connection.sendall(content)

    def drip(self, content: bytes, every: float) -> None:
        """Send it a byte at a time."""
        for byte in content:
            self.send(bytes([byte]))
            self.hold(every)

    def hold(self, seconds: float | None = None) -> None:
        """Do nothing for so long, or until the service is closed. Raises ConnectionAbortedError when it is."""
        if self._closing.wait(seconds):
            raise ConnectionAbortedError

    def reset(self) -> None:
        """Break the connection off so that the other side hears of it as an error."""
        self._connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
        raise ConnectionAbortedError

    def hang_up(self) -> None:
        """Close the connection as if all were said."""
        raise ConnectionAbortedError


Behaviour = Callable[[Line], None]
"""What is done about one request. Coming back from it keeps the connection open for the next."""


class FaultyService:
    """Meets each request with the next behaviour of its script, and with the last of them from then on."""

    def __init__(self, *script: Behaviour, listening: bool = True) -> None:
        self.heard: list[Heard] = []
        self._script = script
        self._closing = threading.Event()
        self._threads: list[threading.Thread] = []
        self._lines: list[socket.socket] = []
        self._listener = socket.socket()
        self._listener.bind(("127.0.0.1", 0))
        self.url = "http://{}:{}".format(*self._listener.getsockname())
        if listening:
            self.listen()

    def listen(self) -> None:
        """Take connections from now on; until then they are refused."""
        self._listener.listen()
        self._start(self._accept)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._closing.set()
        for end in (self._listener, *self._lines):
            _shut(end)
        for thread in self._threads:
            thread.join(BEFORE_GIVING_UP_S)
            assert not thread.is_alive(), "a connection of the faulty service does not end"

    def _start(self, work: Callable[..., None], *arguments: object) -> None:
        self._threads.append(threading.Thread(target=work, args=arguments, daemon=True))
        self._threads[-1].start()

    def _accept(self) -> None:
        while not self._closing.is_set():
            try:
                connection, _ = self._listener.accept()
            except OSError:
                return
            self._lines.append(connection)
            self._start(self._serve, connection, len(self._lines))

    def _serve(self, connection: socket.socket, number: int) -> None:
        with connection, suppress(OSError):
            while heard := _request(connection, number):
                self.heard.append(heard)
                self._script[min(len(self.heard), len(self._script)) - 1](Line(connection, self._closing))


def _request(connection: socket.socket, number: int) -> Heard | None:
    """The next request; None where the other side has closed."""
    received = b""
    while b"\r\n\r\n" not in received:
        if not (more := connection.recv(65_536)):
            return None
        received += more
    head, _, body = received.partition(b"\r\n\r\n")
    length = int(head.lower().partition(b"content-length: ")[2].partition(b"\r\n")[0] or 0)
    while len(body) < length:
        body += connection.recv(65_536)
    return Heard(number, head.decode(), body)


def _shut(end: socket.socket) -> None:
    with suppress(OSError):
        end.shutdown(socket.SHUT_RDWR)
    end.close()


def message(status: int = 200, body: bytes = LIVE, media_type: str = JSON, **headers: str) -> bytes:
    """An answer of HTTP, byte for byte."""
    lines = {
        "content-type": media_type,
        "content-length": str(len(body)),
        **{name.replace("_", "-"): value for name, value in headers.items()},
    }
    head = "".join(f"{name}: {value}\r\n" for name, value in lines.items())
    return f"HTTP/1.1 {status} {HTTPStatus(status).phrase}\r\n{head}\r\n".encode() + body


def answers(status: int = 200, body: bytes = LIVE, media_type: str = JSON, **headers: str) -> Behaviour:
    """Answers like a sound service, with whatever it is told."""
    return lambda line: line.send(message(status, body, media_type, **headers))


def problem(status: int, **headers: str) -> Behaviour:
    """Answers with problem details."""
    phrase = HTTPStatus(status).phrase
    told = {
        "type": "/problems/some",
        "title": phrase,
        "status": status,
        "detail": "It went wrong.",
        "instance": "urn:uuid:1",
        "request_id": "r",
    }
    return answers(status, msgspec.json.encode(told), PROBLEM_JSON, **headers)


def stalls(line: Line) -> None:
    """Says nothing, and keeps the line."""
    line.hold()


def hangs_up(line: Line) -> None:
    """Closes the connection without a byte."""
    line.hang_up()


def resets(line: Line) -> None:
    """Breaks the connection off."""
    line.reset()


def garbage(line: Line) -> None:
    """Sends what is no HTTP."""
    line.send(b"\x16\x03\x01 garbage\r\n\r\n")
    line.hang_up()


def wrong_type(line: Line) -> None:
    """Sends another server's page."""
    line.send(message(body=b"<html>A login page</html>", media_type="text/html"))


def half(part: str, then: Behaviour) -> Behaviour:
    """Sends the half of the head or of the body, and then does something else."""

    def behave(line: Line) -> None:
        whole = message()
        line.send(whole[: whole.index(b"content-length") if part == "head" else -len(LIVE) // 2])
        then(line)

    return behave


def drips(part: str, every: float) -> Behaviour:
    """Sends the head, or only the body, a byte at a time."""

    def behave(line: Line) -> None:
        whole = message()
        at_once = 0 if part == "head" else len(whole) - len(LIVE)
        line.send(whole[:at_once])
        line.drip(whole[at_once:], every)

    return behave
