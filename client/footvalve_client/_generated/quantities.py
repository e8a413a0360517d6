# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
# ruff: noqa: E501
"""The quantities of the contract: one type a dimension, with the units that it comes in."""

from collections.abc import Mapping
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
    ResistanceUnit,
    SpecificCapacityUnit,
    TemperatureUnit,
    VelocityUnit,
    VoltageUnit,
    VolumeUnit,
)
from footvalve_client._generated.spellings import SPELLINGS
from footvalve_client._pint import PhysicalQuantity
from footvalve_client._quantity import Quantity


class Area(Quantity[AreaUnit], frozen=True):
    """A cross-section. In mm^2, cm^2 or in^2."""

    units: ClassVar[tuple[str, ...]] = ("mm^2", "cm^2", "in^2")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Area"]
    examples: ClassVar[tuple[str, ...]] = ("25 mm^2",)


class Charge(Quantity[ChargeUnit], frozen=True):
    """An electric charge. In Ah."""

    units: ClassVar[tuple[str, ...]] = ("Ah",)
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Charge"]
    examples: ClassVar[tuple[str, ...]] = ("100 Ah",)


class Current(Quantity[CurrentUnit], frozen=True):
    """An electric current. In A or mA."""

    units: ClassVar[tuple[str, ...]] = ("A", "mA")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Current"]
    examples: ClassVar[tuple[str, ...]] = ("5 A",)


class Duration(Quantity[DurationUnit], frozen=True):
    """A span of time. In s, min, h or d."""

    units: ClassVar[tuple[str, ...]] = ("s", "min", "h", "d")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Duration"]
    examples: ClassVar[tuple[str, ...]] = ("90 s",)


class Energy(Quantity[EnergyUnit], frozen=True):
    """An energy. In Wh or kWh."""

    units: ClassVar[tuple[str, ...]] = ("Wh", "kWh")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Energy"]
    examples: ClassVar[tuple[str, ...]] = ("600 Wh",)


class Flow(Quantity[FlowUnit], frozen=True):
    """A volume flow; gal is the US gallon. In L/s, L/min, m^3/h, gal/min or gal/h."""

    units: ClassVar[tuple[str, ...]] = ("L/s", "L/min", "m^3/h", "gal/min", "gal/h")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Flow"]
    examples: ClassVar[tuple[str, ...]] = ("5 gal/min", "20 L/min")


class Length(Quantity[LengthUnit], frozen=True):
    """A length, depth, elevation or head. In m, cm, mm, ft or in."""

    units: ClassVar[tuple[str, ...]] = ("m", "cm", "mm", "ft", "in")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Length"]
    examples: ClassVar[tuple[str, ...]] = ("14 ft", "4 m")


class Power(Quantity[PowerUnit], frozen=True):
    """A power. In W, kW or hp."""

    units: ClassVar[tuple[str, ...]] = ("W", "kW", "hp")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Power"]
    examples: ClassVar[tuple[str, ...]] = ("60 W",)


class Pressure(Quantity[PressureUnit], frozen=True):
    """A pressure, gauge unless the field's name says absolute; ftH2O and mH2O are conventional. In Pa, kPa, bar, psi, ftH2O or mH2O."""

    units: ClassVar[tuple[str, ...]] = ("Pa", "kPa", "bar", "psi", "ftH2O", "mH2O")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Pressure"]
    examples: ClassVar[tuple[str, ...]] = ("40 psi", "2.8 bar")


class Resistance(Quantity[ResistanceUnit], frozen=True):
    """An electric resistance. In ohm or mohm."""

    units: ClassVar[tuple[str, ...]] = ("ohm", "mohm")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Resistance"]
    examples: ClassVar[tuple[str, ...]] = ("5 mohm",)


class SpecificCapacity(Quantity[SpecificCapacityUnit], frozen=True):
    """A well's yield for each length of drawdown. In gal/min/ft or L/s/m."""

    units: ClassVar[tuple[str, ...]] = ("gal/min/ft", "L/s/m")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["SpecificCapacity"]
    examples: ClassVar[tuple[str, ...]] = ("1.5 gal/min/ft", "0.3 L/s/m")


class Temperature(Quantity[TemperatureUnit], frozen=True):
    """A temperature. In degC, degF or K."""

    units: ClassVar[tuple[str, ...]] = ("degC", "degF", "K")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Temperature"]
    examples: ClassVar[tuple[str, ...]] = ("50 degF", "10 degC")


class Velocity(Quantity[VelocityUnit], frozen=True):
    """A velocity. In m/s or ft/s."""

    units: ClassVar[tuple[str, ...]] = ("m/s", "ft/s")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Velocity"]
    examples: ClassVar[tuple[str, ...]] = ("5 ft/s", "1.5 m/s")


class Voltage(Quantity[VoltageUnit], frozen=True):
    """An electric potential difference. In V or mV."""

    units: ClassVar[tuple[str, ...]] = ("V", "mV")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Voltage"]
    examples: ClassVar[tuple[str, ...]] = ("12 V",)


class Volume(Quantity[VolumeUnit], frozen=True):
    """A volume; gal is the US gallon. In L, m^3 or gal."""

    units: ClassVar[tuple[str, ...]] = ("L", "m^3", "gal")
    spellings: ClassVar[Mapping[str, str]] = SPELLINGS["Volume"]
    examples: ClassVar[tuple[str, ...]] = ("20 gal", "80 L")


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
    ResistanceLike: TypeAlias = Resistance | PhysicalQuantity | str
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
    ResistanceLike = Resistance
    SpecificCapacityLike = SpecificCapacity
    TemperatureLike = Temperature
    VelocityLike = Velocity
    VoltageLike = Voltage
    VolumeLike = Volume
