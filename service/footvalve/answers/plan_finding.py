"""A reason against a plan, and the order in which the reasons are told."""

from dataclasses import dataclass

from footvalve.contract.suction_feasibility import Verdict


@dataclass(frozen=True, slots=True)
class Finding:
    """A reason why a plan is not feasible, in one sentence; a danger to people comes before what is only marginal."""

    gravity: Verdict
    text: str
    is_danger: bool = False

    @property
    def rank(self) -> tuple[bool, bool]:
        """By which findings are sorted: what makes a plan infeasible first, then dangers, then the rest."""
        return self.gravity != "infeasible", not self.is_danger
