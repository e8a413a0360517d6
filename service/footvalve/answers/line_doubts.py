"""What is doubtful about a line: changes of bore that nothing stands for, fast water, and figures and methods used
beyond what they are known for."""

from collections.abc import Iterator, Sequence
from itertools import chain

from msgspec import UNSET

from footvalve.answers.alike_doubts import Doubt, few_of_each
from footvalve.answers.basis import doubts
from footvalve.answers.line_discs import unlifted_disc
from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.contract.line import Fitting, IdlePump, Pipe, Strainer
from footvalve.physics.fitting_loss import CRANE
from footvalve.physics.hazen_williams import HAZEN_WILLIAMS
from footvalve.physics.line_element import CoefficientPipe, LocalResistance, RoughPipe
from footvalve.physics.method import Method
from footvalve.physics.pipe_flow import DARCY_WEISBACH, LAMINAR_LIMIT, mean_velocity, reynolds_number
from footvalve.physics.water import Water

UNREMARKABLE_STEP = 0.05
"""A change of bore by less than this fraction costs less than a hundredth of the velocity head."""

FASTEST_IN_SUCTION = 1.5
FASTEST_IN_PIPES = 3.0
"""m/s (about 5 and 10 ft/s) that the trade keeps below in suction lines and in pipes. Common practice, no source."""

FARTHEST = 3.0
"""Times by which a flow may differ from that at which a drop is known. Common practice, no source."""


def line_doubts(
    parts: Sequence[ResolvedPart], flow: float, water: Water, units: UnitSystem, *, fastest: float
) -> list[Warning]:
    """The doubts about a line at a flow in m^3/s where water is not to run faster than so many m/s: those about
    changes of bore, then all others in the order of the parts."""
    by_part = (_part_doubts(index, part, flow, water, units, fastest) for index, part in enumerate(parts))
    return few_of_each(chain(_unlisted_steps(parts, units), *by_part), "/line")


def _part_doubts(
    index: int, part: ResolvedPart, flow: float, water: Water, units: UnitSystem, fastest: float
) -> Iterator[Doubt]:
    pointer = f"/line/{index}"
    yield from _far_from_known(part, flow, units, pointer)
    if part.diameter is not None:
        velocity = mean_velocity(flow=flow, diameter=part.diameter)
        yield from _beyond_range(part, part.diameter, velocity, water, units, pointer)
        yield from _unlifted(part, flow, water, units, pointer)
        if isinstance(part.part, Pipe) and velocity > fastest:
            usual = f"as a rule such a line is kept below {units.velocity(fastest)}, and a larger bore takes less head"
            yield Doubt("the water runs fast", Warning(pointer, f"{units.velocity(velocity)} is fast: {usual}"))


def _beyond_range(
    part: ResolvedPart, diameter: float, velocity: float, water: Water, units: UnitSystem, pointer: str
) -> Iterator[Doubt]:
    reynolds = reynolds_number(velocity=velocity, diameter=diameter, kinematic_viscosity=water.kinematic_viscosity)
    match part.element:
        case RoughPipe() if reynolds >= LAMINAR_LIMIT:
            yield from _range_doubts(DARCY_WEISBACH, pointer, units, reynolds=reynolds)
        case CoefficientPipe():
            yield from _range_doubts(
                HAZEN_WILLIAMS,
                pointer,
                units,
                diameter=diameter,
                velocity=velocity,
                water_temperature=water.temperature,
            )
        case LocalResistance():
            yield from _range_doubts(CRANE, pointer, units, reynolds=reynolds)


def _range_doubts(method: Method, pointer: str, units: UnitSystem, **inputs: float) -> Iterator[Doubt]:
    for name, value in inputs.items():
        kind = f"{name.replace('_', ' ')} lies outside the range of {method.name}"
        for warning in doubts(method, pointer, units, **{name: value}):
            yield Doubt(kind, warning)


def _unlifted(part: ResolvedPart, flow: float, water: Water, units: UnitSystem, pointer: str) -> Iterator[Doubt]:
    disc = unlifted_disc(part, flow, water)
    if disc is None:
        return
    takes = f"which takes {units.velocity(disc.lifting_velocity)}"
    text = f"{units.velocity(disc.velocity)} does not lift the disc fully, {takes}: its loss is counted as"
    losses = f"{units.length(disc.counted)}, but as much as {units.length(disc.possible)} is possible"
    yield Doubt("the flow does not lift a disc fully", Warning(pointer, f"{text} {losses}"))


def _far_from_known(resolved: ResolvedPart, flow: float, units: UnitSystem, pointer: str) -> Iterator[Doubt]:
    match resolved.part:
        case Strainer(rated_flow=known):
            field = "rated_flow"
        case IdlePump(flow=known):
            field = "flow"
        case _:
            return
    ratio = flow / known.base
    if max(ratio, 1.0 / ratio) <= FARTHEST * (1.0 + 1e-9):
        return
    side = "more than three times as much" if ratio > 1.0 else "less than a third of it"
    text = f"the drop is known at {known} and reckoned at {units.flow(flow)}, {side}: so far off it may be quite wrong"
    yield Doubt("a drop is reckoned far from the flow at which it is known", Warning(f"{pointer}/{field}", text))


def _unlisted_steps(parts: Sequence[ResolvedPart], units: UnitSystem) -> Iterator[Doubt]:
    """A doubt at each pipe whose bore differs from the pipe before with nothing between them to stand for it."""
    before: float | None = None
    answered = False
    for index, resolved in enumerate(parts):
        bore = resolved.diameter
        if isinstance(resolved.part, Pipe) and bore is not None:
            if before is not None and not answered and abs(bore - before) > UNREMARKABLE_STEP * before:
                text = f"the bore goes from {units.bore(before)} to {units.bore(bore)} here, and no part stands for it"
                warning = Warning(f"/line/{index}", f"{text}: the loss of the change is not counted")
                yield Doubt("no part stands for a change of bore", warning)
            before, answered = bore, False
        elif _stands_for_a_step(resolved):
            answered = True


def _stands_for_a_step(resolved: ResolvedPart) -> bool:
    part = resolved.part
    changes_bore = isinstance(part, Fitting) and part.fitting in ("sudden-contraction", "sudden-enlargement")
    return changes_bore or part.bore is not UNSET
