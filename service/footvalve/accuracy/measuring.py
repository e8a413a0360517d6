"""How far what the service says is from a published value."""

import json
import math
from dataclasses import dataclass
from typing import Any, TypeGuard

from footvalve.accuracy.asking import NothingThere, answered, pointed
from footvalve.accuracy.rows import Expected, PublishedRow
from footvalve.contract.faults import Misfit
from footvalve.contract.problem import Refused
from footvalve.physics.method import OutsideDomain
from footvalve.quantity import DIMENSIONS, from_base, to_base, wire_units
from footvalve.web.problems import Declined

NO_UNIT = "-"
"""The unit of a row whose value has none: a ratio, a word, a yes or no."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A published row with what was found, in its unit; a word that is another one is infinitely far away."""

    row: PublishedRow
    found: Expected
    deviation: float

    @property
    def is_within(self) -> bool:
        """Whether the service agrees with the source."""
        return self.deviation <= self.row.tolerance

    @property
    def share(self) -> float:
        """How much of its tolerance the row takes; more than 1 where it is beyond it."""
        if not self.deviation:
            return 0.0
        return self.deviation / self.row.tolerance if self.row.tolerance else math.inf

    @property
    def fraction(self) -> float | None:
        """The deviation over what was expected; None for nought, a word, and a yes or no."""
        expected = self.row.expected
        return self.deviation / abs(expected) if is_number(expected) and expected else None


def measured(row: PublishedRow) -> Measured:
    """The row with what the service says there; why it says nothing is what was found where it does not answer."""
    found: Expected
    try:
        found = _in_unit(pointed(answered(row.endpoint, row.inputs), row.answer), row.unit)
    except (Refused, Misfit, Declined, OutsideDomain, ArithmeticError, NothingThere) as error:
        found = f"no answer: {error}"
    return Measured(row, found, _deviation(row.expected, found))


def is_number(value: Expected) -> TypeGuard[float]:
    """Whether it is a number; yes and no are none, though Python reckons with them."""
    return isinstance(value, int | float) and not isinstance(value, bool)


def _deviation(expected: Expected, found: Expected) -> float:
    if is_number(expected) and is_number(found):
        return abs(found - expected)
    return 0.0 if (type(found), found) == (type(expected), expected) else math.inf


def _in_unit(value: Any, unit: str) -> Expected:
    """A quantity as a number in the unit, or what has no unit as it is. Raises NothingThere where they do not fit."""
    if isinstance(value, dict) and value.keys() >= {"value", "unit"}:
        if not _measure_alike(value["unit"], unit):
            raise NothingThere(f"the answer is in {value['unit']}, not in {unit}")
        return from_base(to_base(value["value"], value["unit"]), unit)
    if unit != NO_UNIT or isinstance(value, dict | list):
        raise NothingThere(f"the answer holds no quantity there, but {json.dumps(value)[:80]}")
    found: Expected = value
    return found


def _measure_alike(unit: str, other: str) -> bool:
    return any({unit, other} <= set(wire_units(dimension)) for dimension in DIMENSIONS)
