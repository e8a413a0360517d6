"""Who may ask, and how much: what a request to /v1/ passes before it is routed.

All else is free: the contract, the pages, and what tells whether the service is well. So is OPTIONS, as a browser sends
its preflight without a key, and before a request that is counted itself.
"""

from collections.abc import Collection
from datetime import UTC, datetime
from typing import Final

from litestar.types import ASGIApp, Message, Receive, Scope, Send
from msgspec.structs import replace

from footvalve.web import problem_types as kinds
from footvalve.web.allowance import Allowance
from footvalve.web.client_address import ClientAddresses
from footvalve.web.key_presented import presented_key, unauthenticated
from footvalve.web.key_ring import KeyRing
from footvalve.web.layer import decline
from footvalve.web.problems import Declined
from footvalve.web.rate_counters import Counters
from footvalve.web.rate_store import Store
from footvalve.web.service_answers import Health
from footvalve.web.settings import Settings
from footvalve.web.visit import Visit, begin_visit

_COVERED: Final = "/v1/"
_CHARGED_BY_ITS_ITEMS: Final = "/v1/batch"
_UNKNOWN_KEY: Final = b'Bearer error="invalid_token"'


class Access:
    """Who may ask a service of these endpoints, and how much, by its settings. Raises BadSetting."""

    def __init__(self, settings: Settings, endpoints: Collection[str]) -> None:
        self._endpoints = {f"{_COVERED}{name}": name for name in endpoints}
        self._needs_a_key = settings.needs_a_key
        self._anonymous: Allowance | None = settings.anonymous_limit
        self._addresses = ClientAddresses(settings.trusted_proxies)
        self._keys = key_ring(settings, endpoints)
        self._is_open = self._keys is None and self._anonymous is None
        self._counters = Counters(None if self._is_open else _store(settings.counters_url))

    def layer(self, app: ASGIApp) -> ASGIApp:
        """The application with this around it; itself where everybody may ask as much as they like."""
        if self._is_open:
            return app

        async def guarded(scope: Scope, receive: Receive, send: Send) -> None:
            if not scope["path"].startswith(_COVERED) or scope.get("method") == "OPTIONS":
                await app(scope, receive, send)
                return
            try:
                visit = await self._admitted(scope)
            except Declined as refusal:
                await decline(refusal, scope, receive, send)
                return
            begin_visit(scope, visit)
            if visit.allowance is None:
                await app(scope, receive, send)
                return
            send = _telling(visit, send)
            try:
                await self._charge(scope["path"], visit)
            except Declined as refusal:
                await decline(refusal, scope, receive, send)
            else:
                await app(scope, receive, send)

        return guarded

    async def health(self) -> Health:
        """That the service is ready; so it is without the store of the counters, and with a broken file of keys."""
        health = Health("ready")
        together = await self._counters.are_together()
        if together is not None:
            health = replace(health, counters="together" if together else "alone")
        if self._keys is not None:
            await self._keys.refresh()
            health = replace(health, keys="current" if self._keys.is_current else "outdated")
        return health

    async def _admitted(self, scope: Scope) -> Visit:
        """Whose request it is. Raises Declined for who may not ask it."""
        if self._keys is not None:
            presented = presented_key(scope)
            if presented is not None:
                return await self._with_key(self._keys, presented, scope["path"])
            if self._needs_a_key:
                raise unauthenticated(kinds.UNAUTHENTICATED.remedy)
        return Visit(self._counters, "anonymous", self._addresses.of(scope), self._anonymous)

    async def _with_key(self, keys: KeyRing, presented: bytes, path: str) -> Visit:
        await keys.refresh()
        key = keys.find(presented)
        if key is None:
            raise unauthenticated("The key is none that this service knows.", _UNKNOWN_KEY)
        if key.last_day is not None and datetime.now(UTC).date() > key.last_day:
            raise Declined(kinds.FORBIDDEN, f"The key was good until {key.last_day}.")
        visit = Visit(self._counters, "key", key.name, key.allowance, key.endpoints)
        if path in self._endpoints:
            visit.check_endpoint(self._endpoints[path])
        return visit

    async def _charge(self, path: str, visit: Visit) -> None:
        """A batch is charged by its items, once they are known; here it is only seen whether anything is left."""
        if path == _CHARGED_BY_ITS_ITEMS:
            await visit.look()
        else:
            await visit.charge(1)


def key_ring(settings: Settings, endpoints: Collection[str]) -> KeyRing | None:
    """The keys; None where there is no file of them. Raises BadSetting for one that cannot be used."""
    file = settings.named_keys_file
    return None if file is None else KeyRing(file, settings.key_limit, endpoints)


def _store(url: str) -> Store | None:
    if not url:
        return None
    from footvalve.web.rate_shared import SharedCounters  # noqa: PLC0415  # its libraries take half a second

    return SharedCounters(url)


def _telling(visit: Visit, send: Send) -> Send:
    """The way out on which an answer tells what is left; a batch that cannot be read counts as one request."""

    async def sent(message: Message) -> None:
        if message["type"] == "http.response.start":
            await visit.settle()
            message = {**message, "headers": [*message["headers"], *visit.headers()]}
        await send(message)

    return sent
