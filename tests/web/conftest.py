"""What the tests of the wire share: the application in this process, and a way to send it raw bytes."""

import asyncio
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import httpx
import pytest
from litestar import Litestar

from footvalve.web.application import create_app
from footvalve.web.metrics import COUNTED
from footvalve.web.metrics_board import Board
from footvalve.web.settings import Settings

Send = Callable[..., httpx.Response]


@pytest.fixture(scope="session")
def app() -> Litestar:
    return create_app(Settings())


@pytest.fixture(scope="session")
def send_to() -> Callable[[Litestar], Send]:
    """For an application, the function that sends it one request."""

    def sender(app: Litestar) -> Send:
        async def sent(method: str, path: str, **parts: object) -> httpx.Response:
            transport = httpx.ASGITransport(app, raise_app_exceptions=False)
            async with httpx.AsyncClient(transport=transport, base_url="http://service.test") as client:
                return await client.request(method, path, **parts)

        return lambda method, path, **parts: asyncio.run(sent(method, path, **parts))

    return sender


@pytest.fixture(scope="session")
def send(app: Litestar, send_to: Callable[[Litestar], Send]) -> Send:
    """Send one request to the service as it stands."""
    return send_to(app)


@pytest.fixture(scope="session")
def post(send: Send) -> Send:
    """Post raw bytes as JSON to an endpoint, by its name."""

    def posted(endpoint: str, raw: bytes, **headers: str) -> httpx.Response:
        headers = {name.replace("_", "-"): value for name, value in headers.items()}
        return send("POST", f"/v1/{endpoint}", content=raw, headers={"content-type": "application/json"} | headers)

    return posted


@pytest.fixture(params=[">/dev/full", ">&-"], ids=["full", "closed"])
def unwritable(request: pytest.FixtureRequest) -> Callable[..., subprocess.CompletedProcess[str]]:
    """Runs the command where its standard output cannot be written to."""
    command = str(Path(sys.executable).with_name("footvalve"))

    def run(*arguments: str) -> subprocess.CompletedProcess[str]:
        shell = ["sh", "-c", f'exec "$@" {request.param}', "sh", command, *arguments]
        return subprocess.run(shell, stderr=subprocess.PIPE, text=True, check=False)

    return run


@pytest.fixture
def board() -> Iterator[Board]:
    """A board on which this process counts."""
    board = Board()
    COUNTED.begin(board)
    yield board
    COUNTED.end()
