"""Every setting that a file of deploy/ names is one, and holds what the service takes."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from footvalve.serving.start_checks import check_start
from footvalve.web.key_making import entry_of, made_key
from footvalve.web.settings import SETTINGS, Settings

from .tools import CONTAINER, DEPLOY, KUBERNETES, SYSTEMD, variables, yaml_of

KNOWN = {setting.variable for setting in SETTINGS}
FOLDERS = ("container", "kubernetes", "proxy", "systemd")


def files() -> Iterator[Path]:
    """Every file by which the service is run, and what tells of them."""
    for folder in FOLDERS:
        yield from (file for file in (DEPLOY / folder).rglob("*") if file.is_file())
    yield DEPLOY / "RUNBOOK.md"


def environments() -> Iterator[tuple[str, dict[str, str]]]:
    """Every environment that the files give to the service."""
    yield "compose", yaml_of(CONTAINER / "compose.yaml")["services"]["footvalve"]["environment"]
    base = variables((KUBERNETES / "base/settings.env").read_text(encoding="utf-8"))
    yield "base", base
    for overlay in sorted((KUBERNETES / "overlays").iterdir()):
        yield overlay.name, base | variables((overlay / "settings.env").read_text(encoding="utf-8"))
    told = (SYSTEMD / "footvalve.env").read_text(encoding="utf-8")
    yield "systemd", variables(told)
    yield "systemd, with all that is offered", variables(re.sub(r"(?m)^#(?=FOOTVALVE_)", "", told))


EACH_ENVIRONMENT = pytest.mark.parametrize(
    ("place", "environment"), list(environments()), ids=lambda told: told if isinstance(told, str) else ""
)


@pytest.mark.parametrize("file", list(files()), ids=lambda file: str(file.relative_to(DEPLOY)))
def test_every_setting_that_is_named_is_one(file):
    assert set(re.findall(r"FOOTVALVE_[A-Z_]+", file.read_text(encoding="utf-8"))) <= KNOWN


@EACH_ENVIRONMENT
def test_the_service_starts_with_it(place, environment, tmp_path):
    """On an address that others reach. The file of the keys is not on this machine: another stands for it."""
    if "FOOTVALVE_KEYS_FILE" in environment:
        there = tmp_path / "keys"
        there.write_text(entry_of("shop", made_key()), encoding="utf-8")
        environment = environment | {"FOOTVALVE_KEYS_FILE": str(there)}
    settings = Settings.from_environment(environment)
    assert settings != Settings(), place
    check_start(settings, "0.0.0.0", 1)


@EACH_ENVIRONMENT
def test_who_limits_by_address_believes_a_proxy(place, environment):
    """Else every caller would have the proxy's address, and they would share one allowance."""
    if "FOOTVALVE_ANONYMOUS_LIMIT" in environment:
        assert environment.get("FOOTVALVE_TRUSTED_PROXIES"), place
