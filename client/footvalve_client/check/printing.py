"""Prints lines: in colour on a terminal where rich is installed, else as they are."""

import os
import shutil
import sys
from collections.abc import Iterable
from typing import Any, Final

from footvalve_client.check.lines import Line

_WIDEST: Final = 100
_NARROWEST: Final = 40

_STYLES: Final = {
    "heading": "bold",
    "feasible": "bold green",
    "marginal": "bold yellow",
    "infeasible": "bold red",
    "danger": "bold red",
    "warning": "yellow",
    "doubt": "yellow",
}


def width() -> int:
    """The letters of a line: the terminal's, but no more than is well read."""
    return max(_NARROWEST, min(_WIDEST, shutil.get_terminal_size((_WIDEST, 24)).columns))


def print_lines(lines: Iterable[Line]) -> None:
    """Print to the standard output. In a pipe, and where NO_COLOR is set, there are no colours."""
    console = _console()
    for line in lines:
        if console is None or not line.style:
            print(line.text)
        else:
            console.print(_coloured(line), soft_wrap=True)


def _console() -> Any:
    """What prints in colour; None where nothing should, or nothing can."""
    if os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb" or not sys.stdout.isatty():
        return None
    try:
        from rich.console import Console  # noqa: PLC0415
    except ImportError:
        return None
    return Console(highlight=False)


def _coloured(line: Line) -> Any:
    from rich.text import Text  # noqa: PLC0415

    text = Text(line.text)
    text.stylize(_STYLES.get(line.style, ""), 0, line.styled or None)
    return text
