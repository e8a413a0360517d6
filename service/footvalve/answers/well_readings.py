"""The readings of a recovery: which of them tell something, and which of them contradict another."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from operator import attrgetter

from msgspec import Struct

from footvalve.answers.sounding_by_instrument import STEEL_TAPE_AGREEMENT
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.contract.quantities import Length
from footvalve.contract.well_recovery import RecoveryReading
from footvalve.physics.method import OutsideDomain
from footvalve.physics.recovery_rest import rest_offset
from footvalve.physics.well_recovery import FittedRecovery

TAPE_ERROR = Length(0.01, "ft")
"""A tape is good to this. Source: USGS Techniques and Methods 1-A1 (2011), GWPD 1 and GWPD 4."""

LEAST_FOR_REST = 5
"""Readings from which their bend tells more than chance: two of them are beyond what the bend is told by."""

READINGS = "/recovery/readings"


class ResidualDrawdown(Struct, frozen=True):
    """A reading that a fit can use: its place in the request, seconds since pumping stopped, m below rest."""

    index: int
    time: float
    drawdown: float


def residual_drawdowns(readings: Sequence[RecoveryReading], static_depth: float) -> list[ResidualDrawdown]:
    """The readings that lie below the water at rest by more than a tape's error, in the order of their times."""
    error = TAPE_ERROR.base
    used = [
        ResidualDrawdown(index, reading.elapsed.base, drawdown)
        for index, reading in enumerate(readings)
        if (drawdown := reading.depth.base - static_depth) > error
    ]
    return sorted(used, key=attrgetter("time"))


def distinct_readings(used: Sequence[ResidualDrawdown]) -> int:
    """How many of the readings are not another one told again, which makes nothing surer."""
    return len({(reading.time, reading.drawdown) for reading in used})


def reading_doubts(
    readings: Sequence[RecoveryReading], used: Sequence[ResidualDrawdown], static_depth: float, units: UnitSystem
) -> list[Warning]:
    """A warning at each reading that is left out, out of order, or deeper than the one before it."""
    return [
        *_left_out(readings, used, static_depth, units),
        *_out_of_order(readings),
        *_falling(readings, units),
        *_too_few(used),
    ]


def _left_out(
    readings: Sequence[RecoveryReading], used: Sequence[ResidualDrawdown], static_depth: float, units: UnitSystem
) -> Iterator[Warning]:
    kept = {reading.index for reading in used}
    for index, reading in enumerate(readings):
        if index in kept:
            continue
        above = static_depth - reading.depth.base
        text = "stands at the water's rest, as near as a tape can tell, and tells no more of how fast it comes back"
        if above > TAPE_ERROR.base:
            text = (
                f"stands {units.length(above)} above the water at rest: `static_depth` is too deep, or was not at rest"
            )
        yield Warning(f"{READINGS}/{index}/depth", f"{text}; it is left out")


def _out_of_order(readings: Sequence[RecoveryReading]) -> Iterator[Warning]:
    latest = readings[0].elapsed
    latest_time = latest.base
    for index, reading in enumerate(readings):
        time = reading.elapsed.base
        if time < latest_time:
            text = f"is earlier than the {latest} of a reading before it: check it; it is taken at its own time"
            yield Warning(f"{READINGS}/{index}/elapsed", text)
        else:
            latest, latest_time = reading.elapsed, time


def _falling(readings: Sequence[RecoveryReading], units: UnitSystem) -> Iterator[Warning]:
    taken = [(reading.elapsed.base, index, reading.depth.base) for index, reading in enumerate(readings)]
    for (_, _, before), (_, index, after) in pairwise(sorted(taken)):
        fall = after - before
        if not STEEL_TAPE_AGREEMENT.holds(fall):
            text = f"lies {units.length(fall)} deeper than the reading before it in time: while a well recovers its"
            yield Warning(f"{READINGS}/{index}/depth", f"{text} level rises; check it, and that nothing was drawn")


def _too_few(used: Sequence[ResidualDrawdown]) -> Iterator[Warning]:
    if distinct_readings(used) == 2:
        text = "only two readings can be used, which any inflow fits: nothing tells how good they are; take more"
        yield Warning(READINGS, text)


def rest_doubts(
    used: Sequence[ResidualDrawdown], fit: FittedRecovery, area: float, static_depth: float, units: UnitSystem
) -> list[Warning]:
    """A warning where the readings bend as if the level came to rest elsewhere than at the static depth: by three
    times the uncertainty of it, and by more than two readings of a tape may differ."""
    if len(used) < LEAST_FOR_REST:
        return []
    try:
        rest = rest_offset(
            times=[reading.time for reading in used],
            drawdowns=[reading.drawdown for reading in used],
            fit=fit,
            area=area,
            reading_error=TAPE_ERROR.base,
        )
    except OutsideDomain:
        return []
    apart = abs(rest.offset)
    if apart <= 3.0 * rest.standard_uncertainty or STEEL_TAPE_AGREEMENT.holds(apart):
        return []
    # A level that rises does not come to rest below where it was read last.
    deepest = static_depth + min(rest.offset, used[-1].drawdown)
    return [Warning("/static_depth", _elsewhere(rest.offset, deepest, units))]


def _elsewhere(offset: float, depth: float, units: UnitSystem) -> str:
    seen = f"the readings bend as if the level came to rest near {units.length(depth)}"
    if offset > 0.0:
        return (
            f"{seen}, deeper than `static_depth`: read the level until it is still. Either the well was not at rest "
            "before, or the ground around it refills slowly and holds less for long draws than this answer says"
        )
    return (
        f"{seen}, less deep than `static_depth`: then the drawdowns are greater than they seem, and the inflow is "
        "overstated. Read the level until it is still"
    )
