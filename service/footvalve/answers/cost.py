"""What a request costs, known before it is begun: the time of its answer, in that of a plain suction-feasibility.

Each endpoint has a function that takes the cost from the lengths of the request's lists and the number of its uncertain
inputs. Whether a chance must be drawn shows only on the way, so it is reckoned as if it must.
`deploy/measure_cost.py` holds both against the time that is taken.
"""

from collections.abc import Mapping
from typing import Any, NamedTuple

from footvalve.answers.uncertain_inputs import MOST_UNCERTAIN
from footvalve.contract.ranges import stated_quantities


class Cost(NamedTuple):
    """How many times a plain suction-feasibility a request may take, how many there are of what makes it long, and how
    much of it falls away where no chance has to be drawn."""

    units: float
    made_of: Mapping[str, int]
    drawing: float = 0.0

    @property
    def told(self) -> str:
        """What makes it long, in words; nothing where that is its endpoint alone.

        >>> Cost(300.0, {"uncertain inputs": 37, "parts": 200, "flows": 0}).told
        '37 uncertain inputs, 200 parts'
        """
        return ", ".join(f"{number} {name}" for name, number in self.made_of.items() if number)


class Quantities(NamedTuple):
    """How many quantities a request states, and how many of them are uncertain."""

    stated: int = 0
    uncertain: int = 0


ALL_SURE = Quantities()
"""Those of a request without an uncertain input: the others need not be counted."""


def quantities_of(request: Any) -> Quantities:
    """Those of a request. More uncertain inputs than may be are refused before they cost anything."""
    stated = stated_quantities(request)
    uncertain = sum(1 for at in stated if at.quantity.uncertainty)
    return Quantities(len(stated), uncertain) if uncertain <= MOST_UNCERTAIN else ALL_SURE


def askings(uncertain: int) -> int:
    """How often the headline is asked for: as it is, and with each uncertain input up and down."""
    return 1 + 2 * uncertain if uncertain else 0


def plain_cost(_request: Any, _quantities: Quantities) -> Cost:
    """That of an endpoint whose requests cost about as much as a plain suction-feasibility."""
    return Cost(1.0, {})
