"""Readings that are too few for their scatter to tell how sure their mean is."""

from math import sqrt
from statistics import stdev
from typing import Final

from footvalve.answers.coverage import factor_of_one
from footvalve.answers.sounding_readings import Readings
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning

LEAST_DOUBTED: Final = 0.03
"""m by which a mean may be off before few readings are doubted: a tenth of a foot decides nothing. Own choice."""

_COUNTED: Final = {1: "two", 2: "three"}


def scatter_doubts(readings: Readings, units: UnitSystem) -> list[Warning]:
    """A warning where two or three readings tell the uncertainty of their mean, which may be far greater."""
    number = len(readings.depths)
    factor = factor_of_one(number - 1) if number > 1 else None
    if factor is None:
        return []
    sigma = stdev(readings.depths) / sqrt(number)
    if factor * sigma <= LEAST_DOUBTED:
        return []
    text = (
        f"{_COUNTED[number - 1]} readings hardly tell how far readings scatter: the uncertainty of their mean, "
        f"{units.length(sigma)} by their scatter, holds as often as it seems to only if it is taken {factor:g} times "
        "as great, and any chance of success is less sure than it is told: read five times or more"
    )
    return [Warning(readings.pointer, text)]
