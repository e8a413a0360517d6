"""What the README shows is what happens: its commands, its requests, its programs and their output."""

import contextlib
import io
import json
import re
import shlex
import subprocess
import sys
from itertools import pairwise
from pathlib import Path
from typing import Any

import httpx
import pytest

from footvalve.answers.endpoints import ENDPOINTS
from footvalve_client import Footvalve

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
SHOWN_AT = "http://127.0.0.1:8000"
BLOCKS = re.findall(r"^```(\w+)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def pairs(first: str, second: str) -> list[Any]:
    """The blocks of one kind that the next block of another kind shows the outcome of."""
    return [(a, b) for (kind, a), (next_kind, b) in pairwise(BLOCKS) if (kind, next_kind) == (first, second)]


def posted(command: str, base_url: str) -> httpx.Response:
    """What a curl command of the README does, without curl."""
    words = shlex.split(command)
    url = next(word for word in words if word.startswith(SHOWN_AT))
    header, body = words[words.index("-H") + 1], words[words.index("-d") + 1]
    name, _, value = header.partition(": ")
    return httpx.post(url.replace(SHOWN_AT, base_url), content=body, headers={name: value})


def shows(part: Any, whole: Any) -> bool:
    """Whether everything in a part of an answer stands in the whole."""
    if isinstance(part, dict):
        return isinstance(whole, dict) and all(key in whole and shows(part[key], whole[key]) for key in part)
    return bool(part == whole)


def test_every_endpoint_has_a_request_and_a_program():
    for endpoint in ENDPOINTS:
        assert f"{SHOWN_AT}/v1/{endpoint.name} " in README, f"add a curl example of {endpoint.name} to the README"
        method = endpoint.name.replace("-", "_")
        assert f"service.{method}(" in README, f"add an example of the client's {method} to the README"


@pytest.mark.parametrize(("command", "shown"), pairs("sh", "json"))
def test_a_request_gets_the_answer_that_is_shown(command: str, shown: str, base_url: str):
    """Where an answer has changed for good, write the new one into the README."""
    response = posted(command, base_url)
    assert response.status_code == 200, response.text
    assert shows(json.loads(shown), response.json()), json.dumps(response.json(), indent=2)


@pytest.mark.parametrize(("program", "shown"), pairs("python", "text"))
def test_a_program_prints_what_is_shown(program: str, shown: str, base_url: str):
    """Where an answer has changed for good, write the new output into the README."""
    printed = io.StringIO()
    with Footvalve(base_url) as service, contextlib.redirect_stdout(printed):
        exec(program, {"service": service})  # the README's own text
    assert printed.getvalue() == shown


def test_the_demo_prints_what_is_shown(base_url: str):
    """Where an answer has changed for good, write the new output into the README."""
    assert demo(base_url, "site-us.json") == next(shown for command, shown in pairs("sh", "text") if "try" in command)


def test_the_demo_site_has_the_same_verdict_in_either_system(base_url: str):
    """Both files tell of one site; the metric one is converted exactly."""
    us, metric = (json.loads((ROOT / "deploy/demo" / f"site-{system}.json").read_text()) for system in ("us", "metric"))
    name = "suction-feasibility"
    in_us = httpx.post(f"{base_url}/v1/{name}", json=us[name]).json()
    in_metric = httpx.post(f"{base_url}/v1/{name}", json={**metric[name], "units": "us"}).json()
    assert {**in_us, "warnings": []} == {**in_metric, "warnings": []}
    assert "FEASIBLE" in demo(base_url, "site-metric.json")


def demo(base_url: str, site: str) -> str:
    command = [sys.executable, "deploy/demo/show.py", base_url, f"deploy/demo/{site}"]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout


def test_the_two_commands_stand_in_the_readme():
    """A new user sets up and tries with one, and checks everything with the other."""
    commands = [block.strip() for kind, block in BLOCKS if kind == "sh"]
    assert commands[0] == "sh deploy/try.sh"
    assert "sh deploy/test.sh" in commands
