"""How the chance that an answer's suction line is feasible is found."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from footvalve.answers.chance import DRAWS


def _everything(_: str) -> bool:
    return True


def _as_it_is(answer: Any) -> Any:
    return answer


@dataclass(frozen=True, slots=True)
class SuctionChance:
    """Where the answer tells of its suction line, whether an input at a pointer bears on what that has to spare, how
    many draws are asked at most, and what an answer that sums up its suction line becomes by the chance."""

    pointer: str
    bears: Callable[[str], bool] = _everything
    most_draws: int = DRAWS
    summed_up: Callable[[Any], Any] = _as_it_is

    @property
    def margin(self) -> str:
        """The pointer to the margin in the answer."""
        return f"{self.pointer}/margin"
