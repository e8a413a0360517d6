"""The figures that an answer is asked for, before they are told in anybody's units."""

from collections.abc import Mapping
from typing import Any

from msgspec import Struct


class Headline(Struct, frozen=True):
    """Figures in the unit of physics, each under the JSON Pointer to its quantity in the answer; what the answer does
    not hold is not among them.

    `spares` is what must be zero or more for the verdict to be `feasible`: what each condition has to spare, in m.
    """

    figures: Mapping[str, float]
    spares: tuple[float, ...] = ()


def no_headline(_: Any) -> Headline:
    """That of an answer without figures."""
    return Headline({})


def held(figures: Mapping[str, float | None]) -> dict[str, float]:
    """The figures that an answer holds: without those that are None."""
    return {pointer: figure for pointer, figure in figures.items() if figure is not None}
