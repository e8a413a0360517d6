"""Counting where the operator wants it counted, and in this process while that is not to be had."""

import asyncio
import logging
from asyncio import Task
from time import monotonic
from typing import Final

from footvalve.web.allowance import Allowance
from footvalve.web.metrics import COUNTED
from footvalve.web.rate_local import LocalCounters
from footvalve.web.rate_store import Store, StoreAway
from footvalve.web.rate_window import Verdict

_FIRST_PAUSE_SECONDS: Final = 0.5
_LONGEST_PAUSE_SECONDS: Final = 5.0
"""How long the store is left alone once it did not answer: first, and after it has been away for long."""

_FRESH_SECONDS: Final = 1.0
"""For so long after an answer the store counts as there."""

_log = logging.getLogger(__name__)


class Counters:
    """Counts in a store where there is one, or else in this process alone.

    While the store is away each process lets everybody have the whole allowance. No request waits for it to come back:
    one that finds it away only sees to it that somebody looks for it again.
    """

    def __init__(self, store: Store | None = None) -> None:
        self._local = LocalCounters()
        self._store = store
        self._is_there: bool | None = None
        self._answered_at = 0.0
        self._pause = 0.0
        self._look_again_at = 0.0
        self._looking: Task[None] | None = None

    async def charge(self, who: str, allowance: Allowance, requests: int) -> Verdict:
        """Whether so many requests fit, all of them, and how it stands then; if they do, they are counted.

        No requests always fit: that is how to look.
        """
        if self._store is not None:
            together = await self._charged_together(self._store, who, allowance, requests)
            if together is not None:
                return together
            COUNTED.counted_locally()
        return self._local.charge(who, allowance, requests)

    async def _charged_together(self, store: Store, who: str, allowance: Allowance, requests: int) -> Verdict | None:
        if self._is_there is False:
            self._look_soon(store)
            return None
        try:
            verdict = await store.charge(who, allowance, requests)
        except StoreAway as away:
            self._missed(away)
            return None
        self._found()
        return verdict

    async def are_together(self) -> bool | None:
        """Whether it is counted together with the other processes now; None where it never is."""
        if self._store is None:
            return None
        if not self._is_there or monotonic() > self._answered_at + _FRESH_SECONDS:
            looking = self._look_soon(self._store)
            if looking is not None:
                await asyncio.wait((looking,))
        return self._is_there is not False

    def _look_soon(self, store: Store) -> Task[None] | None:
        """The task that looks for the store; None where that was done just now."""
        if (self._looking is None or self._looking.done()) and monotonic() >= self._look_again_at:
            self._looking = asyncio.get_running_loop().create_task(self._look(store))
        return None if self._looking is None or self._looking.done() else self._looking

    async def _look(self, store: Store) -> None:
        try:
            await store.check()
        except StoreAway as away:
            self._missed(away)
        else:
            self._found()

    def _found(self) -> None:
        self._answered_at = monotonic()
        if self._is_there:
            return
        if self._is_there is False:
            _log.warning("the store of the counters answers again: the processes count together")
        COUNTED.store_up()
        self._is_there, self._pause, self._look_again_at = True, 0.0, 0.0

    def _missed(self, why: StoreAway) -> None:
        if self._is_there is not False:
            _log.warning("the store of the counters is away, and each process counts alone: %s", why)
            COUNTED.store_away()
        self._is_there = False
        self._pause = min(max(2 * self._pause, _FIRST_PAUSE_SECONDS), _LONGEST_PAUSE_SECONDS)
        self._look_again_at = monotonic() + self._pause
