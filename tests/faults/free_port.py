"""A port for a process that has to be told one before it listens, or that comes back to it."""

import random
import socket
from contextlib import suppress
from pathlib import Path
from typing import Final

_LOWEST: Final = 10_000
_ENOUGH: Final = 10_000


def free_port() -> int:
    """A port of 127.0.0.1 on which nobody listens just now.

    It lies below those that the kernel gives out by itself, so that nobody gets it meanwhile who asks for any port.
    """
    given_out = int(Path("/proc/sys/net/ipv4/ip_local_port_range").read_text(encoding="ascii").split()[0])
    while True:
        port = random.randrange(_LOWEST, max(given_out, _LOWEST + _ENOUGH))
        with suppress(OSError), socket.create_server(("127.0.0.1", port)):
            return port
