"""Callers that ask again and again, in threads of their own, and keep count of what became of every request."""

import socket
import threading
from collections import Counter
from contextlib import closing, contextmanager

from .raw_caller import LAST_REQUEST, REQUEST, header, one_answer
from .service_process import PATIENCE_S

CALLERS = 8
PAUSE_S = 0.005
"""Between requests, so that the callers leave the machine some time for workers that start."""


class Load:
    """What callers have seen: answers by status, refused connections, and requests that were lost."""

    def __init__(self, port):
        self.port = port
        self.counts = Counter()
        self.lost = []
        self.over = threading.Event()
        self._lock = threading.Lock()

    @property
    def answered(self):
        """Answers so far."""
        return self.counts["200"]

    def count(self, what):
        """Note one event."""
        with self._lock:
            self.counts[what] += 1

    def keep_alive(self):
        """Ask on one connection as long as the service lets it live; then on a new one."""
        while not self.over.is_set():
            with self._connection() as connection:
                while connection and not self.over.is_set():
                    if not self._asked(connection, REQUEST):
                        break

    def closing(self):
        """Ask once on every connection."""
        while not self.over.is_set():
            with self._connection() as connection:
                if connection:
                    self._asked(connection, LAST_REQUEST)

    @contextmanager
    def _connection(self):
        """A connection; none where the service is gone, which ends this caller's work."""
        try:
            connection = socket.create_connection(("127.0.0.1", self.port), timeout=PATIENCE_S)
        except ConnectionRefusedError:
            self.count("refused")
            self.over.wait(0.01)
            yield None
            return
        except OSError as error:
            self.lost.append(f"connecting: {error!r}")
            yield None
            return
        with closing(connection):
            yield connection

    def _asked(self, connection, request):
        """Whether the connection lives on after one request and its answer."""
        try:
            connection.sendall(request)
            head, _ = one_answer(connection)
        except (OSError, AssertionError) as error:
            self.lost.append(repr(error))
            return False
        self.count(head[9:12].decode())
        self.over.wait(PAUSE_S)
        return header(head, b"connection") != b"close"


@contextmanager
def load(port, manner):
    """Callers of one manner, `keep_alive` or `closing`, that ask as long as the with statement lasts."""
    seen = Load(port)
    callers = [threading.Thread(target=getattr(seen, manner)) for _ in range(CALLERS)]
    for caller in callers:
        caller.start()
    try:
        yield seen
    finally:
        seen.over.set()
        for caller in callers:
            caller.join()
