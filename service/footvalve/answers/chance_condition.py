"""A condition of a feasible line by the second order: what uncertain inputs do to what it has to spare."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import copysign, inf, sqrt
from statistics import NormalDist
from typing import Self

from footvalve.answers.headline import Headline
from footvalve.answers.propagation import Effect

FAR = 2.6
"""Standard uncertainties beyond which a condition is taken as settled: a chance of 0.005."""

_NORMAL = NormalDist()


@dataclass(frozen=True)
class Condition:
    """What one condition has to spare, and what each input does to that: `changes` with the standard uncertainties
    that it is moved by, `bends` with their squares."""

    spare: float
    changes: tuple[float, ...]
    bends: tuple[float, ...]

    def beyond(self, other: Self) -> Self:
        """What this one has to spare more than another."""
        return type(self)(
            self.spare - other.spare,
            tuple(mine - theirs for mine, theirs in zip(self.changes, other.changes, strict=True)),
            tuple(mine - theirs for mine, theirs in zip(self.bends, other.bends, strict=True)),
        )

    def at(self, sigmas: Sequence[float]) -> float:
        """What it should have to spare with each input moved by so many standard uncertainties."""
        parts = zip(self.changes, self.bends, sigmas, strict=True)
        return self.spare + sum((change + bend * sigma) * sigma for change, bend, sigma in parts)

    @cached_property
    def slope(self) -> float:
        """Its standard uncertainty by the first order."""
        return sqrt(sum(change * change for change in self.changes))

    @property
    def mean(self) -> float:
        """Mean of what it has to spare."""
        return self.spare + sum(self.bends)

    @cached_property
    def uncertainty(self) -> float:
        """Its standard uncertainty by the second order."""
        return sqrt(sum(change * change + 2.0 * bend * bend for change, bend in self._parts))

    @cached_property
    def skewness(self) -> float:
        """Third moment about the mean, in standard uncertainties."""
        whole = self.uncertainty
        parts = ((change / whole, bend / whole) for change, bend in self._parts if whole)
        return sum((6.0 * change * change + 8.0 * bend * bend) * bend for change, bend in parts)

    def weight(self, place: int) -> float:
        """How much the input at a place moves it, at most."""
        return abs(self.changes[place]) + abs(self.bends[place])

    @cached_property
    def _parts(self) -> list[tuple[float, float]]:
        return list(zip(self.changes, self.bends, strict=True))

    @cached_property
    def _reach(self) -> float:
        return FAR * self.slope + FAR * FAR * sum(map(abs, self.bends))

    @property
    def holds(self) -> bool:
        """Whether it holds as good as surely."""
        return self.spare >= self._reach

    @property
    def fails(self) -> bool:
        """Whether it fails as good as surely."""
        return self.spare < -self._reach

    @property
    def standing(self) -> float:
        """What it has to spare, in its standard uncertainties."""
        return self.mean / self.uncertainty if self.uncertainty else copysign(inf, self.spare)

    @property
    def chance(self) -> float:
        """The chance that it holds: normal, mended for skewness by the first term of Edgeworth's series."""
        if not self.uncertainty:
            return float(self.spare >= 0.0)
        low = -self.standing
        below = _NORMAL.cdf(low) - _NORMAL.pdf(low) * self.skewness * (low * low - 1.0) / 6.0
        return 1.0 - min(max(below, 0.0), 1.0)


def conditions(centre: Headline, found: Sequence[Effect]) -> list[Condition]:
    """The conditions of a headline, by the effects of its inputs."""
    changes = [effect.spare_changes(centre) for effect in found]
    bends = [effect.spare_bends(centre) for effect in found]
    return [
        Condition(spare, tuple(row[index] for row in changes), tuple(row[index] for row in bends))
        for index, spare in enumerate(centre.spares)
    ]
