"""The `basis` of an answer: its steps, each with its method, source and range."""

from functools import cache

from footvalve.contract.answer import BasisStep, Warning
from footvalve.physics.method import Method


@cache
def basis_step(step: str, method: Method) -> BasisStep:
    """One step of the reckoning by a known method."""
    return BasisStep(step, method.name, method.source, method.valid_for)


def doubts(method: Method, pointer: str, **inputs: float) -> list[Warning]:
    """A warning for each input, in SI and named as in the method's ranges, that lies outside its range."""
    return [
        Warning(pointer, f"{name.replace('_', ' ')} {value:.4g} lies outside the range of {method.name}: {limit}")
        for name, value in inputs.items()
        if value not in (limit := method.range_of(name))
    ]
