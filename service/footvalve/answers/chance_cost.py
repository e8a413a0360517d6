"""How often a line is asked again for the chance that it is feasible."""

from typing import Final

from footvalve.answers.chance import WORK
from footvalve.answers.cost import Quantities

_TURNS: Final = 1.2
"""How often so many draws are taken, as some may be of what cannot be: three times at most, as a rule once."""


def looks_taken(uncertain: int) -> int:
    """How often at most the line is looked at before its chance is taken from one condition."""
    if uncertain < 2:
        return 5 if uncertain else 0
    return 2 * uncertain + (1 << uncertain.bit_length()) + 3


def draws_taken(quantities: Quantities, uncertain: int, most_draws: int) -> float:
    """How many draws are asked where the chance must be drawn."""
    return _TURNS * min(most_draws, WORK // max(quantities.stated, 1)) if uncertain else 0.0
