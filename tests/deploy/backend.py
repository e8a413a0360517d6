"""Processes behind the proxy that tell what reaches them, or that fail as a process can."""

import json
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

from .tools import PATIENCE_S

LONG = "a" * 4_000


class Backend(ThreadingHTTPServer):
    """A process behind the proxy: it tells the headers that came, unless it is told to fail."""

    daemon_threads = True
    request_queue_size = 128  # of no more than 5 some would have to knock again, a second later

    def __init__(self) -> None:
        super().__init__(("127.0.0.1", 0), Answering)
        self.ready = True
        self.failing = ""
        self.paths: list[str] = []

    @property
    def asked(self) -> int:
        """How many requests came, but for the questions whether it is ready."""
        return len(self.paths)

    @property
    def address(self) -> str:
        """Where it listens."""
        return f"127.0.0.1:{self.server_port}"

    def handle_error(self, *_: object) -> None:
        """A caller that goes away is no news either."""


class Answering(BaseHTTPRequestHandler):
    """What such a process does with a request."""

    protocol_version = "HTTP/1.1"
    server: Backend

    def do_GET(self) -> None:
        """Answer one request, or fail at it."""
        body = self.rfile.read(int(self.headers.get("Content-Length", 0)))
        if self.path == "/ready":
            self.told(200 if self.server.ready else 503, {})
            return
        self.server.paths.append(self.path)
        if self.server.failing == "gone":
            self.connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, b"\1\0\0\0\0\0\0\0")
            self.close_connection = True
            return
        status = 503 if self.server.failing == "overloaded" else 200
        self.told(
            status,
            {"headers": self.headers.items(), "body": self.server.failing == "mistaken" or body.decode(), "long": LONG},
        )

    def do_POST(self) -> None:
        """As a GET."""
        self.do_GET()

    def told(self, status: int, value: object) -> None:
        """Send an answer."""
        content = json.dumps(value).encode()
        self.send_response(status)
        self.send_header("Content-Type", "application/json")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)

    def log_message(self, *_: object) -> None:
        """A test's requests are no news."""


@contextmanager
def backends(number: int) -> Iterator[list[Backend]]:
    """Some processes, up while they are used."""
    every = [Backend() for _ in range(number)]
    threads = [threading.Thread(target=one.serve_forever, kwargs={"poll_interval": 0.02}) for one in every]
    for thread in threads:
        thread.start()
    try:
        yield every
    finally:
        for one, thread in zip(every, threads, strict=True):
            one.shutdown()
            one.server_close()
            thread.join(PATIENCE_S)
