"""A chance in words, and from where on a verdict of `feasible` counts as sure."""

from typing import Final

SURE_ENOUGH: Final = 0.95
"""Chance below which a verdict of `feasible` is warned of (own choice)."""

ALL_BUT_SURE: Final = 0.995
"""Chance beyond which no condition is told to be likely to fail."""


def told_chance(chance: float) -> str:
    """A chance from 0 to 1 as a whole percentage, and never as if it were certain.

    >>> told_chance(0.586), told_chance(0.9996), told_chance(0.0)
    ('59 %', 'more than 99 %', 'less than 1 %')
    """
    if chance < 1.0 - ALL_BUT_SURE:
        return "less than 1 %"
    return "more than 99 %" if chance > ALL_BUT_SURE else f"{100.0 * chance:.0f} %"
