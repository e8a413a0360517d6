"""The folder through which workers tell the process that looks after them what they have counted.

Each worker holds a slot: a file of its numbers, a file of their names, and the lock of a third file as long as it
lives. Who takes the slot of a worker that has ended counts on from its numbers: nothing is lost, nothing piles up.
"""

import fcntl
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from itertools import count
from math import nan
from mmap import mmap
from pathlib import Path

import msgspec

from footvalve.web.metrics_board import MOST_CELLS, Board, Reading, Series, readings_of
from footvalve.web.metrics_catalogue import METRICS

_PREFIX = "footvalve-metrics-"
_BYTES = 8 * MOST_CELLS
_IN_MEMORY = Path("/dev/shm")  # on a disk, writing pages back could stop a worker for a while

_decode_series = msgspec.json.Decoder(Series).decode


class Folder:
    """A new folder for one run; those of runs that were killed are deleted. Raises OSError where none can be made."""

    def __init__(self) -> None:
        above = _IN_MEMORY if os.access(_IN_MEMORY, os.W_OK) else Path(tempfile.gettempdir())
        for left_behind in above.glob(f"{_PREFIX}*"):
            _delete_unused(left_behind)
        self.path, self._lock = _made(above)

    def close(self) -> None:
        """Delete it with all that is in it."""
        shutil.rmtree(self.path, ignore_errors=True)
        os.close(self._lock)

    def slots(self) -> Iterator["Slot"]:
        """Every slot that a worker has ever taken."""
        for lock in self.path.glob("*.lock"):
            yield Slot(self.path, int(lock.stem))


class Slot:
    """What one worker after another writes, at most one at a time."""

    def __init__(self, folder: Path, number: int) -> None:
        self.number = number
        self.lock = folder / f"{number}.lock"
        self.names = folder / f"{number}.names"
        self.cells = folder / f"{number}.cells"

    def process(self) -> int | None:
        """The id of the process that holds it; None where that has ended."""
        with self.lock.open("rb") as file:
            if _locked(file.fileno(), fcntl.LOCK_SH):
                return None
            return int(file.read() or b"0") or None

    def readings(self) -> Iterator[Reading]:
        """Every series with its numbers as they stand."""
        with suppress(FileNotFoundError):
            names, cells = self.names.read_bytes(), self.cells.read_bytes()
            yield from readings_of(_series_in(names), memoryview(cells).cast("d"))


class SharedBoard(Board):
    """Numbers that another process can read, also after this one was killed.

    Room for all of them is taken at once: a full disk raises OSError here, and can stop nothing later.
    """

    def __init__(self, folder: Path) -> None:
        slot, self._lock = _taken_slot(folder)
        with slot.cells.open("a+b") as file:
            file.write(bytes(_BYTES - file.tell()))
            file.flush()
            super().__init__(memoryview(mmap(file.fileno(), _BYTES)))
        self._names = os.open(slot.names, os.O_RDWR | os.O_APPEND | os.O_CREAT, 0o600)
        self._take_over(slot.names.read_bytes())

    def close(self) -> None:
        """Leave the slot to another process."""
        os.close(self._names)
        os.close(self._lock)

    def _take_over(self, names: bytes) -> None:
        """Count on from the numbers of who held the slot before. How things stood with it is over."""
        os.ftruncate(self._names, names.rfind(b"\n") + 1)
        for series in _series_in(names):
            place = self._allotted(series)
            if METRICS[series[0]].kind in {"sum", "least"}:
                self.cells[place] = nan

    def _noted(self, series: Series) -> bool:
        line = msgspec.json.encode(series) + b"\n"
        with suppress(OSError):
            length = os.fstat(self._names).st_size
            if os.write(self._names, line) == len(line):
                return True
            os.ftruncate(self._names, length)
        return False


def _series_in(names: bytes) -> list[Series]:
    """The series of a file of names; a last line that is not whole does not count."""
    return [_decode_series(line) for line in names[: names.rfind(b"\n") + 1].splitlines()]


def _made(above: Path) -> tuple[Path, int]:
    """A new folder with its lock. Another start may have taken it for left behind before it was locked."""
    while True:
        path = Path(tempfile.mkdtemp(prefix=_PREFIX, dir=above))
        with suppress(FileNotFoundError):
            lock = os.open(path, os.O_RDONLY)
            if _locked(lock, fcntl.LOCK_EX) and path.exists():
                return path, lock
            os.close(lock)


def _delete_unused(folder: Path) -> None:
    """Delete a folder that no process holds, if it is this user's."""
    with suppress(OSError):
        lock = os.open(folder, os.O_RDONLY | os.O_NOFOLLOW)
        if os.fstat(lock).st_uid == os.getuid() and _locked(lock, fcntl.LOCK_EX):
            shutil.rmtree(folder)
        os.close(lock)


def _taken_slot(folder: Path) -> tuple[Slot, int]:
    """The first slot that nobody holds, with its lock."""
    for number in count():
        slot = Slot(folder, number)
        lock = os.open(slot.lock, os.O_RDWR | os.O_CREAT, 0o600)
        if _locked(lock, fcntl.LOCK_EX):
            os.ftruncate(lock, 0)
            os.write(lock, b"%d" % os.getpid())
            return slot, lock
        os.close(lock)
    raise AssertionError("there is always another number")


def _locked(file: int, how: int) -> bool:
    try:
        fcntl.flock(file, how | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True
