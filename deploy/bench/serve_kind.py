"""One of the kinds on a free port of 127.0.0.1, by the server of `footvalve serve`, until a signal ends it.

python -m bench.serve_kind ready
"""

import sys

from bench.kinds import KINDS

from footvalve.serving.listener import listen, spelled
from footvalve.serving.processes import around_service
from footvalve.serving.server import Server
from footvalve.serving.standard_streams import say
from footvalve.web.settings import Settings


def main(kind: str) -> None:
    """Answer until stopped."""
    settings = Settings.from_environment()
    with around_service(settings, workers=1):
        app = KINDS[kind](settings)
        with listen("127.0.0.1", 0) as listening:
            say(f"{kind} listens on http://{spelled(listening)}")
            Server(app, settings, listening).run()


if __name__ == "__main__":
    main(*sys.argv[1:])
