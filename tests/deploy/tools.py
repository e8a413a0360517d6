"""The programs that read the files of deploy/, and the files themselves."""

import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml

DEPLOY = Path(__file__).parents[2] / "deploy"
CONTAINER = DEPLOY / "container"
KUBERNETES = DEPLOY / "kubernetes"
PROXY = DEPLOY / "proxy"
SYSTEMD = DEPLOY / "systemd"

PATIENCE_S = 180

SYSTEM_PATH = ":/usr/sbin"
"""Where Debian puts what only root is thought to want."""


def tool(name: str) -> str:
    """The path of a program. Where it is missing the test is left out and says so, but fails in CI."""
    beside = Path(sys.executable).with_name(name)
    found = str(beside) if beside.exists() else shutil.which(name, path=os.environ.get("PATH", "") + SYSTEM_PATH)
    if not found:
        leave = pytest.fail if os.environ.get("CI") else pytest.skip
        leave(f"{name} is not on this machine")
    return found


def run(*command: str, **more: Any) -> subprocess.CompletedProcess[str]:
    """What a program says that ends by itself."""
    return subprocess.run(command, capture_output=True, text=True, check=False, **{"timeout": PATIENCE_S, **more})


def passes(*command: str, **more: Any) -> str:
    """What a program says that finds nothing wrong."""
    ran = run(*command, **more)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    return ran.stdout


def yaml_of(file: Path) -> Any:
    """The one document of a YAML file."""
    return yaml.safe_load(file.read_text(encoding="utf-8"))


def variables(text: str) -> dict[str, str]:
    """The variables of an environment file."""
    lines = (line.strip() for line in text.splitlines())
    return dict(line.split("=", 1) for line in lines if line and not line.startswith("#"))
