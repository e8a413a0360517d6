"""A service that runs for the while, as a process of its own on a free port of 127.0.0.1."""

import contextlib
import os
import subprocess
import sys
from collections.abc import Iterator


@contextlib.contextmanager
def running_service(url: str | None = None) -> Iterator[str]:
    """The URL of a service that is up while it is used: the one that is given, or one that is started and stopped."""
    if url:
        yield url
        return
    program = "from footvalve.command import main; main(['serve', '--port', '0'])"
    environment = os.environ | {"FOOTVALVE_DRAIN_SECONDS": "0"}  # nobody else asks it when it is stopped
    command = [sys.executable, "-c", program]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=environment) as process:
        try:
            assert process.stdout is not None
            yield process.stdout.readline().rpartition(" ")[2].strip()
        finally:
            process.terminate()
