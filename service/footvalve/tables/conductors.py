"""How well a wire's metal conducts."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from footvalve.tables.reading import Row, entry, facts
from footvalve.tables.si_values import si_value


@dataclass(frozen=True, slots=True)
class Conductor:
    """A metal at 20 degC: resistivity in ohm m, temperature coefficient in 1/K.

    The strands of a wire are longer than the wire: `stranding_factor` is its resistance over a solid one's.
    `sources` has the source of each by its name.
    """

    name: str
    resistivity: float
    temperature_coefficient: float
    stranding_factor: float
    sources: Mapping[str, str]


def _conductor(name: str, properties: dict[str, Row]) -> Conductor:
    values = {key: si_value(row["value"], row["unit"]) for key, row in properties.items()}
    sources = {key: row["source"] for key, row in properties.items()}
    return Conductor(name=name, sources=MappingProxyType(sources), **values)


_CONDUCTORS = {name: _conductor(name, found) for name, found in facts("conductors", "conductor").items()}

CONDUCTORS = tuple(_CONDUCTORS)


def conductor(name: str) -> Conductor:
    """A metal by its name. Raises UnknownEntry.

    >>> conductor("copper").resistivity
    1.7241e-08
    """
    return entry("conductors", _CONDUCTORS, name)
