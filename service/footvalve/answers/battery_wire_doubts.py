"""What is doubtful about the wire between battery and pump: its drop, its heat and its temperature."""

from collections.abc import Iterator

from msgspec import UNSET

from footvalve.answers.battery_bank import LAST_DIGITS, told_temperature
from footvalve.answers.unit_system import UnitSystem, current
from footvalve.contract.answer import Warning
from footvalve.contract.battery_runtime import VoltageDrop, Wire
from footvalve.contract.quantities import figure
from footvalve.contract.request import Site
from footvalve.physics.conductor import AMPACITY_AIR, INSULATION_TEMPERATURE, WARM_AIR, warm_air_fraction
from footvalve.tables.wires import AWG_WIRES, METRIC_WIRES, WireSize, awg_wire

USUAL_DROP = 0.03
"""Part of the voltage that one run may take. Source: NFPA 70, informational note to 210.19 (memory), which is written
for branch circuits; 2 to 3 % is common practice in low voltage, no source."""

GREATEST_DROP = 0.05
"""Part of the voltage that may be lost in all. Source: NFPA 70, informational note to 215.2 (memory)."""

PRINTED_AREA = 1.005
"""By how much a size of the table may be over a stated area and still be meant: areas are printed with three digits."""

WARMEST_AIR = WARM_AIR.range_of("air_temperature").high
"""K, above which the code lets insulation for 60 degC carry nothing."""

ALUMINUM_SHARE = 40.0 / 55.0
"""Of what copper of its size may carry, aluminum may carry this: the least share that NFPA 70, Table 310.16, has at
60 degC, that of 6 AWG (memory). By equal heat it would be 0.78."""


def wire_doubts(wire: Wire, site: Site, greatest_current: float, drop: VoltageDrop, units: UnitSystem) -> list[Warning]:
    """The doubts about a wire that carries a current in A with this drop, but for the ranges of its methods."""
    return [
        *_drop(drop),
        *_ampacity(wire, site, greatest_current, units),
        *_overheated(wire, units),
    ]


def _drop(drop: VoltageDrop) -> Iterator[Warning]:
    told = f"takes {drop.volts}, {figure(100 * drop.fraction)} % of the battery's nominal voltage"
    if drop.fraction > GREATEST_DROP:
        text = f"{told}: far too much. Over {GREATEST_DROP:.0%} a motor is weak, runs hot or does not start at all, and"
        yield Warning("/wire", f"{text} its flow is not the one stated; take thicker or shorter wire")
    elif drop.fraction > USUAL_DROP:
        text = f"{told}, more than the {USUAL_DROP:.0%} that are usual in one run"
        yield Warning("/wire", f"{text}: thicker or shorter wire is better")


def _ampacity(wire: Wire, site: Site, greatest_current: float, units: UnitSystem) -> Iterator[Warning]:
    """Of air that is too warm for any current the range of its method warns."""
    ampacity = wire_ampacity(wire, site)
    if greatest_current > ampacity and not is_air_too_warm(site):
        text = f"the loads together draw {current(greatest_current)}, and this wire may carry"
        told = f"{told_ampacity(ampacity, site, units)}, all the time"
        yield Warning(_size_pointer(wire), f"{text} {told}: it overheats, and may start a fire")


def _overheated(wire: Wire, units: UnitSystem) -> Iterator[Warning]:
    if stated_too_warm(wire) is not None:
        most = told_temperature(INSULATION_TEMPERATURE, units)
        text = f"is over the {most} that its insulation is taken to be made for: what it may carry is told for that"
        yield Warning("/wire/temperature", f"{text}. Take thicker wire, or see that insulation and lugs bear more")


def stated_too_warm(wire: Wire) -> float | None:
    """How warm in K the loaded wire is said to be, where that is more than the insulation bears that its ampacity is
    for."""
    if wire.temperature is UNSET or wire.temperature.base <= INSULATION_TEMPERATURE + LAST_DIGITS:
        return None
    return wire.temperature.base


def is_air_too_warm(site: Site) -> bool:
    """Whether the site's air lets insulation for 60 degC carry nothing."""
    return site.air_temperature.base > WARMEST_AIR + LAST_DIGITS


def too_warm_for_wire(units: UnitSystem) -> str:
    """What is said of such air."""
    bears, most = (told_temperature(kelvins, units) for kelvins in (INSULATION_TEMPERATURE, WARMEST_AIR))
    text = f"a wire whose insulation is made for {bears} may carry nothing in air above {most}"
    return f"{text}: lay it where it is cooler, or take one whose insulation and lugs bear more"


def told_ampacity(ampacity: float, site: Site, units: UnitSystem) -> str:
    """An ampacity in A with the air that it is told for: the site's, but no cooler than that of the code's table."""
    air = told_temperature(max(site.air_temperature.base, AMPACITY_AIR), units)
    return f"{current(ampacity)} with {air} around it"


def _size_pointer(wire: Wire) -> str:
    return "/wire/area" if wire.gauge is UNSET else "/wire/gauge"


def wire_ampacity(wire: Wire, site: Site) -> float:
    """The current in A that a wire may carry all the time in the site's air, its insulation being for 60 degC.

    An area between two sizes counts as the smaller. One below all sizes carries less in proportion, which is on the
    safe side: a thinner wire has more surface for its metal.
    """
    area = wire.area.base if wire.area is not UNSET else awg_wire(str(wire.gauge)).area
    size = ampacity_size(area)
    share = min(1.0, area / size.area)
    if is_air_too_warm(site):
        return 0.0
    kept = warm_air_fraction(air_temperature=site.air_temperature.base)
    return size.ampacity * share * kept * (1.0 if wire.material == "copper" else ALUMINUM_SHARE)


def ampacity_size(area: float) -> WireSize:
    """The thickest wire of the tables that is not over an area in m^2; the thinnest where all are."""
    return next((size for size in _THICK_TO_THIN if size.area <= PRINTED_AREA * area), _THICK_TO_THIN[-1])


_THICK_TO_THIN = sorted((*AWG_WIRES.values(), *METRIC_WIRES.values()), key=lambda size: size.area, reverse=True)
