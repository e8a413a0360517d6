"""The whole service, from its settings to its end."""

from footvalve import __version__
from footvalve.serving.listener import address_of, listen, spelled
from footvalve.serving.open_files import allow_files
from footvalve.serving.processes import around_service
from footvalve.serving.server import Server
from footvalve.serving.standard_streams import fill_gaps, let_go, say
from footvalve.serving.start_checks import check_start
from footvalve.serving.supervisor import Supervisor
from footvalve.web.application import create_app
from footvalve.web.metrics import COUNTED
from footvalve.web.settings import Settings


def run_service(settings: Settings, host: str, port: int, workers: int) -> int:
    """Answer over HTTP until a signal ends it; the exit code. Raises BadSetting, and CannotListen."""
    fill_gaps()
    check_start(settings, address_of(host, port), workers)
    try:
        with around_service(settings, workers):
            allow_files(settings.connection_limit)
            return _listen_and_run(settings, host, port, workers)
    finally:
        let_go()


def _listen_and_run(settings: Settings, host: str, port: int, workers: int) -> int:
    app = create_app(settings) if workers == 1 else None  # made first: nobody waits for it in the backlog
    with listen(host, port) as listening:
        say(f"footvalve {__version__} listens on http://{spelled(listening)}")
        if app is None:
            return Supervisor(listening, workers, settings).run()
        COUNTED.workers_up(1)
        Server(app, settings, listening).run()
        return 0
