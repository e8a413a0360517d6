"""How uncertain inputs make the figures of an answer uncertain: first order, by the function that answers.

Each input is moved by one standard uncertainty up and down; half the difference is what it has to do with a figure.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import hypot, isfinite
from typing import Any

from footvalve.answers.headline import Headline
from footvalve.answers.uncertain_inputs import OutOfRange, UncertainInput
from footvalve.contract.problem import Refused
from footvalve.physics.method import Method, OutsideDomain

FIRST_ORDER = Method(
    "Root of the summed squares of what each uncertain input changes, half the difference between one standard "
    "uncertainty more and one less; inputs independent",
    "JCGM 100:2008, 5.1.2 (equation 10) and 5.1.3, note 2",
    note="figures that run nearly straight over the uncertainties of the inputs; a warning says where one does not",
)

BENT = 0.25
"""Part of what an input changes by which its two sides differ, above which the first order is called rough."""

TELLING_SHARE = 0.1
"""Part of a figure's variance that an input has at least for its bend to be told."""


@dataclass(frozen=True, slots=True)
class Effect:
    """The headline with one input one standard uncertainty up, and down; None where that cannot be."""

    input: UncertainInput
    up: Headline | None
    down: Headline | None

    @property
    def is_lost(self) -> bool:
        """Whether neither side can be reckoned."""
        return self.up is None and self.down is None

    @property
    def is_one_sided(self) -> bool:
        """Whether just one side can be reckoned."""
        return (self.up is None) != (self.down is None)

    def may_lack(self, pointer: str) -> bool:
        """Whether a side that can be reckoned does not hold a figure."""
        return any(side is not None and pointer not in side.figures for side in (self.up, self.down))

    def change(self, pointer: str, centre: Headline) -> float | None:
        """What one standard uncertainty more of the input does to a figure; None where nothing tells."""
        return _change(centre.figures[pointer], *self._figures(pointer))

    def bend(self, pointer: str, centre: Headline) -> float:
        """How much more the figure changes on one side than on the mean of both; nought where a side is missing."""
        return _bend(centre.figures[pointer], *self._figures(pointer))

    def spare_changes(self, centre: Headline) -> tuple[float, ...]:
        """`change` of each of the spares."""
        return tuple([_change(*spares) or 0.0 for spares in self._spares(centre)])

    def spare_bends(self, centre: Headline) -> tuple[float, ...]:
        """`bend` of each of the spares."""
        return tuple([_bend(*spares) for spares in self._spares(centre)])

    def _figures(self, pointer: str) -> tuple[float | None, float | None]:
        up = None if self.up is None else self.up.figures.get(pointer)
        return up, None if self.down is None else self.down.figures.get(pointer)

    def _spares(self, centre: Headline) -> Iterator[tuple[float, float | None, float | None]]:
        """Each of the spares in the middle, and on both sides."""
        nothing = (None,) * len(centre.spares)
        up, down = (nothing if side is None else side.spares for side in (self.up, self.down))
        return zip(centre.spares, up, down, strict=True)


def _change(middle: float, up: float | None, down: float | None) -> float | None:
    if up is not None and down is not None:
        return (up - down) / 2.0
    if up is not None:
        return up - middle
    return None if down is None else middle - down


def _bend(middle: float, up: float | None, down: float | None) -> float:
    return 0.0 if up is None or down is None else (up + down) / 2.0 - middle


def effects(request: Any, inputs: Sequence[UncertainInput], headline: Callable[[Any], Headline]) -> list[Effect]:
    """What each input does to the headline."""
    return [
        Effect(
            uncertain,
            headline_at(request, ((uncertain, 1.0),), headline),
            headline_at(request, ((uncertain, -1.0),), headline),
        )
        for uncertain in inputs
    ]


def headline_at(
    request: Any, moves: Sequence[tuple[UncertainInput, float]], headline: Callable[[Any], Headline]
) -> Headline | None:
    """The headline with some inputs moved by so many standard uncertainties; None for what cannot be, and for what is
    beyond all reckoning."""
    try:
        for uncertain, sigmas in moves:
            request = uncertain.shifted(request, sigmas)
        there = headline(request)
    except (OutOfRange, Refused, OutsideDomain, ArithmeticError):
        return None
    return there if all(map(isfinite, (*there.figures.values(), *there.spares))) else None


@dataclass(frozen=True, slots=True)
class Propagated:
    """The standard uncertainty of one figure in the unit of physics, and what each input adds to it."""

    uncertainty: float
    changes: Mapping[int, float]

    def variance_fraction(self, index: int) -> float:
        """An input's part of the variance."""
        return (self.changes[index] / self.uncertainty) ** 2 if self.uncertainty else 0.0


def propagated(centre: Headline, found: Sequence[Effect]) -> dict[str, Propagated]:
    """The uncertainties of the figures; without those that an input's one and other side leave out of the answer."""
    return {
        pointer: Propagated(hypot(*changes.values()), changes)
        for pointer in centre.figures
        if (changes := _changes(pointer, centre, found)) is not None
    }


def _changes(pointer: str, centre: Headline, found: Sequence[Effect]) -> dict[int, float] | None:
    changes: dict[int, float] = {}
    for index, effect in enumerate(found):
        if effect.is_lost:
            continue
        change = effect.change(pointer, centre)
        if change is None:
            return None
        changes[index] = change
    return changes
