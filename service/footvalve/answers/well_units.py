"""Quantities that only a well's answer tells: its specific capacity, and spans from a minute to many days."""

from footvalve.answers.unit_system import METRIC, UnitSystem, hours, minutes
from footvalve.contract.quantities import Duration, Length, SpecificCapacity

HOUR = 3600.0
DAY = 24.0 * HOUR


def specific_capacity(square_metres_per_second: float, units: UnitSystem) -> SpecificCapacity:
    """A well's specific capacity."""
    return SpecificCapacity.from_base(square_metres_per_second, "L/s/m" if units is METRIC else "gal/min/ft")


def fine_length(length: Length, units: UnitSystem) -> Length:
    """A length of less than a hand's breadth: in feet, as American tapes are read, or in mm."""
    return Length.from_base(length.base, "mm" if units is METRIC else "ft")


def span(seconds: float) -> Duration:
    """A span in the unit that people would tell it in: minutes to ten hours, hours to ten days, days beyond."""
    if seconds < 10.0 * HOUR:
        return minutes(seconds)
    return hours(seconds) if seconds < 10.0 * DAY else Duration.from_base(seconds, "d")
