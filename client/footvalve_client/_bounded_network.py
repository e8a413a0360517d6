"""Keeps a blocking client of our own to the deadline of its call at every single read.

The timeouts of httpx begin anew with each read, so that an answer which drips in byte by byte never meets one. Once
the head of an answer is there, its body can be watched from without; the head itself cannot, but from here.
"""

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

import httpcore
import httpx

from footvalve_client._deadline import CURRENT

if TYPE_CHECKING:
    from ssl import SSLContext


def watched(client: httpx.Client) -> httpx.Client:
    """The client, with all its connections kept to the deadline of whichever call uses them."""
    for transport in (client._transport, *client._mounts.values()):  # pyright: ignore[reportPrivateUsage]
        if isinstance(transport, httpx.HTTPTransport):
            pool = transport._pool  # pyright: ignore[reportPrivateUsage]
            pool._network_backend = _Backend(pool._network_backend)  # pyright: ignore[reportPrivateUsage]
    return client


class _Backend(httpcore.NetworkBackend):
    """Opens streams as another does, and watches over them."""

    def __init__(self, backend: httpcore.NetworkBackend) -> None:
        self._backend = backend

    def connect_tcp(
        self,
        host: str,
        port: int,
        timeout: float | None = None,
        local_address: str | None = None,
        socket_options: Iterable[httpcore.SOCKET_OPTION] | None = None,
    ) -> httpcore.NetworkStream:
        bounded = CURRENT.get().bounded(timeout)
        return _Stream(self._backend.connect_tcp(host, port, bounded, local_address, socket_options))

    def connect_unix_socket(
        self,
        path: str,
        timeout: float | None = None,
        socket_options: Iterable[httpcore.SOCKET_OPTION] | None = None,
    ) -> httpcore.NetworkStream:
        return _Stream(self._backend.connect_unix_socket(path, CURRENT.get().bounded(timeout), socket_options))

    def sleep(self, seconds: float) -> None:
        self._backend.sleep(seconds)


class _Stream(httpcore.NetworkStream):
    """A stream whose every operation takes no longer than what is left of the call."""

    def __init__(self, stream: httpcore.NetworkStream) -> None:
        self._stream = stream

    def read(self, max_bytes: int, timeout: float | None = None) -> bytes:
        return self._stream.read(max_bytes, CURRENT.get().bounded(timeout))

    def write(self, buffer: bytes, timeout: float | None = None) -> None:
        self._stream.write(buffer, CURRENT.get().bounded(timeout))

    def close(self) -> None:
        self._stream.close()

    def start_tls(
        self, ssl_context: "SSLContext", server_hostname: str | None = None, timeout: float | None = None
    ) -> httpcore.NetworkStream:
        return _Stream(self._stream.start_tls(ssl_context, server_hostname, CURRENT.get().bounded(timeout)))

    def get_extra_info(self, info: str) -> Any:
        return self._stream.get_extra_info(info)
