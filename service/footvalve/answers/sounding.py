"""How far down the water stands: the answer of `sounding`."""

from collections.abc import Iterator, Sequence
from statistics import fmean

from msgspec import UNSET, UnsetType

from footvalve.answers.basis import basis, range_warnings, reckoned
from footvalve.answers.cautions import LEAST_RISE, cautions, flowing_codes
from footvalve.answers.sounding_by_instrument import (
    depths_as_shown,
    depths_by_air_line,
    depths_by_echo,
    depths_by_tape,
    readings_as_shown,
    readings_by_air_line,
    readings_by_echo,
    readings_by_tape,
)
from footvalve.answers.sounding_by_stone import depths_by_stone, readings_by_stone
from footvalve.answers.sounding_readings import Readings, disagreements
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.contract.answer import Warning
from footvalve.contract.sounding import (
    AirLine,
    DirectSounding,
    EchoSounding,
    RuleOfThumbDepth,
    SoundingAnswer,
    SoundingQuestion,
    SoundingRequest,
    StoneDrop,
    WettedTape,
)
from footvalve.physics.method import Method

MEAN = Method("Arithmetic mean of the readings", "JCGM 100:2008, 4.2.1")
FROM_GROUND = Method(
    "Depth below the measuring point less that point's height above the ground",
    "Cunningham & Schalk, USGS Techniques and Methods 1-A1 (2011), GWPD 1, step 8",
)


def sounding(request: SoundingRequest) -> SoundingAnswer:
    """The depth to the water by the readings of one method. Raises Refused with the faults of the readings."""
    return sounding_answer(request, depth_readings(request, unit_system(request.units)))


def sounding_answer(request: SoundingRequest, readings: Readings) -> SoundingAnswer:
    """What the readings come to."""
    units = unit_system(request.units)
    steps = [*readings.steps, reckoned("Depth to the water", MEAN), reckoned("Depth below the ground", FROM_GROUND)]
    depth = fmean(readings.depths)
    below_ground = depth_below_ground(request, readings)
    return SoundingAnswer(
        depth_to_water=units.length(depth),
        depth_below_ground=units.length(below_ground),
        readings=[units.length(reading) for reading in readings.depths],
        spread=units.length(readings.spread),
        rule_of_thumb=_rule_of_thumb(readings.rule_of_thumb, depth, units),
        basis=basis(steps, units),
        cautions=cautions((*readings.cautions, *_cautions_of_place(request, depth, below_ground))),
        warnings=[
            *readings.warnings,
            *range_warnings(steps, units),
            *disagreements(readings, units),
            *_water_over_ground(depth, below_ground, units),
        ],
    )


def depth_below_ground(question: SoundingQuestion, readings: Readings) -> float:
    """Depth in m from the ground at the wellhead, by the mean of the readings."""
    return fmean(readings.depths) - question.measuring_point_height.base


def measured_depths(request: SoundingRequest) -> Sequence[float]:
    """The depths alone, without what is said of them. Raises Refused as `depth_readings`."""
    match request.measurement:
        case StoneDrop() as drop:
            return depths_by_stone(drop, request.site)
        case WettedTape() as tape:
            return depths_by_tape(tape)
        case AirLine() as line:
            return depths_by_air_line(line, request.site)
        case EchoSounding() as echo:
            return depths_by_echo(echo, request.site)
        case DirectSounding() as direct:
            return depths_as_shown(direct)


def depth_readings(request: SoundingRequest, units: UnitSystem) -> Readings:
    """Each reading as a depth below the measuring point. Raises Refused with the faults of the readings."""
    match request.measurement:
        case StoneDrop() as drop:
            return readings_by_stone(drop, request.site, units)
        case WettedTape() as tape:
            return readings_by_tape(tape)
        case AirLine() as line:
            return readings_by_air_line(line, request.site)
        case EchoSounding() as echo:
            return readings_by_echo(echo, request.site)
        case DirectSounding() as direct:
            return readings_as_shown(direct)


def _rule_of_thumb(by_rule: float | None, depth: float, units: UnitSystem) -> RuleOfThumbDepth | UnsetType:
    if by_rule is None:
        return UNSET
    differs_by = by_rule - depth
    side, verdict = ("deeper", "no") if differs_by > 0 else ("less deep", "yes")
    return RuleOfThumbDepth(
        depth=units.length(by_rule),
        differs_by=units.length(differs_by),
        errs=f"The rule puts the water {units.length(abs(differs_by))} {side} than it is: asked whether a pump can "
        f"lift it, the rule says {verdict} too often.",
    )


def _cautions_of_place(request: SoundingRequest, depth: float, below_ground: float) -> Iterator[str]:
    if request.measuring_point_height.base < 0.0:
        yield "confined-pit"
    yield from flowing_codes(min(depth, below_ground))


def _water_over_ground(depth: float, below_ground: float, units: UnitSystem) -> list[Warning]:
    """A warning where the casing would hold water above the ground: rare, and more often a slip of the height."""
    if depth < -LEAST_RISE or below_ground >= -LEAST_RISE:
        return []
    text = f"by this height the water stands {units.length(-below_ground)} above the ground inside the casing"
    return [Warning("/measuring_point_height", f"{text}: check it, unless the well is known to flow")]
