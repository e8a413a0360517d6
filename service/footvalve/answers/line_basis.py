"""Where the numbers of a line come from, and what went into each: one step for each thing that it holds."""

from collections.abc import Callable, Mapping, Sequence
from functools import cache, partial
from operator import attrgetter

from msgspec import UNSET, Struct

from footvalve.answers.basis import At, Reckoned, StepKind, reckoned, step_kind
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


class Place(Struct, frozen=True):
    """A part of the line in its place, with the water that passes it at a flow in m^3/s, and its velocity in m/s and
    Reynolds number where the part's bore is known."""

    index: int
    resolved: ResolvedPart
    flow: float
    water: Water
    units: UnitSystem
    velocity: float | None
    reynolds: float | None

    @property
    def pointer(self) -> str:
        """Where the part stands in the request."""
        return f"/line/{self.index}"

    def input_of(self, quantity: str) -> Sequence[At]:
        """What a range of a method is asked for here, by its name, with where it comes from and how it is told; nothing
        where it is not known."""
        value = _VALUES[quantity](self)
        if value is None:
            return ()
        tell = _TOLD.get(quantity)
        return (At(self.pointer, value) if tell is None else tell(self, value),)


def place_of(index: int, part: ResolvedPart, flow: float, water: Water, units: UnitSystem) -> Place:
    """A part in its place at a flow in m^3/s."""
    bore = part.diameter
    if bore is None:
        return Place(index, part, flow, water, units, None, None)
    velocity = mean_velocity(flow=flow, diameter=bore)
    reynolds = reynolds_number(velocity=velocity, diameter=bore, kinematic_viscosity=water.kinematic_viscosity)
    return Place(index, part, flow, water, units, velocity, reynolds)


def line_places(parts: Sequence[ResolvedPart], flow: float, water: Water, units: UnitSystem) -> list[Place]:
    """Each part in its place at a flow in m^3/s."""
    return [place_of(index, part, flow, water, units) for index, part in enumerate(parts)]


def line_steps(parts: Sequence[ResolvedPart], flow: float, water: Water, units: UnitSystem) -> list[Reckoned]:
    """The steps that these parts call for at a flow in m^3/s, in the order of the line."""
    return steps_at(line_places(parts, flow, water, units))


def steps_at(places: Sequence[Place]) -> list[Reckoned]:
    """The steps that parts call for in their places, in their order."""
    return [step for place in places for step in place_steps(place)]


class LineStep(Struct, frozen=True, eq=False):
    """A kind of step that parts call for in their places, and what tells of a place each value that is held to a range
    of its method."""

    kind: StepKind
    held: Sequence[tuple[Callable[[Place], float | None], float, float]]

    def at(self, place: Place) -> Reckoned:
        """The step in a place: the inputs, with what is told of them, are asked for only if one lies outside."""
        for value_of, low, high in self.held:
            value = value_of(place)
            if value is not None and not low <= value <= high:
                return self.kind.reckoned(**{quantity: place.input_of(quantity) for quantity in self.kind.spans})
        return self.kind.inside


def _line_step(title: str, method: Method) -> LineStep:
    """The ranges of a method are asked for by name, so that none is left out."""
    kind = step_kind(title, method)
    return LineStep(kind, [(_VALUES[quantity], low, high) for quantity, (_, low, high) in kind.spans.items()])


def place_steps(place: Place) -> list[Reckoned]:
    """The steps that one part calls for."""
    step = _step_of(place).at(place)
    size_step = _size_step(place)
    return [step] if size_step is None else [size_step, step]


def _step_of(place: Place) -> LineStep:
    match place.resolved.part:
        case Pipe():
            return _friction(place)
        case Fitting(fitting=name):
            return _of_fitting(name)
        case Valve(valve=name):
            return _of_valve(name)
        case rated:
            return _RATED[type(rated)]


def _friction(place: Place) -> LineStep:
    if isinstance(place.resolved.element, CoefficientPipe):
        return _BY_COEFFICIENT
    reynolds = place.reynolds
    return _LAMINAR if reynolds is not None and reynolds < LAMINAR_LIMIT else _TURBULENT


@cache
def _of_fitting(name: str) -> LineStep:
    row = fitting(name)
    if row.kind == "bore-change":
        return _line_step(row.title, BORE_CHANGE)
    by_bore = row.kind == "equivalent-length-ratio"
    method = CRANE if by_bore else _MEASURED_FITTINGS.get(name, FIXED_COEFFICIENT)
    return _line_step(row.title, _as_in_table(method, row.source, row.note))


_MEASURED_FITTINGS = {"elbow-90-push-to-connect": PUSH_TO_CONNECT}


@cache
def _of_valve(name: str) -> LineStep:
    row = valve(name)
    method = CRANE if row.full_lift_constant is None else CHECK_VALVE
    return _line_step(row.title, _as_in_table(method, row.source, row.note))


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


def _relative_roughness(place: Place) -> float:
    pipe = place.resolved.element
    assert isinstance(pipe, RoughPipe)
    return pipe.roughness / pipe.diameter


def _known_flow(place: Place) -> tuple[Flow, str]:
    """The flow at which a part's drop is known, and its field."""
    match place.resolved.part:
        case Strainer(rated_flow=known):
            return known, "rated_flow"
        case IdlePump(flow=known):
            return known, "flow"
    raise AssertionError("no other part has a known flow")


def _over_the_known(place: Place) -> float:
    return place.flow / _known_flow(place)[0].base


def _far_from_known(place: Place, ratio: float) -> At:
    known, field = _known_flow(place)

    def told() -> str:
        side = "more than three times as much" if place.flow > known.base else "less than a third of it"
        text = f"the drop is known at {known} and reckoned at {place.units.flow(place.flow)}, {side}"
        return f"{text}: so far off it may be quite wrong"

    return At(f"{place.pointer}/{field}", ratio, told, "a drop is reckoned far from the flow at which it is known")


def _over_the_lifting(place: Place) -> float | None:
    part = place.resolved.part
    constant = valve(part.valve).full_lift_constant if isinstance(part, Valve) else None
    assert constant is not None, "no other part is reckoned as a check valve"
    if place.velocity is None:
        return None
    return place.velocity / full_lift_velocity(constant=constant, density=place.water.density)


def _unlifted(place: Place, ratio: float) -> At:
    return At(place.pointer, ratio, partial(_told_unlifted, place), "the flow does not lift a disc fully")


def _told_unlifted(place: Place) -> str:
    units, disc = place.units, unlifted_disc(place.resolved, place.flow, place.water)
    assert disc is not None, "a disc that is lifted is no doubt"
    takes = f"which takes {units.velocity(disc.lifting_velocity)}"
    text = f"{units.velocity(disc.velocity)} does not lift the disc fully, {takes}: its loss is counted as"
    return f"{text} {units.length(disc.counted)}, but as much as {units.length(disc.possible)} is possible"


_VALUES: Mapping[str, Callable[[Place], float | None]] = {
    "diameter": attrgetter("resolved.diameter"),
    "velocity": attrgetter("velocity"),
    "reynolds": attrgetter("reynolds"),
    "relative_roughness": _relative_roughness,
    "water_temperature": attrgetter("water.temperature"),
    "flow_over_the_known": _over_the_known,
    "velocity_over_the_lifting": _over_the_lifting,
}

_TOLD: Mapping[str, Callable[[Place, float], At]] = {
    "flow_over_the_known": _far_from_known,
    "velocity_over_the_lifting": _unlifted,
}
"""Where more is to be said of an input outside its range than the range itself."""

_TURBULENT, _LAMINAR, _BY_COEFFICIENT = (
    _line_step("Friction in the pipes", method) for method in (DARCY_WEISBACH, LAMINAR_FRICTION, HAZEN_WILLIAMS)
)

_RATED: Mapping[type[LinePart], LineStep] = {
    Strainer: _line_step("Drop in strainers and filters", STRAINER_LAW),
    IdlePump: _line_step("Drop in the idle pump", SQUARE_LAW),
    FlowResistance: _line_step("Drop by flow coefficient", FLOW_COEFFICIENT),
}
