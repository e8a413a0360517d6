"""What would better a suction side that is not feasible: single changes, the sufficient ones first."""

from itertools import chain

from footvalve.answers.plan_duty import PumpDuty
from footvalve.answers.plan_lever import Change, suction_at
from footvalve.answers.plan_lever_level import higher_limit
from footvalve.answers.plan_lever_line import cleaned_strainers, wider_pipes
from footvalve.answers.plan_lever_pump import easier_pump, less_flow, lower_pump
from footvalve.answers.plan_state import PlanState
from footvalve.answers.plan_steps import PlanSteps
from footvalve.contract.site_plan import Lever

TELLING = 0.01
"""m of margin that a change brings at least, to be worth a word (own choice)."""


def plan_levers(state: PlanState, duty: PumpDuty, steps: PlanSteps) -> list[Lever]:
    """The levers; none where the suction side is feasible, or the pump gives nothing to ask it with."""
    if steps.suction is None or steps.suction.verdict == "feasible":
        return []
    return [
        Lever(
            change=change.text,
            pointer=change.pointer,
            margin=state.units.length(change.after.margin),
            verdict=change.after.verdict,
        )
        for change in changes(state, duty)
    ]


def changes(state: PlanState, duty: PumpDuty) -> list[Change]:
    """The changes behind the levers, each with the request and the suction side that it makes."""
    if duty.cut_in is None:
        return []
    now = suction_at(state, duty.cut_in.flow)
    tried = chain(
        wider_pipes(state),
        cleaned_strainers(state),
        lower_pump(state, now),
        less_flow(state, now),
        easier_pump(state, now),
        higher_limit(state, now),
    )
    better = [change for change in tried if change.after.margin - now.margin >= TELLING and not _is_vain(change)]
    return sorted(better, key=lambda change: change.after.verdict != "feasible")


def _is_vain(change: Change) -> bool:
    """Whether the pump has too little even so: each kind of change is tried as far as it goes."""
    return change.after.verdict == "infeasible" and change.after.margin < 0.0
