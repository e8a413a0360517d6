"""Where the numbers of a line come from, and what went into each: one step for each thing that it holds."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, partial

from msgspec import UNSET

from footvalve.answers.basis import At, Reckoned, reckoned
from footvalve.answers.line_discs import unlifted_disc
from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.line import Fitting, FlowResistance, IdlePump, LinePart, Pipe, Strainer, Valve
from footvalve.contract.quantities import Flow, figure
from footvalve.physics.fitting_loss import (
    BORE_CHANGE,
    CHECK_VALVE,
    CRANE,
    FIXED_COEFFICIENT,
    PUSH_TO_CONNECT,
    full_lift_velocity,
)
from footvalve.physics.hazen_williams import HAZEN_WILLIAMS
from footvalve.physics.line_element import CoefficientPipe, RoughPipe
from footvalve.physics.method import Method
from footvalve.physics.pipe_flow import (
    DARCY_WEISBACH,
    LAMINAR_FRICTION,
    LAMINAR_LIMIT,
    mean_velocity,
    reynolds_number,
)
from footvalve.physics.rated_loss import FLOW_COEFFICIENT, SQUARE_LAW, STRAINER_LAW
from footvalve.physics.water import Water
from footvalve.tables.fittings import fitting
from footvalve.tables.pipes import pipe_product, pipe_size
from footvalve.tables.valves import valve


@dataclass(frozen=True, slots=True)
class Place:
    """A part of the line in its place, with the water that passes it at a flow in m^3/s."""

    pointer: str
    resolved: ResolvedPart
    flow: float
    water: Water
    units: UnitSystem

    @property
    def velocity(self) -> float | None:
        """In m/s, where the part's bore is known."""
        diameter = self.resolved.diameter
        return None if diameter is None else mean_velocity(flow=self.flow, diameter=diameter)

    @property
    def reynolds(self) -> float | None:
        """Where the part's bore is known."""
        velocity, diameter = self.velocity, self.resolved.diameter
        if velocity is None or diameter is None:
            return None
        viscosity = self.water.kinematic_viscosity
        return reynolds_number(velocity=velocity, diameter=diameter, kinematic_viscosity=viscosity)

    def at(self, value: float | None) -> Sequence[At]:
        """The value at this part; nothing where none is known."""
        return () if value is None else (At(self.pointer, value),)


def line_steps(parts: Sequence[ResolvedPart], flow: float, water: Water, units: UnitSystem) -> list[Reckoned]:
    """The steps that these parts call for at a flow in m^3/s, in the order of the line."""
    places = (Place(f"/line/{index}", part, flow, water, units) for index, part in enumerate(parts))
    return [step for place in places for step in place_steps(place)]


def place_steps(place: Place) -> Iterator[Reckoned]:
    """The steps that one part calls for. The ranges of a method are asked for by name, so that none is left out."""
    size_step = _size_step(place)
    if size_step is not None:
        yield size_step
    title, method = _title_and_method(place)
    yield reckoned(title, method, **{limit.quantity: _INPUTS[limit.quantity](place) for limit in method.ranges})


def _title_and_method(place: Place) -> tuple[str, Method]:
    match place.resolved.part:
        case Pipe():
            return "Friction in the pipes", _friction_method(place)
        case Fitting(fitting=name):
            return _of_fitting(name)
        case Valve(valve=name):
            return _of_valve(name)
        case rated:
            return _RATED[type(rated)]


_RATED: Mapping[type[LinePart], tuple[str, Method]] = {
    Strainer: ("Drop in strainers and filters", STRAINER_LAW),
    IdlePump: ("Drop in the idle pump", SQUARE_LAW),
    FlowResistance: ("Drop by flow coefficient", FLOW_COEFFICIENT),
}


def _friction_method(place: Place) -> Method:
    if isinstance(place.resolved.element, CoefficientPipe):
        return HAZEN_WILLIAMS
    reynolds = place.reynolds
    return LAMINAR_FRICTION if reynolds is not None and reynolds < LAMINAR_LIMIT else DARCY_WEISBACH


@cache
def _of_fitting(name: str) -> tuple[str, Method]:
    row = fitting(name)
    if row.kind == "bore-change":
        return row.title, BORE_CHANGE
    by_bore = row.kind == "equivalent-length-ratio"
    method = CRANE if by_bore else _MEASURED_FITTINGS.get(name, FIXED_COEFFICIENT)
    return row.title, _as_in_table(method, row.source, row.note)


_MEASURED_FITTINGS = {"elbow-90-push-to-connect": PUSH_TO_CONNECT}


@cache
def _of_valve(name: str) -> tuple[str, Method]:
    row = valve(name)
    method = CRANE if row.full_lift_constant is None else CHECK_VALVE
    return row.title, _as_in_table(method, row.source, row.note)


def _as_in_table(method: Method, source: str, note: str) -> Method:
    return Method(method.name, source, method.ranges, "; ".join(filter(None, (method.note, note))))


def _size_step(place: Place) -> Reckoned | None:
    part = place.resolved.part
    if not isinstance(part, Pipe) or part.size is UNSET:
        return None
    by_roughness = isinstance(place.resolved.element, RoughPipe)
    return _bore_step(part.size.product, part.size.nominal, by_roughness, place.units)


@cache
def _bore_step(product: str, nominal: str, by_roughness: bool, units: UnitSystem) -> Reckoned:
    size = pipe_size(product=product, nominal=nominal)
    title = f"{nominal} in {pipe_product(product).title}"
    if by_roughness:
        method, wall_source = f"Bore, and roughness {units.bore(size.roughness)}", size.roughness_source
    else:
        method, wall_source = f"Bore, and C {figure(size.hazen_williams_coefficient)}", size.hazen_williams_source
    return reckoned(title, Method(method, f"Bore: {size.source}. Wall: {wall_source}"))


def _relative_roughness(place: Place) -> Sequence[At]:
    pipe = place.resolved.element
    assert isinstance(pipe, RoughPipe)
    return place.at(pipe.roughness / pipe.diameter)


def _over_the_known(place: Place) -> Sequence[At]:
    match place.resolved.part:
        case Strainer(rated_flow=known):
            field = "rated_flow"
        case IdlePump(flow=known):
            field = "flow"
        case _:
            raise AssertionError("no other part has a known flow")
    ratio = place.flow / known.base
    kind = "a drop is reckoned far from the flow at which it is known"
    return (At(f"{place.pointer}/{field}", ratio, partial(_far_from_known, known, place), kind),)


def _far_from_known(known: Flow, place: Place) -> str:
    side = "more than three times as much" if place.flow > known.base else "less than a third of it"
    text = f"the drop is known at {known} and reckoned at {place.units.flow(place.flow)}, {side}"
    return f"{text}: so far off it may be quite wrong"


def _over_the_lifting(place: Place) -> Sequence[At]:
    part = place.resolved.part
    constant = valve(part.valve).full_lift_constant if isinstance(part, Valve) else None
    assert constant is not None, "no other part is reckoned as a check valve"
    if place.velocity is None:
        return ()
    ratio = place.velocity / full_lift_velocity(constant=constant, density=place.water.density)
    return (At(place.pointer, ratio, partial(_unlifted, place), "the flow does not lift a disc fully"),)


def _unlifted(place: Place) -> str:
    units, disc = place.units, unlifted_disc(place.resolved, place.flow, place.water)
    assert disc is not None, "a disc that is lifted is no doubt"
    takes = f"which takes {units.velocity(disc.lifting_velocity)}"
    text = f"{units.velocity(disc.velocity)} does not lift the disc fully, {takes}: its loss is counted as"
    return f"{text} {units.length(disc.counted)}, but as much as {units.length(disc.possible)} is possible"


_INPUTS: Mapping[str, Callable[[Place], Sequence[At]]] = {
    "diameter": lambda place: place.at(place.resolved.diameter),
    "velocity": lambda place: place.at(place.velocity),
    "reynolds": lambda place: place.at(place.reynolds),
    "relative_roughness": _relative_roughness,
    "water_temperature": lambda place: place.at(place.water.temperature),
    "flow_over_the_known": _over_the_known,
    "velocity_over_the_lifting": _over_the_lifting,
}
