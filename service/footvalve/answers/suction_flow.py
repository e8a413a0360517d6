"""What a suction line takes at its flow, wherever the water stands and whatever the air weighs."""

from collections.abc import Sequence

from msgspec import Struct

from footvalve.answers.line_discs import uncounted_by_disc
from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.line_elevations import LineElevations
from footvalve.contract.line import Valve
from footvalve.contract.suction_feasibility import ReciprocatingPump, SuctionFeasibilityRequest, SuctionPump
from footvalve.physics.acceleration_head import CUSHIONED_BORES
from footvalve.physics.suction_profile import LineHeads, Stage, Strokes, line_heads
from footvalve.physics.water import Water, water


class LineAtFlow(Struct, frozen=True):
    """A line at a flow in m^3/s of some water: the heads at its nodes, and what each part may take beyond what is
    counted, in m: a check valve whose disc hangs."""

    flow: float
    drawn: Water
    strokes: Strokes | None
    stages: Sequence[Stage]
    heads: LineHeads
    uncounted: list[float]


def line_at_flow(
    request: SuctionFeasibilityRequest,
    parts: Sequence[ResolvedPart],
    elevations: LineElevations,
    known: LineAtFlow | None,
) -> LineAtFlow:
    """The line of a request; `known` is the same line at some flow, and the answer if that is this request's."""
    flow, strokes = request.flow.base, _strokes(request.pump)
    drawn = water(temperature=request.site.water_temperature.base)
    if known is not None and (known.flow, known.drawn, known.strokes) == (flow, drawn, strokes):
        return known
    stages = _stages(parts, elevations) if known is None else known.stages
    return LineAtFlow(
        flow=flow,
        drawn=drawn,
        strokes=strokes,
        stages=stages,
        heads=line_heads(stages=stages, flow=flow, water=drawn, strokes=strokes),
        uncounted=[uncounted_by_disc(part, flow, drawn) if isinstance(part.part, Valve) else 0.0 for part in parts],
    )


def _stages(parts: Sequence[ResolvedPart], elevations: LineElevations) -> list[Stage]:
    places = zip(parts, elevations.ends, strict=True)
    return [Stage(part.element, part.diameter, part.length, end) for part, end in places]


def _strokes(pump: SuctionPump) -> Strokes | None:
    if not isinstance(pump, ReciprocatingPump):
        return None
    return Strokes(pump.strokes_per_minute, pump.chambers, CUSHIONED_BORES if pump.gas_cushion else None)
