"""The steps of a reckoning with all that went into them: one statement makes both an answer's `basis` and the doubts
where the range of a method is left."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from math import isinf
from operator import attrgetter

from msgspec import Struct
from msgspec.structs import replace

from footvalve.answers.alike_doubts import Doubt
from footvalve.answers.unit_system import METRIC, UnitSystem
from footvalve.contract.answer import BasisStep, Warning
from footvalve.contract.quantities import figure
from footvalve.physics.method import Method, Range
from footvalve.quantity import from_base

LAST_DIGITS = 1e-9
"""Part by which the end of a range may be passed, for what the conversion from another unit takes off."""

MILLION = 1e6

NAMES = {"reynolds": "Reynolds number"}
"""How inputs are called whose name in the code is not the trade's."""

TOO_LITTLE_OR_MUCH = {"reynolds": ("the flow is too slow", "the flow is too fast")}
"""What it means that an input is below its range, or above it, where that says more than the figure."""


class At(Struct, frozen=True):
    """What went into a step, in SI, and where in the request it comes from.

    `told` is what is said where the value lies outside its range, if that is more than the range itself; `kind` then
    says in a clause what all that is said so has in common.
    """

    pointer: str
    value: float
    told: Callable[[], str] | None = None
    kind: str = ""


class Reckoned(Struct, frozen=True, eq=False):
    """One step of the reckoning by a known method, at one place or at several, with each input that lies outside its
    range. `reckoned` makes it; a step all of whose inputs lie inside is made once, and is the same object from then
    on."""

    step: str
    method: Method
    beyond: tuple[tuple[Range, At], ...]


class StepKind(Struct, frozen=True, eq=False):
    """A step by a known method, whatever goes into it: each range of the method by its name with its ends as they are
    held to, and the step all of whose inputs lie inside. `step_kind` makes it."""

    step: str
    method: Method
    spans: Mapping[str, tuple[Range, float, float]]
    inside: Reckoned

    def reckoned(self, **inputs: At | Sequence[At]) -> Reckoned:
        """The step with the inputs of each range of its method, by the range's name; none of them where this answer
        takes no such input. A range that is not stated, or one that the method has not, is a fault of the code."""
        spans = self.spans
        assert inputs.keys() == spans.keys(), f"of {self.method.name} state {sorted(spans)}, not {sorted(inputs)}"
        beyond = []
        for quantity, (limit, low, high) in spans.items():
            stated = inputs[quantity]
            for at in (stated,) if isinstance(stated, At) else stated:
                if not low <= at.value <= high:
                    beyond.append((limit, at))
        return Reckoned(self.step, self.method, tuple(beyond)) if beyond else self.inside


def reckoned(step: str, method: Method, **inputs: At | Sequence[At]) -> Reckoned:
    """`StepKind.reckoned` of this step by this method."""
    return step_kind(step, method).reckoned(**inputs)


@lru_cache(maxsize=4096)
def step_kind(step: str, method: Method) -> StepKind:
    """The kind of a step by a method."""
    spans = {
        limit.quantity: (limit, limit.low - LAST_DIGITS * abs(limit.low), limit.high + LAST_DIGITS * abs(limit.high))
        for limit in method.ranges
    }
    return StepKind(step, method, spans, Reckoned(step, method, ()))


def basis_step(step: str, method: Method) -> BasisStep:
    """A step by a method that knows no range."""
    assert not method.ranges, f"of {method.name} state {sorted(limit.quantity for limit in method.ranges)}"
    return _basis_step(step, method, METRIC, True)


def basis(steps: Iterable[Reckoned], units: UnitSystem = METRIC) -> list[BasisStep]:
    """Each step once. Only ranges that have a dimension are told in `units`."""
    found = tuple(dict.fromkeys(steps))
    return _told(found, units) if any(map(_BEYOND, found)) else [*_told_inside(found, units)]


@lru_cache(maxsize=1024)
def _told_inside(steps: Sequence[Reckoned], units: UnitSystem) -> Sequence[BasisStep]:
    """Steps none of whose inputs lies outside: lines of the same parts take the same."""
    return _told(steps, units)


def _told(steps: Iterable[Reckoned], units: UnitSystem) -> list[BasisStep]:
    return merged([_basis_step(step.step, step.method, units, not step.beyond) for step in steps])


def merged(steps: Iterable[BasisStep]) -> list[BasisStep]:
    """Steps that differ in nothing but the range are one: it is left where any of them leaves it."""
    steps = list(dict.fromkeys(steps))
    if all(map(_IS_WITHIN_RANGE, steps)):
        return steps
    found: dict[BasisStep, bool] = {}
    for step in steps:
        alike = step if step.within_range else replace(step, within_range=True)
        found[alike] = found.get(alike, True) and step.within_range
    return [alike if within else replace(alike, within_range=False) for alike, within in found.items()]


def range_doubts(steps: Iterable[Reckoned], units: UnitSystem) -> Iterator[Doubt]:
    """A doubt at each input that lies outside its range. Only what has a dimension is told in `units`."""
    for step in steps:
        for limit, at in step.beyond:
            text = _outside(step.method, limit, at.value, units) if at.told is None else at.told()
            yield Doubt(
                at.kind or f"{_words(limit)} lies outside the range of {step.method.name}", Warning(at.pointer, text)
            )


def range_warnings(steps: Iterable[Reckoned], units: UnitSystem) -> list[Warning]:
    """The warnings of those doubts, each once."""
    return list(dict.fromkeys(doubt.warning for doubt in range_doubts(steps, units)))


_IS_WITHIN_RANGE, _BEYOND = attrgetter("within_range"), attrgetter("beyond")


@lru_cache(maxsize=4096)
def _basis_step(step: str, method: Method, units: UnitSystem, within_range: bool) -> BasisStep:
    spans = (_span(limit, units) for limit in method.ranges)
    valid_for = "; ".join(filter(None, (*spans, method.note))) or "no limit of its own"
    return BasisStep(step, method.name, method.source, valid_for, within_range)


def _outside(method: Method, limit: Range, value: float, units: UnitSystem) -> str:
    number, unit = _converted(limit, value, units)
    told = f"{_words(limit)} {_number(number, unit)} {unit}".rstrip()
    if limit.quantity in TOO_LITTLE_OR_MUCH:
        little, much = TOO_LITTLE_OR_MUCH[limit.quantity]
        (low, _), (high, _) = (_converted(limit, end, units) for end in (limit.low, limit.high))
        if value < limit.low:
            return f"{little} ({told}) for {method.name}: it holds from {_number(low, unit)} {unit}".rstrip() + " on"
        return f"{much} ({told}) for {method.name}: it holds up to {_number(high, unit)} {unit}".rstrip()
    return f"{told} lies outside the range of {method.name}: {_span(limit, units)}"


def _span(limit: Range, units: UnitSystem) -> str:
    (low, unit), (high, _) = (_converted(limit, end, units) for end in (limit.low, limit.high))
    if isinf(low):
        ends = f"up to {_number(high, unit)}"
    else:
        least = _number(low, unit)
        ends = f"from {least}" if isinf(high) else f"{least} to {_number(high, unit)}"
    return f"{_words(limit)} {ends} {unit}".rstrip()


def _words(limit: Range) -> str:
    return NAMES.get(limit.quantity) or limit.quantity.replace("_", " ")


def _number(value: float, unit: str) -> str:
    """Without a unit it may be a great one."""
    return f"{figure(value / MILLION)} million" if not unit and value >= MILLION else figure(value)


def _converted(limit: Range, value: float, units: UnitSystem) -> tuple[float, str]:
    """Diameters are told as bores are, in the smaller unit."""
    if limit.unit == "m" and limit.quantity.endswith("diameter"):
        return from_base(value, units.bore_unit), units.bore_unit
    return units.converted(value, limit.unit)
