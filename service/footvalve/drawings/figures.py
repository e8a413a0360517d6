"""Numbers and quantities as a reader of a sheet wants them: three digits, and units as they are written by hand."""

import re
from typing import Final

from footvalve.contract import quantities
from footvalve.contract.quantities import Quantity

NO_BREAK: Final = "\u00a0"
"""The space between a number and its unit."""

_WRITTEN: Final = {
    "m^3/h": "m³/h",
    "m^3": "m³",
    "mm^2": "mm²",
    "cm^2": "cm²",
    "in^2": "in²",
    "degC": "°C",
    "degF": "°F",
    "ftH2O": "ft of water",
    "mH2O": "m of water",
}
"""Units whose name on the wire is not how they are written; all others are."""

_SPELLED: Final = re.compile("|".join(rf"(?<=\d ){re.escape(unit)}(?![\w^])" for unit in _WRITTEN))
_MINUS: Final = re.compile(r"(?<![\w.)])-(?=\d)")


def figure(value: float) -> str:
    """A number as a sentence tells it, with a real minus sign."""
    return quantities.figure(value).replace("-", "−")


def unit_as_written(unit: str) -> str:
    """A unit of the wire as it is written for people."""
    return _WRITTEN.get(unit, unit)


def told(quantity: Quantity) -> str:
    """A quantity with its unit."""
    return f"{figure(quantity.value)}{NO_BREAK}{unit_as_written(quantity.unit)}"


def as_written(sentence: str) -> str:
    """A sentence of an answer with the units and the minus signs in it as they are written for people.

    >>> as_written("at an elevation of -4.5 ft, through 2.19 in^2 at 12 degC")
    'at an elevation of −4.5 ft, through 2.19 in² at 12 °C'
    """
    units = _SPELLED.sub(lambda unit: unit_as_written(unit[0]), sentence)
    return _MINUS.sub("−", units)


def percent(fraction: float) -> str:
    """A fraction of one as a whole percentage."""
    return f"{fraction * 100:.0f}{NO_BREAK}%"


def share_told(fraction: float) -> str:
    """A fraction of one as a percentage with its digits, for what is small."""
    return f"{figure(fraction * 100)}{NO_BREAK}%"
