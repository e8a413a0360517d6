"""How the contract document tells the range of a field: in the units that people use, in both systems."""

from footvalve.contract.quantities import Quantity
from footvalve.contract.ranges import Within
from footvalve.quantity import from_base

_DIGITS = 3

_UNITS = {
    "Length": ("ft", "m"),
    "Area": ("in^2", "mm^2"),
    "Flow": ("gal/min", "L/min"),
    "Volume": ("gal", "L"),
    "Pressure": ("psi", "bar"),
    "Temperature": ("degF", "degC"),
    "Current": ("A",),
    "Voltage": ("V",),
    "Power": ("W",),
    "Energy": ("Wh",),
    "Charge": ("Ah",),
    "Resistance": ("ohm",),
    "SpecificCapacity": ("gal/min/ft", "L/s/m"),
    "Velocity": ("ft/s", "m/s"),
}
"""The units that each dimension's ranges are told in, the customary one of the US first."""

_BORE_UNITS = ("in", "mm")
_WIDEST_BORE_M = 5.0
"""Lengths that are never longer are bores, diameters and the like."""

_SPANS = ("d", "h", "min", "s")


def range_told(quantity: type[Quantity], within: Within) -> str:
    """The range in words, such as `from 2.91 to 217 psi (0.2 to 15 bar)`."""
    dimension = quantity.__name__
    if dimension == "Duration":
        return f"from {_span(within, 0)} to {_span(within, 1)}"
    narrow = dimension == "Length" and within.low >= 0.0 and within.high <= _WIDEST_BORE_M
    first, *others = _BORE_UNITS if narrow else _UNITS[dimension]
    return f"from {_in(within, first)}" + "".join(f" ({_in(within, unit)})" for unit in others)


def _in(within: Within, unit: str) -> str:
    low, high = within.told_ends(unit, _DIGITS)
    return f"{low} to {high} {unit}"


def _span(within: Within, end: int) -> str:
    """One end of a range of durations, in the largest unit of which it is at least one."""
    seconds = (within.low, within.high)[end]
    unit = next((unit for unit in _SPANS if from_base(seconds, unit) >= 1), "s")
    return f"{within.told_ends(unit, _DIGITS)[end]} {unit}"
