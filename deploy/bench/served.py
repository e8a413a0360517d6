"""A server that runs for the while, and what it takes of the machine."""

import http.client
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Final

from load.service_group import PATIENCE_S, cpu_seconds_of

_COMMAND: Final = str(Path(sys.executable).with_name("footvalve"))


class Served:
    """A server with its workers, if it has any."""

    def __init__(self, pid: int, address: str) -> None:
        self.pid = pid
        self.address = address

    @property
    def answering(self) -> list[int]:
        """The processes that answer: itself, or its workers."""
        children = Path(f"/proc/{self.pid}/task/{self.pid}/children").read_text(encoding="ascii").split()
        return [int(child) for child in children] or [self.pid]

    def cpu_seconds(self) -> float:
        """What they have taken of the machine's processors."""
        return sum(map(cpu_seconds_of, self.answering))

    def memory_mb(self) -> float:
        """What the greatest of them has in memory; what it shares with others counts in full."""
        return max(map(_resident_mb, self.answering))


def _resident_mb(pid: int) -> float:
    lines = Path(f"/proc/{pid}/status").read_text(encoding="ascii").splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("VmRSS:")) / 1000


@contextmanager
def served_kind(kind: str) -> Iterator[Served]:
    """One of the kinds that are compared."""
    with _served(sys.executable, "-m", "bench.serve_kind", kind) as server:
        yield server


@contextmanager
def served(workers: int) -> Iterator[Served]:
    """`footvalve serve`, once every worker is up."""
    with _served(_COMMAND, "serve", "--port", "0", "--workers", str(workers)) as server:
        until_ready(server.address)
        give_up = time.monotonic() + PATIENCE_S
        while workers > 1 and len(server.answering) < workers and time.monotonic() < give_up:
            time.sleep(0.05)
        yield server


@contextmanager
def _served(*command: str) -> Iterator[Served]:
    settings = {"FOOTVALVE_DRAIN_SECONDS": "0"}  # nobody else asks it when it is stopped
    inherited = {name: value for name, value in os.environ.items() if not name.startswith("FOOTVALVE_")}
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=inherited | settings) as process:
        try:
            assert process.stdout is not None
            said = process.stdout.readline()
            if " listens on " not in said:
                raise RuntimeError(f"it does not start: {' '.join(command)}")
            yield Served(process.pid, said.rpartition("/")[2].strip())
        finally:
            process.terminate()
            process.wait(PATIENCE_S)


def seconds_to_ready() -> float:
    """From the command `footvalve serve` to the first answer that it is ready."""
    start = time.perf_counter()
    with _served(_COMMAND, "serve", "--port", "0") as server:
        until_ready(server.address)
        return time.perf_counter() - start


def until_ready(address: str) -> None:
    """Wait until a service says that it is ready. Raises RuntimeError where it does not in time."""
    give_up = time.monotonic() + PATIENCE_S
    while time.monotonic() < give_up:
        with closing(http.client.HTTPConnection(address, timeout=PATIENCE_S)) as connection:
            connection.request("GET", "/ready")
            if connection.getresponse().status == 200:
                return
        time.sleep(0.01)
    raise RuntimeError(f"{address} is not ready within {PATIENCE_S:.0f} s")
