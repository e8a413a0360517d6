"""Lets several checks of one body run to their ends, so that all their faults come in one answer."""

from collections.abc import Callable
from typing import TypeVar

from footvalve.contract.problem import Fault, Refused

Resolved = TypeVar("Resolved")


def gathered(faults: list[Fault], resolve: Callable[[], Resolved]) -> Resolved | None:
    """What is resolved, or None where it is refused; its faults are added to the list."""
    try:
        return resolve()
    except Refused as refused:
        faults.extend(refused.faults)
        return None
