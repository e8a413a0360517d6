"""What speaks against the piping between well, pumps and house."""

from collections.abc import Iterator

from msgspec import UNSET

from footvalve.answers.plan_finding import Finding
from footvalve.answers.plan_state import PlanState
from footvalve.contract.manifold_check import FindingSeverity, ManifoldCheckAnswer, PumpElement

GRAVEST_FIRST: tuple[FindingSeverity, ...] = ("danger", "warning", "note")


def manifold_findings(state: PlanState) -> Iterator[Finding]:
    """That it brings no water; else the worst of what its own check finds."""
    asked, manifold = state.request.manifold, state.manifold
    if asked is UNSET or manifold is None:
        return
    if not any(isinstance(element, PumpElement) for element in asked.elements):
        yield Finding("infeasible", "The manifold holds no pump.")
        return
    outcomes = zip(asked.modes, manifold.modes, strict=True)
    dry = [mode.name for mode, outcome in outcomes if mode.running and not outcome.delivers]
    for name in dry:
        yield Finding(
            "infeasible", f"In the mode '{name}' a pump of the manifold runs and brings nothing to the house."
        )
    if dry:
        return
    if not any(outcome.delivers for outcome in manifold.modes):
        yield Finding("infeasible", f"In no mode does the manifold bring water to the house.{_quoted(manifold)}")
    elif manifold.verdict != "right":
        is_wrong = manifold.verdict == "wrong"
        text = f"The manifold is {manifold.verdict}:{_quoted(manifold)}"
        yield Finding("marginal", text, is_danger=is_wrong)


def _quoted(manifold: ManifoldCheckAnswer) -> str:
    """The worst finding, a danger before a warning."""
    worst = min(manifold.findings, key=lambda finding: GRAVEST_FIRST.index(finding.severity), default=None)
    return "" if worst is None else f" {worst.text}"
