"""Where the numbers of a line come from: one step for each kind of thing that it holds."""

from collections.abc import Sequence
from functools import cache

from msgspec import UNSET

from footvalve.answers.basis import basis_step
from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import BasisStep
from footvalve.contract.line import Fitting, Pipe, Valve
from footvalve.contract.quantities import figure
from footvalve.physics.fitting_loss import BORE_CHANGE, CRANE
from footvalve.physics.hazen_williams import HAZEN_WILLIAMS
from footvalve.physics.line_element import (
    CoefficientPipe,
    FlowCoefficientPassage,
    LineElement,
    RatedStrainer,
    RoughPipe,
    SquareLawPassage,
)
from footvalve.physics.method import Method
from footvalve.physics.pipe_flow import DARCY_WEISBACH
from footvalve.physics.rated_loss import FLOW_COEFFICIENT, SQUARE_LAW, STRAINER_LAW
from footvalve.tables.fittings import fitting
from footvalve.tables.pipes import pipe_product, pipe_size
from footvalve.tables.valves import valve

_STEP_OF_ELEMENT: dict[type[LineElement], tuple[str, Method]] = {
    RoughPipe: ("Friction in the pipes", DARCY_WEISBACH),
    CoefficientPipe: ("Friction in the pipes", HAZEN_WILLIAMS),
    RatedStrainer: ("Drop in strainers and filters", STRAINER_LAW),
    SquareLawPassage: ("Drop in the idle pump", SQUARE_LAW),
    FlowCoefficientPassage: ("Drop by flow coefficient", FLOW_COEFFICIENT),
}


def line_basis(parts: Sequence[ResolvedPart], units: UnitSystem) -> list[BasisStep]:
    """The steps that these parts call for, each once, in the order of the line."""
    steps = (step for part in parts for step in _steps(part, units))
    return list(dict.fromkeys(steps))


def _steps(resolved: ResolvedPart, units: UnitSystem) -> tuple[BasisStep, ...]:
    part = resolved.part
    if isinstance(part, Fitting):
        return (_fitting_step(part.fitting),)
    if isinstance(part, Valve):
        row = valve(part.valve)
        return (_loss_step(row.title, row.source, row.note),)
    step = basis_step(*_STEP_OF_ELEMENT[type(resolved.element)], units)
    if isinstance(part, Pipe) and part.size is not UNSET:
        by_roughness = isinstance(resolved.element, RoughPipe)
        return (_bore_step(part.size.product, part.size.nominal, by_roughness, units), step)
    return (step,)


@cache
def _bore_step(product: str, nominal: str, by_roughness: bool, units: UnitSystem) -> BasisStep:
    size = pipe_size(product=product, nominal=nominal)
    title = f"{nominal} in {pipe_product(product).title}"
    if by_roughness:
        method, wall_source = f"Bore, and roughness {units.bore(size.roughness)}", size.roughness_source
    else:
        method, wall_source = f"Bore, and C {figure(size.hazen_williams_coefficient)}", size.hazen_williams_source
    return basis_step(title, Method(method, f"Bore: {size.source}. Wall: {wall_source}"))


@cache
def _fitting_step(name: str) -> BasisStep:
    row = fitting(name)
    if row.kind == "bore-change":
        return basis_step(row.title, BORE_CHANGE)
    return _loss_step(row.title, row.source, row.note)


@cache
def _loss_step(title: str, source: str, note: str) -> BasisStep:
    return basis_step(title, Method(CRANE.name, source, CRANE.ranges, note))
