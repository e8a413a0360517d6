"""One of several server processes; its keeper starts it as `python -m footvalve.serving.worker`."""

import logging
import signal
import socket
import sys
from typing import Final

from footvalve.serving.keys_to_hand_on import handed_on
from footvalve.serving.orders import Line
from footvalve.serving.processes import around_worker
from footvalve.serving.server import Server
from footvalve.web.application import create_app
from footvalve.web.key_handed_on import HANDED_ON
from footvalve.web.log_start import logging_lines
from footvalve.web.settings import BadSetting, Settings

_CANNOT_GO_ON: Final = 2
"""The exit code of a worker that says in its log why it cannot be of use."""

_log = logging.getLogger("footvalve.serving.worker")  # as a process of its own it is __main__


def main(listening_descriptor: str, line_descriptor: str, keys_descriptor: str | None = None) -> int:
    """Answer on a socket that was opened by the keeper, until it says that it is enough; the exit code."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the terminal tells the keeper
    signal.signal(signal.SIGHUP, signal.SIG_IGN)
    listening = socket.socket(fileno=int(listening_descriptor))
    keeper = Line(socket.socket(fileno=int(line_descriptor)))
    if keys_descriptor is not None:
        HANDED_ON.octets = handed_on(int(keys_descriptor))
    try:
        settings = Settings.from_environment()
    except BadSetting as bad:
        return _told(Settings(), bad)
    try:
        with around_worker(settings):
            Server(create_app(settings), settings, listening, keeper).run()
    except Exception as error:  # it ends in a line of the log, as all else that happens here
        return _told(settings, error)
    return 0


def _told(settings: Settings, error: Exception) -> int:
    """Say in the log why this worker cannot go on; the exit code."""
    with logging_lines(settings):
        if isinstance(error, BadSetting):
            _log.error("this worker cannot start: %s", error)
        else:
            _log.error("this worker has ended by an exception", exc_info=error)
    return _CANNOT_GO_ON


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
