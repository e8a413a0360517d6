"""Clients of the real service: over a loopback socket, and in process."""

import asyncio
from collections.abc import Callable, Coroutine, Iterator
from typing import Any, TypeVar

import httpx
import pytest

from footvalve_client import AsyncFootvalve, Footvalve

Result = TypeVar("Result")


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
