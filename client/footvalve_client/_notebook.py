"""An answer as a notebook shows it: HTML that brings its own style, and is read on a light page as on a dark one."""

from collections.abc import Iterable, Iterator
from html import escape
from typing import Final

from footvalve_client._answer import AnswerPart
from footvalve_client._errors import QuantityError
from footvalve_client._generated.answers import SitePlanAnswer, SuctionFeasibilityAnswer
from footvalve_client._outline import MARKS, Notice, Table, outline
from footvalve_client._profile_drawing import head_profile

_VERDICTS: Final = {"feasible": "#2e9e5b", "marginal": "#c07f00", "infeasible": "#d64545"}
_SEVERITIES: Final = {"danger": "#d64545", "warning": "#c07f00", "doubt": "#c07f00"}

_MOST_ROWS: Final = 60
_OPENED: Final = "Levers"
"""The table that is not folded: what would better the verdict."""

_BORDER: Final = "1px solid rgba(128,128,128,.4)"
_CELL: Final = f"text-align:left;vertical-align:top;padding:2px 10px 2px 4px;border-bottom:{_BORDER}"
_FACT: Final = "display:inline-block;margin-right:1.4em"
_LIST: Final = "margin:2px 0 8px;padding-left:22px"


def page(part: AnswerPart) -> str:
    """The part as HTML."""
    return f'<div style="max-width:60em">{"".join(_told(part))}</div>'


def _told(part: AnswerPart) -> Iterator[str]:
    shown = outline(part)
    yield f'<div style="font-size:115%;margin:4px 0"><b>{escape(shown.title)}</b>{_verdict(shown.verdict)}</div>'
    yield _drawing(part)
    yield _facts(shown.facts)
    for name, texts in shown.texts:
        yield f'<div>{escape(name)}</div><ul style="{_LIST}">{_items(map(escape, texts))}</ul>'
    if shown.notices:
        yield f'<ul style="{_LIST}">{_items(map(_notice, shown.notices))}</ul>'
    for table in shown.tables:
        yield _folded(f"{table.name} ({len(table.rows)})", _rows(table), opened=table.name == _OPENED)
    for name, step in shown.steps:
        yield _folded(name, "".join(_told(step)))


def _verdict(verdict: str) -> str:
    if not verdict:
        return ""
    mark = f"{MARKS[verdict]} " if verdict in MARKS else ""
    return f' &#160; <b style="color:{_VERDICTS.get(verdict, "inherit")}">{mark}{escape(verdict)}</b>'


def _drawing(part: AnswerPart) -> str:
    """The head profile, of an answer about suction or of the plan that it is a step of."""
    suction = part.suction_feasibility if isinstance(part, SitePlanAnswer) else part
    if not isinstance(suction, SuctionFeasibilityAnswer):
        return ""
    try:
        return head_profile(suction)
    except QuantityError:  # a unit that a newer service has added
        return ""


def _facts(facts: Iterable[tuple[str, str]]) -> str:
    told = (f'<span style="{_FACT}">{escape(name)} <b>{escape(value)}</b></span> ' for name, value in facts)
    return f'<div style="margin:4px 0 8px">{"".join(told)}</div>'


def _items(texts: Iterable[str]) -> str:
    return "".join(f"<li>{text}</li>" for text in texts)


def _notice(notice: Notice) -> str:
    colour = _SEVERITIES.get(notice.severity, "inherit")
    return f'<b style="color:{colour}">{escape(notice.severity)}</b>: {escape(notice.text)}'


def _rows(table: Table) -> str:
    rows = [list(map(escape, row)) for row in table.rows[:_MOST_ROWS]]
    left = len(table.rows) - len(rows)
    more = f"<div>and {left} more: <code>to_dicts</code> gives them all</div>" if left else ""
    return _table(rows, [escape(column) for column in table.columns]) + more


def _table(rows: Iterable[Iterable[str]], head: Iterable[str]) -> str:
    heading = "".join(f'<th style="{_CELL}">{text}</th>' for text in head)
    body = "".join(f"<tr>{''.join(f'<td style={_CELL!r}>{text}</td>' for text in row)}</tr>" for row in rows)
    return f'<table style="border-collapse:collapse;margin:4px 0"><tr>{heading}</tr>{body}</table>'


def _folded(name: str, inside: str, opened: bool = False) -> str:
    attribute = ' open=""' if opened else ""
    return f"<details{attribute}><summary>{escape(name)}</summary>{inside}</details>"
