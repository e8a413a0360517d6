"""Batteries by their chemistry: what to expect of one whose maker says nothing else."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from footvalve.tables.reading import Row, entry, facts, rows, yes_or_no
from footvalve.tables.si_values import si_value


@dataclass(frozen=True, slots=True)
class CapacityPoint:
    """The capacity at a temperature in K, as a fraction of that at 298.15 K, and where that is from."""

    temperature: float
    capacity_fraction: float
    source: str


@dataclass(frozen=True, slots=True)
class Chemistry:
    """Defaults of a chemistry, at 298.15 K; `sources` has the source of each by its name.

    floor_fraction: the lowest state of charge in routine use.
    charge_efficiency_fraction: charge that is stored over charge that is put in.
    absorption_start_fraction: the state of charge at which the current begins to taper, of a charger of the
    absorption_start_rate: current over capacity, in A/Ah.
    self_discharge_fraction_per_month: of the capacity.
    least_charge_rate, greatest_charge_rate: current over capacity, in A/Ah.
    gases: whether the cells give off hydrogen; float_gassing_current, boost_gassing_current in mA/Ah.
    least_charge_temperature: in K; the battery must not be charged below it.
    cold_capacity: from cold to warm.
    """

    name: str
    title: str
    family: str
    nominal_cell_voltage: float
    peukert_exponent: float
    floor_fraction: float
    charge_efficiency_fraction: float
    absorption_start_fraction: float
    absorption_start_rate: float
    self_discharge_fraction_per_month: float
    least_charge_rate: float
    greatest_charge_rate: float
    gases: bool
    float_gassing_current: float
    boost_gassing_current: float
    least_charge_temperature: float
    cold_capacity: tuple[CapacityPoint, ...]
    sources: Mapping[str, str]


def _cold_capacity(family: str) -> tuple[CapacityPoint, ...]:
    return tuple(
        CapacityPoint(
            temperature=si_value(row["temperature_degC"], "degC"),
            capacity_fraction=si_value(row["capacity_fraction"], "1"),
            source=row["source"],
        )
        for row in rows("cold_capacity")
        if row["family"] == family
    )


def _chemistry(name: str, properties: dict[str, Row]) -> Chemistry:
    def number(key: str) -> float:
        return si_value(properties[key]["value"], properties[key]["unit"])

    family = properties["family"]["value"]
    return Chemistry(
        name=name,
        title=properties["title"]["value"],
        family=family,
        nominal_cell_voltage=number("nominal_cell_voltage"),
        peukert_exponent=number("peukert_exponent"),
        floor_fraction=number("floor_fraction"),
        charge_efficiency_fraction=number("charge_efficiency_fraction"),
        absorption_start_fraction=number("absorption_start_fraction"),
        absorption_start_rate=number("absorption_start_rate"),
        self_discharge_fraction_per_month=number("self_discharge_fraction_per_month"),
        least_charge_rate=number("least_charge_rate"),
        greatest_charge_rate=number("greatest_charge_rate"),
        gases=yes_or_no(properties["gases"]["value"]),
        float_gassing_current=number("float_gassing_current"),
        boost_gassing_current=number("boost_gassing_current"),
        least_charge_temperature=number("least_charge_temperature"),
        cold_capacity=_cold_capacity(family),
        sources=MappingProxyType({key: row["source"] for key, row in properties.items()}),
    )


_CHEMISTRIES = {name: _chemistry(name, found) for name, found in facts("chemistries", "chemistry").items()}

CHEMISTRIES = tuple(_CHEMISTRIES)


def chemistry(name: str) -> Chemistry:
    """A chemistry by its name. Raises UnknownEntry.

    >>> chemistry("flooded").floor_fraction
    0.5
    """
    return entry("chemistries", _CHEMISTRIES, name)
