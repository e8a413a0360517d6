"""The `basis` of an answer: its steps, each with its method, source and range, and the doubts where a range ends."""

from functools import cache

from footvalve.answers.unit_system import METRIC, UnitSystem
from footvalve.contract.answer import BasisStep, Warning
from footvalve.contract.quantities import figure
from footvalve.physics.method import Method, Range
from footvalve.quantity import from_base


@cache
def basis_step(step: str, method: Method, units: UnitSystem = METRIC) -> BasisStep:
    """One step of the reckoning by a known method. Only ranges that have a dimension are told in `units`."""
    spans = (_span(limit, units) for limit in method.ranges)
    valid_for = "; ".join(filter(None, (*spans, method.note))) or "no limit of its own"
    return BasisStep(step, method.name, method.source, valid_for)


def doubts(method: Method, pointer: str, units: UnitSystem = METRIC, **inputs: float) -> list[Warning]:
    """A warning for each input, in SI and named as in the method's ranges, that lies outside its range. Only what
    has a dimension is told in `units`."""
    return [
        Warning(pointer, _outside(method, limit, value, units))
        for name, value in inputs.items()
        if value not in (limit := method.range_of(name))
    ]


def _outside(method: Method, limit: Range, value: float, units: UnitSystem) -> str:
    number, unit = _converted(limit, value, units)
    told = f"{_words(limit)} {figure(number)} {unit}".rstrip()
    return f"{told} lies outside the range of {method.name}: {_span(limit, units)}"


def _span(limit: Range, units: UnitSystem) -> str:
    (low, unit), (high, _) = (_converted(limit, end, units) for end in (limit.low, limit.high))
    return f"{_words(limit)} {figure(low)} to {figure(high)} {unit}".rstrip()


def _words(limit: Range) -> str:
    return limit.quantity.replace("_", " ")


def _converted(limit: Range, value: float, units: UnitSystem) -> tuple[float, str]:
    """Diameters are told as bores are, in the smaller unit."""
    if limit.unit == "m" and limit.quantity.endswith("diameter"):
        return from_base(value, units.bore_unit), units.bore_unit
    return units.converted(value, limit.unit)
