"""What is asked of the service under load: every example of the contract, in the proportions of a public site."""

import json
from collections.abc import Iterator
from itertools import chain, cycle, islice
from typing import Final, NamedTuple

from footvalve.contract.examples import examples

SHARES: Final = {
    "suction-feasibility": 60,
    "sounding": 10,
    "well-recovery": 5,
    "friction": 5,
    "tank-cycle": 5,
    "battery-runtime": 5,
    "manifold-check": 5,
    "site-plan": 5,
}
"""Of a hundred requests; assumed. The feasibility check is what other people's pages hold."""


class Question(NamedTuple):
    """One request: its path, and its body as it is sent."""

    path: str
    body: bytes


def questions() -> list[Question]:
    """A hundred requests, those of one endpoint spread over the list, each of its examples about as often."""
    drawn = {name: islice(cycle(_questions_of(name)), share) for name, share in SHARES.items()}
    places = chain.from_iterable(
        (((number + 0.5) / share, name) for number in range(share)) for name, share in SHARES.items()
    )
    return [next(drawn[name]) for _, name in sorted(places)]


def _questions_of(endpoint: str) -> Iterator[Question]:
    for example in examples(endpoint):
        yield Question(f"/v1/{endpoint}", json.dumps(example.request).encode())
