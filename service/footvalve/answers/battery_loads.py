"""The loads of a request as a day's course of current, and which of them is the pump."""

from collections.abc import Iterator, Sequence

from msgspec import UNSET, Struct

from footvalve.answers.unit_system import current
from footvalve.contract.answer import Warning
from footvalve.contract.battery_runtime import BatteryRuntimeRequest, ElectricLoad
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import figure
from footvalve.physics.loads import (
    HOURS_A_DAY,
    Load,
    Step,
    average_current,
    charge_of_day,
    greatest_current,
    layered_day,
)

PUMP_NAME = "pump"
AGREEING_HOURS = 0.05
"""Stated and reckoned pump hours may differ by this fraction before it is remarked (own choice)."""
LAST_DIGITS = 1e-9
"""Part that conversion from another unit may take off a current."""


class DailyLoads(Struct, frozen=True, eq=False):
    """The loads in A and h a day, the day that they make, and the place of the pump among them; of the day the charge
    in Ah, the average current in A, and the greatest, with each load at the most that it draws."""

    loads: tuple[Load, ...]
    day: tuple[Step, ...]
    pump: int | None
    charge: float
    average_current: float
    greatest_current: float

    @property
    def pump_hours(self) -> float:
        """How long the pump runs in a day, in h; 0 where none is known."""
        return 0.0 if self.pump is None else self.loads[self.pump].hours

    @property
    def steady_current(self) -> float:
        """The greatest current in A for as long as the loads run together, each at its mean."""
        return greatest_current(self.day)

    @property
    def leading(self) -> int:
        """The place of the load that has most to do with that current."""
        running = [load.current if load.hours > 0 else 0.0 for load in self.loads]
        return running.index(max(running))

    @property
    def standing_current(self) -> float:
        """The current in A of all loads that run day and night."""
        return sum(load.current for load in self.loads if load.hours == HOURS_A_DAY)


def resolve_loads(request: BatteryRuntimeRequest, voltage: float) -> DailyLoads:
    """The loads on a bank of this voltage in V. Raises Refused with every fault."""
    faults: list[Fault] = []
    pump = _pump_index(request, faults)
    pump_hours = _hours_for_water(request, faults)
    loads = tuple(
        Load(
            _current(load, voltage, f"/loads/{index}", faults),
            _hours(load, pump_hours if index == pump else None, f"/loads/{index}", faults),
        )
        for index, load in enumerate(request.loads)
    )
    if not faults and not any(load.current * load.hours for load in loads):
        faults.append(Fault("/loads", "draw nothing in a day, so the battery has no runtime"))
    if faults:
        raise Refused(*faults)
    day = layered_day(loads)
    most = sum(map(_most, request.loads, loads))
    return DailyLoads(loads, day, pump, charge_of_day(day), average_current(day), most)


def _pump_index(request: BatteryRuntimeRequest, faults: list[Fault]) -> int | None:
    if request.pump_flow is UNSET and request.daily_water is UNSET:
        return None
    marked = [index for index, load in enumerate(request.loads) if load.draws_water]
    if len(marked) > 1:
        faults.append(Fault(f"/loads/{marked[1]}/draws_water", "`pump_flow` is that of one load only"))
        return None
    found = marked or _likely_pumps(request.loads)
    if len(found) != 1:
        faults.append(Fault("/loads", "mark the load that `pump_flow` belongs to with `draws_water`"))
        return None
    return found[0]


def _likely_pumps(loads: Sequence[ElectricLoad]) -> list[int]:
    if len(loads) == 1:
        return [0]
    return [
        index
        for index, load in enumerate(loads)
        if load.name is not UNSET and load.name.strip().casefold() == PUMP_NAME
    ]


def _hours_for_water(request: BatteryRuntimeRequest, faults: list[Fault]) -> float | None:
    """How long the pump must run for a day's water, in h, or None where the request does not tell of any."""
    if request.daily_water is UNSET:
        return None
    if request.pump_flow is UNSET:
        faults.append(Fault("/daily_water", "needs `pump_flow` beside it"))
        return 0.0
    hours = request.daily_water.base / request.pump_flow.base / 3600
    if hours > HOURS_A_DAY:
        faults.append(Fault("/daily_water", f"would take the pump {figure(hours)} h a day"))
    return hours


def _current(load: ElectricLoad, voltage: float, pointer: str, faults: list[Fault]) -> float:
    if load.current is not UNSET and load.power is UNSET:
        return load.current.base
    if load.power is not UNSET and load.current is UNSET:
        return load.power.base / voltage
    faults.append(Fault(pointer, "takes `current` or `power`, one of the two"))
    return 0.0


def _most(asked: ElectricLoad, load: Load) -> float:
    """The most in A that a load draws, which is no less than its mean; nothing where it does not run."""
    if load.hours <= 0:
        return 0.0
    return load.current if asked.greatest_current is UNSET else max(load.current, asked.greatest_current.base)


def _hours(load: ElectricLoad, pump_hours: float | None, pointer: str, faults: list[Fault]) -> float:
    if load.hours_per_day is not UNSET and load.duty_fraction is not UNSET:
        faults.append(Fault(pointer, "takes `hours_per_day` or `duty_fraction`, one of the two"))
    stated = _stated_hours(load)
    if stated is not None:
        return stated
    if pump_hours is None:
        faults.append(Fault(pointer, "needs `hours_per_day` or `duty_fraction`; the pump may take `daily_water`"))
        return 0.0
    return pump_hours


def _stated_hours(load: ElectricLoad) -> float | None:
    if load.hours_per_day is not UNSET:
        return load.hours_per_day
    return None if load.duty_fraction is UNSET else load.duty_fraction * HOURS_A_DAY


def load_doubts(request: BatteryRuntimeRequest, loads: DailyLoads) -> list[Warning]:
    """Where a load's two currents disagree, or the pump's stated hours do not bring the day's water."""
    return [*_current_doubts(request, loads), *_hours_doubts(request, loads)]


def _current_doubts(request: BatteryRuntimeRequest, loads: DailyLoads) -> Iterator[Warning]:
    for index, (asked, load) in enumerate(zip(request.loads, loads.loads, strict=True)):
        if asked.greatest_current is not UNSET and asked.greatest_current.base < load.current * (1 - LAST_DIGITS):
            text = f"is less than the {current(load.current)} of its mean, which were used"
            yield Warning(f"/loads/{index}/greatest_current", text)


def _hours_doubts(request: BatteryRuntimeRequest, loads: DailyLoads) -> list[Warning]:
    if loads.pump is None or request.daily_water is UNSET or request.pump_flow is UNSET:
        return []
    stated = _stated_hours(request.loads[loads.pump])
    needed = request.daily_water.base / request.pump_flow.base / 3600
    if stated is None or abs(stated - needed) <= AGREEING_HOURS * max(stated, needed):
        return []
    field = "duty_fraction" if request.loads[loads.pump].hours_per_day is UNSET else "hours_per_day"
    text = f"the pump is said to run {figure(stated)} h a day, but the daily water takes {figure(needed)} h at its flow"
    return [Warning(f"/loads/{loads.pump}/{field}", f"{text}; the stated hours were used")]
