"""The real service on a loopback socket, and examples that Hypothesis draws alike at every run.

To search with fresh examples: python -m pytest --hypothesis-profile fresh
"""

import socket
import threading
from collections.abc import Iterator
from typing import Any

import pytest
import uvicorn
from hypothesis import settings

from footvalve.web.application import create_app

BEFORE_GIVING_UP_S = 20

settings.register_profile("repeatable", derandomize=True, deadline=None, database=None)
settings.register_profile("fresh", deadline=None)
settings.load_profile("repeatable")


@pytest.fixture(scope="session")
def app() -> Any:
    """The application."""
    return create_app()


@pytest.fixture(scope="session")
def base_url(app: Any) -> Iterator[str]:
    """Where the application listens while the tests run."""
    listener = socket.create_server(("127.0.0.1", 0))
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", lifespan="off", ws="none"))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    yield "http://{}:{}".format(*listener.getsockname())
    server.should_exit = True
    thread.join(BEFORE_GIVING_UP_S)
    listener.close()
    assert not thread.is_alive(), "the server of the tests does not stop"
