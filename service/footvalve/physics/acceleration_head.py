"""The head that it takes to speed up the water in the suction line at each stroke of a reciprocating pump."""

from collections.abc import Mapping
from types import MappingProxyType

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import STANDARD_GRAVITY, Metres, MetresPerSecond, Number

ACCELERATION_HEAD = Method(
    "Acceleration head h = L V N C / (k g), k = 1.4 for water, C by the number of chambers",
    "Hydraulic Institute, Standards for Reciprocating Pumps (ANSI/HI 6.1-6.5), acceleration head; C and k from memory",
    (Range("strokes_per_minute", 10.0, 1000.0, "1/min"),),
    "k allows for some give in water and pipe: a wholly rigid line takes up to 1.4 times as much; strokes: own choice",
)

CHAMBER_FACTORS: Mapping[int, Number] = MappingProxyType(
    {1: 0.400, 2: 0.200, 3: 0.066, 4: 0.115, 5: 0.040, 6: 0.066, 7: 0.028, 9: 0.022}
)
"""C for single-acting chambers in even phase; 4 as for two double-acting, 6 as for three. From memory."""

WATER_FACTOR: Number = 1.4
"""k, which stands for the water's springiness: 1.4 for ordinary water. From memory."""

CUSHIONED_BORES: Number = 15.0
"""With a gas cushion at the inlet only this many bores of line are sped up by the stroke. Common practice,
no source: a cushion close to the pump leaves 5 to 15 bores."""


def acceleration_head(
    *, length: Metres, velocity: MetresPerSecond, strokes_per_minute: Number, chambers: int
) -> Metres:
    """Greatest head that a stroke takes from the suction side, h = L V N C / (k g).

    For lines of several bores the heads of the lengths are added.

    C is the greatest acceleration of the chambers' joint flow over V N, with a fifth more for a connecting rod of
    five cranks: 0.4 for one chamber is 1.2 pi^2 / 30.

    Valid for: lines that give a little, as k allows for. A wholly rigid one takes k times as much; in long or soft
    ones the true head is less.
    Source: Hydraulic Institute, Standards for Reciprocating Pumps (ANSI/HI 6.1-6.5), from memory.
    Raises: OutsideDomain for a number of chambers that C is not known for.

    >>> round(acceleration_head(length=10.0, velocity=0.5, strokes_per_minute=200.0, chambers=3), 3)
    4.807
    """
    if chambers not in CHAMBER_FACTORS:
        known = ", ".join(map(str, CHAMBER_FACTORS))
        raise OutsideDomain(f"acceleration head is known for {known} chambers")
    factor = CHAMBER_FACTORS[chambers] / (WATER_FACTOR * STANDARD_GRAVITY)
    return length * velocity * strokes_per_minute * factor
