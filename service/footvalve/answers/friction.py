"""What a line costs at a flow: the answer of `friction`."""

from collections.abc import Sequence
from functools import partial

from msgspec import UNSET, UnsetType

from footvalve.answers.alike_doubts import few_of_each
from footvalve.answers.basis import At, Reckoned, basis, range_doubts, reckoned
from footvalve.answers.cautions import cautions
from footvalve.answers.friction_curve import CurvePlace, curve_doubts, curve_places
from footvalve.answers.gathering import gathered
from footvalve.answers.line_basis import Place, line_places, steps_at
from footvalve.answers.line_doubts import FASTEST_IN_PIPES, line_doubts
from footvalve.answers.line_elements import ResolvedPart, resolve_line
from footvalve.answers.unit_system import UnitSystem, unit_system
from footvalve.contract.answer import Warning
from footvalve.contract.friction import (
    CurvePoint,
    FrictionAnswer,
    FrictionRequest,
    GreatestVelocity,
    PartLoss,
)
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import rounded
from footvalve.physics.head import head_pressure
from footvalve.physics.line_element import RoughPipe
from footvalve.physics.pipe_flow import flow_regime, mean_velocity
from footvalve.physics.water import WATER, Water, water


def friction(request: FrictionRequest) -> FrictionAnswer:
    """The head that each part of the line takes, and the whole of it. Raises Refused with every fault."""
    return friction_answer(request, resolved_parts(request))


def resolved_parts(request: FrictionRequest) -> list[ResolvedPart]:
    """The parts of the line, once it is sure that a flow is told. Raises Refused with every fault."""
    faults: list[Fault] = []
    gathered(faults, partial(reckoned_flow, request))
    parts = gathered(faults, partial(resolve_line, request.line, request.method, unit_system(request.units)))
    if parts is None or faults:
        raise Refused(*faults)
    return parts


def friction_answer(request: FrictionRequest, parts: Sequence[ResolvedPart]) -> FrictionAnswer:
    """The same of a line whose parts are known already."""
    units, flow = unit_system(request.units), reckoned_flow(request)
    drawn = water(temperature=request.site.water_temperature.base)
    places = line_places(parts, flow, drawn, units)
    losses = [part.element.head_loss(flow, drawn) for part in parts]
    total = sum(losses)
    temperature = At("/site/water_temperature", drawn.temperature)
    steps = [reckoned("Water's density and viscosity", WATER, temperature=temperature), *steps_at(places)]
    curve = _curve_places(request, parts, flow, drawn, units)
    return FrictionAnswer(
        flow=units.flow(flow),
        total_head_loss=units.length(total),
        total_pressure_drop=units.pressure(head_pressure(head=total, density=drawn.density)),
        parts=[_part_loss(place, loss) for place, loss in zip(places, losses, strict=True)],
        greatest_velocity=_greatest_velocity(parts, flow, units),
        curve=_curve(request, parts, drawn, units),
        basis=basis([*steps, *(step for place in curve for step in place.steps)], units),
        cautions=cautions(()),
        warnings=_warnings(parts, flow, steps, curve, units),
    )


def reckoned_flow(request: FrictionRequest) -> float:
    """The flow in m^3/s that the parts are reckoned at: `flow`, or else the greatest of `flows`."""
    if request.flow is not UNSET:
        return request.flow.base
    if request.flows is UNSET:
        raise Refused(Fault("/flow", "give `flow`, or `flows` for a curve, or both"))
    return max(flow.base for flow in request.flows)


def total_head_loss(parts: Sequence[ResolvedPart], flow: float, drawn: Water) -> float:
    """Head in m that a resolved line takes at a flow in m^3/s."""
    return sum([part.element.head_loss(flow, drawn) for part in parts])


def _part_loss(place: Place, loss: float) -> PartLoss:
    part, head_loss = place.resolved, place.units.length(loss)
    if place.velocity is None or place.reynolds is None:
        return PartLoss(index=place.index, name=part.name, head_loss=head_loss)
    element = part.element
    factor = rounded(element.friction_factor(place.flow, place.water)) if isinstance(element, RoughPipe) else UNSET
    return PartLoss(
        index=place.index,
        name=part.name,
        velocity=place.units.velocity(place.velocity),
        reynolds=rounded(place.reynolds),
        regime=flow_regime(reynolds=place.reynolds),
        friction_factor=factor,
        head_loss=head_loss,
    )


def _greatest_velocity(parts: Sequence[ResolvedPart], flow: float, units: UnitSystem) -> GreatestVelocity | UnsetType:
    bores = [(part.diameter, index) for index, part in enumerate(parts) if part.diameter is not None]
    if not bores:
        return UNSET
    diameter, index = min(bores)
    velocity = units.velocity(mean_velocity(flow=flow, diameter=diameter))
    return GreatestVelocity(velocity=velocity, index=index, name=parts[index].name)


def _curve(
    request: FrictionRequest, parts: Sequence[ResolvedPart], drawn: Water, units: UnitSystem
) -> list[CurvePoint] | UnsetType:
    if request.flows is UNSET:
        return UNSET
    return [
        CurvePoint(flow=units.flow(flow.base), head_loss=units.length(total_head_loss(parts, flow.base, drawn)))
        for flow in request.flows
    ]


def _curve_places(
    request: FrictionRequest, parts: Sequence[ResolvedPart], flow: float, drawn: Water, units: UnitSystem
) -> list[CurvePlace]:
    if request.flows is UNSET:
        return []
    return curve_places(parts, [stated.base for stated in request.flows], flow, drawn, units)


def _warnings(
    parts: Sequence[ResolvedPart],
    flow: float,
    steps: Sequence[Reckoned],
    curve: Sequence[CurvePlace],
    units: UnitSystem,
) -> list[Warning]:
    found = [*line_doubts(parts, flow, units, fastest=FASTEST_IN_PIPES), *range_doubts(steps, units)]
    return [*few_of_each(found, "/line"), *curve_doubts(curve, parts, found, units)]
