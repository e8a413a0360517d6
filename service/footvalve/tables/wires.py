"""Sizes of stranded wire, American and metric: their area, their resistance, and the ampacity of copper."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from footvalve.tables.reading import Row, entry, rows
from footvalve.tables.si_values import si_value


@dataclass(frozen=True, slots=True)
class WireResistance:
    """The resistance of a stranded wire in ohm/m at a temperature in K, and where it comes from."""

    resistance_per_metre: float
    temperature: float
    source: str


@dataclass(frozen=True, slots=True)
class WireSize:
    """A wire: area in m^2, and what it has of resistance in copper, and in aluminum where a table has it.

    `diameter` in m is that of solid wire of the area; metric wires are named by area and have none.
    A metric wire may hold less metal than its name says: its resistance is the greatest that is allowed.
    `ampacity` in A is what copper may carry all the time at 60 degC of insulation and 30 degC around it.
    """

    designation: str
    diameter: float | None
    area: float
    source: str
    copper: WireResistance
    aluminum: WireResistance | None
    ampacity: float
    ampacity_source: str


_ALUMINUM = {
    row["designation"]: WireResistance(
        si_value(row["resistance"], row["resistance_unit"]),
        si_value(row["resistance_temperature_degC"], "degC"),
        row["source"],
    )
    for row in rows("aluminum_wires")
}
"""Of metric wires."""


def _wire_size(row: Row) -> WireSize:
    return WireSize(
        designation=row["designation"],
        diameter=si_value(row["diameter_mm"], "mm") if row["diameter_mm"] else None,
        area=si_value(row["area_mm2"], "mm^2"),
        source=row["source"],
        copper=WireResistance(
            si_value(row["resistance"], row["resistance_unit"]),
            si_value(row["resistance_temperature_degC"], "degC"),
            row["resistance_source"],
        ),
        aluminum=_ALUMINUM.get(row["designation"]) if row["system"] == "metric" else None,
        ampacity=si_value(row["ampacity_A"], "A"),
        ampacity_source=row["ampacity_source"],
    )


def _sizes(system: str) -> Mapping[str, WireSize]:
    return MappingProxyType({row["designation"]: _wire_size(row) for row in rows("wires") if row["system"] == system})


AWG_WIRES = _sizes("awg")
METRIC_WIRES = _sizes("metric")


def awg_wire(gauge: str) -> WireSize:
    """A wire by its American gauge, such as 12 or 2/0. Raises UnknownEntry.

    >>> round(awg_wire("10").area * 1e6, 2)
    5.26
    """
    return entry("AWG wires", AWG_WIRES, gauge)


def metric_wire(square_millimetres: str) -> WireSize:
    """A wire by its nominal area, such as 2.5. Raises UnknownEntry.

    >>> metric_wire("2.5").copper.resistance_per_metre
    0.00741
    """
    return entry("metric wires", METRIC_WIRES, square_millimetres)
