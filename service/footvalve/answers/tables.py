"""The tables as they go out: the numbers that the answers rest on, in the units that the trade writes them in."""

from collections.abc import Callable, Iterator
from functools import cache
from typing import Final

from footvalve.answers.electric_tables import chemistries_table, wires_table
from footvalve.answers.line_tables import fittings_table, pipes_table, valves_table
from footvalve.contract.tables import AnyTable, CautionRow, CautionsTable, UnitRow, UnitsTable
from footvalve.quantity import CONVERSIONS, DIMENSIONS, wire_units
from footvalve.tables.cautions import CAUTIONS, caution_row


@cache
def table(name: str) -> AnyTable:
    """A table by its name, one of TABLES; it is built at the first call."""
    return _BUILDERS[name]()


def _cautions() -> CautionsTable:
    found = map(caution_row, CAUTIONS)
    return CautionsTable(
        rows=[CautionRow(code=row.code, severity=row.severity, text=row.text, source=row.source) for row in found]
    )


def _units() -> UnitsTable:
    return UnitsTable(rows=[row for dimension in DIMENSIONS for row in _units_of(dimension)])


def _units_of(dimension: str) -> Iterator[UnitRow]:
    for unit in wire_units(dimension):
        scale, offset = CONVERSIONS[unit]
        yield UnitRow(
            unit=unit,
            dimension=dimension,
            base_unit=DIMENSIONS[dimension][1],
            scale=scale,
            offset=offset,
            source=_unit_source(unit),
        )


def _unit_source(unit: str) -> str:
    if unit in ("mH2O", "ftH2O"):
        return "NIST SP 811 (2008), Appendix B.8: a conventional column, 1000 kg/m^3 under standard gravity"
    return "NIST SP 811 (2008), Appendix B.8"


_BUILDERS: Final[dict[str, Callable[[], AnyTable]]] = {
    "pipes": pipes_table,
    "fittings": fittings_table,
    "valves": valves_table,
    "wires": wires_table,
    "chemistries": chemistries_table,
    "cautions": _cautions,
    "units": _units,
}

TABLES: Final = tuple(_BUILDERS)
"""The names of the tables."""
