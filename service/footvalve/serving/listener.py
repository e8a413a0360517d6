"""The socket on which the service listens: how it is opened, and how it is closed without a reset to anybody."""

import contextlib
import ctypes
import ipaddress
import socket
import struct
import sys
from typing import Any, Final

BACKLOG: Final = 2048
"""Connections that may wait to be taken."""

_SO_ATTACH_FILTER: Final = 26
_LOAD_FLAGS: Final = (0x30, 0, 0, 13)  # the octet with the flags of a TCP header
_SKIP_UNLESS_SYN: Final = (0x45, 0, 1, 0x02)
_DROP: Final = (0x06, 0, 0, 0)
_PASS: Final = (0x06, 0, 0, 0xFFFFFFFF)
_NO_SYN: Final = b"".join(struct.pack("HBBI", *step) for step in (_LOAD_FLAGS, _SKIP_UNLESS_SYN, _DROP, _PASS))


class CannotListen(Exception):
    """The service cannot listen where it should; the message says why in one sentence."""


def address_of(host: str, port: int) -> str:
    """The address that a host's name stands for. Raises CannotListen."""
    return str(_place(host, port)[1][0])


def _place(host: str, port: int) -> tuple[socket.AddressFamily, tuple[Any, ...]]:
    try:
        family, _, _, _, place = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
    except OSError as error:
        raise _cannot(host, port, error) from None
    return family, place


def _cannot(host: str, port: int, error: OSError) -> CannotListen:
    return CannotListen(f"cannot listen on {host} port {port}: {str(error.strerror).partition(' (')[0]}.")


def is_loopback(address: str) -> bool:
    """Whether only this machine can reach an address."""
    return ipaddress.ip_address(address.partition("%")[0]).is_loopback


def listen(host: str, port: int) -> socket.socket:
    """A socket that listens. Raises CannotListen."""
    family, place = _place(host, port)
    try:
        return socket.create_server((place[0], port), family=family, backlog=BACKLOG)
    except OSError as error:
        raise _cannot(host, port, error) from None


def spelled(listening: socket.socket) -> str:
    """Host and port as in a URL."""
    host, port, *_ = listening.getsockname()
    return f"[{host}]:{port}" if ":" in host else f"{host}:{port}"


def let_nobody_knock(listening: socket.socket) -> None:
    """Let the kernel throw away every attempt at a new connection; those that are being made are still made.

    Whoever tries is neither taken nor reset: the attempt is repeated by the caller's kernel, and refused once the
    socket is closed. So all that wait can be taken, and nobody is lost between the last one and the closing. On a
    kernel without socket filters (BPF) that gap stays open for a moment.
    """
    if not sys.platform.startswith("linux"):
        return
    steps = ctypes.create_string_buffer(_NO_SYN)
    program = struct.pack("HL", len(_NO_SYN) // 8, ctypes.addressof(steps))
    with contextlib.suppress(OSError):
        listening.setsockopt(socket.SOL_SOCKET, _SO_ATTACH_FILTER, program)


def waiting(listening: socket.socket) -> list[socket.socket]:
    """The connections that wait to be taken, all of them, taken."""
    taken = []
    with contextlib.suppress(OSError):
        while True:
            connection, _ = listening.accept()
            taken.append(connection)
    return taken
