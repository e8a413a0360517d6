"""A transport of httpx or httpx2 whose answers come from this process, whichever way its client works."""

import sys
from abc import abstractmethod
from typing import Any

import httpx
from anyio import to_thread


class OfflineTransport(httpx.BaseTransport, httpx.AsyncBaseTransport):
    """Answers without a network. It may be lent to any number of clients, blocking and awaited, at once."""

    @abstractmethod
    def answered(self, request: httpx.Request, library: Any) -> httpx.Response:
        """The response of a request that is wholly read, both of this library."""

    def handle_request(self, request: httpx.Request) -> httpx.Response:
        """What a client that blocks calls."""
        request.read()
        return self.answered(request, _library(request))

    async def handle_async_request(self, request: httpx.Request) -> httpx.Response:
        """What a client that is awaited calls."""
        await request.aread()
        return await to_thread.run_sync(self.answered, request, _library(request), abandon_on_cancel=True)


def _library(request: httpx.Request) -> Any:
    """The library of a request; what sends a request has imported it."""
    return sys.modules[type(request).__module__.partition(".")[0]]
