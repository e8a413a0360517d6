"""Sizes of stranded wire, American and metric: their area, and the resistance and the ampacity of copper."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from footvalve.tables.reading import Row, entry, rows
from footvalve.tables.si_values import si_value


@dataclass(frozen=True, slots=True)
class WireSize:
    """A wire: area in m^2, and the resistance of stranded copper in ohm/m at a temperature in K.

    `diameter` in m is that of solid wire of the area; metric wires are named by area and have none.
    A metric wire may hold less metal than its name says: its resistance is the greatest that is allowed.
    `ampacity` in A is what copper may carry all the time at 60 degC of insulation and 30 degC around it.
    """

    designation: str
    diameter: float | None
    area: float
    source: str
    resistance_per_metre: float
    resistance_temperature: float
    resistance_source: str
    ampacity: float
    ampacity_source: str


def _wire_size(row: Row) -> WireSize:
    return WireSize(
        designation=row["designation"],
        diameter=si_value(row["diameter_mm"], "mm") if row["diameter_mm"] else None,
        area=si_value(row["area_mm2"], "mm^2"),
        source=row["source"],
        resistance_per_metre=si_value(row["resistance"], row["resistance_unit"]),
        resistance_temperature=si_value(row["resistance_temperature_degC"], "degC"),
        resistance_source=row["resistance_source"],
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

    >>> metric_wire("2.5").resistance_per_metre
    0.00741
    """
    return entry("metric wires", METRIC_WIRES, square_millimetres)
