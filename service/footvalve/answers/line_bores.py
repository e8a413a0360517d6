"""Which bore each part of a line has: its own, or that of the pipe before it, or at the start of the pipe after."""

from collections.abc import Sequence

from msgspec import UNSET

from footvalve.contract.line import LinePart, Pipe
from footvalve.contract.problem import Fault, Refused
from footvalve.tables.pipes import PipeSize, pipe_size


def table_size(part: Pipe) -> PipeSize | None:
    """The table's row of a pipe that is given by product and size; each product comes in every nominal size."""
    if part.size is UNSET:
        return None
    return pipe_size(product=part.size.product, nominal=part.size.nominal)


def own_bore(part: LinePart) -> float | None:
    """The bore in m that the part itself states, or None. Raises Refused for a pipe with no bore or with two, told from
    the part on."""
    stated = None if part.bore is UNSET else part.bore.diameter.base
    if not isinstance(part, Pipe):
        return stated
    size = table_size(part)
    if (size is None) == (stated is None):
        raise Refused(Fault("", "a pipe takes either `size` or `bore`, one of the two"))
    return stated if size is None else size.inside_diameter


def spread_bores(own: Sequence[float | None], pipes: Sequence[float | None]) -> list[float | None]:
    """The bore of each part, where those without one take that of the pipe before, else of the next pipe."""
    first_pipe = next((bore for bore in pipes if bore is not None), None)
    current, bores = first_pipe, []
    for bore, pipe in zip(own, pipes, strict=True):
        current = pipe or current
        bores.append(bore or current)
    return bores


def neighbours(pipes: Sequence[float | None], index: int) -> tuple[float | None, float | None]:
    """The bores of the pipes next before and next after a part."""
    before = next((bore for bore in reversed(pipes[:index]) if bore is not None), None)
    after = next((bore for bore in pipes[index + 1 :] if bore is not None), None)
    return before, after
