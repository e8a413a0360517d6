"""Reads a site from a TOML, JSON or YAML file, or from the standard input."""

import json
import sys
import tomllib
from collections.abc import Callable, Hashable
from importlib import import_module
from pathlib import Path
from typing import Any, Final, cast

from footvalve_client.check.exit_codes import CheckFailed, ExitCode

STANDARD_INPUT: Final = "-"

Site = dict[str, Any]


def read_site(name: str, form: str | None = None) -> Site:
    """The site of a file, or of the standard input for "-". Raises CheckFailed for what cannot be read.

    Its form is what the file's name ends in, unless it is told; JSON or TOML for the standard input.
    """
    told = "standard input" if name == STANDARD_INPUT else name
    text = _text(name, told)
    form = form or _form(name, text)
    if form not in FORMS:
        raise _unreadable(told, f"its name does not end in .{', .'.join(FORMS)}; tell its form with --format")
    try:
        site = FORMS[form](text)
    except (ValueError, RecursionError) as error:
        raise _unreadable(told, f"it is no {form.upper()}: {error}") from None
    if not isinstance(site, dict):
        raise _unreadable(told, "a site has names with values, such as depth_to_water")
    return cast("Site", site)


def _text(name: str, told: str) -> str:
    try:
        raw = sys.stdin.buffer.read() if name == STANDARD_INPUT else Path(name).read_bytes()
        return raw.decode("utf-8-sig")
    except OSError as error:
        raise _unreadable(told, error.strerror or str(error)) from None
    except UnicodeDecodeError:
        raise _unreadable(told, "it is no text in UTF-8") from None


def _form(name: str, text: str) -> str:
    if name == STANDARD_INPUT:
        return "json" if text.lstrip().startswith("{") else "toml"
    ending = Path(name).suffix.lower().removeprefix(".")
    return "yaml" if ending == "yml" else ending


def _unreadable(told: str, why: str) -> CheckFailed:
    return CheckFailed(ExitCode.UNREADABLE, f"cannot read {told}: {why}")


def _json(text: str) -> Any:
    return json.loads(text, object_pairs_hook=_each_once)


def _each_once(pairs: list[tuple[str, Any]]) -> Site:
    """An object whose names stand once: of two the reader would keep one, and nobody knows which was meant."""
    site = dict(pairs)
    if len(site) < len(pairs):
        names = [name for name, _ in pairs]
        raise ValueError(f"{next(name for name in names if names.count(name) > 1)!r} stands twice")
    return site


def _yaml(text: str) -> Any:
    try:
        yaml = import_module("yaml")
    except ModuleNotFoundError:
        raise ValueError("reading it needs PyYAML: pip install 'footvalve-client[terminal]'") from None
    try:
        return yaml.load(text, Loader=_yaml_loader(yaml))
    except yaml.YAMLError as error:
        raise ValueError(" ".join(str(error).split())) from None


def _yaml_loader(yaml: Any) -> Any:
    """PyYAML's safe loader, for mappings whose names stand once."""

    class Loader(yaml.SafeLoader):  # type: ignore[misc]
        def construct_mapping(self, node: Any, deep: bool = False) -> dict[Hashable, Any]:
            names = [key.value for key, _ in node.value if key.tag != "tag:yaml.org,2002:merge"]
            if len(set(names)) < len(names):
                raise ValueError(f"{next(name for name in names if names.count(name) > 1)!r} stands twice")
            made = super().construct_mapping(node, deep)  # pyright: ignore[reportUnknownMemberType, reportUnknownVariableType]
            return cast("dict[Hashable, Any]", made)

    return Loader


FORMS: Final[dict[str, Callable[[str], Any]]] = {"toml": tomllib.loads, "json": _json, "yaml": _yaml}
"""What reads each form. Each raises ValueError for what is none."""
