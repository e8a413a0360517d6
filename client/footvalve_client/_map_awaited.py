"""`map` for a client that is awaited: its requests go out from tasks of asyncio."""

import asyncio
from collections import deque
from collections.abc import AsyncIterable, AsyncIterator
from typing import TYPE_CHECKING, Any

from footvalve_client._errors import BodyTooLarge, FootvalveError
from footvalve_client._map import WINDOW, Advance, AwaitedBodies, AwaitedResults
from footvalve_client._map_batch import BATCH, Batch, Gathering, ItemAnswers
from footvalve_client._map_result import MapResult, MapStopped

if TYPE_CHECKING:
    from footvalve_client._generated.operations import AsyncOperations

_Found = list[MapResult[Any]]
_Window = deque[tuple[Batch, asyncio.Task[_Found]]]


async def results(
    service: "AsyncOperations", gathering: Gathering, bodies: AwaitedBodies[Any], concurrency: int, advance: Advance
) -> AwaitedResults[Any]:
    """The results in order, while the bodies are pulled."""
    window: _Window = deque()
    turns = asyncio.Semaphore(concurrency)
    try:
        with advance as told:
            async for batch in _batches(gathering, bodies):
                window.append((batch, asyncio.create_task(_asked_in_turn(service, batch, turns))))
                while window and (len(window) >= WINDOW * concurrency or window[0][1].done()):
                    for result in await _first(window):
                        yield result
                        told()
            while window:
                for result in await _first(window):
                    yield result
                    told()
            if gathering.failure:
                raise gathering.failure
    finally:
        await _cancelled([task for _, task in window])


async def _batches(gathering: Gathering, bodies: AwaitedBodies[Any]) -> AsyncIterator[Batch]:
    """The last of them holds what was pulled before the bodies failed, if they did."""
    try:
        if isinstance(bodies, AsyncIterable):
            async for body in bodies:
                for batch in gathering.take(body):
                    yield batch
        else:
            for body in bodies:
                for batch in gathering.take(body):
                    yield batch
    except Exception as error:  # raised as it is, behind the results
        gathering.failure = error
    for batch in gathering.rest():
        yield batch


async def _first(window: _Window) -> _Found:
    batch, task = window[0]
    try:
        found = await task
    except FootvalveError as error:
        raise MapStopped(batch.first, error) from error
    window.popleft()
    return found


async def _cancelled(tasks: list[asyncio.Task[_Found]]) -> None:
    for task in tasks:
        task.cancel()
    await asyncio.gather(*tasks, return_exceptions=True)


async def _asked_in_turn(service: "AsyncOperations", batch: Batch, turns: asyncio.Semaphore) -> _Found:
    async with turns:
        return await _asked(service, batch)


async def _asked(service: "AsyncOperations", batch: Batch) -> _Found:
    """The results of a batch; in halves where it is more than the service takes at once."""
    question = batch.question
    if question is None:
        return batch.results([])
    try:
        answered = await service._ask("POST", BATCH, ItemAnswers, question)  # pyright: ignore[reportPrivateUsage]
    except BodyTooLarge as error:
        halves = batch.halves()
        if halves is None:
            return batch.refused(error)
    else:
        return batch.results(answered.items)
    return [result for half in halves for result in await _asked(service, half)]
