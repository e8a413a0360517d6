"""What a fitting costs: by an equivalent length, by a fixed coefficient, or by the bores on its two sides."""

from dataclasses import dataclass
from typing import Literal, get_args

from footvalve.tables.reading import Row, entry, rows
from footvalve.tables.si_values import si_value

LossKind = Literal["equivalent-length-ratio", "resistance-coefficient", "bore-change"]


@dataclass(frozen=True, slots=True)
class Fitting:
    """A fitting. `value` is n of K = n fT, or K itself, as `kind` says; a change of bore has none."""

    name: str
    title: str
    kind: LossKind
    value: float | None
    source: str
    note: str


_KINDS: dict[str, LossKind] = {kind: kind for kind in get_args(LossKind)}


def _fitting(row: Row) -> Fitting:
    return Fitting(
        name=row["fitting"],
        title=row["title"],
        kind=_KINDS[row["kind"]],
        value=si_value(row["value"], "1") if row["value"] else None,
        source=row["source"],
        note=row["note"],
    )


_FITTINGS = {row["fitting"]: _fitting(row) for row in rows("fittings")}

FITTINGS = tuple(_FITTINGS)


def fitting(name: str) -> Fitting:
    """A fitting by its name. Raises UnknownEntry.

    >>> fitting("elbow-90").kind, fitting("elbow-90").value
    ('equivalent-length-ratio', 30.0)
    """
    return entry("fittings", _FITTINGS, name)
