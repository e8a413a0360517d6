"""The system of units in which an answer speaks: numbers of physics in, quantities of the wire out."""

from dataclasses import dataclass

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


@dataclass(frozen=True, slots=True)
class UnitSystem:
    """One unit for each thing that an answer tells; each method takes the unit of physics."""

    length_unit: LengthUnit
    bore_unit: LengthUnit
    area_unit: AreaUnit
    flow_unit: FlowUnit
    volume_unit: VolumeUnit
    pressure_unit: PressureUnit
    velocity_unit: VelocityUnit
    temperature_unit: TemperatureUnit

    def length(self, metres: float) -> Length:
        """A length, depth, elevation or head."""
        return Length.from_base(metres, self.length_unit)

    def bore(self, metres: float) -> Length:
        """A bore."""
        return Length.from_base(metres, self.bore_unit)

    def area(self, square_metres: float) -> Area:
        """A cross-section or opening."""
        return Area.from_base(square_metres, self.area_unit)

    def flow(self, cubic_metres_per_second: float) -> Flow:
        """A flow of water."""
        return Flow.from_base(cubic_metres_per_second, self.flow_unit)

    def volume(self, cubic_metres: float) -> Volume:
        """A volume of water or gas."""
        return Volume.from_base(cubic_metres, self.volume_unit)

    def pressure(self, pascals: float) -> Pressure:
        """A pressure."""
        return Pressure.from_base(pascals, self.pressure_unit)

    def velocity(self, metres_per_second: float) -> Velocity:
        """A velocity."""
        return Velocity.from_base(metres_per_second, self.velocity_unit)

    def temperature(self, kelvins: float) -> Temperature:
        """A temperature."""
        return Temperature.from_base(kelvins, self.temperature_unit)

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


def air_flow(cubic_metres_per_second: float) -> Flow:
    """A flow of air, in m^3/h in either system, as ventilation standards state it."""
    return Flow.from_base(cubic_metres_per_second, "m^3/h")


def seconds(value: float) -> Duration:
    """A span that is told in seconds in either system."""
    return Duration.from_base(value, "s")


def minutes(value: float) -> Duration:
    """A span of so many seconds, told in minutes."""
    return Duration.from_base(value, "min")


def hours(value: float) -> Duration:
    """A span of so many seconds, told in hours."""
    return Duration.from_base(value, "h")


def current(amperes: float) -> Current:
    """A current, in A in either system."""
    return Current.from_base(amperes, "A")


def voltage(volts: float) -> Voltage:
    """A potential difference, in V in either system."""
    return Voltage.from_base(volts, "V")


def power(watts: float) -> Power:
    """A power, in W in either system."""
    return Power.from_base(watts, "W")


def energy(watt_hours: float) -> Energy:
    """An energy, in Wh in either system."""
    return Energy.from_base(watt_hours, "Wh")


def charge(ampere_hours: float) -> Charge:
    """A charge, in Ah in either system."""
    return Charge.from_base(ampere_hours, "Ah")
