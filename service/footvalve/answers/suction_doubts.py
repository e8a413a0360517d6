"""What a suction line should have and does not list: a warning, since only what is listed costs head."""

from collections.abc import Sequence

from msgspec import UNSET

from footvalve.answers.alike_doubts import Doubt, few_of_each
from footvalve.answers.line_elements import ResolvedPart
from footvalve.answers.suction_state import SuctionState
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.answer import Warning
from footvalve.contract.line import Fitting, LinePart, Pipe, Strainer, Valve
from footvalve.tables.valves import valve

TURNS = ("elbow", "tee-branch", "pitless")
"""How the names of fittings begin in which the water turns."""

_UNCHECKED = {
    False: "the line lists no check valve or foot valve: without one it empties at each stop, and has to be filled "
    "again",
    True: "the line lists neither a check valve nor a foot valve: without one before or behind the pump the house's "
    "water runs back at each stop",
}


def missing_parts(parts: Sequence[ResolvedPart], pointer: str = "/line", *, flooded: bool) -> list[Warning]:
    """A warning for each thing that a suction line has as a rule and this one does not list. `flooded` says that the
    water at rest stands above the pump, so that the line stays full without a valve."""
    listed = [resolved.part for resolved in parts]
    turns = is_strained = is_checked = False
    for part in listed:
        match part:
            case Fitting(fitting=name):
                turns = turns or name.startswith(TURNS)
            case Valve(valve=name):
                row = valve(name)
                is_strained, is_checked = is_strained or row.includes_strainer, is_checked or row.is_check
            case Strainer():
                is_strained = True
    absent = {
        "intake (an entrance, a foot valve, a strainer or a stopped well pump before the first pipe)": isinstance(
            listed[0], Pipe
        ),
        "elbow or other turn": not turns,
        "strainer": not is_strained,
    }
    found = [
        Warning(pointer, f"the line lists no {thing}: if there is one, add it, for its loss is not counted")
        for thing, is_absent in absent.items()
        if is_absent
    ]
    if not is_checked:
        found.append(Warning(pointer, f"{_UNCHECKED[flooded]}; if there is one, add it, for its loss is not counted"))
    return found + _unstated_springs(listed, pointer) if is_checked else found


def _unstated_springs(listed: Sequence[LinePart], pointer: str) -> list[Warning]:
    """A warning at each spring check valve whose spring is not told of."""
    text = "the spring's `cracking_pressure` is not stated, and what it takes is not counted"
    found = (
        Doubt("`cracking_pressure` is not stated", Warning(f"{pointer}/{index}/cracking_pressure", text))
        for index, part in enumerate(listed)
        if isinstance(part, Valve) and part.valve == "spring-check" and part.cracking_pressure is UNSET
    )
    return few_of_each(found, pointer)


def shallow_intake(state: SuctionState, units: UnitSystem) -> list[Warning]:
    """A warning where the intake stands under so little water that it may draw air."""
    if not state.intake_is_shallow:
        return []
    text = f"only {units.length(state.submergence)} of water stand over the intake: a vortex may draw air"
    return [Warning("/depth_to_water", text)]
