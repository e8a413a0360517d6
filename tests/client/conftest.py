"""The real service, for the client to talk to: over a loopback socket, and in process."""

import asyncio
import socket
import threading
from collections.abc import Callable, Coroutine, Iterator
from typing import Any, TypeVar

import httpx
import pytest
import uvicorn

from footvalve.web.application import create_app
from footvalve_client import AsyncFootvalve, Footvalve

Result = TypeVar("Result")

BEFORE_GIVING_UP_S = 20


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


@pytest.fixture(scope="session")
def service(base_url: str) -> Iterator[Footvalve]:
    """A client of the application."""
    with Footvalve(base_url) as client:
        yield client


@pytest.fixture
def awaited(app: Any) -> Callable[[Callable[[AsyncFootvalve], Coroutine[Any, Any, Result]]], Result]:
    """Runs what is to be awaited with a client of the application, in process."""

    def run(ask: Callable[[AsyncFootvalve], Coroutine[Any, Any, Result]]) -> Result:
        async def asked() -> Result:
            async with httpx.AsyncClient(transport=httpx.ASGITransport(app)) as http_client:
                return await ask(AsyncFootvalve("http://footvalve.test", http_client=http_client))

        return asyncio.run(asked())

    return run
