"""The real service as a process of its own on a free port of 127.0.0.1, for the tests that need one."""

import os
import re
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO, TypeVar

Found = TypeVar("Found")

COMMAND = Path(sys.executable).with_name("footvalve")
PATIENCE_S = 180
"""How long a step may take on a loaded machine before the test gives up."""

QUICK_END = {"FOOTVALVE_DRAIN_SECONDS": "0"}
"""Most tests have nobody to wait for when they end."""


class ServiceProcess:
    """A running `footvalve serve`: where it listens, its processes, and what it has said."""

    def __init__(self, process: subprocess.Popen[bytes], said: IO[bytes], complained: IO[bytes]) -> None:
        self.process = process
        self.host = "127.0.0.1"
        self.port = 0
        self._said = said
        self._complained = complained

    @property
    def url(self) -> str:
        """The origin under which it answers."""
        return f"http://{self.host}:{self.port}"

    @property
    def output(self) -> str:
        """All that it has written to standard output so far."""
        return _whole(self._said)

    @property
    def errors(self) -> str:
        """All that it has written to standard error so far."""
        return _whole(self._complained)

    @property
    def descriptors(self) -> int:
        """How many descriptors its answering processes have open."""
        return sum(len(os.listdir(f"/proc/{pid}/fd")) for pid in self.worker_pids)

    @property
    def resident_bytes(self) -> int:
        """What its answering processes have in memory together."""
        pages = (Path(f"/proc/{pid}/statm").read_text(encoding="ascii").split()[1] for pid in self.worker_pids)
        return sum(map(int, pages)) * os.sysconf("SC_PAGESIZE")

    @property
    def worker_pids(self) -> list[int]:
        """The processes that answer, in the order of their start; with one worker the process itself."""
        return [pid for pid in _children(self.process.pid) if _is_worker(pid)] or [self.process.pid]

    def send_signal(self, number: int) -> None:
        """Send the first process a signal."""
        self.process.send_signal(number)

    def wait(self, timeout: float = PATIENCE_S) -> int:
        """Wait until it has ended; its exit code."""
        return self.process.wait(timeout)

    def stop(self, number: int = signal.SIGTERM) -> int:
        """End it as an operator would, and wait; its exit code."""
        if self.process.poll() is None:
            self.send_signal(number)
        return self.wait()


@contextmanager
def serving(*arguments: str, environment: Mapping[str, str] | None = None) -> Iterator[ServiceProcess]:
    """A service that listens; at the end it is stopped, must end within some time, and must have said no traceback.

    Settings that the test's own environment holds are left out; `environment` is laid over the rest.
    """
    with _started("--port", "0", *arguments, environment=environment) as service:
        service.port = until(lambda: _port(service), "it listens")
        try:
            yield service
            service.stop()
        finally:
            _end(service)
        assert "Traceback" not in service.errors, service.errors


@contextmanager
def serving_unheard(redirections: str, environment: Mapping[str, str] | None = None) -> Iterator[ServiceProcess]:
    """A service whose output a shell sends elsewhere, such as `>/dev/full`: nothing of it is read."""
    unheard = ["sh", "-c", f'exec "$@" {redirections}', "sh"]
    with _started("--port", "0", environment=environment, before=unheard) as service:
        service.port = until(lambda: _listening_port(service.process.pid), "it listens")
        yield service
        service.stop()


@contextmanager
def _started(
    *arguments: str, environment: Mapping[str, str] | None, before: Sequence[str] = ()
) -> Iterator[ServiceProcess]:
    inherited = {name: value for name, value in os.environ.items() if not name.startswith("FOOTVALVE_")}
    chosen = inherited | QUICK_END | dict(environment or {})
    with tempfile.TemporaryFile() as said, tempfile.TemporaryFile() as complained:
        process = subprocess.Popen(
            [*before, COMMAND, "serve", *arguments],
            stdin=subprocess.DEVNULL,
            stdout=said,
            stderr=complained,
            env=chosen,
        )
        service = ServiceProcess(process, said, complained)
        try:
            yield service
        finally:
            _end(service)


def until(ask: Callable[[], Found], what: str, patience: float = PATIENCE_S) -> Found:
    """What `ask` gives as soon as it is true; fails the test where that takes too long."""
    give_up = time.monotonic() + patience
    while not (found := ask()):
        assert time.monotonic() < give_up, f"waited {patience} s in vain until {what}"
        time.sleep(0.02)
    return found


def _port(service: ServiceProcess) -> int:
    found = re.search(r"http://127\.0\.0\.1:(\d+)$", service.output, re.MULTILINE)
    assert found or service.process.poll() is None, f"the service did not start: {service.errors}"
    return int(found.group(1)) if found else 0


def is_running(pid: int) -> bool:
    """Whether there is such a process that has not ended."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def _listening_port(pid: int) -> int:
    """The TCP port on which a process listens; 0 where there is none yet."""
    sockets = set()
    for descriptor in os.listdir(f"/proc/{pid}/fd"):
        with suppress(FileNotFoundError):
            sockets.add(os.readlink(f"/proc/{pid}/fd/{descriptor}"))
    for line in Path("/proc/net/tcp").read_text().splitlines()[1:]:
        _, local, _, state, *_, inode = line.split()[:10]
        if state == "0A" and f"socket:[{inode}]" in sockets:
            return int(local.rpartition(":")[2], 16)
    return 0


def _end(service: ServiceProcess) -> None:
    """Leave no process behind, whatever the test has come to."""
    if service.process.poll() is None:
        workers = service.worker_pids
        service.process.kill()
        service.wait()
        for pid in workers:
            if _is_worker(pid):
                with suppress(ProcessLookupError):  # it ends by itself meanwhile
                    os.kill(pid, signal.SIGKILL)


def _children(pid: int) -> list[int]:
    try:
        return [int(child) for child in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]
    except OSError:
        return []


def _is_worker(pid: int) -> bool:
    try:
        spoken = Path(f"/proc/{pid}/cmdline").read_bytes()
    except OSError:
        return False
    return b"footvalve.serving.worker" in spoken or b"spawn_main" in spoken


def _whole(file: IO[bytes]) -> str:
    size = os.fstat(file.fileno()).st_size
    return os.pread(file.fileno(), size, 0).decode("utf-8", "replace")
