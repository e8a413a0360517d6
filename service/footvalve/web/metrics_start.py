"""Where counting begins: in the process that is started, which tells the metrics, and in each of its workers."""

import logging
import os
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Final

from footvalve.web.metrics import COUNTED
from footvalve.web.metrics_board import Board
from footvalve.web.setting import BadSetting
from footvalve.web.settings import Settings

if TYPE_CHECKING:
    from footvalve.web.metrics_folder import Folder

_FOLDER: Final = "FOOTVALVE_METRICS_FOLDER"
"""The environment variable in which the workers find their folder. It is no setting: each start makes its own."""

_log = logging.getLogger(__name__)


@contextmanager
def telling_metrics(settings: Settings, workers: int) -> Iterator[None]:
    """Tell the metrics of this process and its workers while the context lasts; nothing where there is no port.

    To be entered before the workers start. Raises BadSetting where the port, or with several workers a folder for what
    they count, cannot be had.
    """
    with ExitStack() as until_the_end:
        os.environ.pop(_FOLDER, None)
        if settings.metrics_port:
            _tell(settings, workers, until_the_end)
        yield


@contextmanager
def counting(settings: Settings) -> Iterator[None]:
    """Count what happens in this process, one of several workers, while the context lasts.

    Nothing where there is no port; and where its folder is full, the worker goes on without.
    """
    folder = os.environ.get(_FOLDER)
    with ExitStack() as until_the_end:
        if settings.metrics_port and folder:
            _count(Path(folder), until_the_end)
        yield


def _count(folder: Path, until_the_end: ExitStack) -> None:
    from footvalve.web.metrics_folder import SharedBoard  # noqa: PLC0415

    try:
        board = SharedBoard(folder)
    except OSError as error:
        _log.warning("this worker counts nothing for the metrics, as its folder cannot be used: %s", error.strerror)
        return
    until_the_end.callback(board.close)
    COUNTED.begin(board)
    until_the_end.callback(COUNTED.end)


def _tell(settings: Settings, workers: int, until_the_end: ExitStack) -> None:
    """Begin to count and to tell. What this needs is imported here: who tells nothing need not wait for it."""
    from footvalve.web.metrics_collector import MetricsCollector  # noqa: PLC0415
    from footvalve.web.metrics_server import telling  # noqa: PLC0415

    board = Board()
    folder = _folder_of_workers(until_the_end) if workers > 1 else None
    host, port = settings.metrics_host, settings.metrics_port
    try:
        until_the_end.enter_context(telling(MetricsCollector(board, folder), host, port))
    except OSError as error:
        why = str(error.strerror).partition(" (")[0]
        raise BadSetting(f"FOOTVALVE_METRICS_PORT cannot be {port}: cannot listen there on {host}: {why}.") from None
    COUNTED.begin(board)
    until_the_end.callback(COUNTED.end)


def _folder_of_workers(until_the_end: ExitStack) -> "Folder":
    from footvalve.web.metrics_folder import Folder  # noqa: PLC0415

    try:
        folder = Folder()
    except OSError as error:
        raise BadSetting(
            "FOOTVALVE_METRICS_PORT needs a folder for what the workers count, and none can be made: "
            f"{error.strerror}. Let TMPDIR name one that can be written to, or set the port to 0."
        ) from None
    until_the_end.callback(folder.close)
    os.environ[_FOLDER] = str(folder.path)
    until_the_end.callback(os.environ.pop, _FOLDER)
    return folder
