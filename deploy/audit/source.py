"""The source under two readers: bandit, for what could do harm, and deptry, for imports against what is declared."""

import json
import tempfile
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any

from tool import run_tool

SOURCES = ("service/footvalve", "client/footvalve_client")


def harmful(accepted: dict[str, dict[str, str]], tell: Callable[[str], None]) -> Iterator[str]:
    """What bandit finds and nobody has accepted."""
    everywhere, here = accepted["everywhere"], accepted["file"]
    report = json.loads(run_tool("bandit", "--quiet", "--recursive", "--format", "json", *SOURCES).stdout)
    yield from (f"bandit cannot read {error['filename']}: {error['reason']}" for error in report["errors"])
    met = set()
    for result in report["results"]:
        rule, file = result["test_id"], result["filename"].removeprefix("./")
        met |= {rule, f"{rule} {file}"}
        if rule not in everywhere and f"{rule} {file}" not in here:
            yield f"{file}:{result['line_number']}: {rule} {result['issue_text']}"
    _tell_unmet({*everywhere, *here} - met, tell)


def undeclared(project: Path, package: str, accepted: dict[str, str], tell: Callable[[str], None]) -> Iterator[str]:
    """What a project's package imports and its pyproject.toml does not declare, or the other way round."""
    with tempfile.NamedTemporaryFile(suffix=".json") as report:
        options = (
            "--config",
            "pyproject.toml",
            "--known-first-party",
            Path(package).name,
            "--json-output",
            report.name,
        )
        ended = run_tool("deptry", package, *options, folder=project)
        found = json.loads(Path(report.name).read_text(encoding="utf-8") or "null")
    if found is None:
        yield f"deptry has failed in {project}: {ended.stderr.strip()}"
        return
    yield from _not_accepted(found, accepted)
    _tell_unmet(accepted.keys() - {fault["module"] for fault in found}, tell)


def _not_accepted(found: Iterable[dict[str, Any]], accepted: dict[str, str]) -> Iterator[str]:
    for fault in found:
        if fault["module"] not in accepted:
            yield f"{fault['location']['file']}: {fault['error']['code']} {fault['error']['message']}"


def _tell_unmet(unmet: Iterable[str], tell: Callable[[str], None]) -> None:
    for name in sorted(unmet):
        tell(f"audit: accepted, but no longer found: {name}")
