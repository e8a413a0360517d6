"""What the README shows is what happens: its commands, its requests, its programs and their output."""

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import httpx
import pytest

from footvalve.answers.endpoints import ENDPOINTS

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
SHOWN_AT = "http://127.0.0.1:8000"


def test_every_endpoint_has_a_request_and_a_program():
    for endpoint in ENDPOINTS:
        assert f"{SHOWN_AT}/v1/{endpoint.name} " in README, f"add a curl example of {endpoint.name} to the README"
        method = endpoint.name.replace("-", "_")
        assert f"service.{method}(" in README, f"add an example of the client's {method} to the README"


def test_what_the_readme_shows_is_what_happens(base_url: str):
    """Where an answer has changed for good: .venv/bin/python deploy/readme.py"""
    command = [sys.executable, "deploy/readme.py", "--check", base_url]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("name", ["sounding", "well-recovery", "suction-feasibility", "friction", "tank-cycle"])
def test_the_demo_site_has_the_same_answers_in_either_system(name: str, base_url: str):
    """Both files tell of one site; the metric one is converted exactly."""
    us, metric = (section(system, name) for system in ("us", "metric"))
    if name == "suction-feasibility":
        us["depth_to_water"], metric["depth_to_water"] = {"value": 17, "unit": "ft"}, {"value": 5.1816, "unit": "m"}
    in_us = httpx.post(f"{base_url}/v1/{name}", json=us)
    in_metric = httpx.post(f"{base_url}/v1/{name}", json=metric)
    assert in_us.status_code == 200, in_us.text
    assert in_us.json() == in_metric.json()


def section(system: str, name: str) -> dict[str, Any]:
    """One question of the demo site in either system of units, to be answered in US units."""
    site = json.loads((ROOT / f"deploy/demo/site-{system}.json").read_text(encoding="utf-8"))
    return {"units": "us", "site": site["site"], **site[name]}


def test_the_demo_in_metric_units_gives_the_same_verdict(base_url: str):
    """The number that the README lets its reader change is far enough from turning the verdict by rounding."""
    assert "FEASIBLE" in demo(base_url, "site-metric.json")


def demo(base_url: str, site: str) -> str:
    command = [sys.executable, "deploy/demo/show.py", base_url, f"deploy/demo/{site}"]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout


def test_the_two_commands_stand_in_the_readme():
    """A new user sets up and tries with one, and checks everything with the other."""
    commands = [block.strip() for block in re.findall(r"^```sh\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)]
    assert commands[0] == "sh deploy/try.sh"
    assert "sh deploy/test.sh" in commands
