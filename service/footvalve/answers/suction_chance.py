"""How the chance that an answer's suction line is feasible is found."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from footvalve.answers.chance import DRAWS
from footvalve.answers.headline import Headline


def _everything(_: str) -> bool:
    return True


@dataclass(frozen=True, slots=True)
class SuctionChance:
    """Where the answer tells of its suction line, a function of the request that finds the same spares as its headline
    and as little else as can be, whether an input at a pointer bears on them, and how many draws are asked at most."""

    pointer: str
    headline: Callable[[Any], Headline]
    bears: Callable[[str], bool] = _everything
    most_draws: int = DRAWS

    @property
    def margin(self) -> str:
        """The pointer to the margin in the answer."""
        return f"{self.pointer}/margin"
