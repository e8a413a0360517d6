"""Numbers and quantities as a reader of a sheet wants them: three digits, and units as they are written by hand."""

import re
from math import floor, log10
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
    """A quantity with its unit, and with its standard uncertainty where it has one that can be seen in its digits."""
    return f"{figure(quantity.value)}{_give_or_take(quantity)}{NO_BREAK}{unit_as_written(quantity.unit)}"


def told_alone(quantity: Quantity) -> str:
    """A quantity with its unit, where there is no room for its uncertainty."""
    return f"{figure(quantity.value)}{NO_BREAK}{unit_as_written(quantity.unit)}"


def _give_or_take(quantity: Quantity) -> str:
    """The uncertainty to two digits, and no finer than the quantity itself is told (JCGM 100:2008, 7.2.6)."""
    if not quantity.uncertainty:
        return ""
    step = max(min(_last_digit(quantity.value, 3), 1.0), _last_digit(quantity.uncertainty, 2))
    seen = round(quantity.uncertainty / step) * step
    return f"{NO_BREAK}±{NO_BREAK}{figure(seen)}" if seen else ""


def _last_digit(value: float, digits: int) -> float:
    """What one more in the last of so many digits comes to; nothing for nought."""
    return 10.0 ** (floor(log10(abs(value))) + 1 - digits) if value else 0.0


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


def chance_told(chance: float) -> str:
    """A chance as a whole percentage, and never as if it were certain.

    >>> chance_told(0.8642), chance_told(0.9996), chance_told(0.0)
    ('86\xa0%', 'over\xa099\xa0%', 'under\xa01\xa0%')
    """
    if chance < 0.005:
        return f"under{NO_BREAK}{percent(0.01)}"
    return percent(chance) if chance <= 0.995 else f"over{NO_BREAK}{percent(0.99)}"


def share_told(fraction: float) -> str:
    """A fraction of one as a percentage with its digits, for what is small."""
    return f"{figure(fraction * 100)}{NO_BREAK}%"
