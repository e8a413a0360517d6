"""Changes of the suction line: wider pipe, a clean strainer."""

from collections.abc import Iterator

from msgspec import UNSET
from msgspec.structs import replace

from footvalve.answers.plan_lever import Change, suction_after, with_line
from footvalve.answers.plan_state import PlanState
from footvalve.contract.line import LinePart, NominalSize, Pipe, PipeSize, Strainer
from footvalve.tables.pipes import nominals, pipe_product

LINE = "/suction_line"


def wider_pipes(state: PlanState) -> Iterator[Change]:
    """For each product and size in the line the next larger size that makes it feasible, else the largest there is."""
    for size in dict.fromkeys(_sizes(state)):
        widest: Change | None = None
        for nominal in _larger(size):
            widest = _widened(state, size, nominal) or widest
            if widest is not None and widest.after.verdict == "feasible":
                break
        if widest is not None:
            yield widest


def _sizes(state: PlanState) -> Iterator[PipeSize]:
    for part in state.request.suction_line:
        if isinstance(part, Pipe) and part.size is not UNSET:
            yield part.size


def _larger(size: PipeSize) -> tuple[NominalSize, ...]:
    known = nominals(size.product)
    larger: tuple[NominalSize, ...] = known[known.index(size.nominal) + 1 :]  # type: ignore[assignment]
    return larger


def _widened(state: PlanState, size: PipeSize, nominal: NominalSize) -> Change | None:
    of_size = {
        index: part
        for index, part in enumerate(state.request.suction_line)
        if isinstance(part, Pipe) and part.size == size
    }
    wider = PipeSize(size.product, nominal)
    line: list[LinePart] = list(state.request.suction_line)
    for index, part in of_size.items():
        line[index] = replace(part, size=wider)
    length = state.units.length(sum(part.length.base for part in of_size.values()))
    text = f"Take {nominal} in instead of {size.nominal} in for the {length} of {pipe_product(size.product).title}."
    return _changed(state, line, text, f"{LINE}/{min(of_size)}/size/nominal")


def cleaned_strainers(state: PlanState) -> Iterator[Change]:
    """Each strainer or filter that is reckoned as dirty, cleaned."""
    for index, part in enumerate(state.request.suction_line):
        if isinstance(part, Strainer) and part.dirty_drop is not UNSET:
            line = list(state.request.suction_line)
            line[index] = replace(part, dirty_drop=UNSET)
            name = "strainer or filter" if part.name is UNSET else part.name
            told = state.units.told
            drops = f"it then takes {told(part.clean_drop)} in place of {told(part.dirty_drop)}"
            drops += f" at {told(part.rated_flow)}"
            change = _changed(state, line, f"Clean the {name} before it is due: {drops}.", f"{LINE}/{index}/dirty_drop")
            if change is not None:
                yield change


def _changed(state: PlanState, line: list[LinePart], text: str, pointer: str) -> Change | None:
    changed = with_line(state, line)
    after = None if changed is None else suction_after(changed)
    return None if changed is None or after is None else Change(text, pointer, changed.request, after)
