"""What the readings of one method come to, and whether they agree with one another."""

from collections.abc import Sequence
from statistics import median

from msgspec import Struct

from footvalve.answers.basis import Reckoned
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning

_ROUNDING = 1e-6
"""In m: readings that lie apart by just what is allowed agree, whatever the last digit of their conversion."""


class Agreement(Struct, frozen=True):
    """How far apart readings of one method may lie, in m, and where that comes from."""

    limit: float
    reason: str

    def holds(self, difference: float) -> bool:
        """Whether readings that lie apart by this many m agree."""
        return difference <= self.limit + _ROUNDING


class Readings(Struct, frozen=True):
    """Depths in m below the measuring point in the request's order, with what belongs to their method."""

    depths: Sequence[float]
    pointer: str
    agreement: Agreement
    steps: tuple[Reckoned, ...]
    cautions: tuple[str, ...] = ()
    warnings: tuple[Warning, ...] = ()
    rule_of_thumb: float | None = None

    @property
    def spread(self) -> float:
        """The greatest depth less the smallest."""
        return max(self.depths) - min(self.depths)


def disagreements(readings: Readings, units: UnitSystem) -> list[Warning]:
    """A warning where the readings lie too far apart, and one at each that lies far from the others."""
    agreement = readings.agreement
    if agreement.holds(readings.spread):
        return []
    apart, allowed = units.length(readings.spread), units.length(agreement.limit)
    text = f"the readings lie {apart} apart, and should agree within {allowed} ({agreement.reason}): measure again"
    return [Warning(readings.pointer, text), *_outliers(readings, units)]


def _outliers(readings: Readings, units: UnitSystem) -> list[Warning]:
    """A warning at each reading far from the middle one, if most of them lie close to it."""
    middle = median(readings.depths)
    off = [(i, depth - middle) for i, depth in enumerate(readings.depths) if not _near(readings, depth, middle)]
    if 2 * len(off) >= len(readings.depths):
        return []
    return [
        Warning(
            f"{readings.pointer}/{index}",
            f"this reading lies {units.length(abs(difference))} {'below' if difference > 0 else 'above'} the middle "
            "one, which most of the others agree with: it pulls the mean, and should be left out or repeated",
        )
        for index, difference in off
    ]


def _near(readings: Readings, depth: float, middle: float) -> bool:
    return readings.agreement.holds(abs(depth - middle))
