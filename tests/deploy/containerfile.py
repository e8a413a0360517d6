"""What the Containerfile says, instruction by instruction."""

import json
from typing import NamedTuple

from .tools import CONTAINER

FILE = CONTAINER / "Containerfile"


class Instruction(NamedTuple):
    """One instruction of a Containerfile with what follows it, on one line."""

    word: str
    rest: str


def instructions() -> list[Instruction]:
    """All of them, in order."""
    lines = [line for line in FILE.read_text(encoding="utf-8").splitlines() if not line.lstrip().startswith("#")]
    joined = "\n".join(lines).replace("\\\n", " ")
    return [Instruction(*line.split(maxsplit=1)) for line in joined.splitlines() if line.strip()]


def final_stage() -> dict[str, str]:
    """The last stage by its instructions; of one that comes often the last."""
    every = instructions()
    last = max(index for index, instruction in enumerate(every) if instruction.word == "FROM")
    return dict(every[last:])


def command() -> list[str]:
    """What the image runs: its entry point with its arguments."""
    stage = final_stage()
    return json.loads(stage["ENTRYPOINT"]) + json.loads(stage["CMD"])
