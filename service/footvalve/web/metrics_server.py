"""The port on which metrics are told: it is none of the service's own, and is served in a thread of its own."""

import logging
import socketserver
from collections.abc import Iterator
from contextlib import contextmanager
from socket import AF_INET6
from threading import BoundedSemaphore, Thread
from typing import Any
from wsgiref.simple_server import WSGIRequestHandler, WSGIServer

from prometheus_client import CollectorRegistry, make_wsgi_app

from footvalve.web.metrics_collector import MetricsCollector

_SECONDS_FOR_A_REQUEST = 10

MOST_AT_ONCE = 16
"""Readers with a connection at one time, each of which takes a thread; one more is hung up on."""

_log = logging.getLogger(__name__)


class _Handler(WSGIRequestHandler):
    timeout = _SECONDS_FOR_A_REQUEST

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing of a request for metrics."""


class _Server(socketserver.ThreadingMixIn, WSGIServer):
    daemon_threads = True

    def __init__(self, *arguments: Any) -> None:
        self._places = BoundedSemaphore(MOST_AT_ONCE)
        super().__init__(*arguments)

    def process_request(self, request: Any, client_address: Any) -> None:
        """Answer in a thread of its own, where there is a place for one."""
        if self._places.acquire(blocking=False):
            super().process_request(request, client_address)
        else:
            self.shutdown_request(request)

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        """Answer, and give the place back."""
        try:
            super().process_request_thread(request, client_address)
        finally:
            self._places.release()

    def server_bind(self) -> None:
        """Listen, without asking the name service for the name of this machine, which may take long."""
        socketserver.TCPServer.server_bind(self)
        self.server_name, self.server_port = str(self.server_address[0]), self.server_address[1]
        self.setup_environ()

    def handle_error(self, request: object, client_address: object) -> None:  # noqa: ARG002
        """Log what a request for metrics ended in, such as a reader who has gone."""
        _log.warning("a request for metrics has failed", exc_info=True)


class _ServerOverIPv6(_Server):
    address_family = AF_INET6


@contextmanager
def telling(collector: MetricsCollector, host: str, port: int) -> Iterator[None]:
    """Tell what the collector collects while the context lasts. Raises OSError where the port cannot be had."""
    registry = CollectorRegistry(auto_describe=False)
    registry.register(collector)
    kind = _ServerOverIPv6 if ":" in host else _Server
    with kind((host, port), _Handler) as server:
        server.set_app(make_wsgi_app(registry))
        thread = Thread(target=server.serve_forever, name="metrics", daemon=True)
        thread.start()
        try:
            yield
        finally:
            server.shutdown()
            thread.join()
