"""Which work is so long that it is not done where it stands, on the event loop, but in its turn beside it."""

from typing import Final

from footvalve.answers.cost import Cost

_HEAVY_UNITS: Final = 20.0
"""Work of about five milliseconds: so long everybody may have to wait for a light request of somebody else."""

_LONG_OCTETS: Final = 4_000
"""A body that takes about as long to be searched for every fault."""

_OCTETS_OF_UNIT: Final = 400
"""Octets that are searched in the time of a unit."""

_OF_ITEM: Final = 0.1
"""Units that an item of a batch takes beside its answer."""


def is_heavy(cost: Cost) -> bool:
    """Whether an answer takes long."""
    return cost.units > _HEAVY_UNITS


def is_long_to_search(raw: bytes) -> bool:
    """Whether it takes long to find every fault of a body."""
    return len(raw) > _LONG_OCTETS


def units_to_search(raw: bytes) -> float:
    """What it takes to find every fault of a body."""
    return len(raw) / _OCTETS_OF_UNIT


def units_of_item(answer: float) -> float:
    """What an item of a batch takes whose answer takes so much."""
    return _OF_ITEM + answer
