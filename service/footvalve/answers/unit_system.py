"""The system of units in which an answer speaks: numbers of physics in, quantities of the wire out."""

from collections.abc import Callable
from dataclasses import dataclass, field

from footvalve.contract.quantities import (
    Area,
    Charge,
    Current,
    Duration,
    Energy,
    Flow,
    Length,
    Power,
    Pressure,
    Quantity,
    Temperature,
    Velocity,
    Voltage,
    Volume,
    told_in,
)
from footvalve.contract.request import UnitSystemName
from footvalve.quantity import (
    AreaUnit,
    FlowUnit,
    LengthUnit,
    PressureUnit,
    TemperatureUnit,
    VelocityUnit,
    VolumeUnit,
    from_base,
)


@dataclass(frozen=True, slots=True, eq=False)
class UnitSystem:
    """One unit for each thing that an answer tells, and what tells it: each takes a number in the unit of physics.
    There are two systems, and each is equal to itself alone: much is remembered by them."""

    length_unit: LengthUnit
    bore_unit: LengthUnit
    area_unit: AreaUnit
    flow_unit: FlowUnit
    volume_unit: VolumeUnit
    pressure_unit: PressureUnit
    velocity_unit: VelocityUnit
    temperature_unit: TemperatureUnit

    length: Callable[[float], Length] = field(init=False)
    """A length, depth, elevation or head."""
    bore: Callable[[float], Length] = field(init=False)
    area: Callable[[float], Area] = field(init=False)
    """A cross-section or opening."""
    flow: Callable[[float], Flow] = field(init=False)
    volume: Callable[[float], Volume] = field(init=False)
    """A volume of water or gas."""
    pressure: Callable[[float], Pressure] = field(init=False)
    velocity: Callable[[float], Velocity] = field(init=False)
    temperature: Callable[[float], Temperature] = field(init=False)

    def __post_init__(self) -> None:
        tellers = {
            "length": told_in(Length, self.length_unit),
            "bore": told_in(Length, self.bore_unit),
            "area": told_in(Area, self.area_unit),
            "flow": told_in(Flow, self.flow_unit),
            "volume": told_in(Volume, self.volume_unit),
            "pressure": told_in(Pressure, self.pressure_unit),
            "velocity": told_in(Velocity, self.velocity_unit),
            "temperature": told_in(Temperature, self.temperature_unit),
        }
        for name, teller in tellers.items():
            object.__setattr__(self, name, teller)

    def told(self, stated: Quantity) -> Quantity:
        """What a caller stated, in this system's unit; what has one unit in either system stays as it was stated."""
        of_this_system: dict[type[Quantity], str] = {
            Length: self.length_unit,
            Flow: self.flow_unit,
            Volume: self.volume_unit,
            Pressure: self.pressure_unit,
        }
        unit = of_this_system.get(type(stated), stated.unit)
        return stated if unit == stated.unit else type(stated).from_base(stated.base, unit)

    def converted(self, base: float, unit: str) -> tuple[float, str]:
        """A number in the named unit of physics, in this system's unit for the same thing and with its name; a unit
        that has no other in either system stays."""
        counterparts: dict[str, str] = {
            "m": self.length_unit,
            "m^2": self.area_unit,
            "m^3": self.volume_unit,
            "m^3/s": self.flow_unit,
            "m/s": self.velocity_unit,
            "Pa": self.pressure_unit,
            "K": self.temperature_unit,
        }
        told = counterparts.get(unit)
        return (base, unit) if told is None else (from_base(base, told), told)


US = UnitSystem("ft", "in", "in^2", "gal/min", "gal", "psi", "ft/s", "degF")
METRIC = UnitSystem("m", "mm", "cm^2", "L/min", "L", "bar", "m/s", "degC")

_SYSTEMS = {"us": US, "metric": METRIC}


def unit_system(name: UnitSystemName) -> UnitSystem:
    """The system that a request asks for."""
    return _SYSTEMS[name]


air_flow: Callable[[float], Flow] = told_in(Flow, "m^3/h")
"""A flow of air, in m^3/h in either system, as ventilation standards state it."""
seconds: Callable[[float], Duration] = told_in(Duration, "s")
"""A span that is told in seconds in either system."""
minutes: Callable[[float], Duration] = told_in(Duration, "min")
"""A span of so many seconds, told in minutes."""
hours: Callable[[float], Duration] = told_in(Duration, "h")
"""A span of so many seconds, told in hours."""
current: Callable[[float], Current] = told_in(Current, "A")
"""A current in A, told so in either system."""
voltage: Callable[[float], Voltage] = told_in(Voltage, "V")
"""A potential difference in V, told so in either system."""
power: Callable[[float], Power] = told_in(Power, "W")
"""A power in W, told so in either system."""
energy: Callable[[float], Energy] = told_in(Energy, "Wh")
"""An energy in Wh, told so in either system."""
charge: Callable[[float], Charge] = told_in(Charge, "Ah")
"""A charge in Ah, told so in either system."""
