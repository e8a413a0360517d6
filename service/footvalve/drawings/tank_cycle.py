"""The tank's cycle: the water that the pump brings and the house takes between cut-in and cut-out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Final

from msgspec import UNSET

from footvalve.contract.quantities import Pressure
from footvalve.contract.tank_cycle import Switch, TankCycleAnswer
from footvalve.drawings.clipping import Point
from footvalve.drawings.figures import figure, told, told_alone
from footvalve.drawings.scales import Scale, ticks
from footvalve.drawings.svg import Drawing, Pen
from footvalve.quantity import DurationUnit, from_base

_WIDTH: Final = 352.0
_HEIGHT: Final = 152.0
_LEFT: Final = 120.0
_RIGHT: Final = 336.0
_LEVEL: Final = Scale(0.0, 1.0, 90.0, 46.0)
"""From cut-in, where the share of the drawdown in the tank is nil, to cut-out."""

_BAR_TOP: Final = 100.0
_BAR_BOTTOM: Final = 113.0

_CYCLES: Final = 2
_MOST_MINUTES: Final = 240.0

_AXIS: Final = Pen(1.0)
_PRESSURE: Final = Pen(0.8, "2 3")
_WATER: Final = Pen(2.2)


@dataclass(frozen=True, slots=True)
class _Phase:
    """A time with the pump on or off, and the share of the drawdown in the tank at its end."""

    seconds: float
    pump_runs: bool
    water: float


def tank_cycle(answer: TankCycleAnswer, switch: Switch) -> str:
    """The cycle as SVG, for the answer and the switch that it is about."""
    title = f"Tank: {told(answer.drawdown)} between cut-in and cut-out"
    sentence = _told(answer)
    drawing = Drawing("tank-cycle", (_WIDTH, _HEIGHT), title=title, description=f"{title}. {sentence}.")
    drawing.text((4.0, 15.0), title, bold=True)
    drawing.text((4.0, 32.0), sentence)
    _draw_pressures(drawing, answer, switch)
    phases = list(_phases(answer))
    if any(phase.seconds for phase in phases):
        _draw_course(drawing, phases)
    else:
        drawing.area(_bar(_LEFT, _RIGHT), "black", _AXIS, role="pump-runs")
    drawing.text((_LEFT - 6.0, _BAR_BOTTOM - 2.0), "pump runs", anchor="end")
    return drawing.markup


def _phases(answer: TankCycleAnswer) -> Iterator[_Phase]:
    """What happens from cut-in on; nothing where the pump runs on, as the time that it takes is not known."""
    if answer.outcome == "cycles" and answer.run_time is not UNSET and answer.rest_time is not UNSET:
        for _ in range(_CYCLES):
            yield _Phase(answer.run_time.base, True, 1.0)
            yield _Phase(answer.rest_time.base, False, 0.0)
    elif answer.outcome == "stays-off" and answer.shortest_run is not UNSET:
        yield _Phase(answer.shortest_run.base, True, 1.0)
        yield _Phase(answer.shortest_run.base, False, 1.0)


def _told(answer: TankCycleAnswer) -> str:
    drawn = f"at {told_alone(answer.demand)} drawn"
    if answer.run_time is not UNSET and answer.rest_time is not UNSET:
        return f"{drawn} it runs {told_alone(answer.run_time)}, rests {told_alone(answer.rest_time)}"
    if answer.outcome == "stays-off":
        return "with nothing drawn it stays off once it is full"
    if answer.settling_pressure is not UNSET:
        return f"{drawn} it runs on, at {told_alone(answer.settling_pressure)}"
    return f"{drawn} it runs on, and the pressure falls"


def _draw_pressures(drawing: Drawing, answer: TankCycleAnswer, switch: Switch) -> None:
    for share, name, pressure in ((0.0, "cut-in", switch.cut_in), (1.0, "cut-out", switch.cut_out)):
        y = _LEVEL(share)
        drawing.line([(_LEFT, y), (_RIGHT, y)], _PRESSURE)
        in_its_unit = Pressure.from_base(pressure.base, answer.precharge_advice.precharge.unit)
        drawing.text((_LEFT - 6.0, y + 4.0), f"{name} {told(in_its_unit)}", anchor="end")
    drawing.line([(_LEFT, _LEVEL(1.0)), (_LEFT, _BAR_BOTTOM)], _AXIS)
    if answer.outcome == "runs-on" and answer.settling_pressure is not UNSET:
        low, high = switch.cut_in.base, switch.cut_out.base
        y = _LEVEL((answer.settling_pressure.base - low) / (high - low))
        drawing.line([(_LEFT, y), (_RIGHT, y)], _WATER, role="settling")


def _draw_course(drawing: Drawing, phases: Sequence[_Phase]) -> None:
    """The water in the tank, straight from phase to phase, and when the pump runs."""
    ends = list(accumulate((phase.seconds for phase in phases), initial=0.0))
    unit: DurationUnit = "min" if from_base(ends[-1], "min") <= _MOST_MINUTES else "h"
    time = Scale(0.0, from_base(ends[-1], unit), _LEFT, _RIGHT)
    places = [time(from_base(end, unit)) for end in ends]
    water = [0.0, *(phase.water for phase in phases)]
    drawing.line([(x, _LEVEL(share)) for x, share in zip(places, water, strict=True)], _WATER, role="water")
    for phase, start, end in zip(phases, places, places[1:], strict=False):
        drawing.area(_bar(start, end), "black" if phase.pump_runs else "white", _AXIS, role=_role(phase))
    for tick in ticks(time.low, time.high, 6):
        x = time(tick)
        drawing.line([(x, _BAR_BOTTOM), (x, _BAR_BOTTOM + 5.0)], _AXIS)
        drawing.text((x, _BAR_BOTTOM + 19.0), figure(tick), anchor="middle")
    drawing.text((_RIGHT, _BAR_BOTTOM + 34.0), f"time, {unit}", anchor="end")


def _role(phase: _Phase) -> str:
    return "pump-runs" if phase.pump_runs else "pump-rests"


def _bar(left: float, right: float) -> list[Point]:
    return [(left, _BAR_TOP), (right, _BAR_TOP), (right, _BAR_BOTTOM), (left, _BAR_BOTTOM)]
