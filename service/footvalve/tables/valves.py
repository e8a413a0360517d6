"""What an open valve costs, and whether it lets water back."""

from dataclasses import dataclass

from footvalve.tables.reading import Row, entry, rows, yes_or_no
from footvalve.tables.si_values import si_value


@dataclass(frozen=True, slots=True)
class Valve:
    """A valve, open. `equivalent_length_ratio` is n of K = n fT; a check valve lets no water back.

    full_lift_constant: over the root of the density, the velocity that lifts the disc fully, in (m/s) (kg/m^3)^0.5;
    None where it is not known or does not matter.
    """

    name: str
    title: str
    equivalent_length_ratio: float
    is_check: bool
    includes_strainer: bool
    full_lift_constant: float | None
    source: str
    note: str


def _valve(row: Row) -> Valve:
    return Valve(
        name=row["valve"],
        title=row["title"],
        equivalent_length_ratio=si_value(row["equivalent_length_ratio"], "1"),
        is_check=yes_or_no(row["is_check"]),
        includes_strainer=yes_or_no(row["includes_strainer"]),
        full_lift_constant=_FULL_LIFT_CONSTANTS.get(row["valve"]),
        source=row["source"],
        note=row["note"],
    )


_FULL_LIFT_CONSTANTS = {
    row["valve"]: si_value(row["full_lift_constant"], "(ft/s)/(ft^3/lb)^0.5") for row in rows("disc_lift")
}

_VALVES = {row["valve"]: _valve(row) for row in rows("valves")}

VALVES = tuple(_VALVES)


def valve(name: str) -> Valve:
    """A valve by its name. Raises UnknownEntry.

    >>> valve("foot-valve-hinged").equivalent_length_ratio
    75.0
    """
    return entry("valves", _VALVES, name)
