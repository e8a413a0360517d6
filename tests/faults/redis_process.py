"""A Redis of Debian as a process of its own on a free port of 127.0.0.1: to be stopped, frozen and started again."""

import shutil
import signal
import socket
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager

from tests.faults.free_port import free_port
from tests.faults.service_process import PATIENCE_S, until

NO_REDIS = "there is no redis-server on PATH: run deploy/setup.sh, which installs Debian's package redis-server"


class RedisProcess:
    """A Redis that can be taken away. It keeps nothing on disk: started again, it is empty."""

    def __init__(self) -> None:
        self.port = free_port()
        self._process: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        """What FOOTVALVE_COUNTERS_URL has to hold."""
        return f"redis://127.0.0.1:{self.port}/0"

    def start(self) -> None:
        """Start it, and wait until it answers."""
        command = shutil.which("redis-server")
        assert command, NO_REDIS
        options = ["--port", str(self.port), "--bind", "127.0.0.1", "--save", "", "--appendonly", "no"]
        self._process = subprocess.Popen([command, *options], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        until(self._answers, "Redis answers")

    def stop(self) -> None:
        """End it, as a machine that fails would."""
        if self._process is not None:
            self._process.kill()
            self._process.wait(PATIENCE_S)
            self._process = None

    def freeze(self) -> None:
        """Let it take connections, and answer nothing."""
        self._signal(signal.SIGSTOP)

    def thaw(self) -> None:
        """Let it go on."""
        self._signal(signal.SIGCONT)

    def say(self, command: str) -> None:
        """Give it a command, which it must take."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=PATIENCE_S) as connection:
            connection.sendall(f"{command}\r\n".encode())
            assert connection.recv(100).startswith(b"+OK")

    def _signal(self, number: int) -> None:
        assert self._process is not None
        self._process.send_signal(number)

    def _answers(self) -> bool:
        assert self._process is not None
        assert self._process.poll() is None, "Redis does not start"
        try:
            with socket.create_connection(("127.0.0.1", self.port), timeout=1) as connection:
                connection.sendall(b"PING\r\n")
                return connection.recv(7) == b"+PONG\r\n"
        except OSError:
            return False


@contextmanager
def running_redis() -> Iterator[RedisProcess]:
    """A Redis that answers; it is ended behind the test, in whatever state it is."""
    redis = RedisProcess()
    redis.start()
    try:
        yield redis
    finally:
        redis.stop()
