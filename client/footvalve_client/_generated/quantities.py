# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
# ruff: noqa: E501
"""The quantities of the contract: one type a dimension, with the units that it comes in."""

from typing import TYPE_CHECKING, ClassVar, TypeAlias

from footvalve_client._generated.closed_lists import (
    AreaUnit,
    ChargeUnit,
    CurrentUnit,
    DurationUnit,
    EnergyUnit,
    FlowUnit,
    LengthUnit,
    PowerUnit,
    PressureUnit,
    SpecificCapacityUnit,
    TemperatureUnit,
    VelocityUnit,
    VoltageUnit,
    VolumeUnit,
)
from footvalve_client._pint import PhysicalQuantity
from footvalve_client._quantity import Quantity


class Area(Quantity[AreaUnit], frozen=True):
    """A cross-section. In cm^2, in^2 or mm^2."""

    units: ClassVar[tuple[str, ...]] = ("cm^2", "in^2", "mm^2")


class Charge(Quantity[ChargeUnit], frozen=True):
    """An electric charge. In Ah."""

    units: ClassVar[tuple[str, ...]] = ("Ah",)


class Current(Quantity[CurrentUnit], frozen=True):
    """An electric current. In A or mA."""

    units: ClassVar[tuple[str, ...]] = ("A", "mA")


class Duration(Quantity[DurationUnit], frozen=True):
    """A span of time. In d, h, min or s."""

    units: ClassVar[tuple[str, ...]] = ("d", "h", "min", "s")


class Energy(Quantity[EnergyUnit], frozen=True):
    """An energy. In Wh or kWh."""

    units: ClassVar[tuple[str, ...]] = ("Wh", "kWh")


class Flow(Quantity[FlowUnit], frozen=True):
    """A volume flow; gal is the US gallon. In L/min, L/s, gal/h, gal/min or m^3/h."""

    units: ClassVar[tuple[str, ...]] = ("L/min", "L/s", "gal/h", "gal/min", "m^3/h")


class Length(Quantity[LengthUnit], frozen=True):
    """A length, depth, elevation or head. In cm, ft, in, m or mm."""

    units: ClassVar[tuple[str, ...]] = ("cm", "ft", "in", "m", "mm")


class Power(Quantity[PowerUnit], frozen=True):
    """A power. In W, hp or kW."""

    units: ClassVar[tuple[str, ...]] = ("W", "hp", "kW")


class Pressure(Quantity[PressureUnit], frozen=True):
    """A pressure, gauge unless the field's name says absolute; ftH2O and mH2O are conventional. In Pa, bar, ftH2O, kPa, mH2O or psi."""

    units: ClassVar[tuple[str, ...]] = ("Pa", "bar", "ftH2O", "kPa", "mH2O", "psi")


class SpecificCapacity(Quantity[SpecificCapacityUnit], frozen=True):
    """A well's yield for each length of drawdown. In L/s/m or gal/min/ft."""

    units: ClassVar[tuple[str, ...]] = ("L/s/m", "gal/min/ft")


class Temperature(Quantity[TemperatureUnit], frozen=True):
    """A temperature. In K, degC or degF."""

    units: ClassVar[tuple[str, ...]] = ("K", "degC", "degF")


class Velocity(Quantity[VelocityUnit], frozen=True):
    """A velocity. In ft/s or m/s."""

    units: ClassVar[tuple[str, ...]] = ("ft/s", "m/s")


class Voltage(Quantity[VoltageUnit], frozen=True):
    """An electric potential difference. In V or mV."""

    units: ClassVar[tuple[str, ...]] = ("V", "mV")


class Volume(Quantity[VolumeUnit], frozen=True):
    """A volume; gal is the US gallon. In L, gal or m^3."""

    units: ClassVar[tuple[str, ...]] = ("L", "gal", "m^3")


if TYPE_CHECKING:
    AreaLike: TypeAlias = Area | PhysicalQuantity | str
    ChargeLike: TypeAlias = Charge | PhysicalQuantity | str
    CurrentLike: TypeAlias = Current | PhysicalQuantity | str
    DurationLike: TypeAlias = Duration | PhysicalQuantity | str
    EnergyLike: TypeAlias = Energy | PhysicalQuantity | str
    FlowLike: TypeAlias = Flow | PhysicalQuantity | str
    LengthLike: TypeAlias = Length | PhysicalQuantity | str
    PowerLike: TypeAlias = Power | PhysicalQuantity | str
    PressureLike: TypeAlias = Pressure | PhysicalQuantity | str
    SpecificCapacityLike: TypeAlias = SpecificCapacity | PhysicalQuantity | str
    TemperatureLike: TypeAlias = Temperature | PhysicalQuantity | str
    VelocityLike: TypeAlias = Velocity | PhysicalQuantity | str
    VoltageLike: TypeAlias = Voltage | PhysicalQuantity | str
    VolumeLike: TypeAlias = Volume | PhysicalQuantity | str
else:
    AreaLike = Area
    ChargeLike = Charge
    CurrentLike = Current
    DurationLike = Duration
    EnergyLike = Energy
    FlowLike = Flow
    LengthLike = Length
    PowerLike = Power
    PressureLike = Pressure
    SpecificCapacityLike = SpecificCapacity
    TemperatureLike = Temperature
    VelocityLike = Velocity
    VoltageLike = Voltage
    VolumeLike = Volume
