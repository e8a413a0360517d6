"""Pipes by product and nominal size: their diameters, and how rough they are."""

from dataclasses import dataclass

from footvalve.tables.materials import material
from footvalve.tables.reading import Row, entry, rows
from footvalve.tables.si_values import si_value


@dataclass(frozen=True, slots=True)
class PipeProduct:
    """A kind of pipe. `bore_basis` says of which wall its bores are; `note` says what follows from that."""

    name: str
    title: str
    material: str
    bore_basis: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class PipeSize:
    """One size of a product: lengths in m, and where they, the roughness and C are from."""

    product: str
    nominal: str
    outside_diameter: float
    inside_diameter: float
    source: str
    roughness: float
    roughness_source: str
    hazen_williams_coefficient: float
    hazen_williams_source: str


def _pipe_size(row: Row) -> PipeSize:
    wall = material(_PRODUCTS[row["product"]].material)
    return PipeSize(
        product=row["product"],
        nominal=row["nominal"],
        outside_diameter=si_value(row["outside_diameter_in"], "in"),
        inside_diameter=si_value(row["inside_diameter_in"], "in"),
        source=row["source"],
        roughness=wall.roughness,
        roughness_source=wall.roughness_source,
        hazen_williams_coefficient=wall.hazen_williams_coefficient,
        hazen_williams_source=wall.hazen_williams_source,
    )


_PRODUCTS = {
    row["product"]: PipeProduct(
        name=row["product"],
        title=row["title"],
        material=row["material"],
        bore_basis=row["bore_basis"],
        source=row["source"],
        note=row["note"],
    )
    for row in rows("pipe_products")
}

_SIZES = {
    product: {row["nominal"]: _pipe_size(row) for row in rows("pipes") if row["product"] == product}
    for product in _PRODUCTS
}

PIPE_PRODUCTS = tuple(_PRODUCTS)


def pipe_product(name: str) -> PipeProduct:
    """A product by its name. Raises UnknownEntry."""
    return entry("pipe products", _PRODUCTS, name)


def nominals(product: str) -> tuple[str, ...]:
    """The nominal sizes that a product comes in, from small to large. Raises UnknownEntry.

    >>> nominals("pvc-sch-40")
    ('1/2', '3/4', '1', '1-1/4', '1-1/2', '2')
    """
    return tuple(entry("pipe products", _SIZES, product))


def pipe_size(*, product: str, nominal: str) -> PipeSize:
    """A pipe by its product and its nominal size in inches. Raises UnknownEntry.

    >>> round(pipe_size(product="pe-sidr-15", nominal="1").inside_diameter, 6)
    0.026645
    """
    sizes = entry("pipe products", _SIZES, product)
    return sizes[nominal] if nominal in sizes else entry(f"{product} sizes", sizes, nominal)
