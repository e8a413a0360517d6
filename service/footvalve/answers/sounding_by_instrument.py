"""The readings of a tape, an air line or an echo as depths."""

from statistics import fmean

from footvalve.answers.basis import At, reckoned
from footvalve.answers.sounding_readings import Agreement, Readings
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import Length
from footvalve.contract.request import Site
from footvalve.contract.sounding import AirLine, DirectSounding, EchoSounding, TapePair, WettedTape
from footvalve.physics.atmosphere import SPEED_OF_SOUND, speed_of_sound
from footvalve.physics.sounding import (
    AIR_LINE,
    ECHO,
    ELECTRIC_TAPE,
    WETTED_TAPE,
    air_line_depth,
    echo_depth,
    tape_depth,
)
from footvalve.physics.water import WATER, water

STEEL_TAPE_AGREEMENT = Agreement(Length(0.02, "ft").base, "USGS GWPD 1, step 9, asks it of a repeated tape")
ELECTRIC_TAPE_AGREEMENT = Agreement(Length(0.02, "ft").base, "USGS GWPD 4, step 6, asks it of a repeated electric tape")
AIR_LINE_AGREEMENT = Agreement(Length(1.0, "ft").base, "USGS GWPD 13: a gauge is good to the nearest foot")

ECHO_LEAST = Length(0.1, "ft").base
ECHO_SHARE = 0.005
"""Echoes of one well agree within the greater of 0.1 ft and 0.5 % of the depth. Common practice, no source."""

_INTO_THE_WELL = ("open-shaft", "mains-electricity", "well-opened")


def depths_by_tape(tape: WettedTape) -> list[float]:
    """The depth in m by each pair, alone. Raises Refused for a tape that is wet beyond its length, or dry."""
    faults = [fault for index, pair in enumerate(tape.pairs) for fault in _pair_faults(pair, index)]
    if faults:
        raise Refused(*faults)
    return [tape_depth(held=pair.held.base, cut=pair.cut.base) for pair in tape.pairs]


def readings_by_tape(tape: WettedTape) -> Readings:
    """The depth by each pair. Raises Refused as `depths_by_tape`."""
    depths = depths_by_tape(tape)
    held = [At(f"/measurement/pairs/{index}/held", pair.held.base) for index, pair in enumerate(tape.pairs)]
    return Readings(
        depths=depths,
        pointer="/measurement/pairs",
        agreement=STEEL_TAPE_AGREEMENT,
        steps=(reckoned("Depth by each pair", WETTED_TAPE, held=held),),
        cautions=_INTO_THE_WELL,
    )


def _pair_faults(pair: TapePair, index: int) -> list[Fault]:
    pointer = f"/measurement/pairs/{index}/cut"
    if pair.cut.base > pair.held.base:
        return [Fault(pointer, f"must not be more than what was held, {pair.held}")]
    if pair.cut.base == 0.0:
        return [Fault(pointer, f"a tape that comes up dry did not reach the water, which is deeper than {pair.held}")]
    return []


def depths_by_air_line(line: AirLine, site: Site) -> list[float]:
    """The depth in m by each pressure, alone. Raises Refused where the line's end would be dry, or the water above its
    top."""
    length, temperature = line.line_length.base, site.water_temperature.base
    density = water(temperature=temperature).density
    depths = [
        air_line_depth(line_length=length, pressure=pressure.base, water_density=density) for pressure in line.pressures
    ]
    faults = [fault for index, depth in enumerate(depths) for fault in _air_line_faults(line, depth, index)]
    if faults:
        raise Refused(*faults)
    return depths


def readings_by_air_line(line: AirLine, site: Site) -> Readings:
    """The depth by each pressure. Raises Refused as `depths_by_air_line`."""
    temperature = At("/site/water_temperature", site.water_temperature.base)
    return Readings(
        depths=depths_by_air_line(line, site),
        pointer="/measurement/pressures",
        agreement=AIR_LINE_AGREEMENT,
        steps=(
            reckoned("Water's density", WATER, temperature=temperature),
            reckoned("Depth by each pressure", AIR_LINE),
        ),
    )


def _air_line_faults(line: AirLine, depth: float, index: int) -> list[Fault]:
    pointer = f"/measurement/pressures/{index}"
    if depth < 0.0:
        return [Fault(pointer, f"stands for a column of water longer than the line, {line.line_length}")]
    if line.pressures[index].base == 0.0:
        text = f"the line's end hangs in air at no pressure: the water is deeper than {line.line_length}"
        return [Fault(pointer, text)]
    return []


def depths_by_echo(echo: EchoSounding, site: Site) -> list[float]:
    """The depth in m by each round trip, alone."""
    speed = speed_of_sound(temperature=site.air_temperature.base)
    return [echo_depth(time=time.base, speed_of_sound=speed) for time in echo.times]


def readings_by_echo(echo: EchoSounding, site: Site) -> Readings:
    """The depth by each round trip."""
    warmth, temperature = "/site/air_temperature", site.air_temperature.base
    speed, depths = speed_of_sound(temperature=temperature), depths_by_echo(echo, site)
    return Readings(
        depths=depths,
        pointer="/measurement/times",
        agreement=Agreement(max(ECHO_LEAST, ECHO_SHARE * fmean(depths)), "common practice"),
        steps=(
            reckoned("Speed of sound in the air", SPEED_OF_SOUND, temperature=At(warmth, temperature)),
            reckoned("Depth by each echo", ECHO, speed_of_sound=At(warmth, speed)),
        ),
        cautions=_INTO_THE_WELL,
    )


def depths_as_shown(direct: DirectSounding) -> list[float]:
    """The depths in m as they were read, alone."""
    return [depth.base for depth in direct.depths]


def readings_as_shown(direct: DirectSounding) -> Readings:
    """The depths as they were read."""
    depths = depths_as_shown(direct)
    shown = [At(f"/measurement/depths/{index}", depth) for index, depth in enumerate(depths)]
    return Readings(
        depths=depths,
        pointer="/measurement/depths",
        agreement=ELECTRIC_TAPE_AGREEMENT,
        steps=(reckoned("Each depth", ELECTRIC_TAPE, depth=shown),),
        cautions=_INTO_THE_WELL,
    )
