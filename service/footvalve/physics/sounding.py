"""How deep the water stands by a wetted tape, an air line or an echo."""

from math import inf

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import (
    STANDARD_GRAVITY,
    KilogramsPerCubicMetre,
    Metres,
    MetresPerSecond,
    Pascals,
    Seconds,
)

WETTED_TAPE = Method(
    name="Graduated steel tape: the length held less the length wetted",
    source="Cunningham & Schalk, USGS Techniques and Methods 1-A1 (2011), GWPD 1",
    ranges=(Range("held", 0.0, 500 * 0.3048, "m"),),
    note="a tape that hangs straight and free; a longer one stretches, which is not corrected",
)
"""Good to 0.01 ft (3 mm) where two readings agree to 0.02 ft (GWPD 1)."""

AIR_LINE = Method(
    name="Air line: the pressure that keeps its lower end free of water is the depth of that end under water",
    source="Cunningham & Schalk, USGS Techniques and Methods 1-A1 (2011), GWPD 13",
    note="a tight line, pumped until the gauge rises no more; the weight of the air in it is left out, 0.1 to 0.3 % of "
    "the line's length",
)
"""Good to 0.1 ft (30 mm) at best and often to no better than 1 ft (GWPD 13): the gauge decides."""

ELECTRIC_TAPE = Method(
    name="Depth as the instrument shows it",
    source="Cunningham & Schalk, USGS Techniques and Methods 1-A1 (2011), GWPD 4, electric tape",
    ranges=(Range("depth", -inf, 200 * 0.3048, "m"),),
    note="most accurate there",
)

ECHO = Method(
    name="Echo: half of the sound's round trip",
    source="Definition of speed, with the speed of sound in the well's air",
    ranges=(Range("speed_of_sound", 300.0, 370.0, "m/s"),),
    note="air of one temperature along the whole well; range: own choice",
)


def tape_depth(*, held: Metres, cut: Metres) -> Metres:
    """Depth to water under the measuring point by a chalked tape.

        d = held - cut

    Valid for: a tape that hangs straight and free; its stretch and warmth are not corrected.
    Source: USGS Techniques and Methods 1-A1 (2011), GWPD 1.
    Raises: OutsideDomain for a wetted length that is negative or longer than the tape let down.

    >>> round(tape_depth(held=4.57, cut=0.39), 2)
    4.18
    """
    if not 0.0 <= cut <= held < inf:
        raise OutsideDomain("the wetted part of a tape (cut) must lie between 0 and the length let down (held)")
    return held - cut


def air_line_depth(*, line_length: Metres, pressure: Pascals, water_density: KilogramsPerCubicMetre) -> Metres:
    """Depth to water under the measuring point by the gauge pressure that an air line holds.

        d = L - p / (rho g)

    At zero pressure the end of the line hangs above the water, and the depth is only known to be L or more. A
    result below zero is water above the measuring point (a flowing well).

    Valid for: a tight line that has been pumped until the gauge rises no more; the weight of the air in it is
    left out (0.1 to 0.3 % of the line's length).
    Source: USGS Techniques and Methods 1-A1 (2011), GWPD 13.
    Raises: OutsideDomain for a line without length, a pressure below the atmosphere's or water of no density.

    >>> round(air_line_depth(line_length=30.0, pressure=98066.5, water_density=1000.0), 3)
    20.0
    """
    if not (0.0 < line_length < inf and 0.0 <= pressure < inf and water_density > 0.0):
        raise OutsideDomain(
            "an air line has a length, a gauge pressure of 0 or more, and stands in water with a density"
        )
    return line_length - pressure / (water_density * STANDARD_GRAVITY)


def echo_depth(*, time: Seconds, speed_of_sound: MetresPerSecond) -> Metres:
    """Depth to water under the measuring point by the time of a sound's round trip.

        d = c t / 2

    Valid for: air of one temperature along the whole well; 1 K of error moves the depth by 0.18 %.
    Source: definition of speed.
    Raises: OutsideDomain for a negative time or a speed that is not positive.

    >>> round(echo_depth(time=0.05, speed_of_sound=340.0), 3)
    8.5
    """
    if not (0.0 <= time < inf and 0.0 < speed_of_sound < inf):
        raise OutsideDomain("an echo takes time and runs at a positive speed")
    return speed_of_sound * time / 2.0
