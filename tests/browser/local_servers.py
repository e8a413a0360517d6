"""Servers on free ports of 127.0.0.1: the service itself, and a shop whose pages hold the suction check."""

import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import uvicorn

from footvalve.web.application import create_app
from footvalve.web.settings import Settings

BEFORE_GIVING_UP_S = 20


@contextmanager
def running_service(*origins: str, port: int = 0) -> Iterator[str]:
    """The address of a service that pages of these origins may ask, up while it is used."""
    listener = socket.create_server(("127.0.0.1", port))
    app = create_app(Settings(allowed_origins=frozenset(origins)))
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", lifespan="off", ws="none"))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    try:
        yield "http://{}:{}".format(*listener.getsockname())
    finally:
        server.should_exit = True
        server.force_exit = True  # a browser keeps its connections open
        thread.join(BEFORE_GIVING_UP_S)
        listener.close()
        assert not thread.is_alive(), "the service of the tests does not stop"


class Shop:
    """A shop's web server: pages that the tests write, each at an address of its own."""

    def __init__(self) -> None:
        self._pages: dict[str, tuple[bytes, str]] = {}
        self._server = ThreadingHTTPServer(("127.0.0.1", 0), _handler(self._pages))
        self._thread = threading.Thread(target=self._server.serve_forever, kwargs={"poll_interval": 0.05})
        self._thread.start()

    @property
    def origin(self) -> str:
        """As a browser writes it."""
        return f"http://127.0.0.1:{self._server.server_port}"

    def page(self, html: str, policy: str = "") -> str:
        """The address of a page, held to a Content-Security-Policy where one is given."""
        path = f"/{len(self._pages) + 1}"
        self._pages[path] = html.encode(), policy
        return self.origin + path

    def close(self) -> None:
        """End the server."""
        self._server.shutdown()
        self._server.server_close()
        self._thread.join(BEFORE_GIVING_UP_S)


def _handler(pages: dict[str, tuple[bytes, str]]) -> type[BaseHTTPRequestHandler]:
    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            html, policy = pages.get(self.path.partition("?")[0], (b"", ""))
            self.send_response(200 if html else 404)
            self.send_header("content-type", "text/html; charset=utf-8")
            self.send_header("content-length", str(len(html)))
            if policy:
                self.send_header("content-security-policy", policy)
            self.end_headers()
            self.wfile.write(html)

        def log_message(self, *_: object) -> None:
            """A test's requests are no news."""

    return Handler


@contextmanager
def running_shop() -> Iterator[Shop]:
    """A shop that is open while it is used."""
    shop = Shop()
    try:
        yield shop
    finally:
        shop.close()
