"""The proxy that stands before the service (deploy/proxy), for the while, on a free port of 127.0.0.1."""

import contextlib
import os
import re
import socket
import subprocess
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import IO

FRONT = Path(__file__).parents[1] / "proxy/front.cfg"


class RunningProxy:
    """Where it listens, its process, and what it has logged."""

    def __init__(self, url: str, pid: int, log: IO[bytes]) -> None:
        self.url = url
        self.pid = pid
        self._log = log

    @property
    def log(self) -> str:
        """All that it has logged so far."""
        return os.pread(self._log.fileno(), os.fstat(self._log.fileno()).st_size, 0).decode("utf-8", "replace")

    @property
    def answered_by(self) -> Counter[str]:
        """How many requests so far each process has answered."""
        return Counter(re.findall(r" footvalve/(process-\d+) [-+/\d]+ 200 ", self.log))

    @property
    def sent_again(self) -> int:
        """How many requests so far were sent to another process than the first, as that went away."""
        return len(re.findall(r"/\+?[1-9]\d* \d+/\d+ \S+ [A-Z]+ \S+ HTTP/", self.log))


@contextlib.contextmanager
def running_proxy(addresses: Sequence[str], front: Path = FRONT) -> Iterator[RunningProxy]:
    """A proxy before these processes, each as host:port; at the end it is stopped."""
    backend = "backend footvalve from footvalve\n" + "".join(
        f"    server process-{number} {address}\n" for number, address in enumerate(addresses)
    )
    with (
        tempfile.NamedTemporaryFile("w", suffix=".cfg") as rest,
        tempfile.TemporaryFile() as log,
        socket.create_server(("127.0.0.1", 0), backlog=1024) as listening,
    ):
        rest.write(backend)
        rest.flush()
        host, port = listening.getsockname()
        with subprocess.Popen(
            ["haproxy", "-db", "-f", str(front), "-f", rest.name],
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=log,
            env=os.environ
            | {"PROXY_BIND": f"fd@{listening.fileno()}", "PATH": os.environ.get("PATH", "") + ":/usr/sbin"},
            pass_fds=[listening.fileno()],
        ) as process:
            try:
                yield RunningProxy(f"http://{host}:{port}", process.pid, log)
            finally:
                process.terminate()
