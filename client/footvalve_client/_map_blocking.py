"""`map` for a client that blocks: its requests go out from threads."""

from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import TYPE_CHECKING, Any

from footvalve_client._errors import BodyTooLarge, FootvalveError
from footvalve_client._map import WINDOW, Advance, Bodies, Results
from footvalve_client._map_batch import BATCH, Batch, Gathering, ItemAnswers
from footvalve_client._map_result import MapResult, MapStopped

if TYPE_CHECKING:
    from footvalve_client._generated.operations import Operations

_Found = list[MapResult[Any]]
_Window = deque[tuple[Batch, Future[_Found]]]


def results(
    service: "Operations", gathering: Gathering, bodies: Bodies[Any], concurrency: int, advance: Advance
) -> Results[Any]:
    """The results in order, while the bodies are pulled."""
    window: _Window = deque()
    pool = ThreadPoolExecutor(concurrency, "footvalve-map")
    try:
        with advance as told:
            for batch in _batches(gathering, bodies):
                window.append((batch, pool.submit(_asked, service, batch)))
                while window and (len(window) >= WINDOW * concurrency or window[0][1].done()):
                    yield from _told(_first(window), told)
            while window:
                yield from _told(_first(window), told)
            if gathering.failure:
                raise gathering.failure
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _batches(gathering: Gathering, bodies: Bodies[Any]) -> Iterator[Batch]:
    """The last of them holds what was pulled before the bodies failed, if they did."""
    try:
        for body in bodies:
            yield from gathering.take(body)
    except Exception as error:  # raised as it is, behind the results
        gathering.failure = error
    yield from gathering.rest()


def _first(window: _Window) -> _Found:
    batch, future = window.popleft()
    try:
        return future.result()
    except FootvalveError as error:
        raise MapStopped(batch.first, error) from error


def _told(results: _Found, told: Callable[[], object]) -> Iterator[MapResult[Any]]:
    for result in results:
        yield result
        told()


def _asked(service: "Operations", batch: Batch) -> _Found:
    """The results of a batch; in halves where it is more than the service takes at once."""
    question = batch.question
    if question is None:
        return batch.results([])
    try:
        answered = service._ask("POST", BATCH, ItemAnswers, question)  # pyright: ignore[reportPrivateUsage]
    except BodyTooLarge as error:
        halves = batch.halves()
        if halves is None:
            return batch.refused(error)
    else:
        return batch.results(answered.items)
    return [result for half in halves for result in _asked(service, half)]
