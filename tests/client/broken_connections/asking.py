"""Asks by either client alike, so that each test holds for both."""

import asyncio
from collections.abc import Callable
from typing import Any

import pytest

from footvalve_client import AsyncFootvalve, Footvalve, Pipe, PipeSize

Ask = Callable[[Any], Any]


def blocking(url: str, *asks: Ask, **options: Any) -> Any:
    """Asks one thing after the other by one client that blocks, and gives what came of the last."""
    with Footvalve(url, **options) as service:
        return [ask(service) for ask in asks][-1]


def awaited(url: str, *asks: Ask, **options: Any) -> Any:
    """The same by one client that is awaited."""

    async def asked() -> Any:
        async with AsyncFootvalve(url, **options) as service:
            return [await ask(service) for ask in asks][-1]

    return asyncio.run(asked())


by_both = pytest.mark.parametrize("asked", [blocking, awaited])


def live(service: Any) -> Any:
    """A question without a body."""
    return service.live()


def friction(service: Any) -> Any:
    """A question with one."""
    return service.friction(
        flow="5 gal/min", line=[Pipe(length="45 ft", size=PipeSize(product="pe-sidr-15", nominal="1"))]
    )
