"""What one request may ask, by whoever sent it, and what it has been charged."""

from contextlib import suppress
from typing import Final

from litestar.types import Scope

from footvalve.web import problem_types as kinds
from footvalve.web.allowance import Allowance
from footvalve.web.problems import Declined
from footvalve.web.rate_counters import Counters
from footvalve.web.rate_headers import rate_headers
from footvalve.web.rate_window import Window, left, seconds_until
from footvalve.web.reply import Headers

_PLACE: Final = "visit"


class Visit:
    """Whose request it is: what it is counted as, how much may be asked, and which endpoints; None for all."""

    __slots__ = ("_counters", "_who", "allowance", "endpoints", "is_settled", "policy", "window")

    def __init__(
        self,
        counters: Counters,
        policy: str,
        name: str,
        allowance: Allowance | None,
        endpoints: frozenset[str] | None = None,
    ) -> None:
        self._counters = counters
        self._who = f"{policy}:{name}"
        self.policy = policy
        self.allowance = allowance
        self.endpoints = endpoints
        self.window = Window(0, 0, 0.0)
        self.is_settled = allowance is None

    @property
    def key_name(self) -> str | None:
        """The name of the key that it came with, for the log."""
        policy, _, name = self._who.partition(":")
        return name if policy == "key" else None

    async def look(self) -> None:
        """Raises Declined where nothing is left."""
        if self.allowance is not None:
            _, self.window = await self._counters.charge(self._who, self.allowance, 0)
            if not left(self.allowance, self.window):
                self.is_settled = True
                raise self._exhausted(self.allowance, 1)

    async def charge(self, requests: int) -> None:
        """Count so many requests. Raises Declined, and counts none, where they do not all fit."""
        if self.allowance is None or not requests:
            return
        if requests > self.allowance.requests:
            told = f"The batch asks {requests} questions; {_told(self.allowance)} are allowed. Send fewer at once."
            raise Declined(kinds.BODY_TOO_LARGE, told)
        fits, self.window = await self._counters.charge(self._who, self.allowance, requests)
        self.is_settled = True
        if not fits:
            raise self._exhausted(self.allowance, requests)

    async def settle(self) -> None:
        """Count one request where it has come to an answer without having been counted or refused."""
        if not self.is_settled:
            with suppress(Declined):
                await self.charge(1)

    def check_endpoint(self, name: str) -> None:
        """Raises Declined where the key is not for the endpoint."""
        if self.endpoints is not None and name not in self.endpoints:
            raise Declined(kinds.FORBIDDEN, f"The key is not for {name}.")

    def headers(self) -> Headers:
        """What the answer tells of the allowance."""
        return () if self.allowance is None else rate_headers(self.policy, self.allowance, self.window)

    def _exhausted(self, allowance: Allowance, requests: int) -> Declined:
        wait = seconds_until(allowance, self.window, requests)
        enough = "" if requests == 1 else f", too few for the {requests} questions of the batch"
        detail = f"{left(allowance, self.window)} of {_told(allowance)} are left{enough}. Ask again in {wait} s."
        return Declined(kinds.TOO_MANY_REQUESTS, detail, ((b"retry-after", str(wait).encode()),))


def _told(allowance: Allowance) -> str:
    return f"{allowance.requests} requests in {allowance.seconds} s"


def begin_visit(scope: Scope, visit: Visit) -> None:
    """Let the handlers of a request know whose it is."""
    scope["state"][_PLACE] = visit


def visit_of(scope: Scope) -> Visit | None:
    """Whose request it is; None where nobody is counted."""
    visit: Visit | None = scope["state"].get(_PLACE)
    return visit
