"""The tables of what carries and stores the current: wires and battery chemistries."""

from typing import Final, Literal

from msgspec import UNSET

from footvalve.contract.quantities import Area, Current, Length, Resistance, Temperature, Voltage
from footvalve.contract.tables import (
    ChemistriesTable,
    ChemistryRow,
    ChemistrySource,
    ColdCapacityRow,
    WireRow,
    WiresTable,
)
from footvalve.tables.chemistries import CHEMISTRIES, CapacityPoint, chemistry
from footvalve.tables.wires import AWG_WIRES, METRIC_WIRES, WireSize

_OTHER_NAMES: Final = {
    "self_discharge_fraction_per_month": "monthly_self_discharge_fraction",
    "absorption_start_rate": "absorption_start_current",
    "least_charge_rate": "least_charge_current",
    "greatest_charge_rate": "greatest_charge_current",
}
"""Fields of a chemistry's row that do not have the name of their property: a ratio's name ends in `_fraction`, and a
rate in 1/h goes out as the current for each Ah."""


def wires_table() -> WiresTable:
    """Wires, with the resistance of 1000 ft of the American sizes and of 1000 m of the metric ones."""
    american = [_wire(wire, "awg", Length(1000.0, "ft")) for wire in AWG_WIRES.values()]
    metric = [_wire(wire, "metric", Length(1000.0, "m")) for wire in METRIC_WIRES.values()]
    return WiresTable(rows=[*american, *metric])


def _wire(wire: WireSize, system: Literal["awg", "metric"], length: Length) -> WireRow:
    aluminum = wire.aluminum
    return WireRow(
        system=system,
        designation=wire.designation,
        area=Area.from_base(wire.area, "mm^2"),
        diameter=UNSET if wire.diameter is None else Length.from_base(wire.diameter, "mm"),
        resistance=Resistance.from_base(wire.copper.resistance_per_metre * length.base, "ohm"),
        resistance_length=length,
        resistance_temperature=Temperature.from_base(wire.copper.temperature, "degC"),
        resistance_source=wire.copper.source,
        aluminum_resistance=UNSET
        if aluminum is None
        else Resistance.from_base(aluminum.resistance_per_metre * length.base, "ohm"),
        aluminum_resistance_source=UNSET if aluminum is None else aluminum.source,
        ampacity=Current.from_base(wire.ampacity, "A"),
        ampacity_source=wire.ampacity_source,
        source=wire.source,
    )


def chemistries_table() -> ChemistriesTable:
    """Battery chemistries."""
    return ChemistriesTable(rows=[_chemistry(name) for name in CHEMISTRIES])


def _chemistry(name: str) -> ChemistryRow:
    row = chemistry(name)
    return ChemistryRow(
        chemistry=name,
        title=row.title,
        family=row.family,
        nominal_cell_voltage=Voltage.from_base(row.nominal_cell_voltage, "V"),
        peukert_exponent=row.peukert_exponent,
        floor_fraction=row.floor_fraction,
        charge_efficiency_fraction=row.charge_efficiency_fraction,
        absorption_start_fraction=row.absorption_start_fraction,
        absorption_start_current=Current.from_base(row.absorption_start_rate, "A"),
        monthly_self_discharge_fraction=row.self_discharge_fraction_per_month,
        least_charge_current=Current.from_base(row.least_charge_rate, "A"),
        greatest_charge_current=Current.from_base(row.greatest_charge_rate, "A"),
        gases=row.gases,
        float_gassing_current=Current(row.float_gassing_current, "mA"),
        boost_gassing_current=Current(row.boost_gassing_current, "mA"),
        least_charge_temperature=Temperature.from_base(row.least_charge_temperature, "degC"),
        cold_capacity=[_cold_capacity(point) for point in row.cold_capacity],
        sources=[
            ChemistrySource(field=_OTHER_NAMES.get(key, key), source=source) for key, source in row.sources.items()
        ],
    )


def _cold_capacity(point: CapacityPoint) -> ColdCapacityRow:
    return ColdCapacityRow(
        temperature=Temperature.from_base(point.temperature, "degC"),
        capacity_fraction=point.capacity_fraction,
        source=point.source,
    )
