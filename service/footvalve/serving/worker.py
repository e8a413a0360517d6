"""One of several server processes; its keeper starts it as `python -m footvalve.serving.worker`."""

import signal
import socket
import sys

from footvalve.serving.orders import Line
from footvalve.serving.processes import around_worker
from footvalve.serving.server import Server
from footvalve.web.application import create_app
from footvalve.web.settings import Settings


def main(listening_descriptor: str, line_descriptor: str) -> None:
    """Answer on a socket that was opened by the keeper, until it says that it is enough."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the terminal tells the keeper
    signal.signal(signal.SIGHUP, signal.SIG_IGN)
    listening = socket.socket(fileno=int(listening_descriptor))
    keeper = Line(socket.socket(fileno=int(line_descriptor)))
    settings = Settings.from_environment()
    with around_worker(settings):
        Server(create_app(settings), settings, listening, keeper).run()


if __name__ == "__main__":
    main(*sys.argv[1:])
