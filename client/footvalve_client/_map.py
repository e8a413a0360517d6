"""`map`: any number of bodies to one endpoint, in few requests, some of them at once, and the results in order.

A window of requests is kept: those on their way, and as many that wait for whoever takes their results. When it is
full, no more bodies are pulled.
"""

from collections.abc import AsyncGenerator, AsyncIterable, Callable, Generator, Iterable, Mapping, Sized
from contextlib import AbstractContextManager, nullcontext
from typing import TYPE_CHECKING, Any, Final, TypeVar

from footvalve_client._answer import AnswerPart
from footvalve_client._map_batch import MOST_BODIES, Asked, Gathering
from footvalve_client._map_result import MappedT_co, MapResult
from footvalve_client._request import RequestPart, kind_of

if TYPE_CHECKING:
    from footvalve_client._generated.operations import AsyncOperations, Operations

BodyT = TypeVar("BodyT", bound=RequestPart)

Bodies = Iterable[BodyT | Mapping[str, object]]
AwaitedBodies = Bodies[BodyT] | AsyncIterable[BodyT | Mapping[str, object]]
Results = Generator[MapResult[MappedT_co], None, None]
AwaitedResults = AsyncGenerator[MapResult[MappedT_co], None]

Kinds = Mapping[str, tuple[type[RequestPart], type[AnswerPart]]]

Advance = AbstractContextManager[Callable[[], object]]
"""In whose context each result is told to whoever shows how far it has come."""

WINDOW: Final = 2
"""Requests in the window for each that is on its way at once."""


def mapped(
    service: "Operations",
    endpoint: str,
    kinds: Kinds,
    bodies: Bodies[Any],
    concurrency: int,
    batch_size: int,
    progress: bool,
) -> Results[Any]:
    """The results of a client that blocks. Arguments out of range raise at once, not with the first result."""
    from footvalve_client._map_blocking import results  # noqa: PLC0415  # threads, for those who use it alone

    gathering = _gathering(endpoint, kinds, concurrency, batch_size)
    return results(service, gathering, bodies, concurrency, _advance(progress, endpoint, bodies))


def mapped_awaited(
    service: "AsyncOperations",
    endpoint: str,
    kinds: Kinds,
    bodies: AwaitedBodies[Any],
    concurrency: int,
    batch_size: int,
    progress: bool,
) -> AwaitedResults[Any]:
    """The results of a client that is awaited. Arguments out of range raise at once, not with the first result."""
    from footvalve_client._map_awaited import results  # noqa: PLC0415  # asyncio, for those who use it alone

    gathering = _gathering(endpoint, kinds, concurrency, batch_size)
    return results(service, gathering, bodies, concurrency, _advance(progress, endpoint, bodies))


def _gathering(endpoint: str, kinds: Kinds, concurrency: int, batch_size: int) -> Gathering:
    kind_of(endpoint, {name: answer for name, (_, answer) in kinds.items()})
    if concurrency < 1:
        raise ValueError(f"concurrency must be 1 or more, not {concurrency!r}")
    if not 1 <= batch_size <= MOST_BODIES:
        raise ValueError(f"batch_size must be from 1 to {MOST_BODIES}, not {batch_size!r}")
    return Gathering(Asked(endpoint, *kinds[endpoint]), batch_size)


def _advance(progress: bool, endpoint: str, bodies: object) -> Advance:
    if not progress:
        return nullcontext(lambda: None)
    from footvalve_client._progress import progress_bar  # noqa: PLC0415

    return progress_bar(endpoint, len(bodies) if isinstance(bodies, Sized) else None)
