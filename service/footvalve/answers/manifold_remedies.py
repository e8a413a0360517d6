"""Which check valve is turned about, and where one is missing.

A remedy is taken only if every mode that serves the house still does so with it.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from msgspec import Struct

from footvalve.answers.manifold_delivery import delivery, delivery_by_turning
from footvalve.answers.manifold_graph import TURNED_CHECK_COST, Manifold, Passage
from footvalve.answers.manifold_modes import ModeState, looping_pumps
from footvalve.answers.manifold_ways import Ways

MOST_TRIALS = 12
"""Elements of one way at which a remedy is tried."""

TAKES_CHECK = frozenset({"pipe", "strainer", "shutoff", "gauge", "tank", "pump"})
"""The kinds of elements beside which a check valve can be fitted."""


class Remedy(Struct, frozen=True):
    """Check valves to turn about, or else the passage of an element against which to fit a new one."""

    turned: tuple[int, ...] = ()
    stopped: Passage | None = None


class Remedies:
    """The remedies for a manifold, held against what all of its modes do."""

    def __init__(self, manifold: Manifold, states: Sequence[ModeState]) -> None:
        self._manifold = manifold
        self._states = states
        self._users: defaultdict[tuple[int, int], list[ModeState]] = defaultdict(list)
        for state in states:
            for passage in state.delivery:
                self._users[passage.part, passage.start].append(state)

    def for_no_path(self, state: ModeState) -> Remedy | None:
        """The fewest check valves to turn so that a mode serves the house."""
        way = delivery_by_turning(state.ways)
        turned = [passage for passage in way if passage.cost == TURNED_CHECK_COST]
        numbers = tuple(passage.part for passage in turned)
        against = [Passage(passage.end, passage.start, passage.part) for passage in turned]
        if turned and self._still_serve(self._manifold.turned(numbers), against):
            return Remedy(turned=numbers)
        return None

    def for_way_back(self, way: Sequence[Passage]) -> Remedy | None:
        """A check valve to turn, or else one to add, so that water does not take a way on which it comes back. Of
        several places for it the first on the way is taken."""
        for check in self._tried(passage for passage in way if self._manifold.parts[passage.part].kind == "check"):
            if self._may_be_turned(check):
                return Remedy(turned=(check.part,))
        for passage in self._tried(passage for passage in way if self._takes_check(passage)):
            if self._still_serve(self._manifold.barred(passage), [passage]):
                return Remedy(stopped=passage)
        return None

    def _tried(self, passages: Iterable[Passage]) -> list[Passage]:
        """The passages at which a remedy is tried, first those that no mode needs for serving the house."""
        return sorted(passages, key=lambda passage: (passage.part, passage.start) in self._users)[:MOST_TRIALS]

    def _takes_check(self, passage: Passage) -> bool:
        """Whether a check valve can be fitted against this passage: it does not stand against a pump's own sense."""
        part = self._manifold.parts[passage.part]
        return part.kind in TAKES_CHECK and not (part.kind == "pump" and passage.start == part.start)

    def _may_be_turned(self, check: Passage) -> bool:
        """Whether every mode is still served, and water goes round nowhere where it did not before."""
        turned = self._manifold.turned((check.part,))
        return self._still_serve(turned, [check]) and all(
            looping_pumps(turned, state.setting) <= state.looping for state in self._states
        )

    def _still_serve(self, changed: Manifold, stopped: Iterable[Passage]) -> bool:
        """Whether the modes whose way takes one of the passages that a change stops find another."""
        users = {id(user): user for passage in stopped for user in self._users.get((passage.part, passage.start), ())}
        return all(delivery(Ways(changed, user.setting)) for user in users.values())
