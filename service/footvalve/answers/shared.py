"""An answer with what its uncertainties are found by, where these share what was worked out for the answer."""

from collections.abc import Callable, Iterable
from typing import Any, Generic, TypeVar

from msgspec import Struct

from footvalve.answers.headline import Headline
from footvalve.answers.uncertain_inputs import UncertainInput
from footvalve.contract.answer import Answer

Answered = TypeVar("Answered", bound=Answer)


class Shared(Struct, Generic[Answered], frozen=True, eq=False):
    """An answer, the function for the headlines of its request and of others near it, and its readings that scatter.

    `spares` is a function that finds the same spares as the headlines and as little else as can be, where there is one.
    """

    answer: Answered
    headline: Callable[[Any], Headline]
    scatter: Iterable[UncertainInput] = ()
    spares: Callable[[Any], Headline] | None = None
