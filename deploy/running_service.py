"""A service that runs for the while, as a process of its own on a free port of 127.0.0.1."""

import contextlib
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
    with subprocess.Popen([sys.executable, "-c", program], stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout is not None
            yield process.stdout.readline().rpartition(" ")[2].strip()
        finally:
            process.terminate()
