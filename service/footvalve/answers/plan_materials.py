"""What a plan is made of, piece by piece, whether it is there already or is to be bought."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from msgspec import UNSET

from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.plan_duty import PumpDuty
from footvalve.answers.plan_power_materials import power_materials
from footvalve.answers.plan_state import PlanState
from footvalve.answers.plan_steps import PlanSteps
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.line import Fitting, LinePart, Pipe, Strainer, Valve
from footvalve.contract.site_plan import Material
from footvalve.tables.fittings import fitting
from footvalve.tables.pipes import pipe_product
from footvalve.tables.valves import valve

OPEN_ENDS = frozenset({"entrance-inward-projecting", "entrance-sharp", "entrance-rounded", "exit"})
"""Fittings that stand for the end of a pipe, and are no piece of their own."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """What pieces are added up by."""

    item: str
    size: str
    purpose: str


def plan_materials(state: PlanState, duty: PumpDuty, steps: PlanSteps) -> list[Material]:
    """All pieces, in the water's order, then those of the battery."""
    return list(
        chain(
            _line(state.suction, "suction line", state.units),
            _pump(state, duty),
            _line(state.delivery, "delivery line", state.units),
            _tank_side(state),
            power_materials(state, steps.battery),
        )
    )


def _line(parts: Sequence[ResolvedPart], purpose: str, units: UnitSystem) -> Iterator[Material]:
    """Lengths of pipe by product and size, and counts of everything else."""
    lengths: dict[_Piece, float] = {}
    counts: dict[_Piece, int] = {}
    for resolved, pipe in zip(parts, _pipes_beside(parts), strict=True):
        part = resolved.part
        size = _pipe_size(pipe, units) if pipe else ""
        if isinstance(part, Pipe):
            piece = _Piece(_pipe_item(part), size, purpose)
            lengths[piece] = lengths.get(piece, 0.0) + part.length.base
        elif item := _item(part):
            piece = _Piece(item, _rating(part, units) or size, purpose)
            counts[piece] = counts.get(piece, 0) + (part.count if isinstance(part, Fitting) else 1)
    for piece, metres in lengths.items():
        yield Material(item=piece.item, size=piece.size, length=units.length(metres), purpose=piece.purpose)
    for piece, count in counts.items():
        yield Material(item=piece.item, size=piece.size or UNSET, count=count, purpose=piece.purpose)


def _pipes_beside(parts: Sequence[ResolvedPart]) -> list[Pipe | None]:
    """For each part the pipe that it is or follows, or at the line's start comes before."""
    pipes = [resolved.part for resolved in parts if isinstance(resolved.part, Pipe)]
    beside: Pipe | None = pipes[0] if pipes else None
    found = []
    for resolved in parts:
        beside = resolved.part if isinstance(resolved.part, Pipe) else beside
        found.append(beside)
    return found


def _pipe_item(pipe: Pipe) -> str:
    return "pipe" if pipe.size is UNSET else pipe_product(pipe.size.product).title


def _pipe_size(pipe: Pipe, units: UnitSystem) -> str:
    if pipe.size is not UNSET:
        return f"{pipe.size.nominal} in"
    assert pipe.bore is not UNSET
    return f"bore {units.bore(pipe.bore.diameter.base)}"


def _item(part: LinePart) -> str:
    """What a part is bought as; nothing for what is no piece, or is a pump that stays where it is."""
    match part:
        case Fitting():
            return "" if part.fitting in OPEN_ENDS else fitting(part.fitting).title
        case Valve():
            return valve(part.valve).title
        case Strainer():
            return "Strainer or filter"
    return ""


def _rating(part: LinePart, units: UnitSystem) -> str:
    if not isinstance(part, Strainer):
        return ""
    drop, flow = units.pressure(part.clean_drop.base), units.flow(part.rated_flow.base)
    return f"no more than {drop} at {flow} when clean"


def _pump(state: PlanState, duty: PumpDuty) -> Iterator[Material]:
    pump, units = state.request.pump, state.units
    told = [str(pump.__struct_config__.tag)]
    if duty.filling is not None:
        end = duty.filling.cut_out
        told.append(f"{units.flow(end.flow)} at a rise of {units.pressure(end.rise)}")
    if pump.voltage is not UNSET:
        told.append(str(pump.voltage))
    yield Material(item="Pump", size=", ".join(told), count=1, purpose="drawing from the well into the tank")
    yield Material(item="Cut-off against dry running", count=1, purpose="pump")


def _tank_side(state: PlanState) -> Iterator[Material]:
    told = state.units.told
    cut_in, cut_out = told(state.request.switch.cut_in), told(state.request.switch.cut_out)
    for tank in state.request.tanks or ():
        yield Material(
            item="Pressure tank", size=str(told(tank.volume)), count=tank.count, purpose="storage of pressure"
        )
    span = f"cut-in {cut_in}, cut-out {cut_out}"
    yield Material(item="Pressure switch", size=span, count=1, purpose="starting and stopping the pump")
    yield Material(item="Pressure gauge", size=f"above {cut_out}", count=1, purpose="setting the switch")
    opens = f"opens above {cut_out} and below the lowest rating on the line"
    yield Material(item="Relief valve", size=opens, count=1, purpose="tank")
