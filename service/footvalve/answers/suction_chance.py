"""How the chance that an answer's suction line is feasible is found."""

from collections.abc import Callable
from dataclasses import dataclass

from footvalve.answers.chance import DRAWS


def _everything(_: str) -> bool:
    return True


@dataclass(frozen=True, slots=True)
class SuctionChance:
    """Where the answer tells of its suction line, whether an input at a pointer bears on what that has to spare, and
    how many draws are asked at most."""

    pointer: str
    bears: Callable[[str], bool] = _everything
    most_draws: int = DRAWS

    @property
    def margin(self) -> str:
        """The pointer to the margin in the answer."""
        return f"{self.pointer}/margin"
