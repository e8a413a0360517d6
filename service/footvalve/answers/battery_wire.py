"""What the wire between battery and pump takes."""

from collections.abc import Iterator
from functools import cache

from msgspec import UNSET

from footvalve.answers.basis import At, Reckoned, reckoned
from footvalve.answers.battery_wire_doubts import ampacity_size, too_warm_for_wire
from footvalve.answers.unit_system import current, unit_system, voltage
from footvalve.contract.battery_runtime import BatteryRuntimeRequest, Wire, WireMetal
from footvalve.contract.problem import Fault, Refused
from footvalve.physics.conductor import (
    CONDUCTOR,
    WARM_AIR,
    conductor_resistance,
    resistance_at_temperature,
    voltage_drop,
)
from footvalve.physics.method import Method
from footvalve.tables.conductors import conductor
from footvalve.tables.wires import METRIC_WIRES, WireResistance, WireSize, awg_wire

UNSTATED_TEMPERATURE = 348.15
"""K, 75 degC: that of the code's table of resistances, and on the safe side for a drop (own choice)."""


def check_wire(request: BatteryRuntimeRequest) -> None:
    """Raises Refused for a wire with no size or with two."""
    wire = request.wire
    if wire is not UNSET and (wire.gauge is UNSET) == (wire.area is UNSET):
        raise Refused(Fault("/wire", "takes `gauge` or `area`, one of the two"))


def lost_in_wire(wire: Wire, greatest_current: float, bank_voltage: float) -> float:
    """The drop in V at a current in A. Raises Refused where none of a voltage in V is left."""
    volts = voltage_drop(current=greatest_current, resistance=loop_resistance(wire))
    if volts >= bank_voltage:
        text = f"this wire cannot carry {current(greatest_current)}: it would take"
        raise Refused(Fault("/wire", f"{text} {voltage(volts)} of {voltage(bank_voltage)}"))
    return volts


def loop_resistance(wire: Wire) -> float:
    """The resistance of both wires together, in ohm, at the wire's temperature.

    A metal in a size that a table has it in has the table's resistance; else it follows from metal and area, with the
    strands' lay.
    """
    metal, size = conductor(wire.material), _table_size(wire)
    known = _known_resistance(wire, size)
    if known is not None:
        return resistance_at_temperature(
            resistance=2 * wire.length.base * known.resistance_per_metre,
            known_at=known.temperature,
            temperature_coefficient=metal.temperature_coefficient,
            temperature=_temperature(wire),
        )
    return conductor_resistance(
        length_one_way=wire.length.base,
        area=_area(wire, size) / metal.stranding_factor,
        resistivity_20=metal.resistivity,
        temperature_coefficient=metal.temperature_coefficient,
        temperature=_temperature(wire),
    )


def _temperature(wire: Wire) -> float:
    return UNSTATED_TEMPERATURE if wire.temperature is UNSET else wire.temperature.base


def _table_size(wire: Wire) -> WireSize | None:
    if wire.gauge is not UNSET:
        return awg_wire(wire.gauge)
    area = _area(wire, None)
    return next((size for size in METRIC_WIRES.values() if abs(size.area - area) <= 1e-6 * area), None)


def _known_resistance(wire: Wire, size: WireSize | None) -> WireResistance | None:
    if size is None:
        return None
    return size.copper if wire.material == "copper" else size.aluminum


def _area(wire: Wire, size: WireSize | None) -> float:
    if size is not None:
        return size.area
    assert wire.area is not UNSET, "`check_wire` comes first"
    return wire.area.base


def wire_steps(request: BatteryRuntimeRequest, wire: Wire) -> Iterator[Reckoned]:
    """Where the wire's resistance comes from, and what it may carry."""
    size, temperature = _table_size(wire), At("/wire/temperature", _temperature(wire))
    known = _known_resistance(wire, size)
    method = _metal_method(wire.material) if known is None else _table_method(known.source)
    yield reckoned("Resistance of the wire", method)
    yield reckoned("Resistance at the wire's temperature", CONDUCTOR, temperature=temperature)
    carried = ampacity_size(_area(wire, size)).ampacity_source
    yield reckoned("Current that the wire may carry", _ampacity_method(carried))
    units = unit_system(request.units)
    air = At("/site/air_temperature", request.site.air_temperature.base, told=lambda: too_warm_for_wire(units))
    yield reckoned("What the air's warmth leaves of it", WARM_AIR, air_temperature=air)


@cache
def _table_method(source: str) -> Method:
    """By a source of the table of wires, which has a handful."""
    return Method("table of wires", source)


@cache
def _ampacity_method(source: str) -> Method:
    return Method("ampacity of copper wire of that size or the next smaller", source)


@cache
def _metal_method(material: WireMetal) -> Method:
    metal = conductor(material)
    sources = "; ".join(dict.fromkeys(metal.sources.values()))
    return Method(
        f"resistivity of {metal.name} and area, with {metal.stranding_factor - 1:.0%} for the strands", sources
    )
