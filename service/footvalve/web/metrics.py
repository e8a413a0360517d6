"""What happens in a process and is told as metrics: one call an event, from anywhere and any thread, at any time.

Until `begin` a call does nothing. The requests themselves are counted in observation.py.
"""

from threading import Lock
from typing import Final

from footvalve.web import metrics_catalogue as catalogue
from footvalve.web.metrics_board import Board
from footvalve.web.metrics_catalogue import Metric


class Counted:
    """The events that are counted in this process."""

    def __init__(self) -> None:
        self.board: Board | None = None
        self._lock = Lock()

    def begin(self, board: Board) -> None:
        """Count on this board from now on."""
        self.board = board
        for metric in catalogue.TOLD_FROM_THE_START:
            self._add(metric, 0)

    def end(self) -> None:
        """Count no more."""
        self.board = None

    def batch_item(self, status: int) -> None:
        """An item of a batch was answered, with this status."""
        self._add(catalogue.BATCH_ITEMS, 1, (str(status),))

    def refused_unread(self, problem: str) -> None:
        """A connection, or a head that cannot be read, was refused; `problem` is the last part of its type."""
        self._add(catalogue.REFUSED_UNREAD, 1, (problem,))

    def log_lines_lost(self, number: int = 1) -> None:
        """Lines of the log could not be written."""
        self._add(catalogue.LOG_LINES_LOST, number)

    def store_up(self) -> None:
        """The store of the rate limits answers (again)."""
        self._set(catalogue.STORE_UP, 1)

    def store_away(self) -> None:
        """The store of the rate limits does not answer."""
        self._set(catalogue.STORE_UP, 0)

    def counted_locally(self) -> None:
        """A request was counted in this process alone, as the store of the rate limits is away."""
        self._add(catalogue.STORE_FALLBACKS, 1)

    def keys_not_read(self) -> None:
        """The file of the keys has changed and could not be read; the keys read before stay in force."""
        self._add(catalogue.KEY_RELOAD_FAILURES, 1)

    def long_work_waits(self, by: int) -> None:
        """So many more requests wait for their first turn at long work; fewer where it is below zero."""
        self._add(catalogue.LONG_WORK_WAITING, by)

    def workers_up(self, number: int) -> None:
        """So many workers run now. The process that looks after them says so."""
        self._set(catalogue.WORKERS_UP, number)

    def worker_replaced(self) -> None:
        """A worker that ended by itself was replaced. The process that looks after them says so."""
        self._add(catalogue.WORKER_RESTARTS, 1)

    def _add(self, metric: Metric, number: float, labels: tuple[str, ...] = ()) -> None:
        if self.board is not None:
            with self._lock:
                self.board.cells[self.board.place(metric, labels)] += number

    def _set(self, metric: Metric, value: float) -> None:
        if self.board is not None:
            with self._lock:
                self.board.cells[self.board.place(metric)] = value


COUNTED: Final = Counted()
"""The events of this process."""
