"""Whether a well that is said to sustain a flow does so by the uncertainties of the inputs as well."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.uncertain_answer import Uncertain
from footvalve.answers.well_state import PROVEN_AT
from footvalve.contract.answer import Answer, Warning
from footvalve.contract.pointed import changed_at, tokens, value_at
from footvalve.contract.quantities import Flow

Answered = TypeVar("Answered", bound=Answer)


@dataclass(frozen=True, slots=True)
class WellPlace:
    """Where an answer tells of the well, and the flow that is to be drawn, by the request and the answer."""

    pointer: str
    drawn: Callable[[Any, Any], Flow]


def with_well_sureness(answer: Answered, known: Uncertain, request: Any, *, place: WellPlace) -> Answered:
    """The answer with a reason and a warning where the inflow less two standard uncertainties does not carry the flow
    that the well is said to sustain."""
    well, inflow = value_at(answer, place.pointer), known.told.get(f"{place.pointer}/inflow_at_limit")
    if well is UNSET or inflow is None or well.verdict != "sustains":
        return answer
    flow, unit = place.drawn(request, answer), well.inflow_at_limit.unit
    least = known.centre.figures[f"{place.pointer}/inflow_at_limit"] - PROVEN_AT * inflow.uncertainty
    if least >= flow.base:
        return answer
    text = (
        f"by the uncertainties of the inputs no more than {Flow.from_base(max(least, 0.0), unit)} may flow in with the "
        f"level at the limit, and {Flow.from_base(flow.base, unit)} are wanted: that the well sustains it is not proven"
    )
    told = replace(well, reasons=[*well.reasons, f"{text[:1].upper()}{text[1:]}."])
    most = known.found[max(inflow.changes, key=inflow.variance_fraction)].input.pointer
    answer = changed_at(answer, tokens(place.pointer), lambda _: told)
    return replace(answer, warnings=[*answer.warnings, Warning(most, text)])
