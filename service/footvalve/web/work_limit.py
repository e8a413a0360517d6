"""What is said to a request that asks for more work than is allowed, before any of it is done."""

from math import ceil
from typing import NoReturn

from footvalve.answers.cost import Cost
from footvalve.web import problem_types as kinds
from footvalve.web.problems import Declined

_UNIT = "times that of a plain suction-feasibility"


def refuse_too_much(cost: Cost, limit: int) -> NoReturn:
    """Raises Declined for a single question, with what makes it long."""
    made_of = f" for {cost.told}" if cost.told else ""
    raise Declined(
        kinds.TOO_MUCH_WORK,
        f"The work of the answer may come to {ceil(cost.units)} {_UNIT}{made_of}; at most {limit} are allowed.",
    )


def refuse_too_much_together(units: float, items: int, heaviest: int, most: float, limit: int) -> NoReturn:
    """Raises Declined for a batch of so many items, with the place of the heaviest."""
    raise Declined(
        kinds.TOO_MUCH_WORK,
        f"The work of the batch may come to {ceil(units)} {_UNIT} for {items} items, of which /items/{heaviest} takes "
        f"{ceil(most)}; at most {limit} are allowed for all together.",
    )
