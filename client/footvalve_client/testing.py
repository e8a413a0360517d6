"""Test what uses a Footvalve service without a network, and without a server.

    from footvalve_client import testing

    def test_the_first_example_is_feasible():
        with testing.offline() as service:
            example = testing.examples("suction-feasibility")[0]
            assert service.suction_feasibility(example.request).verdict == "feasible"

Where the distribution `footvalve` is installed, its own application answers, in this process: whatever the service
would answer or refuse. Where it is not, or with `source="recorded"`, the worked examples of the contract are answered
from recordings, alone or in a batch, and so by `map`; any other question raises `NotRecorded`, which tells the nearest
that is known. To try how code takes failures, lend a client of `httpx.MockTransport` instead.

`transport` is for HTTP clients of one's own: it fits `httpx.Client`, `httpx.AsyncClient`, and those of httpx2, though
a type checker knows it as one of httpx.
"""

from typing import Literal

import httpx

from footvalve_client._client import AsyncFootvalve, Footvalve
from footvalve_client._examples import Example
from footvalve_client._generated.examples import examples
from footvalve_client._in_process import ServiceTransport
from footvalve_client._offline_transport import OfflineTransport
from footvalve_client._recorded_transport import NotRecorded, RecordedTransport

__all__ = [
    "Example",
    "NotRecorded",
    "OfflineTransport",
    "Source",
    "examples",
    "offline",
    "offline_async",
    "transport",
]

Source = Literal["service", "recorded"]

URL = "http://footvalve.test"


def transport(source: Source | None = None) -> OfflineTransport:
    """A transport for an HTTP client, whose answers come from the service in this process, or from recordings.

    Without a source it is the service where that is installed. Raises ModuleNotFoundError for the service where it is
    not, and ValueError for another source.
    """
    if source not in (None, "service", "recorded"):
        raise ValueError(f'source must be "service" or "recorded", not {source!r}')
    if source == "recorded":
        return RecordedTransport()
    try:
        return ServiceTransport()
    except ModuleNotFoundError as missing:
        if source == "service" or missing.name != "footvalve":
            raise
    return RecordedTransport()


def offline(source: Source | None = None) -> Footvalve:
    """A client that needs no network. The source is that of `transport`, which tells what it raises."""
    return Footvalve(URL, http_client=httpx.Client(transport=transport(source)))


def offline_async(source: Source | None = None) -> AsyncFootvalve:
    """A client to be awaited that needs no network. The source is that of `transport`, which tells what it raises."""
    return AsyncFootvalve(URL, http_client=httpx.AsyncClient(transport=transport(source)))


for _named in (Example, NotRecorded, OfflineTransport, examples):
    _named.__module__ = __name__
