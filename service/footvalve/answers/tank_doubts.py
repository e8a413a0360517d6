"""What is doubtful about tanks, pump and demand, and what they can do to people and machines."""

from collections.abc import Iterator, Sequence

from msgspec import UNSET, UnsetType

from footvalve.answers.basis import At
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.contract.quantities import figure
from footvalve.contract.tank_cycle import Cycle, TankCycleRequest, WorstCase
from footvalve.physics.gas_tank import GAS_LAW

MOST_STARTS = 15.0
"""Starts an hour that motors up to 3/4 hp should not exceed. Source: Water Systems Council, performance standard for
pre-pressurised storage tanks (PST), read in an excerpt."""
MOST_STARTS_OF_LARGER_MOTORS = 7.5
"""The same for motors above 3/4 hp, from the same place."""


def tank_doubts(
    request: TankCycleRequest, cycles: Sequence[Cycle], worst: WorstCase | UnsetType, units: UnitSystem
) -> list[Warning]:
    """Every doubt but those of ranges: precharges above cut-in, pumps that run on, too many starts."""
    return [
        *_precharges(request, units),
        *_running_on(request, cycles),
        *_starts(request, cycles, worst),
    ]


def tank_cautions(cycles: Sequence[Cycle], worst: WorstCase | UnsetType) -> Iterator[str]:
    """The codes of the cautions that these tanks and cycles call for."""
    yield from ("tank-relief-valve", "tank-rating", "tank-precharge-empty")
    most = _most_starts(cycles, worst)
    if most > MOST_STARTS:
        yield "short-cycling"
    if most > MOST_STARTS_OF_LARGER_MOTORS:
        yield "motor-starts"
    if any(cycle.outcome == "runs-on" for cycle in cycles):
        yield "pump-runs-on"


def _most_starts(cycles: Sequence[Cycle], worst: WorstCase | UnsetType) -> float:
    found = [cycle.starts_per_hour for cycle in cycles]
    return max(found) if worst is UNSET else max(worst.starts_per_hour, *found)


def gas_inputs(cut_out_absolute: float, gas_exponent: float, units: UnitSystem) -> dict[str, At]:
    """What went into the gas law, with cut-out in Pa."""

    def too_dense() -> str:
        shown = units.pressure(GAS_LAW.range_of("cut_out_absolute").high)
        text = f"at {units.pressure(cut_out_absolute)} absolute air is no longer nearly an ideal gas"
        return f"{text}: the drawdown is shown to hold up to {shown}"

    return {
        "cut_out_absolute": At("/switch/cut_out", cut_out_absolute, too_dense),
        "gas_exponent": At("/gas_exponent", gas_exponent),
    }


def _precharges(request: TankCycleRequest, units: UnitSystem) -> Iterator[Warning]:
    cut_in, cut_out = request.switch.cut_in.base, request.switch.cut_out.base
    for index, tank in enumerate(request.tanks):
        pointer = f"/tanks/{index}/precharge"
        if tank.precharge.base >= cut_out:
            yield Warning(pointer, f"at or above cut-out, {units.pressure(cut_out)}: this tank takes no water")
        elif tank.precharge.base > cut_in:
            empty = f"above cut-in, {units.pressure(cut_in)}: the tank is empty before the pump starts"
            drop = f"the pressure at the taps then falls at once by {units.pressure(tank.precharge.base - cut_in)}"
            yield Warning(pointer, f"{empty}, and its drawdown counts from here; {drop}")


def _running_on(request: TankCycleRequest, cycles: Sequence[Cycle]) -> Iterator[Warning]:
    for index, cycle in enumerate(cycles):
        if cycle.outcome == "runs-on":
            yield Warning(_pointer(request, index), f"the pump never stops: {_where(cycle)}")


def _where(cycle: Cycle) -> str:
    if cycle.settling_pressure is not UNSET:
        return f"it gives {cycle.demand} at {cycle.settling_pressure}, short of cut-out, and the pressure settles there"
    return f"it gives less than the {cycle.demand} drawn, or hardly more, and the pressure does not reach cut-out"


def _starts(request: TankCycleRequest, cycles: Sequence[Cycle], worst: WorstCase | UnsetType) -> Iterator[Warning]:
    ceiling = f"more than the {MOST_STARTS:g} in use as a ceiling for motors to 3/4 hp"
    for index, cycle in enumerate(cycles):
        if cycle.starts_per_hour > MOST_STARTS:
            yield Warning(_pointer(request, index), f"{figure(cycle.starts_per_hour)} starts an hour, {ceiling}")
    if worst is not UNSET and worst.starts_per_hour > MOST_STARTS:
        at_worst = f"a demand of {worst.demand} starts the pump {figure(worst.starts_per_hour)} times an hour"
        yield Warning("/tanks", f"{at_worst}, {ceiling}")


def _pointer(request: TankCycleRequest, index: int) -> str:
    return "/demand" if request.demands is UNSET else f"/demands/{index}"
