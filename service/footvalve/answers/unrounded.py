"""Quantities in a system of units without the rounding of the wire: what one answer hands on to the next."""

from footvalve.answers.unit_system import METRIC, UnitSystem
from footvalve.contract.quantities import Current, Flow, Length, Pressure, SpecificCapacity
from footvalve.quantity import SpecificCapacityUnit, from_base


def length(metres: float, units: UnitSystem) -> Length:
    """A length, depth, elevation or head."""
    return Length(from_base(metres, units.length_unit), units.length_unit)


def flow(cubic_metres_per_second: float, units: UnitSystem) -> Flow:
    """A flow of water."""
    return Flow(from_base(cubic_metres_per_second, units.flow_unit), units.flow_unit)


def pressure(pascals: float, units: UnitSystem) -> Pressure:
    """A pressure."""
    return Pressure(from_base(pascals, units.pressure_unit), units.pressure_unit)


def specific_capacity(square_metres_per_second: float, units: UnitSystem) -> SpecificCapacity:
    """A well's specific capacity."""
    unit: SpecificCapacityUnit = "L/s/m" if units is METRIC else "gal/min/ft"
    return SpecificCapacity(from_base(square_metres_per_second, unit), unit)


def current(amperes: float) -> Current:
    """A current."""
    return Current(amperes, "A")
