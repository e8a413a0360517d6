"""Where an integration by scipy ends."""

from collections.abc import Callable
from typing import Any


def crossing(distance: Callable[[float, Any], float], *, upward: bool) -> Callable[[float, Any], float]:
    """An event that ends the way where a distance goes through zero in one sense."""

    def event(time, state):
        return distance(time, state)

    event.terminal = True
    event.direction = 1.0 if upward else -1.0
    return event
