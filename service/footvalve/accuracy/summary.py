"""What the measured rows of an endpoint come to."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median
from typing import Self

from footvalve.accuracy.measuring import Measured


@dataclass(frozen=True, slots=True)
class Summary:
    """The rows of an endpoint in a line. Deviations are fractions of what was expected, None where no row has one."""

    name: str
    rows: int
    sources: int
    obtained: Counter[str]
    exact: int
    median: float | None
    worst: float | None
    worst_row: str
    share: float

    @classmethod
    def of(cls, name: str, measured: Sequence[Measured]) -> Self:
        """The rows under a name. What is nought, a word, or a yes or no is exact or wrong, and has no fraction."""
        fractions = {each.row.id: each.fraction for each in measured if each.fraction is not None}
        worst_row = max(fractions, key=lambda row: fractions[row], default="")
        return cls(
            name=name,
            rows=len(measured),
            sources=len({each.row.source for each in measured}),
            obtained=Counter(each.row.obtained for each in measured),
            exact=sum(each.is_within for each in measured if each.fraction is None),
            median=median(fractions.values()) if fractions else None,
            worst=fractions.get(worst_row),
            worst_row=worst_row,
            share=max((each.share for each in measured), default=0.0),
        )


def summaries(measured: Iterable[Measured]) -> list[Summary]:
    """One for each endpoint by its name, and one of all rows at the end."""
    whole = sorted(measured, key=lambda each: each.row.endpoint)
    names = sorted({each.row.endpoint for each in whole})
    by_name = [Summary.of(name, [each for each in whole if each.row.endpoint == name]) for name in names]
    return [*by_name, Summary.of("all", whole)]
