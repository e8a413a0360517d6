"""The battery's state of charge over the days of an outage, and the floor at which the loads are cut off."""

from typing import Final

from footvalve.contract.battery_runtime import BatteryRuntimeAnswer
from footvalve.drawings.figures import figure, percent
from footvalve.drawings.scales import Scale, ticks
from footvalve.drawings.svg import Drawing, Pen

_WIDTH: Final = 352.0
_HEIGHT: Final = 152.0
_LEFT: Final = 48.0
_RIGHT: Final = 336.0
_SHARE: Final = Scale(0.0, 1.0, 113.0, 46.0)

_HOURS_A_DAY: Final = 24

_GRID: Final = Pen(0.5, shade="#bbb")
_AXIS: Final = Pen(1.0)
_FLOOR: Final = Pen(1.2, "6 4")
_CHARGE: Final = Pen(2.2)


def state_of_charge(answer: BatteryRuntimeAnswer) -> str:
    """The course of the charge as SVG."""
    days = answer.state_of_charge[-1].hour / _HOURS_A_DAY
    title = f"Battery: charge over {figure(days)} {'day' if days == 1 else 'days'} of outage"
    sentence = _told(answer)
    drawing = Drawing("state-of-charge", (_WIDTH, _HEIGHT), title=title, description=f"{title}: {sentence}.")
    drawing.text((4.0, 15.0), title, bold=True)
    drawing.text((4.0, 32.0), sentence)
    day = Scale(0.0, days, _LEFT, _RIGHT)
    _draw_axes(drawing, day)
    floor = answer.bank.floor_fraction
    corners = [(_LEFT, _SHARE(floor)), (_RIGHT, _SHARE(floor)), (_RIGHT, _SHARE(0.0)), (_LEFT, _SHARE(0.0))]
    drawing.area(corners, "hatching", role="below-floor")
    drawing.line(corners[:2], _FLOOR, role="floor")
    course = [(day(state.hour / _HOURS_A_DAY), _SHARE(state.fraction)) for state in answer.state_of_charge]
    drawing.line(course, _CHARGE, role="charge")
    return drawing.markup


def _told(answer: BatteryRuntimeAnswer) -> str:
    floor = answer.bank.floor_fraction
    cut = next((state.hour for state in answer.state_of_charge if state.fraction <= floor), None)
    if cut is not None:
        return f"down to the floor of {percent(floor)} after {cut} h"
    lowest = min(state.fraction for state in answer.state_of_charge)
    return f"lowest {percent(lowest)}, above the floor of {percent(floor)}"


def _draw_axes(drawing: Drawing, day: Scale) -> None:
    for share in (0.0, 0.5, 1.0):
        y = _SHARE(share)
        drawing.line([(_LEFT, y), (_RIGHT, y)], _GRID)
        drawing.text((_LEFT - 5.0, y + 4.0), percent(share), anchor="end")
    for tick in ticks(day.low, day.high, min(10, max(1, int(day.high)))):
        x = day(tick)
        drawing.line([(x, _SHARE(1.0)), (x, _SHARE(0.0) + 5.0)], _GRID)
        drawing.text((x, _SHARE(0.0) + 19.0), figure(tick), anchor="middle")
    drawing.line([(_LEFT, _SHARE(1.0)), (_LEFT, _SHARE(0.0)), (_RIGHT, _SHARE(0.0))], _AXIS)
    drawing.text((_RIGHT, _SHARE(0.0) + 34.0), "days from the outage's beginning", anchor="end")
