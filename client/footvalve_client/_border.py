"""All that this client needs of an HTTP library, so that a caller may lend a client of httpx or of httpx2.

Neither is imported here: that of a lent client is there already.
"""

import sys
from collections.abc import Mapping
from typing import Any, Final, NamedTuple, Protocol

LIBRARIES: Final = ("httpx", "httpx2")
"""The libraries whose clients will do: the second continues the first, and names everything alike."""


class Timeouts(Protocol):
    """Seconds for each phase of a request, as `httpx.Timeout` and `httpx2.Timeout` hold them."""

    def as_dict(self) -> dict[str, float | None]:
        """The seconds under `connect`, `read`, `write` and `pool`; None for no limit."""
        ...


class HttpResponse(Protocol):
    """The head of an answer."""

    @property
    def status_code(self) -> int:
        """The HTTP status."""
        ...

    @property
    def headers(self) -> Mapping[str, str]:
        """The headers, in any case."""
        ...


class _Requests(Protocol):
    """What both kinds of client have."""

    @property
    def timeout(self) -> Any:
        """What limits a request that says nothing of its own, as `Timeouts`."""
        ...

    def build_request(
        self,
        method: str,
        url: str,
        *,
        content: bytes | None = None,
        headers: Mapping[str, str] | None = None,
        extensions: dict[str, Any] | None = None,
    ) -> Any:
        """A request with the client's own headers and cookies merged in."""
        ...


class HttpClient(_Requests, Protocol):
    """`httpx.Client` or `httpx2.Client`."""

    def send(self, request: Any, *, stream: bool = False) -> Any:
        """Send a request, and return with the head of its answer."""
        ...

    def close(self) -> None:
        """Close the connections."""
        ...


class AsyncHttpClient(_Requests, Protocol):
    """`httpx.AsyncClient` or `httpx2.AsyncClient`."""

    async def send(self, request: Any, *, stream: bool = False) -> Any:
        """Send a request, and return with the head of its answer."""
        ...

    async def aclose(self) -> None:
        """Close the connections."""
        ...


class Library(NamedTuple):
    """The exceptions of the library that a client is of."""

    failures: tuple[type[Exception], ...]
    """All that can go wrong on the way."""
    timeouts: tuple[type[Exception], ...]
    """Those of them that come of waiting too long."""
    passing: tuple[type[Exception], ...]
    """Those of them that may not be there at the next try."""


def library_of(client: object, kind: str) -> Library:
    """The library of a client, whose class is of this name or below it. Raises TypeError for any other client."""
    for ancestor in type(client).__mro__:
        if ancestor.__name__ == kind and (name := ancestor.__module__.partition(".")[0]) in LIBRARIES:
            module = sys.modules[name]
            timeouts = (module.TimeoutException, TimeoutError)
            return Library(
                failures=(module.HTTPError, TimeoutError),
                timeouts=timeouts,
                passing=(module.NetworkError, module.RemoteProtocolError, *timeouts),
            )
    wanted = " or ".join(f"{name}.{kind}" for name in LIBRARIES)
    raise TypeError(f"http_client must be of {wanted}, not {type(client).__module__}.{type(client).__qualname__}")
