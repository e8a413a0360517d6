"""Whether the answers of one commit take longer than those of another, in one run and by ratio.

    .venv/bin/python deploy/bench/guard.py [BASE] [HEAD] [--rounds 15] [--seconds 60] [--strict]

By default the last commit is held against the one before it. Each commit's service is laid out in a temporary folder
and answers in a process of its own, both at once and by turns: a few milliseconds of one, then of the other, on the
bodies of the base. Told is what an answer takes, with decoding and encoding, of its process's own processor time; the
least of the rounds, which what else the machine does hardly moves. The rounds are shared out over three pairs of
processes, as one process may be a few per cent slower than another of the same commit for as long as it lives. A body
that seems to take 10 % more is measured once more, with twice the rounds, and is warned of where both say so. Where the
seconds are over, the rounds that are left are not taken.

Warnings change nothing about the exit code, unless --strict is given: then it is 1. It is 0 too, with a line that says
why, where there is no history to compare with, the service is the same in both, or the programs that measure do not fit
one of the commits.
"""

import argparse
import json
import os
import subprocess
import sys
import tarfile
import tempfile
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path
from statistics import geometric_mean
from typing import Any, Final, NamedTuple, TextIO

MOST_RATIO: Final = 1.1
PAIRS: Final = 3
"""Pairs of processes that a comparison starts."""

_PROJECT: Final = Path(__file__).resolve().parents[2]
_SIDE: Final = Path(__file__).with_name("guard_side.py")


class CannotCompare(Exception):
    """There is nothing to compare; the message says why."""


class Took(NamedTuple):
    """Microseconds of an answer at the base and at the head: the least of the rounds."""

    base: float
    head: float

    @property
    def ratio(self) -> float:
        """How many times as long the head takes."""
        return self.head / self.base


def main() -> int:
    """Compare, and print; 1 where it is strict and something takes longer."""
    options = _parser().parse_args()
    try:
        _make_sure_they_differ(options.base, options.head)
        with tempfile.TemporaryDirectory() as folder:
            trees = [_laid_out(options.base, Path(folder, "base")), _laid_out(options.head, Path(folder, "head"))]
            took = compared(trees, options.rounds, options.seconds / 2)
            slower = _slower(took)
            if slower:
                took |= compared(trees, 2 * options.rounds, options.seconds / 2, slower)
                slower = [name for name in slower if took[name].ratio > MOST_RATIO]
    except CannotCompare as reason:
        print(f"guard: nothing is compared: {reason}")
        return 0
    print(_table(took))
    for name in slower:
        print(f"guard: warning: {name} takes {100 * (took[name].ratio - 1):.0f} % more than at {options.base}")
    return 1 if slower and options.strict else 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("base", nargs="?", default="HEAD~1", help="(default: %(default)s)")
    parser.add_argument("head", nargs="?", default="HEAD", help="(default: %(default)s)")
    parser.add_argument("--rounds", type=int, default=15, help="of which the fastest counts (default: %(default)s)")
    parser.add_argument("--seconds", type=float, default=60, help="that it may take, about (default: %(default)s)")
    parser.add_argument("--strict", action="store_true", help="exit with 1 where something takes longer")
    return parser


def _slower(took: Mapping[str, Took]) -> list[str]:
    return [name for name, one in took.items() if one.ratio > MOST_RATIO]


def _make_sure_they_differ(base: str, head: str) -> None:
    """Raises CannotCompare where both commits have the same service, or one of them is not there."""
    one, other = (_git(commit, "rev-parse", f"{commit}:service") for commit in (base, head))
    if one == other:
        raise CannotCompare(f"the service of {base} is that of {head}")


def _laid_out(commit: str, folder: Path) -> Path:
    """The service of a commit as files, without touching the repository. Raises CannotCompare."""
    folder.mkdir()
    packed = folder / "service.tar"
    _git(commit, "archive", f"--output={packed}", commit, "service")
    with tarfile.open(packed) as files:
        files.extractall(folder, filter="data")
    return folder / "service"


def _git(commit: str, *arguments: str) -> str:
    """What git says of a commit. Raises CannotCompare."""
    try:
        said = subprocess.run(["git", "-C", _PROJECT, *arguments], capture_output=True, text=True, check=False)
    except FileNotFoundError:
        raise CannotCompare("there is no git") from None
    if said.returncode != 0:
        raise CannotCompare(f"{commit} cannot be had, as in a clone without history: {said.stderr.strip()}")
    return said.stdout


def compared(trees: Sequence[Path], rounds: int, seconds: float, only: Sequence[str] = ()) -> dict[str, Took]:
    """The times of both by body, of every one or of some; of one round at least. Raises CannotCompare."""
    least: dict[str, Took] = {}
    end = time.monotonic() + seconds
    for _ in range(PAIRS):
        if not least or time.monotonic() < end:
            for name, took in _compared_once(trees, -(-rounds // PAIRS), end, only).items():
                least[name] = Took(*map(min, took, least.get(name, took)))
    return least


def _compared_once(trees: Sequence[Path], rounds: int, end: float, only: Sequence[str]) -> dict[str, Took]:
    """The times of one pair of processes, until that time of the clock."""
    with ExitStack() as until_the_end:
        sides = [until_the_end.enter_context(_side(tree)) for tree in trees]
        bodies = sides[0].asked("cases")
        wanted = {name: bodies[name] for name in only or bodies}
        answered = [set(side.asked("take", wanted)) for side in sides]
        names = [name for name in wanted if all(name in one for one in answered)]
        if not names:
            raise CannotCompare("no body is answered by both")
        times: dict[str, list[list[float]]] = {name: [[], []] for name in names}
        for turn in range(rounds):
            if turn and time.monotonic() > end:
                break
            for name in names:
                for place in (0, 1) if turn % 2 else (1, 0):
                    times[name][place].append(sides[place].asked("time", name))
    return {name: Took(*map(min, taken)) for name, taken in times.items()}


class _Side:
    """A process that answers with the service of one commit."""

    def __init__(self, process: "subprocess.Popen[str]", asking: TextIO, saying: TextIO) -> None:
        self._process = process
        self._asking = asking
        self._saying = saying

    def asked(self, *words: Any) -> Any:
        """What it says to a question. Raises CannotCompare where it has ended."""
        try:
            self._asking.write(json.dumps(words) + "\n")
            self._asking.flush()
            said = self._saying.readline()
        except BrokenPipeError:
            said = ""
        if not said:
            raise CannotCompare("the programs that measure do not fit one of the commits")
        return json.loads(said)


@contextmanager
def _side(tree: Path) -> Iterator[_Side]:
    # the same hashes on both sides, as their order moves times by a few per cent
    environment = os.environ | {"PYTHONPATH": str(tree), "PYTHONHASHSEED": "0"}
    with subprocess.Popen(
        [sys.executable, str(_SIDE), str(tree)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env=environment,
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        try:
            yield _Side(process, process.stdin, process.stdout)
        finally:
            process.kill()  # it holds nothing


def _table(took: Mapping[str, Took]) -> str:
    rows = ["| body | base, us | head, us | ratio |", "|---|--:|--:|--:|"]
    rows += [f"| {name} | {one.base:.0f} | {one.head:.0f} | {one.ratio:.3f} |" for name, one in took.items()]
    mean = geometric_mean(one.ratio for one in took.values())
    return "\n".join([*rows, f"geometric mean of the ratios: {mean:.3f}"])


if __name__ == "__main__":
    sys.exit(main())
