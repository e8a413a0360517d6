"""The clients: the generated operations over httpx, one that blocks and one that is awaited.

httpx is imported with the first client that is made, as it takes longer than all the rest.
"""

from typing import TYPE_CHECKING, Final, Self
from urllib.parse import urlsplit

from footvalve_client._exchange import AnswerT, answer, carried, question
from footvalve_client._generated.operations import AsyncOperations, Operations
from footvalve_client._request import RequestPart
from footvalve_client._version import __version__

if TYPE_CHECKING:
    from types import TracebackType

    import httpx

TIMEOUT_SECONDS: Final = 10.0
"""How long each phase of a call may take where nobody says."""

_USER_AGENT: Final = {"user-agent": f"footvalve-client/{__version__}"}


class Footvalve(Operations):
    """A client of one Footvalve service, to be closed after use, as a `with` block does.

    Each call is safe to share between threads, and raises what `FootvalveError` stands over.
    """

    def __init__(
        self,
        base_url: str,
        *,
        http_client: "httpx.Client | None" = None,
        timeout: "float | httpx.Timeout | None" = None,
    ) -> None:
        """A client of the service at a URL such as "http://127.0.0.1:8000".

        `http_client` may be lent: it keeps its own settings, and closing it stays with its owner. `timeout` is in
        seconds for each phase of a call; without it 10 s, or what the lent client has. Raises ValueError for what is
        no http or https URL.
        """
        import httpx  # noqa: PLC0415

        self._base_url = _checked(base_url)
        self._timeout = httpx.USE_CLIENT_DEFAULT if timeout is None else timeout
        self._lent = http_client is not None
        self._http = http_client or httpx.Client(timeout=TIMEOUT_SECONDS, headers=_USER_AGENT)

    def _ask(self, method: str, path: str, kind: type[AnswerT], request: RequestPart | None = None) -> AnswerT:
        asked = question(method, self._base_url + path, request)
        with carried(asked):
            response = self._http.request(
                method, asked.url, content=asked.content, headers=asked.headers, timeout=self._timeout
            )
        return answer(asked, response, kind)

    def close(self) -> None:
        """Close the connections, unless they are those of a lent client."""
        if not self._lent:
            self._http.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None = None,
        error: BaseException | None = None,
        traceback: "TracebackType | None" = None,
    ) -> None:
        self.close()


class AsyncFootvalve(AsyncOperations):
    """A client of one Footvalve service whose calls are awaited; to be closed after use, as `async with` does.

    Its calls raise what `FootvalveError` stands over.
    """

    def __init__(
        self,
        base_url: str,
        *,
        http_client: "httpx.AsyncClient | None" = None,
        timeout: "float | httpx.Timeout | None" = None,
    ) -> None:
        """A client of the service at a URL such as "http://127.0.0.1:8000".

        `http_client` may be lent: it keeps its own settings, and closing it stays with its owner. `timeout` is in
        seconds for each phase of a call; without it 10 s, or what the lent client has. Raises ValueError for what is
        no http or https URL.
        """
        import httpx  # noqa: PLC0415

        self._base_url = _checked(base_url)
        self._timeout = httpx.USE_CLIENT_DEFAULT if timeout is None else timeout
        self._lent = http_client is not None
        self._http = http_client or httpx.AsyncClient(timeout=TIMEOUT_SECONDS, headers=_USER_AGENT)

    async def _ask(self, method: str, path: str, kind: type[AnswerT], request: RequestPart | None = None) -> AnswerT:
        asked = question(method, self._base_url + path, request)
        with carried(asked):
            response = await self._http.request(
                method, asked.url, content=asked.content, headers=asked.headers, timeout=self._timeout
            )
        return answer(asked, response, kind)

    async def aclose(self) -> None:
        """Close the connections, unless they are those of a lent client."""
        if not self._lent:
            await self._http.aclose()

    async def __aenter__(self) -> Self:
        return self

    async def __aexit__(
        self,
        kind: type[BaseException] | None = None,
        error: BaseException | None = None,
        traceback: "TracebackType | None" = None,
    ) -> None:
        await self.aclose()


def _checked(base_url: str) -> str:
    parts = urlsplit(base_url)
    if parts.scheme not in ("http", "https") or not parts.hostname:
        raise ValueError(f'base_url must be such as "http://127.0.0.1:8000", not {base_url!r}')
    return base_url.rstrip("/")
