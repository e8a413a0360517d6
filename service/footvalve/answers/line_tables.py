"""The tables of what a line is made of: pipes, fittings and valves, bores in inches as the trade has them."""

from msgspec import UNSET, UnsetType

from footvalve.contract.quantities import Length, Velocity
from footvalve.contract.tables import (
    FittingRow,
    FittingsTable,
    PipeRow,
    PipeSizeRow,
    PipesTable,
    ValveRow,
    ValvesTable,
)
from footvalve.physics.fitting_loss import full_lift_velocity
from footvalve.tables.fittings import FITTINGS, fitting
from footvalve.tables.materials import material
from footvalve.tables.pipes import PIPE_PRODUCTS, nominals, pipe_product, pipe_size
from footvalve.tables.reading import rows
from footvalve.tables.valves import VALVES, valve

_CONVENTIONAL_DENSITY = 1000.0
"""kg/m^3, of the water in a conventional column. Source: NIST SP 811 (2008), Appendix B.8."""


def pipes_table() -> PipesTable:
    """Pipes by product and size."""
    return PipesTable(rows=[_pipe(product) for product in PIPE_PRODUCTS])


def _pipe(name: str) -> PipeRow:
    product = pipe_product(name)
    wall = material(product.material)
    return PipeRow(
        product=name,
        title=product.title,
        material=product.material,
        bore_basis=product.bore_basis,
        roughness=Length.from_base(wall.roughness, "mm"),
        roughness_source=wall.roughness_source,
        hazen_williams_coefficient=wall.hazen_williams_coefficient,
        hazen_williams_source=wall.hazen_williams_source,
        sizes=[_pipe_size(name, nominal) for nominal in nominals(name)],
        note=product.note or UNSET,
        source=product.source,
    )


def _pipe_size(product: str, nominal: str) -> PipeSizeRow:
    size = pipe_size(product=product, nominal=nominal)
    return PipeSizeRow(
        nominal=nominal,
        outside_diameter=Length.from_base(size.outside_diameter, "in"),
        inside_diameter=Length.from_base(size.inside_diameter, "in"),
        source=size.source,
    )


def fittings_table() -> FittingsTable:
    """Fittings."""
    return FittingsTable(rows=[_fitting(name) for name in FITTINGS])


def _fitting(name: str) -> FittingRow:
    row = fitting(name)
    return FittingRow(
        fitting=name,
        title=row.title,
        kind=row.kind,
        value=UNSET if row.value is None else row.value,
        note=row.note or UNSET,
        source=row.source,
    )


def valves_table() -> ValvesTable:
    """Valves, with the velocity that lifts the disc of a check valve."""
    lift_sources = {row["valve"]: row["source"] for row in rows("disc_lift")}
    return ValvesTable(rows=[_valve(name, lift_sources.get(name, UNSET)) for name in VALVES])


def _valve(name: str, lift_source: str | UnsetType) -> ValveRow:
    row = valve(name)
    return ValveRow(
        valve=name,
        title=row.title,
        equivalent_length_ratio=row.equivalent_length_ratio,
        is_check=row.is_check,
        includes_strainer=row.includes_strainer,
        full_lift_velocity=_full_lift_velocity(row.full_lift_constant),
        full_lift_source=lift_source,
        note=row.note or UNSET,
        source=row.source,
    )


def _full_lift_velocity(constant: float | None) -> Velocity | UnsetType:
    if constant is None:
        return UNSET
    return Velocity.from_base(full_lift_velocity(constant=constant, density=_CONVENTIONAL_DENSITY), "ft/s")
