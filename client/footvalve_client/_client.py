"""The clients: the generated operations over httpx, one that blocks and one that is awaited.

httpx is imported with the first client that is made without a lent one, as it takes longer than all the rest.
"""

from copy import copy
from typing import TYPE_CHECKING, Any, Final, Self
from urllib.parse import urlsplit

from msgspec import UNSET, UnsetType

from footvalve_client._border import Library, library_of
from footvalve_client._errors import FootvalveError
from footvalve_client._exchange import AnswerT, Call
from footvalve_client._generated.operations import AsyncOperations, Operations
from footvalve_client._options import DEADLINE_SECONDS, MAX_RETRIES, TIMEOUT_SECONDS, Options
from footvalve_client._request import RequestPart
from footvalve_client._retry import may_repeat, rules
from footvalve_client._version import __version__

if TYPE_CHECKING:
    from types import TracebackType

    from footvalve_client._border import AsyncHttpClient, HttpClient, Timeouts

_USER_AGENT: Final = {"user-agent": f"footvalve-client/{__version__}"}


class _Client:
    """What both clients are made of, but for what is awaited."""

    _http: Any
    _library: Library

    def __init__(self, base_url: str, closes: bool, options: Options) -> None:
        self._base_url = _checked(base_url)
        self._closes = closes
        self._options = options

    def with_options(
        self,
        *,
        timeout: "float | Timeouts | UnsetType | None" = UNSET,
        deadline: float | UnsetType | None = UNSET,
        max_retries: int | UnsetType = UNSET,
        key: str | UnsetType | None = UNSET,
    ) -> Self:
        """A client with other options over the same connections, such as for one slow call.

        What is not given stays as it is here; all else is as at construction. Closing the connections stays with this
        client: there is no need to close the other.
        """
        other = copy(self)
        other._options = self._options.changed(timeout, deadline, max_retries, key)
        other._closes = False
        return other

    def _call(self, method: str, path: str, request: RequestPart | None, kind: type[AnswerT]) -> Call[AnswerT]:
        if self._http.is_closed:
            raise FootvalveError("the connections of this client are closed: make another client")
        return Call(method, self._base_url + path, request, kind, self._options, self._library)


class Footvalve(_Client, Operations):
    """A client of one Footvalve service, to be closed after use, as a `with` block does.

    Each call is safe to share between threads, and raises what `FootvalveError` stands over.
    """

    _http: "HttpClient"

    def __init__(
        self,
        base_url: str,
        *,
        http_client: "HttpClient | None" = None,
        timeout: "float | Timeouts | None" = None,
        deadline: float | None = DEADLINE_SECONDS,
        max_retries: int = MAX_RETRIES,
        key: str | None = None,
    ) -> None:
        """A client of the service at a URL such as "http://127.0.0.1:8000".

        `http_client` may be lent, an `httpx.Client` or an `httpx2.Client`: it keeps its own settings, and closing it
        stays with its owner.

        `timeout` is in seconds for each phase of a try, or a `Timeout` of either library with a limit for each;
        without it 10 s, or what the lent client has. `deadline` is in seconds for a call with all its tries and the
        waits between them; None for no limit. What is left of it bounds each phase, and cuts an answer that drips in;
        only with a lent client may the head of an answer drip on.

        `max_retries` is how often a call is tried again where there was no connection, it broke off, there was no
        answer in time, or the answer was 408, 429, 502, 503 or 504; 0 turns it off. A repeat does no harm, as the
        service keeps nothing. Waits grow from 0.2 s, with a random part; where the service tells by Retry-After how
        long to wait, that is waited. A wait that would pass the deadline is not begun: the failure is raised at once.

        `key` is what the operator of the service has given you, where it asks for one: it is sent with each request and
        shown in no message. Without it a lent client may still send an Authorization of its own.

        Raises ValueError for what is no http or https URL or is out of range, and TypeError for another lent client.
        """
        super().__init__(base_url, http_client is None, Options.of(timeout, deadline, max_retries, key))
        self._http = _own() if http_client is None else http_client
        self._library = library_of(self._http, "Client")

    def _ask(self, method: str, path: str, kind: type[AnswerT], request: RequestPart | None = None) -> AnswerT:
        call = self._call(method, path, request, kind)
        try:
            return self._try(call)
        except FootvalveError as error:
            if not may_repeat(call, error):
                raise
            failed = error
        return self._repeat(call, failed)

    def _try(self, call: Call[AnswerT]) -> AnswerT:
        try:
            with call.deadline.kept():
                response = self._http.send(call.next_try(self._http), stream=True)
                try:
                    content = bytearray()
                    for chunk in call.deadline.within(response.iter_bytes()):
                        content += chunk
                        call.check_size(response, len(content))
                finally:
                    response.close()
        except self._library.failures as error:
            raise call.failure(error) from error
        return call.answer(response, bytes(content))

    def _repeat(self, call: Call[AnswerT], failed: FootvalveError) -> AnswerT:
        from tenacity import Retrying  # noqa: PLC0415

        for attempt in Retrying(**rules(call)):
            with attempt:
                if attempt.retry_state.attempt_number == 1:
                    raise failed
                return self._try(call)
        raise failed

    def close(self) -> None:
        """Close the connections, unless they are those of a lent client, or of the client that this was made of."""
        if self._closes:
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


class AsyncFootvalve(_Client, AsyncOperations):
    """A client of one Footvalve service whose calls are awaited; to be closed after use, as `async with` does.

    Its calls raise what `FootvalveError` stands over.
    """

    _http: "AsyncHttpClient"

    def __init__(
        self,
        base_url: str,
        *,
        http_client: "AsyncHttpClient | None" = None,
        timeout: "float | Timeouts | None" = None,
        deadline: float | None = DEADLINE_SECONDS,
        max_retries: int = MAX_RETRIES,
        key: str | None = None,
    ) -> None:
        """A client of the service at a URL such as "http://127.0.0.1:8000".

        The arguments are those of `Footvalve`, but that `http_client` is an `httpx.AsyncClient` or an
        `httpx2.AsyncClient`, and that the deadline holds for the head of an answer with any client.
        """
        super().__init__(base_url, http_client is None, Options.of(timeout, deadline, max_retries, key))
        self._http = _own_awaited() if http_client is None else http_client
        self._library = library_of(self._http, "AsyncClient")

    async def _ask(self, method: str, path: str, kind: type[AnswerT], request: RequestPart | None = None) -> AnswerT:
        call = self._call(method, path, request, kind)
        try:
            return await self._try(call)
        except FootvalveError as error:
            if not may_repeat(call, error):
                raise
            failed = error
        return await self._repeat(call, failed)

    async def _try(self, call: Call[AnswerT]) -> AnswerT:
        from anyio import fail_after  # noqa: PLC0415  # there by now, with the library that sends

        try:
            with fail_after(call.deadline.left):
                response = await self._http.send(call.next_try(self._http), stream=True)
                try:
                    content = bytearray()
                    async for chunk in response.aiter_bytes():
                        content += chunk
                        call.check_size(response, len(content))
                finally:
                    await response.aclose()
        except self._library.failures as error:
            raise call.failure(error) from error
        return call.answer(response, bytes(content))

    async def _repeat(self, call: Call[AnswerT], failed: FootvalveError) -> AnswerT:
        from tenacity import AsyncRetrying  # noqa: PLC0415

        async for attempt in AsyncRetrying(**rules(call)):
            with attempt:
                if attempt.retry_state.attempt_number == 1:
                    raise failed
                return await self._try(call)
        raise failed

    async def aclose(self) -> None:
        """Close the connections, unless they are those of a lent client, or of the client that this was made of."""
        if self._closes:
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


def _own() -> "HttpClient":
    import httpx  # noqa: PLC0415

    from footvalve_client._bounded_network import watched  # noqa: PLC0415

    return watched(httpx.Client(timeout=TIMEOUT_SECONDS, headers=_USER_AGENT))


def _own_awaited() -> "AsyncHttpClient":
    import httpx  # noqa: PLC0415

    return httpx.AsyncClient(timeout=TIMEOUT_SECONDS, headers=_USER_AGENT)


def _checked(base_url: str) -> str:
    parts = urlsplit(base_url)
    if parts.scheme not in ("http", "https") or not parts.hostname:
        raise ValueError(f'base_url must be such as "http://127.0.0.1:8000", not {base_url!r}')
    return base_url.rstrip("/")
