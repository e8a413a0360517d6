"""What the wire between battery and pump takes."""

from msgspec import UNSET

from footvalve.answers.basis import basis_step
from footvalve.answers.battery_wire_doubts import ampacity_size
from footvalve.answers.unit_system import UnitSystem, current, voltage
from footvalve.contract.answer import BasisStep
from footvalve.contract.battery_runtime import BatteryRuntimeRequest, VoltageDrop, Wire
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import rounded
from footvalve.physics.conductor import (
    CONDUCTOR,
    conductor_resistance,
    resistance_at_temperature,
    voltage_drop,
)
from footvalve.physics.method import Method
from footvalve.tables.conductors import Conductor, conductor
from footvalve.tables.wires import METRIC_WIRES, WireSize, awg_wire


def check_wire(request: BatteryRuntimeRequest) -> None:
    """Raises Refused for a wire with no size or with two."""
    wire = request.wire
    if wire is not UNSET and (wire.gauge is UNSET) == (wire.area is UNSET):
        raise Refused(Fault("/wire", "takes `gauge` or `area`, one of the two"))


def wire_drop(wire: Wire, greatest_current: float, bank_voltage: float) -> VoltageDrop:
    """The drop at a current in A, and its part of a voltage in V. Raises Refused where none is left."""
    resistance = loop_resistance(wire)
    volts = voltage_drop(current=greatest_current, resistance=resistance)
    if volts >= bank_voltage:
        text = f"this wire cannot carry {current(greatest_current)}: it would take"
        raise Refused(Fault("/wire", f"{text} {voltage(volts)} of {voltage(bank_voltage)}"))
    return VoltageDrop(volts=voltage(volts), fraction=rounded(volts / bank_voltage))


def loop_resistance(wire: Wire) -> float:
    """The resistance of both wires together, in ohm, at the wire's temperature.

    Copper in a size of the table has the table's resistance; else it follows from metal and area, with the
    strands' lay.
    """
    metal, size = conductor(wire.material), _table_size(wire)
    if size is not None and wire.material == "copper":
        return resistance_at_temperature(
            resistance=2 * wire.length.base * size.resistance_per_metre,
            known_at=size.resistance_temperature,
            temperature_coefficient=metal.temperature_coefficient,
            temperature=wire.temperature.base,
        )
    return conductor_resistance(
        length_one_way=wire.length.base,
        area=_area(wire, size) / metal.stranding_factor,
        resistivity_20=metal.resistivity,
        temperature_coefficient=metal.temperature_coefficient,
        temperature=wire.temperature.base,
    )


def _table_size(wire: Wire) -> WireSize | None:
    if wire.gauge is not UNSET:
        return awg_wire(wire.gauge)
    area = _area(wire, None)
    return next((size for size in METRIC_WIRES.values() if abs(size.area - area) <= 1e-6 * area), None)


def _area(wire: Wire, size: WireSize | None) -> float:
    if size is not None:
        return size.area
    assert wire.area is not UNSET, "`check_wire` comes first"
    return wire.area.base


def wire_basis(wire: Wire, units: UnitSystem) -> list[BasisStep]:
    """Where the wire's resistance comes from."""
    size = _table_size(wire)
    if size is not None and wire.material == "copper":
        known = basis_step("Resistance of the wire", Method("table of wires", size.resistance_source))
    else:
        known = basis_step("Resistance of the wire", _metal_method(conductor(wire.material)))
    size = ampacity_size(_area(wire, size))
    carried = Method("ampacity of copper wire of that size or the next smaller", size.ampacity_source)
    return [
        known,
        basis_step("Resistance at the wire's temperature", CONDUCTOR, units),
        basis_step("Current that the wire may carry", carried),
    ]


def _metal_method(metal: Conductor) -> Method:
    sources = "; ".join(dict.fromkeys(metal.sources.values()))
    return Method(
        f"resistivity of {metal.name} and area, with {metal.stranding_factor - 1:.0%} for the strands", sources
    )
