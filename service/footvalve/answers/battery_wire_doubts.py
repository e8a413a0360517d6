"""What is doubtful about the wire between battery and pump: its drop, its heat and its temperature."""

from collections.abc import Iterator

from msgspec import UNSET

from footvalve.answers.unit_system import UnitSystem, current
from footvalve.contract.answer import Warning
from footvalve.contract.battery_runtime import VoltageDrop, Wire
from footvalve.contract.quantities import figure
from footvalve.tables.si_values import ICE_POINT
from footvalve.tables.wires import AWG_WIRES, METRIC_WIRES, WireSize, awg_wire

USUAL_DROP = 0.03
"""Part of the voltage that one run may take. Source: NFPA 70, informational note to 210.19 (memory), which is written
for branch circuits; 2 to 3 % is common practice in low voltage, no source."""

GREATEST_DROP = 0.05
"""Part of the voltage that may be lost in all. Source: NFPA 70, informational note to 215.2 (memory)."""

PRINTED_AREA = 1.005
"""By how much a size of the table may be over a stated area and still be meant: areas are printed with three digits."""

ROOM_OF_AMPACITY = ICE_POINT + 30.0
"""K around the wire, for which the ampacities are. Source: NFPA 70, Table 310.16 (memory)."""


ALUMINUM_SHARE = 40.0 / 55.0
"""Of what copper of its size may carry, aluminum may carry this: the least share that NFPA 70, Table 310.16, has at
60 degC, that of 6 AWG (memory). By equal heat it would be 0.78."""


def wire_doubts(wire: Wire, greatest_current: float, drop: VoltageDrop, units: UnitSystem) -> list[Warning]:
    """The doubts about a wire that carries a current in A with this drop, but for its temperature."""
    return [
        *_drop(drop),
        *_ampacity(wire, greatest_current, units),
    ]


def _drop(drop: VoltageDrop) -> Iterator[Warning]:
    told = f"takes {drop.volts}, {figure(100 * drop.fraction)} % of the battery's nominal voltage"
    if drop.fraction > GREATEST_DROP:
        text = f"{told}: far too much. Over {GREATEST_DROP:.0%} a motor is weak, runs hot or does not start at all, and"
        yield Warning("/wire", f"{text} its flow is not the one stated; take thicker or shorter wire")
    elif drop.fraction > USUAL_DROP:
        text = f"{told}, more than the {USUAL_DROP:.0%} that are usual in one run"
        yield Warning("/wire", f"{text}: thicker or shorter wire is better")


def _ampacity(wire: Wire, greatest_current: float, units: UnitSystem) -> Iterator[Warning]:
    ampacity = wire_ampacity(wire)
    if greatest_current > ampacity:
        text = (
            f"the loads together draw {current(greatest_current)}, and this wire may carry {current(ampacity)} all the"
        )
        room = units.temperature(ROOM_OF_AMPACITY)
        yield Warning(_size_pointer(wire), f"{text} time with {room} around it: it overheats, and may start a fire")


def _size_pointer(wire: Wire) -> str:
    return "/wire/area" if wire.gauge is UNSET else "/wire/gauge"


def wire_ampacity(wire: Wire) -> float:
    """The current in A that a wire may carry all the time.

    An area between two sizes counts as the smaller. One below all sizes carries less in proportion, which is on the
    safe side: a thinner wire has more surface for its metal.
    """
    area = wire.area.base if wire.area is not UNSET else awg_wire(str(wire.gauge)).area
    size = ampacity_size(area)
    share = min(1.0, area / size.area)
    return size.ampacity * share * (1.0 if wire.material == "copper" else ALUMINUM_SHARE)


def ampacity_size(area: float) -> WireSize:
    """The thickest wire of the tables that is not over an area in m^2; the thinnest where all are."""
    return next((size for size in _THICK_TO_THIN if size.area <= PRINTED_AREA * area), _THICK_TO_THIN[-1])


_THICK_TO_THIN = sorted((*AWG_WIRES.values(), *METRIC_WIRES.values()), key=lambda size: size.area, reverse=True)
