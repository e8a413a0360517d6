"""Prints how far the service is from each engine at the worst: python tests/engines/report.py"""

import sys
from collections.abc import Iterable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from engines.comparison import RELATIVE, Comparison
from engines.comparisons import COMPARISONS

WIDTH = 100
ROUNDING = 1e-9
"""A relative deviation below is told as none: its digits are those of one machine's rounding."""

HEADINGS = ("phenomenon", "engine", "cases", "worst deviation", "bound")


def told(deviation: float, unit: str) -> str:
    """A deviation in two digits, a relative one in percent."""
    if unit != RELATIVE:
        return f"{deviation:.2g} {unit}"
    return "under 1e-9" if deviation < ROUNDING else f"{_plain(100 * deviation)} %"


def _plain(number: float) -> str:
    """Two digits without an exponent."""
    return f"{float(f'{number:.2g}'):.10f}".rstrip("0").rstrip(".")


def table(found: Iterable[Comparison]) -> list[str]:
    """The comparisons as lines of text under their headings."""
    rows = [HEADINGS]
    for one in found:
        at_rounding = one.unit == RELATIVE and one.bound <= ROUNDING
        bound = f"{one.bound:.0e}".replace("e-0", "e-") if at_rounding else told(one.bound, one.unit)
        rows.append((one.phenomenon, one.engine, f"{one.cases:,}", told(one.worst, one.unit), bound))
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = ["  ".join(_set(row, widths)).rstrip() for row in rows]
    return [lines[0], "-" * max(map(len, lines)), *lines[1:]]


def _set(row: tuple[str, ...], widths: list[int]) -> Iterable[str]:
    """Words to the left of their columns, numbers to the right."""
    for place, (cell, width) in enumerate(zip(row, widths, strict=True)):
        yield cell.ljust(width) if place < 2 else cell.rjust(width)


def main() -> None:
    """Run every comparison and print the table."""
    print("\n".join(table(planned.run() for planned in COMPARISONS)))


if __name__ == "__main__":
    main()
