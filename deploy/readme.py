"""Bring what the README shows up to date: what the commands say, the answers, and what the programs print.

    .venv/bin/python deploy/readme.py [--check] [URL]

A block of `sh` or `python` is run; the block of `json` or `text` that follows shows its outcome, and a shown part of an
answer keeps its fields. Without a URL the service is started for the while. --check writes nothing and exits with 1
where something shown is out of date.
"""

import argparse
import contextlib
import io
import json
import re
import shlex
import subprocess
import sys
from difflib import unified_diff
from pathlib import Path
from typing import Any

import httpx
from running_service import running_service

from footvalve_client import Footvalve

ROOT = Path(__file__).parents[1]
SHOWN_AT = "http://127.0.0.1:8000"
FOOTVALVE, PYTHON = ".venv/bin/footvalve", ".venv/bin/python"
WIDTH = 100
SHOWN = re.compile(
    r"^```(sh|python)\n(?P<asked>(?:(?!```).)*?)^```\n(?P<between>[^`]*?)^```(json|text)\n(?P<outcome>.*?)^```",
    re.M | re.S,
)


def refreshed(text: str, url: str) -> str:
    """The README with every outcome as it is now."""
    with httpx.Client(trust_env=False) as direct:
        return SHOWN.sub(lambda found: _with_outcome(found, url, direct), text)


def _with_outcome(found: re.Match[str], url: str, direct: httpx.Client) -> str:
    kind, asked, between, shape, outcome = found.groups()
    if shape == "json":
        now = _laid_out(_like(json.loads(outcome), _posted(asked, url, direct))) + "\n"
    else:
        now = _printed(asked, url, direct) if kind == "python" else _told(asked.strip(), url)
    return f"```{kind}\n{asked}```\n{between}```{shape}\n{now}```"


def _posted(command: str, url: str, direct: httpx.Client) -> Any:
    """What a curl command gets, without curl."""
    words = shlex.split(command)
    address = next(word for word in words if word.startswith(SHOWN_AT))
    name, _, value = words[words.index("-H") + 1].partition(": ")
    body = words[words.index("-d") + 1]
    response = direct.post(address.replace(SHOWN_AT, url), content=body, headers={name: value})
    response.raise_for_status()
    return response.json()


def _like(shown: Any, answer: Any) -> Any:
    """The fields of an answer that are shown, at the first level; whole values below."""
    return {key: answer[key] for key in shown}


def _laid_out(value: Any, indent: int = 0) -> str:
    """JSON with short things on one line."""
    line, pad = json.dumps(value), "  " * indent
    if len(line) + len(pad) <= WIDTH or not isinstance(value, dict | list):
        return line
    if isinstance(value, list):
        items = [_laid_out(item, indent + 1) for item in value]
        return "[\n" + ",\n".join(f"{pad}  {item}" for item in items) + f"\n{pad}]"
    pairs = [f"{json.dumps(key)}: {_laid_out(item, indent + 1)}" for key, item in value.items()]
    return "{\n" + ",\n".join(f"{pad}  {pair}" for pair in pairs) + f"\n{pad}}}"


def _printed(program: str, url: str, direct: httpx.Client) -> str:
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        exec(program, {"service": Footvalve(url, http_client=direct)})
    return printed.getvalue()


def _told(command: str, url: str) -> str:
    """What a command says: the demo without setting up anew, footvalve itself, or a program of this environment."""
    program, *arguments = shlex.split(command)
    if program == FOOTVALVE:
        called = [str(Path(sys.executable).with_name("footvalve")), *arguments]
    elif program == PYTHON:
        called = [sys.executable, *arguments]
    else:
        called = [sys.executable, "deploy/demo/show.py", url, "deploy/demo/site-us.json"]
    return subprocess.run(called, cwd=ROOT, capture_output=True, text=True, check=True).stdout


def main() -> int:
    """Write the README, or show what is out of date in it."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument(
        "--check", action="store_true", help="write nothing; exit with 1 where something is out of date"
    )
    parser.add_argument("url", nargs="?", help="a service that is up")
    asked = parser.parse_args()
    readme = ROOT / "README.md"
    stands = readme.read_text(encoding="utf-8")
    with running_service(asked.url) as url:
        now = refreshed(stands, url)
    if not asked.check:
        readme.write_text(now, encoding="utf-8")
        return 0
    sys.stdout.writelines(unified_diff(stands.splitlines(True), now.splitlines(True), "README.md", "as it is now"))
    return int(stands != now)


if __name__ == "__main__":
    sys.exit(main())
