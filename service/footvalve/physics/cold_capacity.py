"""What cold takes from a battery's capacity."""

from bisect import bisect_right
from collections.abc import Sequence
from typing import NamedTuple

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import Fraction, Kelvins

COLD_CAPACITY = Method(
    name="capacity by temperature, straight lines between the points of a table",
    source="lead-acid: IEEE 485, Table 1, US Army TM 10-6140-200-14, para 1-8; LFP: common practice",
    note="the table's own range, above which no more is counted",
)


class CapacityPoint(NamedTuple):
    """The capacity at a temperature, as a fraction of the rated one."""

    temperature: Kelvins
    capacity_fraction: Fraction


def cold_capacity(points: Sequence[CapacityPoint]) -> Method:
    """The method with the range of one chemistry's table.

    >>> cold_capacity([CapacityPoint(273.15, 0.8), CapacityPoint(298.15, 1.0)]).range_of("temperature").low
    273.15
    """
    reach = Range("temperature", points[0].temperature, points[-1].temperature, "K")
    return Method(COLD_CAPACITY.name, COLD_CAPACITY.source, (reach,), COLD_CAPACITY.note)


def capacity_fraction_at(points: Sequence[CapacityPoint], *, temperature: Kelvins) -> Fraction:
    """The capacity at a temperature, as a fraction of the rated one.

        f = f1 + (f2 - f1) (T - T1) / (T2 - T1), between the neighbours in the table

    Valid for: the table's own range.
    Source: the table's.
    Raises: OutsideDomain for a temperature outside the table: nobody says what the battery has there.

    >>> table = [CapacityPoint(273.15, 0.8), CapacityPoint(298.15, 1.0)]
    >>> round(capacity_fraction_at(table, temperature=285.65), 6)
    0.9
    """
    if not points[0].temperature <= temperature <= points[-1].temperature:
        raise OutsideDomain(f"the table of capacities does not reach {temperature:g} K")
    above = min(bisect_right(points, temperature, key=lambda point: point.temperature), len(points) - 1)
    (cold, low), (warm, high) = points[above - 1], points[above]
    return low + (high - low) * (temperature - cold) / (warm - cold)
