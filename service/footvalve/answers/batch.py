"""What can be said of a batch before its items are answered."""

from collections.abc import Iterable

from footvalve.contract.answer import Warning
from footvalve.contract.batch import BatchItem
from footvalve.contract.fault_wording import cleaned, listed, perhaps


class UnknownEndpoint(LookupError):
    """An item asks for an endpoint that no batch takes. The message says which ones there are."""

    def __init__(self, name: str, known: Iterable[str]) -> None:
        known = tuple(known)
        hint = perhaps(name, known) or "."
        super().__init__(f"`{cleaned(name)}` is no endpoint that a batch takes: use one of {listed(known)}{hint}")


def repeated_ids(items: Iterable[BatchItem]) -> list[Warning]:
    """A warning for each id that an item before had: allowed, as the answers keep the order, but hardly meant."""
    first: dict[str, int] = {}
    return [
        Warning(f"/items/{place}/id", f"item {before} has the same id: only their order tells the two answers apart")
        for place, item in enumerate(items)
        if (before := first.setdefault(item.id, place)) != place
    ]
