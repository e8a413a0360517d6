"""The head profile of a site plan, alone or on its sheet."""

from msgspec import UNSET

from footvalve.contract.site_plan import SitePlanAnswer, SitePlanRequest
from footvalve.drawings.head_profile import head_profile
from footvalve.drawings.sheet_water import resting_depth
from footvalve.drawings.svg import Drawing

_NONE = "No head profile: against the tank's pressure at cut-in the pump gives no water."


def plan_profile(request: SitePlanRequest, answer: SitePlanAnswer, *, keyed: bool = True) -> str:
    """The head profile as SVG; where the pump gives no water, a drawing that says so."""
    if answer.suction_feasibility is UNSET:
        drawing = Drawing("head-profile", (720.0, 60.0), title=f"Suction line: {answer.verdict}", description=_NONE)
        drawing.text((4.0, 34.0), _NONE, bold=True)
        return drawing.markup
    return head_profile(
        answer.suction_feasibility,
        request.suction_line,
        resting_depth=resting_depth(request, answer),
        asked_margin=request.policy.margin,
        keyed=keyed,
    )
