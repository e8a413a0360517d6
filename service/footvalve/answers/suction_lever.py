"""One change to a suction side, and how it stands after it."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from footvalve.answers.suction_state import SuctionState
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.contract.quantities import Flow
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest

DIGITS = 3
"""Significant digits of a change that is sought, rounded to the side on which it suffices."""

HOPELESS = 1e3
"""m of head that a change is taken to want which cannot be reckoned at all."""

Asked = TypeVar("Asked")
Found = TypeVar("Found")


@dataclass(frozen=True, slots=True)
class Change(Generic[Asked]):
    """A change in words, where it is in the request, the request with it, and the suction side after it."""

    text: str
    pointer: str
    request: Asked
    after: SuctionState


class LastAsked(Generic[Asked, Found]):
    """A function that remembers what it was asked last: a change that was sought is asked again once it is found."""

    def __init__(self, ask: Callable[[Asked], Found]) -> None:
        self._ask = ask
        self._last: tuple[Asked, Found] | None = None

    def __call__(self, asked: Asked) -> Found:
        if self._last is None or self._last[0] != asked:
            self._last = asked, self._ask(asked)
        return self._last[1]


@dataclass(frozen=True, slots=True)
class SuctionSide:
    """A suction side that is to be bettered: what is asked of it, how it stands, and how it would stand.

    `after` tells that of another line or pump, with whatever flow it brings; None where it cannot be reckoned.
    `at_flow` tells it of another flow.
    """

    request: SuctionFeasibilityRequest
    now: SuctionState
    after: Callable[[SuctionFeasibilityRequest], SuctionState | None]
    at_flow: Callable[[Flow], SuctionState]

    @property
    def units(self) -> UnitSystem:
        """The units in which changes are told."""
        return unit_system(self.request.units)

    def wanting_after(self, request: SuctionFeasibilityRequest) -> float:
        """Head in m that it wants after a change; one that cannot be reckoned wants a great deal."""
        after = self.after(request)
        return HOPELESS if after is None else after.shortfall

    def changed(
        self, request: SuctionFeasibilityRequest, text: str, pointer: str
    ) -> Change[SuctionFeasibilityRequest] | None:
        """A change of line or pump; None for one that cannot be reckoned."""
        after = self.after(request)
        return None if after is None else Change(text, pointer, request, after)
