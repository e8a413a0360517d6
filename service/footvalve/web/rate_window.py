"""How much of an allowance is used up: the arithmetic of a window that slides.

Two numbers are kept for whoever is counted: what was let through in the window before, and what in this one. The window
before counts by the part of it that still lies within the last so many seconds. A fixed window would need one number,
but lets twice the allowance through around its end; a list of every request would be exact, but as long as the
allowance.
"""

from math import floor
from typing import NamedTuple

from footvalve.web.allowance import Allowance


class Window(NamedTuple):
    """What was let through in the window before and in this one, and the seconds until this one ends."""

    before: int
    now: int
    rest: float


class Verdict(NamedTuple):
    """Whether so many requests fit, and how it stands then."""

    fits: bool
    window: Window


def left(allowance: Allowance, window: Window) -> int:
    """How many more requests fit now.

    >>> left(Allowance(100, 60), Window(before=80, now=10, rest=30))
    50
    """
    return max(0, allowance.requests - floor(window.before * window.rest / allowance.seconds) - window.now)


def seconds_until(allowance: Allowance, window: Window, requests: int) -> int:
    """The whole seconds until so many requests fit, where no others come between; 0 where they fit now.

    The requests must be no more than the allowance.

    >>> seconds_until(Allowance(100, 60), Window(before=0, now=100, rest=45), 1)
    46
    >>> seconds_until(Allowance(100, 60), Window(before=100, now=0, rest=60), 50)
    30
    """
    if requests <= left(allowance, window):
        return 0
    room = allowance.requests - requests
    if window.now <= room:
        return _until_faded(window.before, room - window.now, window.rest, allowance.seconds)
    return _until_faded(window.now, room, window.rest + allowance.seconds, allowance.seconds)


def _until_faded(count: int, room: int, until_gone: float, seconds: int) -> int:
    """The whole seconds until a window that fades away counts for no more than there is room for."""
    earliest = until_gone - (room + 1) * seconds / count
    return floor(max(0.0, earliest)) + 1
