"""A flaw of a manifold as it is found, and how flaws that show in several modes become one finding."""

from collections.abc import Iterable, Sequence
from typing import get_args

from msgspec import Struct

from footvalve.answers.manifold_graph import Manifold
from footvalve.contract.manifold_check import FindingCode, FindingSeverity, ManifoldFinding

_CODES = get_args(FindingCode)
_GRAVEST_FIRST = tuple(reversed(get_args(FindingSeverity)))


class Flaw(Struct, frozen=True):
    """One thing that is wrong, in one mode or in any, about some elements by their numbers."""

    code: FindingCode
    severity: FindingSeverity
    text: str
    parts: tuple[int, ...]
    mode: str | None = None


def merged(manifold: Manifold, flaws: Iterable[Flaw]) -> list[ManifoldFinding]:
    """The findings, the gravest first; what shows in several modes is one finding, as grave as the gravest."""
    alike: dict[tuple[str, str, tuple[int, ...]], list[Flaw]] = {}
    for flaw in flaws:
        alike.setdefault((flaw.code, flaw.text, flaw.parts), []).append(flaw)
    findings = [_finding(manifold, group) for group in alike.values()]
    return sorted(findings, key=lambda found: (_GRAVEST_FIRST.index(found.severity), _CODES.index(found.code)))


def _finding(manifold: Manifold, group: Sequence[Flaw]) -> ManifoldFinding:
    return ManifoldFinding(
        code=group[0].code,
        severity=min((flaw.severity for flaw in group), key=_GRAVEST_FIRST.index),
        text=group[0].text,
        elements=[manifold.parts[number].id for number in group[0].parts],
        modes=list(dict.fromkeys(flaw.mode for flaw in group if flaw.mode is not None)),
    )
