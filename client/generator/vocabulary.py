"""What the contract speaks of, sorted: its closed lists, its quantities, and the Structs of either side."""

from dataclasses import dataclass

from generator.closed_lists import ClosedList, closed_lists
from generator.contract import Contract
from generator.quantities import QuantityType, quantity_types

ENDPOINT_NAME = "EndpointName"
"""What the client calls the closed list of the endpoints that a batch takes."""


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The contract, with its closed lists by the schema and field that hold them, and its quantities by name."""

    contract: Contract
    lists: dict[tuple[str, str], ClosedList]
    quantities: dict[str, QuantityType]

    @property
    def request_names(self) -> list[str]:
        """The Structs and unions that requests are made of."""
        return [name for name in self.contract.request_names if name not in self.quantities]

    @property
    def answer_names(self) -> list[str]:
        """The Structs that answers and problems are made of."""
        return [name for name in self.contract.answer_names if name not in self.quantities]

    @property
    def list_names(self) -> list[str]:
        """The names of the closed lists."""
        return sorted({found.name for found in self.lists.values()})


def vocabulary(contract: Contract) -> Vocabulary:
    """The contract's vocabulary. Raises ValueError for a Struct on both sides, or an answer told apart by a tag."""
    lists = closed_lists(contract)
    for selection in contract.selections:
        lists[selection.words_name, ""] = ClosedList(selection.words_name, tuple(selection.answers))
    lists[ENDPOINT_NAME, ""] = ClosedList(ENDPOINT_NAME, tuple(operation.endpoint for operation in contract.batched))
    quantities = {found.name: found for found in quantity_types(contract, lists)}
    sorted_out = Vocabulary(contract, lists, quantities)
    answers = set(sorted_out.answer_names)
    shared = answers & set(sorted_out.request_names)
    if shared:
        raise ValueError(f"requests and answers share {', '.join(sorted(shared))}: the client needs a name for each")
    tagged = answers & {name for name, _ in contract.tags}
    if tagged:
        raise ValueError(
            f"an older client cannot read new members of a union in an answer: {', '.join(sorted(tagged))}"
        )
    return sorted_out
