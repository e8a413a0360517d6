"""The figures of `friction`, in SI, and the answer together with them."""

from collections.abc import Sequence

from footvalve.answers.friction import friction_answer, reckoned_flow, resolved_parts, total_head_loss
from footvalve.answers.headline import Headline
from footvalve.answers.line_elements import ResolvedPart, resolve_line
from footvalve.answers.shared import Shared
from footvalve.answers.unit_system import unit_system
from footvalve.contract.friction import FrictionAnswer, FrictionRequest
from footvalve.physics.head import head_pressure
from footvalve.physics.water import water


def friction_with_headlines(
    request: FrictionRequest, parts: Sequence[ResolvedPart] | None = None
) -> Shared[FrictionAnswer]:
    """The answer with the function for the headlines of this request and of others near it: a line that is left as it
    was is not looked up again. `parts` are those of the request's line, where they are known already."""
    known = resolved_parts(request) if parts is None else parts

    def headline(other: FrictionRequest) -> Headline:
        same = (other.line, other.method, other.units) == (request.line, request.method, request.units)
        return headline_of(other, known) if same else friction_headline(other)

    return Shared(friction_answer(request, known), headline)


def friction_headline(request: FrictionRequest) -> Headline:
    """What the whole line takes, as head and as pressure."""
    return headline_of(request, resolve_line(request.line, request.method, unit_system(request.units)))


def headline_of(request: FrictionRequest, parts: Sequence[ResolvedPart]) -> Headline:
    """The same of a line whose parts are known already."""
    flow, drawn = reckoned_flow(request), water(temperature=request.site.water_temperature.base)
    total = total_head_loss(parts, flow, drawn)
    return Headline(
        {
            "/flow": flow,
            "/total_head_loss": total,
            "/total_pressure_drop": head_pressure(head=total, density=drawn.density),
        }
    )
