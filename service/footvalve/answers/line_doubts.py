"""What is doubtful about a line besides the ranges of its methods: changes of bore that nothing stands for, and fast
water."""

from collections.abc import Iterator, Sequence

from msgspec import UNSET

from footvalve.answers.alike_doubts import Doubt
from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.contract.line import Fitting, Pipe
from footvalve.physics.pipe_flow import mean_velocity

UNREMARKABLE_STEP = 0.05
"""A change of bore by less than this fraction costs less than a hundredth of the velocity head."""

FASTEST_IN_SUCTION = 1.5
FASTEST_IN_PIPES = 3.0
"""m/s (about 5 and 10 ft/s) that the trade keeps below in suction lines and in pipes. Common practice, no source."""


def line_doubts(parts: Sequence[ResolvedPart], flow: float, units: UnitSystem, *, fastest: float) -> Iterator[Doubt]:
    """The doubts about a line at a flow in m^3/s where water is not to run faster than so many m/s."""
    yield from _unlisted_steps(parts, units)
    yield from _fast_water(parts, flow, units, fastest)


def _fast_water(parts: Sequence[ResolvedPart], flow: float, units: UnitSystem, fastest: float) -> Iterator[Doubt]:
    for index, part in enumerate(parts):
        if not isinstance(part.part, Pipe) or part.diameter is None:
            continue
        velocity = mean_velocity(flow=flow, diameter=part.diameter)
        if velocity > fastest:
            usual = f"as a rule such a line is kept below {units.velocity(fastest)}, and a larger bore takes less head"
            warning = Warning(f"/line/{index}", f"{units.velocity(velocity)} is fast: {usual}")
            yield Doubt("the water runs fast", warning)


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
