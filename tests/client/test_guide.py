"""What the client's guide and README show is what happens, and the guide shows everything."""

import ast
import inspect
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import footvalve_client
from footvalve_client import (
    AsyncFootvalve,
    Footvalve,
    FootvalveError,
    FrictionAnswer,
    Length,
    MapResult,
    Quantity,
    testing,
)
from footvalve_client.check.command import _parser

ROOT = Path(__file__).parents[2]
GUIDE = (ROOT / "client" / "GUIDE.md").read_text(encoding="utf-8")


def _programs() -> str:
    return "".join(re.findall(r"^```python\n(.*?)^```$", GUIDE, re.MULTILINE | re.DOTALL))


def _used() -> set[str]:
    """Every name that the programs of the guide call, read, or take from something."""
    nodes = list(ast.walk(ast.parse(_programs())))
    attributes = {node.attr for node in nodes if isinstance(node, ast.Attribute)}
    return attributes | {node.id for node in nodes if isinstance(node, ast.Name)}


def _members(kind: type) -> Iterator[str]:
    for name, member in inspect.getmembers(kind):
        if not name.startswith("_") and (callable(member) or isinstance(member, property)):
            yield name


PUBLIC = {
    *(name for kind in (Footvalve, AsyncFootvalve) for name in _members(kind)),
    *(name for kind in (Length, MapResult, FrictionAnswer) for name in _members(kind)),
    *(name for name in testing.__all__ if inspect.isfunction(getattr(testing, name))),
    *(name for name in footvalve_client.__all__ if inspect.isfunction(getattr(footvalve_client, name))),
    "with_options",
    "NotRecorded",
}


def test_what_the_guide_shows_is_what_happens(base_url: str) -> None:
    """Where an answer has changed for good: .venv/bin/python deploy/guide.py"""
    command = [sys.executable, "-W", "error", "deploy/guide.py", "--check", base_url]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("name", sorted(PUBLIC))
def test_every_public_method_has_an_example(name: str) -> None:
    assert name in _used(), f"show {name} in a program of client/GUIDE.md"


@pytest.mark.parametrize("kind", [Footvalve, AsyncFootvalve])
def test_every_argument_of_a_client_is_told(kind: type) -> None:
    for name in set(inspect.signature(kind).parameters) - {"base_url"}:
        assert f"`{name}`" in GUIDE or f"{name}=" in GUIDE, f"tell of {name} in client/GUIDE.md"


def test_every_error_is_told() -> None:
    exported = (getattr(footvalve_client, name) for name in footvalve_client.__all__)
    for error in exported:
        if isinstance(error, type) and issubclass(error, FootvalveError):
            assert f"`{error.__name__}`" in GUIDE, f"tell of {error.__name__} in client/GUIDE.md"


def test_every_dimension_is_told() -> None:
    for name in footvalve_client.__all__:
        exported = getattr(footvalve_client, name)
        if name == getattr(exported, "__name__", "") and Quantity in getattr(exported, "__mro__", ())[1:]:
            assert f"`{name}`" in GUIDE, f"tell of {name} in client/GUIDE.md"


def test_every_option_of_the_command_is_told() -> None:
    for action in _parser()._actions:
        option = next((option for option in action.option_strings if option.startswith("--")), None)
        assert option is None or f"`{option}" in GUIDE, f"tell of {option} in client/GUIDE.md"


def test_every_link_within_the_guide_leads_somewhere() -> None:
    headings = {
        re.sub(r"[^\w\- ]", "", heading).strip().lower().replace(" ", "-")
        for heading in re.findall(r"^#+ (.*)$", GUIDE, re.MULTILINE)
    }
    assert set(re.findall(r"\]\(#([^)]*)\)", GUIDE)) <= headings
