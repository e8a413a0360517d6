"""What this work can do to people and their water, and what to do about it."""

from dataclasses import dataclass
from typing import Literal, get_args

from footvalve.tables.reading import Row, entry, rows

Severity = Literal["note", "warning", "danger"]

_SEVERITIES: dict[str, Severity] = {severity: severity for severity in get_args(Severity)}


@dataclass(frozen=True, slots=True)
class CautionRow:
    """A caution by its code."""

    code: str
    severity: Severity
    text: str
    source: str


def _caution(row: Row) -> CautionRow:
    return CautionRow(row["code"], _SEVERITIES[row["severity"]], row["text"], row["source"])


_CAUTIONS = {row["code"]: _caution(row) for row in rows("cautions")}

CAUTIONS = tuple(_CAUTIONS)


def caution_row(code: str) -> CautionRow:
    """A caution by its code. Raises UnknownEntry.

    >>> caution_row("open-shaft").severity
    'danger'
    """
    return entry("cautions", _CAUTIONS, code)
