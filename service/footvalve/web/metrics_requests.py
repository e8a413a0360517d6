"""What is counted of every request."""

from bisect import bisect_left

from footvalve.web.metrics_board import SPILL, Board
from footvalve.web.metrics_catalogue import BUCKETS, IN_PROGRESS, PROBLEMS, REQUESTS, SECONDS

_SUM = len(BUCKETS) + 1
"""Where a histogram has the sum: after its buckets and what is above them."""


class RequestCounts:
    """The numbers of requests on one board. Path, method, status and problem must each come from a closed list."""

    __slots__ = ("_board", "_cells", "_in_progress", "_places")

    def __init__(self, board: Board) -> None:
        self._board = board
        self._cells = board.cells
        self._in_progress = board.place(IN_PROGRESS)
        self._cells[self._in_progress] = 0
        self._places: dict[tuple[str, str, int | None], tuple[int, int]] = {}

    def begin(self) -> None:
        """A request has begun."""
        self._cells[self._in_progress] += 1

    def end(self, path: str, method: str, status: int | None, seconds: float) -> None:
        """A request has ended; without a status where no answer had begun."""
        cells, key = self._cells, (path, method, status)
        requests, histogram = self._places.get(key) or self._placed(key)
        cells[self._in_progress] -= 1
        cells[requests] += 1
        cells[histogram + bisect_left(BUCKETS, seconds)] += 1
        cells[histogram + _SUM] += seconds

    def problem(self, slug: str) -> None:
        """A request was answered by this kind of problem."""
        self._cells[self._board.place(PROBLEMS, (slug,))] += 1

    def _placed(self, key: tuple[str, str, int | None]) -> tuple[int, int]:
        path, method, status = key
        requests = self._board.place(REQUESTS, (path, method, "none" if status is None else str(status)))
        histogram = self._board.place(SECONDS, (path,))
        if SPILL not in (requests, histogram):
            self._places[key] = requests, histogram
        return requests, histogram
