"""All callers of one process: how many there are, how long they have, and how they are seen off."""

from __future__ import annotations

import math
import time
from typing import TYPE_CHECKING, Any, Final

from uvicorn.server import ServerState

from footvalve.web.settings import Settings

if TYPE_CHECKING:
    from footvalve.serving.caller_connection import CallerConnection

NEVER: Final = math.inf
"""The deadline of a caller that waits for us."""

SWEEP_S: Final = 0.5
"""How often all callers are looked after."""

_LONGEST_STEP_S: Final = 2.0
"""How far the clock goes on at once: time in which this process was held up itself is no caller's fault."""


class Callers(ServerState):
    """The connections of a process, with one clock for the deadlines of all of them."""

    def __init__(self, settings: Settings) -> None:
        super().__init__()
        self.settings = settings
        self.app_state: dict[str, Any] = {}
        self.turned_away: set[CallerConnection] = set()
        self.closing = False
        self.now = 0.0
        self._swept = time.monotonic()

    def sweep(self) -> None:
        """Set the clock on, and see to every caller who is late or takes nothing of the answer."""
        reached = time.monotonic()
        self.now += min(reached - self._swept, _LONGEST_STEP_S)
        self._swept = reached
        for caller in self._everybody():
            caller.look_after(self.now)

    def begin_closing(self) -> None:
        """From now on every answer says that its connection ends with it."""
        self.closing = True
        for caller in self._admitted():
            caller.answer_for_the_last_time()

    def close_idle(self) -> None:
        """Close the connections on which nothing is asked."""
        for caller in self._admitted():
            caller.close_if_idle()

    def are_gone(self) -> bool:
        """Whether no connection is left on which something may be asked or answered."""
        return not self.connections

    def break_off(self) -> int:
        """Tell those whose request is unfinished that there is no time left; how many there were."""
        return sum([caller.break_off() for caller in self._admitted()])

    def hang_up(self) -> None:
        """End what connections are left, whatever is still to be sent."""
        for caller in self._everybody():
            caller.hang_up()

    def _admitted(self) -> list[CallerConnection]:
        return list(self.connections)  # type: ignore[arg-type]

    def _everybody(self) -> list[CallerConnection]:
        return [*self._admitted(), *self.turned_away]
