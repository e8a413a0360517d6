"""Whether a plan's well sustains the pump by the uncertainties of the inputs as well."""

from math import hypot

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.propagation import Propagated
from footvalve.answers.uncertain_answer import Uncertain
from footvalve.answers.well_state import PROVEN_AT
from footvalve.answers.well_sureness import WellPlace, with_well_sureness
from footvalve.contract.answer import Warning
from footvalve.contract.quantities import Length
from footvalve.contract.site_plan import SitePlanAnswer, SitePlanRequest

_READ = WellPlace("/well-recovery", lambda _, answer: answer.duty.cut_in.flow)
_LIMIT = "/well/limit_depth"
_LEVEL = "/suction-feasibility/pumping_depth"


def with_plan_sureness(answer: SitePlanAnswer, known: Uncertain, request: SitePlanRequest) -> SitePlanAnswer:
    """The plan with a warning, and a word in its first sentence, where that is not proven."""
    doubted = with_well_sureness(answer, known, request, place=_READ)
    if doubted is answer:
        doubted = _with_level_sureness(answer, known, request)
    if doubted is answer or answer.verdict != "feasible":
        return doubted
    headline, *others = doubted.summary
    told = f"{headline.removesuffix('.')}; yet that the well sustains the pump is not proven."
    return replace(doubted, summary=[told, *others])


def _with_level_sureness(answer: SitePlanAnswer, known: Uncertain, request: SitePlanRequest) -> SitePlanAnswer:
    """With a yield that is stated, where two standard uncertainties lead the level below the limit."""
    well, found = request.well, known.told.get(_LEVEL)
    if (
        well is UNSET
        or answer.well_recovery is not UNSET
        or well.limit_depth is UNSET
        or _LEVEL not in known.centre.figures
    ):
        return answer
    sigma = hypot(well.limit_depth.base_uncertainty, 0.0 if found is None else found.uncertainty)
    spare = well.limit_depth.base - known.centre.figures[_LEVEL]
    if not 0.0 <= spare < PROVEN_AT * sigma:
        return answer
    unit = well.limit_depth.unit
    text = (
        f"the level would settle {Length.from_base(spare, unit)} above the limit, which by the uncertainties of the "
        f"inputs is known to {Length.from_base(sigma, unit)}: that the well sustains the pump is not proven"
    )
    return replace(answer, warnings=[*answer.warnings, Warning(_most_telling(known, found), text)])


def _most_telling(known: Uncertain, found: Propagated | None) -> str:
    """The pointer to the input that matters most to the level, or to the limit where the level is sure."""
    if found is None:
        return _LIMIT
    return known.found[max(found.changes, key=found.variance_fraction)].input.pointer
