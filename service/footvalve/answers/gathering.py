"""Lets several checks of one body run to their ends, so that all their faults come in one answer."""

from collections.abc import Callable, Iterator
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


def faults_at(pointer: str, refused: Refused) -> Iterator[Fault]:
    """The faults of a part of the body, that were told from the part on, with the pointer to the part before theirs."""
    return (Fault(pointer + fault.pointer, fault.detail) for fault in refused.faults)
