"""Bring what the client's guide and README show up to date: what the programs print, and what the command says.

    .venv/bin/python deploy/guide.py [--check] [URL]

The blocks of `python` in one page are run from the first to the last as one program; those of `toml` are files that lie
beside it, under the name that stands before them; those of `sh` call footvalve-check on them. The block of `text` that
follows shows what was printed. Without a URL the service is started for the while. --check writes nothing and exits
with 1 where something shown is out of date.
"""

import argparse
import contextlib
import io
import os
import re
import shlex
import sys
import tempfile
from dataclasses import dataclass
from difflib import unified_diff
from pathlib import Path
from typing import Any

from running_service import running_service

from footvalve_client.check.command import main as footvalve_check

ROOT = Path(__file__).parents[1]
PAGES = ("client/README.md", "client/GUIDE.md")
SHOWN_AT = "http://127.0.0.1:8000"
WIDTH = 100
SHOWN_ID = "5f0c41d2a9b84e6f9d2c7a10b3e8f654"
"""Stands for any request id, as each is another one."""

_BLOCK = re.compile(r"^```(?P<kind>\w+)\n(?P<inside>.*?)^```$", re.MULTILINE | re.DOTALL)
_FILE_NAME = re.compile(r"`([\w-]+\.toml)`")
_REQUEST_ID = re.compile(r"\b[0-9a-f]{32}\b")


@dataclass
class Page:
    """A page whose blocks are run in their order."""

    name: str
    text: str
    url: str
    folder: Path

    def __post_init__(self) -> None:
        self._names: dict[str, Any] = {"__name__": self.name}

    def refreshed(self) -> str:
        """The page with every outcome as it is now. Raises SystemExit where a block prints what is not shown."""
        pieces, done, printed = [], 0, ""
        for block in _BLOCK.finditer(self.text):
            kind, inside = block.groups()
            if kind == "text":
                pieces += [self.text[done : block.start()], f"```text\n{printed}```"]
                done, printed = block.end(), ""
                continue
            if printed:
                raise SystemExit(f"{self._place(block)}: show what the block before it prints in a block of text")
            printed = self._outcome(kind, inside, block)
        return "".join([*pieces, self.text[done:]])

    def _outcome(self, kind: str, inside: str, block: re.Match[str]) -> str:
        match kind:
            case "python":
                return self._as_shown(self._printed(inside, block))
            case "toml":
                *_, name = _FILE_NAME.findall(self.text[: block.start()])
                (self.folder / name).write_text(inside, encoding="utf-8")
            case "sh" if "footvalve-check" in inside:
                return self._as_shown(self._told(inside.strip()))
        return ""

    def _printed(self, program: str, block: re.Match[str]) -> str:
        line = self.text.count("\n", 0, block.start()) + 1
        code = compile("\n" * line + program.replace(SHOWN_AT, self.url), self.name, "exec")
        with contextlib.redirect_stdout(io.StringIO()) as printed, contextlib.chdir(self.folder):
            exec(code, self._names)
        return printed.getvalue()

    def _told(self, command: str) -> str:
        """What footvalve-check says; where the shell is asked for its exit code, that too."""
        checked, _, code_asked = command.partition("; ")
        _, *arguments = shlex.split(checked)
        told = io.StringIO()
        with contextlib.redirect_stdout(told), contextlib.redirect_stderr(told), contextlib.chdir(self.folder):
            code = footvalve_check(arguments)
        return told.getvalue() + (f"{code}\n" if code_asked else "")

    def _as_shown(self, printed: str) -> str:
        lines = (line.rstrip() for line in printed.replace(self.url, SHOWN_AT).splitlines())
        return _REQUEST_ID.sub(SHOWN_ID, "".join(f"{line}\n" for line in lines))

    def _place(self, block: re.Match[str]) -> str:
        return f"{self.name}:{self.text.count(chr(10), 0, block.start()) + 1}"


def main() -> int:
    """Write the pages, or show what is out of date in them."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument(
        "--check", action="store_true", help="write nothing; exit with 1 where something is out of date"
    )
    parser.add_argument("url", nargs="?", help="a service that is up")
    asked = parser.parse_args()
    for name in ("FORCE_COLOR", "TTY_COMPATIBLE"):
        os.environ.pop(name, None)
    stale = False
    with running_service(asked.url) as url:
        os.environ |= {"FOOTVALVE_URL": url, "COLUMNS": str(WIDTH)}
        for name in PAGES:
            stands = (ROOT / name).read_text(encoding="utf-8")
            with tempfile.TemporaryDirectory() as folder:
                now = Page(name, stands, url, Path(folder)).refreshed()
            if not asked.check:
                (ROOT / name).write_text(now, encoding="utf-8")
            sys.stdout.writelines(unified_diff(stands.splitlines(True), now.splitlines(True), name, "as it is now"))
            stale = stale or stands != now
    return int(stale and asked.check)


if __name__ == "__main__":
    sys.exit(main())
