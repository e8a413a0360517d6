"""The keeper of several server processes: it starts them, replaces who dies, renews them, and sees them to their end.

It holds the listening socket for the processes that are still to come, and lets go of it as soon as the service ends:
then only those hold it who answer on it.
"""

import logging
import selectors
import signal
import socket
import subprocess
import sys
import time
from collections import deque
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, nullcontext
from typing import Final

from footvalve.serving.keys_to_hand_on import KeysToHandOn, handing_on
from footvalve.serving.orders import READY, WISH, Line, Order, hurried
from footvalve.serving.standard_streams import complain
from footvalve.web.metrics import COUNTED
from footvalve.web.settings import Settings

_SIGNALS: Final = (signal.SIGTERM, signal.SIGINT, signal.SIGHUP)

_YOUNG_S: Final = 10.0
"""A worker that ends by itself before it has been ready for so long has died quickly."""

_MOST_FAILED_STARTS: Final = 5
"""So many workers in a row may end before they have been ready, where there is no other."""

_FIRST_PAUSE_S: Final = 0.2
_LONGEST_PAUSE_S: Final = 30.0
_MOST_DOUBLINGS: Final = 10
_MARGIN_S: Final = 10.0
"""How much longer than it may take its keeper waits for a worker's end."""

_log = logging.getLogger(__name__)


class _Worker:
    """A server process as its keeper sees it."""

    def __init__(
        self, listening: socket.socket, keys: KeysToHandOn | None, successor_of: "_Worker | None" = None
    ) -> None:
        ours, theirs = socket.socketpair()
        self.successor_of = successor_of
        self.is_leaving = False
        self.end_by = float("inf")
        self.started = time.monotonic()
        self.ready: float | None = None
        with ExitStack() as where_it_fails, theirs, handing_on(keys) as memory:
            where_it_fails.callback(ours.close)
            descriptors = (listening.fileno(), theirs.fileno(), *memory)
            self.process = subprocess.Popen(
                [sys.executable, "-P", "-m", "footvalve.serving.worker", *map(str, descriptors)],
                stdin=subprocess.DEVNULL,
                pass_fds=descriptors,
                process_group=0,  # a terminal's Ctrl-C is for the keeper
            )
            where_it_fails.pop_all()
        self.line = Line(ours)

    @property
    def age(self) -> float:
        return time.monotonic() - self.started

    @property
    def is_young(self) -> bool:
        """Whether it has not been at work for long."""
        return self.ready is None or time.monotonic() - self.ready < _YOUNG_S

    def order(self, order: Order, within: float) -> None:
        """Tell it to end in at most so many seconds."""
        self.is_leaving = True
        self.end_by = min(self.end_by, time.monotonic() + within)
        self.line.say(bytes((order,)))

    def bury(self) -> int:
        """Take note of its end; its exit code."""
        self.line.close()
        try:
            code = self.process.wait(_MARGIN_S)
        except subprocess.TimeoutExpired:
            self.process.kill()
            code = self.process.wait()
        return code


class Supervisor:
    """Keeps so many server processes at work on one socket."""

    def __init__(
        self, listening: socket.socket, number: int, settings: Settings, keys: KeysToHandOn | None = None
    ) -> None:
        self._listening = listening
        self._keys = keys
        self._number = number
        self._longest_end_s = settings.drain_seconds + settings.stop_seconds + _MARGIN_S
        self._workers: list[_Worker] = []
        self._to_renew: deque[_Worker] = deque()
        self._is_renewing = False
        self._quick_deaths = 0
        self._failed_starts = 0
        self._pause_until = 0.0
        self._order: Order | None = None
        self._has_failed = False
        self._selector = selectors.DefaultSelector()

    def run(self) -> int:
        """Keep them until a signal ends it; 0, or 1 where none is left and none comes up."""
        with self._selector, _signals(self._selector), self._keys.kept() if self._keys else nullcontext():
            while not (self._order and not self._workers):
                self._start_who_is_missing()
                for key, _ in self._selector.select(self._patience()):
                    self._attend(key.data, key.fileobj)
                self._forgive()
                self._tell_when_renewed()
                self._end_stragglers()
        return 1 if self._has_failed else 0

    def _patience(self) -> float:
        return 0.1 if self._order or self._pause_until > time.monotonic() else 1.0

    def _attend(self, worker: _Worker | None, spoke: object) -> None:
        if worker is None:
            assert isinstance(spoke, socket.socket)
            for number in spoke.recv(64):
                self._take_signal(number)
        else:
            self._hear(worker)

    # Signals

    def _take_signal(self, number: int) -> None:
        if number == signal.SIGHUP:
            self._renew_all()
        elif number in _SIGNALS:
            self._end(hurried(self._order))

    def _renew_all(self) -> None:
        if self._order is None:
            _log.info("renewing the workers one by one")
            self._is_renewing = True
            self._renew([worker for worker in self._workers if not worker.is_leaving])

    def _tell_when_renewed(self) -> None:
        is_moving = any(worker.is_leaving or worker.successor_of for worker in self._workers)
        if self._is_renewing and not self._to_renew and not is_moving:
            self._is_renewing = False
            _log.info("the workers have been renewed")

    def _end(self, order: Order) -> None:
        if self._order is None:
            self._listening.close()
        self._order = order
        self._is_renewing = False
        for worker in self._workers:
            worker.order(order, self._longest_end_s)

    def _end_stragglers(self) -> None:
        """A worker that hangs must hold up neither the end nor the renewal of the others."""
        now = time.monotonic()
        for worker in self._workers:
            if now > worker.end_by:
                _log.error("worker %d does not end, and is killed", worker.process.pid)
                worker.process.kill()
                worker.end_by = float("inf")

    # Workers

    def _start_who_is_missing(self) -> None:
        if self._order or time.monotonic() < self._pause_until:
            return
        staying = [worker for worker in self._workers if not (worker.is_leaving or worker.successor_of)]
        for _ in range(self._number - len(staying)):
            if time.monotonic() >= self._pause_until:
                self._start()
        if self._to_renew and len(self._workers) == self._number:
            self._start(successor_of=self._to_renew.popleft())

    def _start(self, successor_of: _Worker | None = None) -> None:
        try:
            worker = _Worker(self._listening, self._keys, successor_of)
        except OSError as error:  # no process or no descriptor is to be had
            _log.error("a worker could not be started: %s", error.strerror)
            self._take_failed_start(successor_of)
            return
        self._workers.append(worker)
        self._selector.register(worker.line, selectors.EVENT_READ, worker)

    def _hear(self, worker: _Worker) -> None:
        words = worker.line.hear()
        if words is None:
            self._bury(worker)
            return
        if READY in words:
            self._take_on(worker)
        if WISH in words:
            self._renew([worker])

    def _take_on(self, worker: _Worker) -> None:
        worker.ready = time.monotonic()
        self._failed_starts = 0
        before, worker.successor_of = worker.successor_of, None
        if before in self._workers and self._order is None:
            before.order(Order.LEAVE, self._longest_end_s)
        self._count_who_is_up()

    def _count_who_is_up(self) -> None:
        COUNTED.workers_up(sum(worker.ready is not None for worker in self._workers))

    def _renew(self, workers: list[_Worker]) -> None:
        self._to_renew.extend(worker for worker in workers if worker not in self._to_renew)

    def _bury(self, worker: _Worker) -> None:
        self._selector.unregister(worker.line)
        self._workers.remove(worker)
        code = worker.bury()
        self._count_who_is_up()
        if worker in self._to_renew:
            self._to_renew.remove(worker)
        for other in self._workers:
            if other.successor_of is worker:  # it stands in for who has ended
                other.successor_of = None
        if worker.is_leaving:
            return
        _log.warning("worker %d ended by itself with %d, after %.0f s", worker.process.pid, code, worker.age)
        COUNTED.worker_replaced()
        if worker.ready is None:
            self._take_failed_start(worker.successor_of)
        elif worker.is_young:
            self._pause()

    def _take_failed_start(self, successor_of: _Worker | None) -> None:
        self._failed_starts += 1
        if successor_of:
            self._stop_renewing()
        self._pause()
        self._give_up_where_none_comes_up()

    def _stop_renewing(self) -> None:
        self._to_renew.clear()
        self._is_renewing = False
        _log.error("the workers are not renewed: the new one did not come up, and those from before go on")

    def _pause(self) -> None:
        """Start no worker for a while, the longer the more have died quickly."""
        pause = min(_FIRST_PAUSE_S * 2 ** min(self._quick_deaths, _MOST_DOUBLINGS), _LONGEST_PAUSE_S)
        self._quick_deaths += 1
        self._pause_until = time.monotonic() + pause
        if self._order is None:
            _log.warning(
                "%d of %d workers are there; the next is tried in %.1f s", len(self._workers), self._number, pause
            )

    def _give_up_where_none_comes_up(self) -> None:
        if self._failed_starts >= _MOST_FAILED_STARTS and not self._workers and self._order is None:
            complain(
                f"footvalve: {self._failed_starts} workers in a row ended as soon as they had started, and no other is "
                "left; what they have written tells why."
            )
            self._has_failed = True
            self._end(Order.DRAIN)

    def _forgive(self) -> None:
        """Count quick deaths anew once every worker has lived for a while."""
        if len(self._workers) >= self._number and not any(worker.is_young for worker in self._workers):
            self._quick_deaths = 0


@contextmanager
def _signals(selector: selectors.BaseSelector) -> Iterator[None]:
    """Let signals come as octets to a socket that the selector watches."""
    heard, told = socket.socketpair()
    with heard, told:
        heard.setblocking(False)
        told.setblocking(False)
        before = {number: signal.signal(number, lambda *_: None) for number in _SIGNALS}
        descriptor = signal.set_wakeup_fd(told.fileno())
        selector.register(heard, selectors.EVENT_READ, None)
        try:
            yield
        finally:
            signal.set_wakeup_fd(descriptor)
            for number, handler in before.items():
                signal.signal(number, handler)
