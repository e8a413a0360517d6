"""Readings that were repeated: how far their scatter lets one believe their mean (type A)."""

from collections.abc import Callable, Iterator, Sequence
from math import sqrt
from statistics import stdev
from typing import Any

from msgspec.structs import replace

from footvalve.answers.uncertain_inputs import OutOfRange, UncertainInput
from footvalve.contract.pointed import changed_at, tokens
from footvalve.contract.quantities import Quantity
from footvalve.contract.sounding import (
    AirLine,
    DirectSounding,
    EchoSounding,
    Measurement,
    StoneDrop,
    TapePair,
    WettedTape,
)
from footvalve.contract.soundness import is_inside_ranges
from footvalve.physics.method import Method

SCATTER = Method(
    "Experimental standard deviation of the mean",
    "JCGM 100:2008, 4.2.3 (type A)",
    note="readings independent of one another, what is stated of each comes on top; the deviation of times by hand is "
    "pooled with a hand's 0.07 s (4.2.4), and no less than theirs; the deviation itself is uncertain by 76 % with two "
    "readings, 52 % with three, 24 % with ten (Table E.1)",
)


BY_HAND = 0.1 / sqrt(2.0)
"""s by which a time that is taken by hand scatters, as two of one fall may well differ by 0.1 s: what is known of such
times beforehand stands in where few of them tell it (JCGM 100:2008, 4.2.4). Common practice, no source."""

FREEDOM_OF_A_HAND = 3
"""Degrees of freedom that `BY_HAND` counts for where it is pooled: four times weigh as much. Own choice."""

TELLING = 4
"""Readings from which their own scatter is believed without a word."""


def no_scatter(_: Any) -> Iterator[UncertainInput]:
    """That of a request without repeated readings."""
    return iter(())


def sounding_scatter(measurement: Measurement, pointer: str) -> Iterator[UncertainInput]:
    """The mean of repeated readings as one uncertain input: all of them are moved together. None where there is no
    scatter, and where there is one reading alone, unless it is a time by hand. `pointer` leads to the measurement."""
    match measurement:
        case StoneDrop(times=readings):
            yield from _mean(
                f"{pointer}/times", [time.base for time in readings], Quantity.moved, _of_a_hand(measurement)
            )
        case EchoSounding(times=readings):
            yield from _mean(f"{pointer}/times", [time.base for time in readings], Quantity.moved)
        case AirLine(pressures=readings):
            yield from _mean(f"{pointer}/pressures", [pressure.base for pressure in readings], Quantity.moved)
        case DirectSounding(depths=readings):
            yield from _mean(f"{pointer}/depths", [depth.base for depth in readings], Quantity.moved)
        case WettedTape(pairs=pairs):
            depths = [pair.held.base - pair.cut.base for pair in pairs]
            yield from _mean(f"{pointer}/pairs", depths, _held_further)


def is_by_hand(measurement: Measurement) -> bool:
    """Whether what is known of a hand stands in for a scatter that so few times do not show."""
    if not isinstance(measurement, StoneDrop) or not 1 < len(measurement.times) < TELLING:
        return False
    return stdev(time.base for time in measurement.times) < _of_a_hand(measurement)


def _of_a_hand(drop: StoneDrop) -> float:
    """Seconds by which a hand is known to scatter; none where it is stated."""
    return 0.0 if any(time.uncertainty for time in drop.times) else BY_HAND


def _mean(
    pointer: str, readings: Sequence[float], moved: Callable[[Any, float], Any], known: float = 0.0
) -> Iterator[UncertainInput]:
    """`known` is the deviation that such readings are known to have; none for those of an instrument."""
    sigma = _deviation(readings, known) / sqrt(len(readings))
    if sigma > 0.0:
        yield UncertainInput(
            pointer, "scatter", lambda request, sigmas: _shifted(request, pointer, moved, sigmas * sigma), SCATTER
        )


def _deviation(readings: Sequence[float], known: float) -> float:
    """How far each reading scatters, where so much is known of such readings beforehand.

    Source: JCGM 100:2008, 4.2.4: pooled estimate.
    """
    found = stdev(readings) if len(readings) > 1 else 0.0
    freedom = len(readings) - 1
    pooled = (FREEDOM_OF_A_HAND * known**2 + freedom * found**2) / (FREEDOM_OF_A_HAND + freedom)
    return max(found, sqrt(pooled)) if known else found


def _shifted(request: Any, pointer: str, moved: Callable[[Any, float], Any], by: float) -> Any:
    shifted = changed_at(request, tokens(pointer), lambda readings: [moved(reading, by) for reading in readings])
    if not is_inside_ranges(shifted):
        raise OutOfRange(pointer)
    return shifted


def _held_further(pair: TapePair, by: float) -> TapePair:
    """The pair with so many m more of the tape let down to the same wet mark: the water is as much deeper."""
    return replace(pair, held=pair.held.moved(by))
