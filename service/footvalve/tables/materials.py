"""How rough a pipe's wall is, by its material."""

from dataclasses import dataclass

from footvalve.tables.reading import Row, entry, facts
from footvalve.tables.si_values import si_value


@dataclass(frozen=True, slots=True)
class Material:
    """A pipe's material: roughness in m, Hazen-Williams C, and where each is from."""

    name: str
    roughness: float
    roughness_source: str
    hazen_williams_coefficient: float
    hazen_williams_source: str


def _material(name: str, properties: dict[str, Row]) -> Material:
    roughness = properties["roughness"]
    coefficient = properties["hazen_williams_coefficient"]
    return Material(
        name=name,
        roughness=si_value(roughness["value"], roughness["unit"]),
        roughness_source=roughness["source"],
        hazen_williams_coefficient=si_value(coefficient["value"], coefficient["unit"]),
        hazen_williams_source=coefficient["source"],
    )


_MATERIALS = {name: _material(name, found) for name, found in facts("materials", "material").items()}

MATERIALS = tuple(_MATERIALS)


def material(name: str) -> Material:
    """A material by its name. Raises UnknownEntry.

    >>> material("copper").hazen_williams_coefficient
    140.0
    """
    return entry("materials", _MATERIALS, name)
