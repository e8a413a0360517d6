"""The image is built of pinned packages alone, and starts the service as a user without rights."""

import ast
import json
import re
import sys
import tomllib
from importlib.metadata import PackageNotFoundError, packages_distributions, requires
from itertools import chain

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from footvalve.command import main

from .containerfile import FILE, command, final_stage, instructions
from .tools import DEPLOY, passes, tool

PROJECT = tomllib.loads((DEPLOY.parent / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def pins() -> dict[str, str]:
    """The versions that requirements.txt holds everything to, by the package's name."""
    lines = (DEPLOY / "requirements.txt").read_text(encoding="utf-8").splitlines()
    wanted = [Requirement(line) for line in lines if line and not line.startswith("#")]
    return {canonicalize_name(one.name): str(one.specifier) for one in wanted}


def runtime(asked: list[str]) -> set[str]:
    """Every package that comes with those that are asked for, by name."""
    found: set[str] = set()
    waiting = [(Requirement(text), "") for text in asked]
    while waiting:
        wanted, extra = waiting.pop()
        if wanted.marker and not wanted.marker.evaluate({"extra": extra}):
            continue
        name = canonicalize_name(wanted.name)
        try:
            more = requires(wanted.name) or []
        except PackageNotFoundError:
            pytest.fail(f"{wanted} is needed at run time and not installed: run sh deploy/setup.sh")
        if name not in found or wanted.extras:
            found.add(name)
            waiting += [(Requirement(text), extra) for text in more for extra in (*wanted.extras, "")]
    return found


def test_the_linter_finds_nothing():
    assert passes(tool("hadolint"), str(FILE)) == ""


@pytest.mark.parametrize("extra", ["", *PROJECT.get("optional-dependencies", {})])
def test_every_package_that_the_service_runs_on_is_pinned(extra):
    """The image takes the versions of requirements.txt as constraints: what is not in it would be the newest."""
    asked = PROJECT["dependencies"] + PROJECT.get("optional-dependencies", {}).get(extra, [])
    missing = runtime(asked) - pins().keys()
    assert not missing
    assert len(runtime(asked)) > len(asked)


def test_what_pyproject_pins_is_pinned_alike():
    asked = [Requirement(text) for text in PROJECT["dependencies"]]
    assert {one.name: str(one.specifier) for one in asked} == {
        one.name: pins()[canonicalize_name(one.name)] for one in asked
    }


def imported() -> set[str]:
    """The first part of the name of every module that the service's code imports, anywhere in it."""
    found: set[str] = set()
    for file in (DEPLOY.parent / "service").rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                found |= {alias.name.partition(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                found.add(node.module.partition(".")[0])
    return found - sys.stdlib_module_names - {"footvalve"}


def test_every_package_that_the_service_imports_is_asked_for():
    """What the tests bring along is not in the image."""
    asked = [*PROJECT["dependencies"], *chain(*PROJECT.get("optional-dependencies", {}).values())]
    there = runtime(asked)
    makers = packages_distributions()
    missing = {name for name in imported() if not {canonicalize_name(one) for one in makers.get(name, [])} & there}
    assert not missing


def test_the_build_is_held_to_the_pins():
    built = next(rest for word, rest in instructions() if word == "RUN")
    assert "--constraint requirements.txt" in built
    assert "--no-index --find-links /wheels" in built


def test_only_what_the_build_needs_is_copied():
    copied = [rest for word, rest in instructions() if word == "COPY"]
    assert copied == [
        "deploy/requirements.txt pyproject.toml ./",
        "service service",
        "--from=build /opt/footvalve /opt/footvalve",
    ]
    ignored = (FILE.parent / "Containerfile.dockerignore").read_text(encoding="utf-8").splitlines()
    kept = [line[1:] for line in ignored if line.startswith("!")]
    assert sorted(kept) == ["deploy/requirements.txt", "pyproject.toml", "service"]
    assert "*" in ignored


def test_it_does_not_run_as_root():
    """By number: an orchestrator that refuses root cannot look a name up in the image."""
    user, group = final_stage()["USER"].split(":")
    assert int(user) >= 10_000
    assert int(group) >= 10_000


def test_it_is_told_to_stop_as_the_service_expects():
    assert final_stage()["STOPSIGNAL"] == "SIGTERM"


def test_its_command_is_one_that_the_service_takes(monkeypatch):
    program, *arguments = command()
    assert program == "/opt/footvalve/bin/footvalve"
    seen = []
    monkeypatch.setattr("footvalve.command.serve", lambda asked: seen.append(asked) or 0)
    assert main(arguments) == 0
    assert (seen[0].host, str(seen[0].port)) == ("0.0.0.0", final_stage()["EXPOSE"])


def test_its_health_is_asked_of_the_service_itself(base_url):
    """The check's own program is run, against the service of the tests; and against nobody."""
    asked = json.loads(re.search(r"CMD (\[.*\])", final_stage()["HEALTHCHECK"]).group(1))
    port = final_stage()["EXPOSE"]
    python, switch, program = asked
    assert python == "/opt/footvalve/bin/python"
    assert f"http://127.0.0.1:{port}/live" in program
    own = program.replace(f"http://127.0.0.1:{port}", base_url)
    passes(tool("python"), switch, own)
    with pytest.raises(AssertionError, match="URLError"):
        passes(tool("python"), switch, program.replace(f":{port}", ":9"))


def test_no_image_is_the_latest():
    named = [rest for word, rest in instructions() if word == "ARG" and rest.startswith("PYTHON=")]
    assert all(re.fullmatch(r"PYTHON=python:3\.\d+-slim-[a-z]+", one) for one in named)
    assert len(named) == 1
