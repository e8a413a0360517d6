"""Processes of the service on free ports of 127.0.0.1, which can be killed, drained and started again."""

import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Final

PATIENCE_S: Final = 60.0
"""How long a start or an end may take on a loaded machine."""

_COMMAND: Final = Path(sys.executable).with_name("footvalve")
_TICKS: Final = os.sysconf("SC_CLK_TCK")


class ServiceProcess:
    """One `footvalve serve`. It keeps its port over all its lives."""

    def __init__(self, settings: Mapping[str, str]) -> None:
        inherited = {name: value for name, value in os.environ.items() if not name.startswith("FOOTVALVE_")}
        self._environment = inherited | dict(settings)
        self._process: subprocess.Popen[bytes] | None = None
        self._said = tempfile.TemporaryFile()  # noqa: SIM115 - it lives as long as this, and close() closes it
        self.port = 0

    @property
    def address(self) -> str:
        """Where it listens."""
        return f"127.0.0.1:{self.port}"

    def start(self) -> None:
        """Begin a life, and wait until it listens."""
        written = os.fstat(self._said.fileno()).st_size
        self._process = subprocess.Popen(
            [_COMMAND, "serve", "--port", str(self.port)],
            stdin=subprocess.DEVNULL,
            stdout=self._said,
            stderr=subprocess.STDOUT,
            env=self._environment,
            start_new_session=True,
        )
        give_up = time.monotonic() + PATIENCE_S
        while b" listens on " not in (said := self._since(written)):
            if self._process.poll() is not None or time.monotonic() > give_up:
                raise RuntimeError(f"the service does not start: {said.decode('utf-8', 'replace')}")
            time.sleep(0.02)
        line = next(line for line in said.splitlines() if b" listens on " in line)
        self.port = int(line.rpartition(b":")[2])

    def kill(self) -> None:
        """End it with -9, with all that belongs to it."""
        process = self._running()
        os.killpg(process.pid, signal.SIGKILL)
        process.wait(PATIENCE_S)

    def drain(self) -> None:
        """End it with a SIGTERM. Raises RuntimeError where it does not end well."""
        process = self._running()
        process.terminate()
        code = process.wait(PATIENCE_S)
        if code != 0:
            raise RuntimeError(f"the service ended with {code} after a SIGTERM")

    def close(self) -> None:
        """Leave nothing behind."""
        if self._process and self._process.poll() is None:
            self.kill()
        self._said.close()

    def cpu_seconds(self) -> float:
        """What its life so far has taken of the machine's processors."""
        return sum(map(_cpu_seconds, self._pids()))

    def memory_bytes(self) -> int:
        """What it holds of the machine's memory; what it shares with others is shared out among them."""
        return sum(map(_memory_bytes, self._pids()))

    def _running(self) -> subprocess.Popen[bytes]:
        if self._process is None:
            raise RuntimeError("the service has not been started")
        return self._process

    def _pids(self) -> list[int]:
        pid = self._running().pid
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii").split()
        return [pid, *map(int, children)]

    def _since(self, start: int) -> bytes:
        size = os.fstat(self._said.fileno()).st_size
        return os.pread(self._said.fileno(), size - start, start)


@contextmanager
def service_group(number: int, settings: Mapping[str, str]) -> Iterator[list[ServiceProcess]]:
    """So many processes that listen; none of them is left at the end."""
    group = [ServiceProcess(settings) for _ in range(number)]
    try:
        for process in group:
            process.start()
        yield group
    finally:
        for process in group:
            process.close()


def cpu_seconds_of(pid: int) -> float:
    """What one process has taken of the machine's processors."""
    return _cpu_seconds(pid)


def _cpu_seconds(pid: int) -> float:
    after_name = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(after_name[11]) + int(after_name[12])) / _TICKS


def _memory_bytes(pid: int) -> int:
    lines = Path(f"/proc/{pid}/smaps_rollup").read_text(encoding="ascii").splitlines()
    return 1024 * next(int(line.split()[1]) for line in lines if line.startswith("Pss:"))
