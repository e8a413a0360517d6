"""What the last benchmark over HTTP has found, in short: the table of deploy/bench/BENCHMARK.md. It measures nothing.

.venv/bin/python deploy/bench/in_short.py
"""

import re
from pathlib import Path
from typing import Final

PAGE: Final = Path(__file__).with_name("BENCHMARK.md")


def in_short(page: str) -> str:
    """The one block of text of the page. Raises ValueError where there is none, or are more."""
    (block,) = re.findall(r"^```text\n(.*?)^```$", page, re.MULTILINE | re.DOTALL)
    return str(block)


if __name__ == "__main__":
    print(in_short(PAGE.read_text(encoding="utf-8")), end="")
