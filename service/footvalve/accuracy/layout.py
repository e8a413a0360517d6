"""The measured rows as text."""

from collections.abc import Iterable, Sequence

from footvalve.accuracy.measuring import NO_UNIT, Measured, is_number
from footvalve.accuracy.rows import Expected
from footvalve.accuracy.summary import Summary, summaries

_HEADER = (
    "endpoint",
    "rows",
    "sources",
    "seen",
    "computed",
    "memory",
    "exact",
    "median",
    "worst",
    "in row",
    "used",
)
_WORDS = {0, 9}
"""The columns that hold words, which start at the left."""


def table(measured: Sequence[Measured]) -> str:
    """A line for each endpoint, and one for all."""
    lines = [_HEADER, *map(_cells, summaries(measured))]
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    return "\n".join(_line(cells, widths) for cells in lines)


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    padded = (
        cell.ljust(width) if column in _WORDS else cell.rjust(width)
        for column, (cell, width) in enumerate(zip(cells, widths, strict=True))
    )
    return "  ".join(padded)


def _cells(of: Summary) -> tuple[str, ...]:
    counts = (of.rows, of.sources, *(of.obtained[way] for way in ("seen", "computed", "memory")), of.exact)
    return (of.name, *map(str, counts), _percent(of.median), _percent(of.worst), of.worst_row, f"{of.share:.0%}")


def _percent(fraction: float | None) -> str:
    if fraction is None:
        return ""
    return "<0.01%" if 0.0 < fraction < 0.00005 else f"{fraction:.2%}"


def every_row(measured: Iterable[Measured]) -> str:
    """A line for each row: what was expected and what was found."""
    return "\n".join(f"{_told(each)}, {each.share:.0%} of its tolerance" for each in measured)


def beyond(measured: Iterable[Measured]) -> str:
    """A line for each row that is beyond its tolerance, with what it was held against; nothing where none is."""
    return "\n".join(
        f"{_told(each)}, tolerance {_figure(each.row.tolerance)}, {each.row.source} {each.row.locator}".rstrip()
        for each in measured
        if not each.is_within
    )


def _told(each: Measured) -> str:
    row = each.row
    expected, found = _with_unit(row.expected, row.unit), _with_unit(each.found, row.unit)
    return f"{row.endpoint} {row.id}: expected {expected}, found {found}"


def _with_unit(value: Expected, unit: str) -> str:
    return _figure(value) if unit == NO_UNIT or not is_number(value) else f"{_figure(value)} {unit}"


def _figure(value: Expected) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return f"{value:.6g}" if is_number(value) else str(value)
