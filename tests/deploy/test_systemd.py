"""The unit is one that systemd takes, and leaves the service little to do harm with."""

import re
import sys
from pathlib import Path

import pytest

from footvalve.command import main
from footvalve.web.settings import Settings

from .tools import PROXY, SYSTEMD, passes, run, tool, variables

UNIT = SYSTEMD / "footvalve@.service"
MOST_EXPOSED = "15"
"""In tenths, of 10 at most: 1.1 is what is left of a service that must talk over the network."""


def told(key: str) -> list[str]:
    """All that the unit says to a key."""
    return re.findall(rf"(?m)^{key}=(.*)$", UNIT.read_text(encoding="utf-8"))


@pytest.fixture
def installed(tmp_path) -> Path:
    """The unit with the program that is on this machine, which systemd looks for."""
    unit = tmp_path / UNIT.name
    program = Path(sys.executable).with_name("footvalve")
    text = UNIT.read_text(encoding="utf-8")
    assert "/opt/footvalve/bin/footvalve" in text
    unit.write_text(text.replace("/opt/footvalve/bin/footvalve", str(program)))
    return unit


def test_systemd_finds_nothing_wrong(installed):
    ran = run(tool("systemd-analyze"), "verify", "--man=no", str(installed))
    assert (ran.returncode, ran.stdout, ran.stderr) == (0, "", "")


def test_systemd_finds_what_is_wrong(installed):
    installed.write_text(installed.read_text().replace("MemoryMax=", "MemoryMost="))
    assert "MemoryMost" in run(tool("systemd-analyze"), "verify", "--man=no", str(installed)).stderr


def test_it_is_hardly_exposed(installed):
    passes(tool("systemd-analyze"), "security", "--offline=true", f"--threshold={MOST_EXPOSED}", str(installed))


def test_the_group_can_be_made():
    passes(tool("systemd-sysusers"), "--dry-run", str(SYSTEMD / "footvalve.sysusers"))
    (group,) = told("SupplementaryGroups")
    assert f"g {group} -" in (SYSTEMD / "footvalve.sysusers").read_text(encoding="utf-8")


def test_its_command_is_one_that_the_service_takes(monkeypatch):
    (command,) = told("ExecStart")
    program, *arguments = command.replace("%i", "8000").split()
    assert program == "/opt/footvalve/bin/footvalve"
    seen = []
    monkeypatch.setattr("footvalve.command.serve", lambda asked: seen.append(asked) or 0)
    assert main(arguments) == 0
    assert (seen[0].host, seen[0].port, seen[0].workers) == ("127.0.0.1", 8000, 1)


def test_the_proxy_asks_the_processes_that_are_started():
    """The comment of the unit starts as many as the proxy of the same machine has in its list."""
    started = re.findall(r"footvalve@(\d+)", UNIT.read_text(encoding="utf-8"))
    asked = re.findall(r"127\.0\.0\.1:(\d+)", (PROXY / "backend-local.cfg").read_text(encoding="utf-8"))
    assert started == asked


def test_it_has_longer_to_stop_than_it_takes():
    settings = Settings.from_environment(variables((SYSTEMD / "footvalve.env").read_text(encoding="utf-8")))
    assert int(told("TimeoutStopSec")[0]) > settings.drain_seconds + settings.stop_seconds


def test_signals_are_those_that_the_service_expects():
    assert (told("KillSignal"), told("KillMode")) == (["SIGTERM"], ["mixed"])
    assert told("ExecReload") == [], "one worker cannot be renewed: the process is restarted"


def test_each_process_tells_its_numbers_on_a_port_of_its_own():
    (environment,) = told("Environment")
    given = variables(environment.replace("%i", "8000").replace(" ", "\n"))
    assert Settings.from_environment(given).metrics_port == 18000
    assert not given.keys() & variables((SYSTEMD / "footvalve.env").read_text(encoding="utf-8")).keys()
