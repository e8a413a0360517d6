"""How much air stands in a dry suction line, and how long a pump takes to draw it out."""

import math
from collections.abc import Sequence

from msgspec import Struct

from footvalve.physics.method import Method
from footvalve.physics.si import CubicMetres, CubicMetresPerSecond, Fraction, Metres, Seconds

PRIMING = Method(
    "Air drawn out at constant temperature by a displacement pump that moves its flow of air at suction pressure",
    "Boyle's law along the rising water column, closed form for each length of pipe",
    note="the least time, at full efficiency on air; other pumps take longer or do not prime at all",
)


class AirLength(Struct, frozen=True):
    """A length of dry line: the heights over the water's surface that it runs between, and the air it holds."""

    start_height: Metres
    end_height: Metres
    volume: CubicMetres


def above_the_water(*, start_height: Metres, end_height: Metres, volume: CubicMetres) -> AirLength | None:
    """The part of a straight length that stands above the water's surface, or None where nothing of it does.

    Valid for: a straight length of one bore; a level one at the surface counts as dry.
    Source: geometry.

    >>> above_the_water(start_height=-6.0, end_height=2.0, volume=0.004)
    AirLength(start_height=0.0, end_height=2.0, volume=0.001)
    """
    low, high = sorted((start_height, end_height))
    if low < 0.0 and high <= 0.0:
        return None
    if low >= 0.0:
        return AirLength(start_height, end_height, volume)
    return AirLength(max(start_height, 0.0), max(end_height, 0.0), volume * high / (high - low))


def priming_time(*, air: Sequence[AirLength], flow: CubicMetresPerSecond, atmospheric_head: Metres) -> Seconds | None:
    """Least time to fill the dry lengths, in order from the water to the pump; None where the air cannot push the
    water over the highest of them.

    From d(pV)/dt = -p Q: t = (1/Q) integral of (dV + V dp / p), with p = rho g (H - z) under the column's top z and
    the volume falling in a straight line along each length. Past a crest the pressure stays the crest's.

    Valid for: displacement pumps that run dry at their rated flow; others take longer or do not prime at all.
    Source: Boyle's law; derived here.

    >>> line = [AirLength(0.0, 5.0, 0.002), AirLength(5.0, 5.0, 0.003)]
    >>> round(priming_time(air=line, flow=0.0002, atmospheric_head=10.2), 1)
    38.1
    """
    remaining = sum(length.volume for length in air)
    integral, top = 0.0, 0.0
    for length in air:
        integral += length.volume
        if length.end_height >= atmospheric_head:
            return None
        if length.end_height > top:
            climb, rise = length.end_height - length.start_height, length.end_height - top
            start = remaining - length.volume * (top - length.start_height) / climb
            integral += _expansion(start, length.volume * (rise / climb), rise / (atmospheric_head - top))
            top = length.end_height
        remaining -= length.volume
    return integral / flow


def _expansion(volume: CubicMetres, filled: CubicMetres, thinning: Fraction) -> CubicMetres:
    """Integral of V dp / p while the water rises and fills a part of the volume, and the pressure falls by a
    fraction: V L - F (L / f - 1), L = -ln(1 - f). So written, a rise of next to nothing adds next to nothing."""
    if thinning == 0.0:
        return 0.0
    logarithm = -math.log1p(-thinning)
    return volume * logarithm - filled * (logarithm / thinning - 1.0)
