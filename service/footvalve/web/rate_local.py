"""Counting in this process alone.

The counters in memory of `limits` walk through all of their keys at every request, hold any number of them, and go by
a clock that may be set back. These take some microseconds, hold so many and no more, and go by one that never is.
"""

from collections import OrderedDict
from collections.abc import Callable
from time import monotonic
from typing import Final

from footvalve.web.allowance import Allowance
from footvalve.web.rate_window import Verdict, Window, left

MOST_COUNTED: Final = 50_000
"""How many are counted in a window, some ten megabytes of them; beyond, who came first in it is forgotten."""


class LocalCounters:
    """What was let through, by who asked."""

    def __init__(self, clock: Callable[[], float] = monotonic, most: int = MOST_COUNTED) -> None:
        self._clock = clock
        self._most = most
        self._pages: dict[int, _Page] = {}

    def charge(self, who: str, allowance: Allowance, requests: int) -> Verdict:
        """Whether so many requests fit, all of them, and how it stands then; if they do, they are counted.

        No requests always fit: that is how to look.
        """
        seconds = allowance.seconds
        number, gone = divmod(self._clock(), seconds)
        page = self._pages.get(seconds)
        if page is None or page.number != number:
            page = self._pages[seconds] = _Page(number, page)
        window = Window(page.before.get(who, 0), page.now.get(who, 0), seconds - gone)
        if not requests:
            return Verdict(True, window)
        if requests > left(allowance, window):
            return Verdict(False, window)
        page.now[who] = window.now + requests
        if len(page.now) > self._most:
            page.now.popitem(last=False)
        return Verdict(True, window._replace(now=window.now + requests))


class _Page:
    """The counts of all windows of one length that run now; whoever has not asked for two of them is on none."""

    __slots__ = ("before", "now", "number")

    def __init__(self, number: float, last: "_Page | None") -> None:
        self.number = number
        self.now: OrderedDict[str, int] = OrderedDict()
        follows = last is not None and last.number == number - 1
        self.before: OrderedDict[str, int] = last.now if last is not None and follows else OrderedDict()
