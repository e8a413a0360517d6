"""An answer as rich prints it: tables, and colours that repeat what the words say."""

from collections.abc import Iterator
from typing import Final

from rich import box
from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from footvalve_client._answer import AnswerPart
from footvalve_client._outline import MARKS, Outline, outline
from footvalve_client._outline import Table as Listed

VERDICTS: Final = {"feasible": "bold green", "marginal": "bold yellow", "infeasible": "bold red"}
SEVERITIES: Final = {"danger": "bold red", "warning": "yellow", "doubt": "yellow"}

_MOST_ROWS: Final = 30
_UNSHOWN: Final = ("Basis", "Contributions")
"""What fills a screen, and is seldom read there."""


def printed(part: AnswerPart) -> RenderableType:
    """The part, and its steps below it."""
    shown = outline(part)
    steps = [Padding(printed(step), (1, 0, 0, 2)) for _, step in shown.steps]
    return Group(_heading(shown), *_facts(shown), *_texts(shown), *_tables(shown), *steps)


def _heading(shown: Outline) -> Text:
    heading = Text(shown.title, style="bold")
    if shown.verdict:
        mark = f"{MARKS[shown.verdict]} " if shown.verdict in MARKS else ""
        heading.append("  ").append(f"{mark}{shown.verdict}", style=VERDICTS.get(shown.verdict, "bold"))
    return heading


def _facts(shown: Outline) -> Iterator[RenderableType]:
    if shown.facts:
        facts = Table.grid(padding=(0, 2))
        for name, value in shown.facts:
            facts.add_row(Text(name, style="dim"), Text(value))
        yield Padding(facts, (0, 0, 0, 2))


def _texts(shown: Outline) -> Iterator[RenderableType]:
    for name, texts in shown.texts:
        yield Text(name)
        yield from (Padding(Text(f"- {text}"), (0, 0, 0, 2)) for text in texts)
    for notice in shown.notices:
        told = Text(notice.severity, style=SEVERITIES.get(notice.severity, ""))
        yield Padding(told.append(f": {notice.text}", style="not bold default"), (0, 0, 0, 2))


def _tables(shown: Outline) -> Iterator[RenderableType]:
    for listed in shown.tables:
        if listed.name not in _UNSHOWN:
            yield _table(listed)


def _table(listed: Listed) -> Table:
    rows = listed.rows[:_MOST_ROWS]
    left = len(listed.rows) - len(rows)
    table = Table(
        title=Text(listed.name),
        title_justify="left",
        box=box.SIMPLE_HEAD,
        caption=f"and {left} more: to_dicts gives them all" if left else None,
        caption_justify="left",
    )
    for column in listed.columns:
        table.add_column(Text(column))
    for row in rows:
        table.add_row(*map(Text, row))
    return table
