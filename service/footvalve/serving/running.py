"""The whole service, from its settings to its end."""

import logging
import socket

from footvalve import __version__
from footvalve.serving.keys_to_hand_on import keys_to_hand_on
from footvalve.serving.listener import address_of, listen, spelled
from footvalve.serving.open_files import allow_files
from footvalve.serving.processes import around_service
from footvalve.serving.standard_streams import fill_gaps, let_go, say
from footvalve.serving.start_checks import check_start, doubts
from footvalve.serving.supervisor import Supervisor
from footvalve.web.metrics import COUNTED
from footvalve.web.settings import Settings

_log = logging.getLogger(__name__)


def run_service(settings: Settings, host: str, port: int, workers: int) -> int:
    """Answer over HTTP until a signal ends it; the exit code. Raises BadSetting, and CannotListen."""
    fill_gaps()
    check_start(settings, address_of(host, port), workers)
    try:
        with around_service(settings, workers):
            for doubt in doubts(settings):
                _log.warning("%s", doubt)
            allow_files(settings.connection_limit)
            return _listen_and_run(settings, host, port, workers)
    finally:
        let_go()


def _listen_and_run(settings: Settings, host: str, port: int, workers: int) -> int:
    if workers > 1:
        keys = keys_to_hand_on(settings)
        with listen(host, port) as listening:
            _say_where(listening)
            return Supervisor(listening, workers, settings, keys).run()
    return _answer_alone(settings, host, port)


def _answer_alone(settings: Settings, host: str, port: int) -> int:
    # imported here, as a keeper of workers needs none of it; and before the listening, so that nobody waits meanwhile
    from footvalve.serving.server import Server  # noqa: PLC0415
    from footvalve.web.application import create_app  # noqa: PLC0415

    app = create_app(settings)
    with listen(host, port) as listening:
        _say_where(listening)
        COUNTED.workers_up(1)
        Server(app, settings, listening).run()
    return 0


def _say_where(listening: socket.socket) -> None:
    say(f"footvalve {__version__} listens on http://{spelled(listening)}")
