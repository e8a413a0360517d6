"""What counts requests for several processes together, whatever it is."""

from typing import Protocol

from footvalve.web.allowance import Allowance
from footvalve.web.rate_window import Verdict


class StoreAway(Exception):
    """The store does not answer, or not in time."""


class Store(Protocol):
    """A place outside this process in which it is counted."""

    async def charge(self, who: str, allowance: Allowance, requests: int) -> Verdict:
        """Count so many requests if all of them fit; none always fit. Raises StoreAway soon where it is."""
        ...

    async def check(self) -> None:
        """Raises StoreAway where it is."""
        ...
