"""The service in this process: its own application answers, in the thread of an event loop that is kept for it."""

import asyncio
import atexit
from collections.abc import Coroutine
from functools import cache
from threading import Lock, Thread
from typing import Any, TypeVar

import httpx

from footvalve_client._offline_transport import OfflineTransport

ResultT = TypeVar("ResultT")

_starting = Lock()


class ServiceTransport(OfflineTransport):
    """Answers as the service does, which must be installed here. Raises ModuleNotFoundError where it is not.

    All in one process share one application, with its own settings whatever the environment says.
    """

    def __init__(self) -> None:
        with _starting:
            self._service = _service()

    def answered(self, request: httpx.Request, library: Any) -> httpx.Response:
        """The service's response."""
        return self._service.run(_answered(self._service.application, request, library))


class _Service:
    """The application, and the loop that it runs in."""

    def __init__(self, application: Any) -> None:
        self.application = application
        self._loop = asyncio.new_event_loop()
        self._thread = Thread(target=self._loop.run_forever, name="footvalve-service", daemon=True)
        self._thread.start()
        atexit.register(self._stop)

    def run(self, coroutine: Coroutine[Any, Any, ResultT]) -> ResultT:
        """What the coroutine returns, from any thread but the loop's own."""
        return asyncio.run_coroutine_threadsafe(coroutine, self._loop).result()

    def _stop(self) -> None:
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join()
        self._loop.close()


@cache
def _service() -> _Service:
    try:
        from footvalve.web.application import create_app  # noqa: PLC0415
        from footvalve.web.settings import Settings  # noqa: PLC0415
    except ModuleNotFoundError as missing:
        if missing.name and missing.name.partition(".")[0] == "footvalve":
            raise ModuleNotFoundError(
                "the service is not installed here: install the distribution footvalve", name="footvalve"
            ) from None
        raise
    return _Service(create_app(Settings()))


async def _answered(application: Any, request: httpx.Request, library: Any) -> httpx.Response:
    response = await library.ASGITransport(application).handle_async_request(request)
    content = await response.aread()
    answered: httpx.Response = library.Response(response.status_code, headers=response.headers, content=content)
    return answered
