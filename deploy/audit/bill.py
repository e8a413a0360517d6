"""The bill of materials of what runs in the service: in CycloneDX, those of the environment's distributions."""

import json
import re
import sys
import tempfile
from importlib.metadata import requires
from pathlib import Path
from typing import Any, Final

from installed import brought_by
from packaging.utils import canonicalize_name
from tool import run_tool

ROOT: Final = "root-component"
_REGISTRY: Final = re.compile(r"//pypi\.|pythonhosted|^file:")


def bill(extras: tuple[str, ...] = ("",)) -> dict[str, Any]:
    """The bill as JSON. It holds no address of a registry and none of this machine."""
    assert requires("footvalve"), "the service is not installed here"
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "bill.json"
        options = ["--pyproject", "pyproject.toml", "--mc-type", "application", "--output-reproducible"]
        ended = run_tool("cyclonedx_py", "environment", *options, "--output-file", file, sys.executable)
        assert ended.returncode == 0, ended.stderr
        whole: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
    return _of_these(whole, brought_by("footvalve", extras) - {"footvalve"})


def _of_these(whole: dict[str, Any], names: set[str]) -> dict[str, Any]:
    kept = [part for part in whole["components"] if canonicalize_name(part["name"]) in names]
    missing = names - {canonicalize_name(part["name"]) for part in kept}
    assert not missing, f"the bill lacks {', '.join(sorted(missing))}"
    references = {part["bom-ref"] for part in kept} | {ROOT}
    bill_of_these = {
        **whole,
        "components": kept,
        "dependencies": [
            {"ref": edge["ref"], "dependsOn": [to for to in edge.get("dependsOn", ()) if to in references]}
            for edge in whole["dependencies"]
            if edge["ref"] in references
        ],
    }
    return {key: _without_registries(value) for key, value in bill_of_these.items()}


def _without_registries(told: Any) -> Any:
    """The same without any address of a registry or of this machine, in whatever part of it that stands."""
    if isinstance(told, dict):
        return {key: _without_registries(value) for key, value in told.items()}
    if isinstance(told, list):
        return [_without_registries(part) for part in told if not (isinstance(part, dict) and _leads_away(part))]
    return told


def _leads_away(part: dict[str, Any]) -> bool:
    return bool(_REGISTRY.search(str(part.get("url", ""))))
