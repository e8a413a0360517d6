"""The package from without: its names, its documentation, its types, what it imports, and where its code comes from."""

import inspect
import json
import os
import subprocess
import sys
import sysconfig
import tomllib
from collections.abc import Iterator
from pathlib import Path
from types import FunctionType, ModuleType
from typing import Any

import pytest
from mypy import api as mypy

import footvalve_client

PROJECT = Path(__file__).parents[2]
CLIENT = PROJECT / "client"

WRITTEN_BY_HAND = {
    "AsyncFootvalve",
    "BadRequest",
    "BodyTooLarge",
    "ConnectionFailed",
    "FieldFault",
    "Footvalve",
    "FootvalveError",
    "HeadTooLarge",
    "KeyNeeded",
    "KeyRefused",
    "MapResult",
    "MapStopped",
    "NotFound",
    "PhysicalQuantity",
    "ProblemError",
    "Quantity",
    "QuantityError",
    "Refused",
    "SentTooSlowly",
    "ServiceFailed",
    "ServiceUnavailable",
    "Timeout",
    "TooManyRequests",
    "UnreadableAnswer",
    "__version__",
    "to_dicts",
}

NO_PART_OF_THE_CLIENT = {"ProblemKind"}
"""What stands in the contract for a page that no method of the client reads."""


def _run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, *arguments], capture_output=True, text=True, check=False)


def test_the_generated_code_is_what_the_contract_makes_it() -> None:
    checked = _run(str(CLIENT / "generate.py"), "--check")
    assert checked.returncode == 0, f"run client/generate.py: {checked.stderr}"


def test_the_check_finds_a_changed_contract(tmp_path: Path) -> None:
    text = (PROJECT / "openapi" / "footvalve.json").read_text(encoding="utf-8")
    changed = tmp_path / "footvalve.json"
    changed.write_text(text.replace("The flow to be drawn.", "The flow that is drawn."), encoding="utf-8")
    checked = _run(str(CLIENT / "generate.py"), "--check", "--contract", str(changed))
    assert checked.returncode == 1
    assert "operations.py is not what the contract makes it" in checked.stderr


def test_a_quantity_with_a_field_that_nobody_converts_stops_the_generator(tmp_path: Path) -> None:
    contract = json.loads((PROJECT / "openapi" / "footvalve.json").read_text(encoding="utf-8"))
    contract["components"]["schemas"]["Length"]["properties"]["tolerance"] = {"type": "number"}
    changed = tmp_path / "footvalve.json"
    changed.write_text(json.dumps(contract), encoding="utf-8")
    checked = _run(str(CLIENT / "generate.py"), "--check", "--contract", str(changed))
    assert "teach Quantity.to about them first" in checked.stderr


def test_the_names_written_by_hand_are_exported_and_no_others() -> None:
    assert {name for name in footvalve_client.__all__ if name not in _generated()} == WRITTEN_BY_HAND


def test_every_name_is_exported_once() -> None:
    assert len(set(footvalve_client.__all__)) == len(footvalve_client.__all__)


def test_everything_public_is_exported() -> None:
    """All but the modules that are imported by their own names."""
    here = vars(footvalve_client).items()
    public = {name for name, value in here if not name.startswith("_") and not isinstance(value, ModuleType)}
    assert public <= set(footvalve_client.__all__)


def test_every_schema_of_the_contract_is_a_name_of_the_client() -> None:
    contract = json.loads((PROJECT / "openapi" / "footvalve.json").read_text(encoding="utf-8"))
    names = {"InputWarning" if name == "Warning" else name for name in contract["components"]["schemas"]}
    assert names - NO_PART_OF_THE_CLIENT <= set(footvalve_client.__all__)


def _generated() -> list[str]:
    return footvalve_client._exports.__all__


def _documented() -> Iterator[tuple[str, Any]]:
    for name in footvalve_client.__all__:
        exported = getattr(footvalve_client, name)
        if isinstance(exported, type) and exported.__module__.startswith("footvalve_client"):
            yield name, exported
            for member, value in inspect.getmembers(exported):
                if isinstance(value, FunctionType | property) and not member.startswith("_"):
                    yield f"{name}.{member}", value


@pytest.mark.parametrize(
    ("name", "thing"), list(_documented()), ids=lambda given: given if isinstance(given, str) else ""
)
def test_everything_public_is_documented(name: str, thing: Any) -> None:
    assert inspect.getdoc(thing), f"{name} has no docstring"


@pytest.mark.parametrize("client", [footvalve_client.Footvalve, footvalve_client.AsyncFootvalve])
def test_a_method_tells_the_units_of_its_arguments(client: type[Any]) -> None:
    documentation = inspect.getdoc(client.suction_feasibility) or ""
    assert "depth_to_water: Length in m, cm, mm, ft or in." in documentation
    assert "water_temperature" not in documentation


def test_both_clients_have_the_same_methods_with_the_same_arguments() -> None:
    blocking, awaited = (
        {
            name: str(inspect.signature(method))
            for name, method in inspect.getmembers(client, inspect.isfunction)
            if not name.startswith("_") and name not in ("close", "aclose")
        }
        for client in (footvalve_client.Footvalve, footvalve_client.AsyncFootvalve)
    )
    assert blocking == awaited


def test_neither_pint_nor_httpx_is_imported_before_it_is_used() -> None:
    script = (
        "import sys, footvalve_client as f; f.Length.of('14 ft').to('m'); print({'pint', 'httpx'} & {*sys.modules})"
    )
    ran = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False, env=_environment()
    )
    assert ran.stdout.strip() == "set()", ran.stderr


def _environment() -> dict[str, str]:
    return {"PYTHONPATH": str(CLIENT)}


def test_the_version_is_that_of_the_distribution() -> None:
    project = tomllib.loads((CLIENT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["version"] == footvalve_client.__version__


def test_a_users_code_is_typed_to_the_last_field() -> None:
    """The sample has what must pass; and what must not, each with the error that is expected of it."""
    sample = str(Path(__file__).with_name("typing_sample.py"))
    output, errors, code = mypy.run(["--strict", "--config-file", str(PROJECT / "pyproject.toml"), sample])
    assert code == 0, output + errors


SOURCES = [str(CLIENT), str(PROJECT / "service"), sysconfig.get_path("purelib")]
"""Where pyright looks: packages that are installed to be edited lead it nowhere."""


def _pyright(*arguments: str) -> None:
    """Whatever pyright says against the client fails. It brings its own engine, and asks nobody."""
    called = [sys.executable, "-m", "basedpyright", "--pythonpath", sys.executable, *arguments]
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(SOURCES)}
    checked = subprocess.run(called, capture_output=True, text=True, check=False, env=environment, timeout=300)
    assert checked.returncode == 0, checked.stdout + checked.stderr


@pytest.mark.parametrize(
    ("checked", "more"),
    [
        (CLIENT / "footvalve_client", {}),
        (Path(__file__).with_name("typing_sample.py"), {"reportUnnecessaryTypeIgnoreComment": "error"}),
    ],
    ids=["of the client itself", "of the sample, each expected error found"],
)
def test_pyright_finds_nothing_in_its_strict_mode(checked: Path, more: dict[str, str], tmp_path: Path) -> None:
    project = {
        "include": [str(checked)],
        "extraPaths": SOURCES,
        "pythonVersion": "3.11",
        "typeCheckingMode": "strict",
        **more,
    }
    configured = tmp_path / "pyrightconfig.json"
    configured.write_text(json.dumps(project), encoding="utf-8")
    _pyright("--warnings", "--project", str(configured))


def test_pyright_knows_the_type_of_everything_that_is_public() -> None:
    _pyright("--verifytypes", "footvalve_client", "--ignoreexternal")


ASKING = [
    (name, method)
    for name, method in inspect.getmembers(footvalve_client.Footvalve, inspect.isfunction)
    if not name.startswith("_") and name not in ("close", "with_options")
]


@pytest.mark.parametrize(("name", "method"), ASKING, ids=[name for name, _ in ASKING])
def test_a_method_tells_what_it_raises_and_where_its_numbers_come_from(name: str, method: Any) -> None:
    documentation = inspect.getdoc(method) or ""
    assert "aises " in documentation, f"{name} does not tell what it raises"
    if "basis" in getattr(inspect.signature(method).return_annotation, "__struct_fields__", ()):
        assert "`Refused`" in documentation
        assert "`basis`" in documentation
