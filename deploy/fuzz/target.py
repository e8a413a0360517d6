"""How a target of the fuzzer is run: with seeds in its corpus, until its time is up or an input breaks a rule."""

import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import NoReturn

import atheris


def fuzz(check: Callable[[bytes], None], seeds: Iterable[bytes] = ()) -> NoReturn:
    """Give the check one input after the other. The command line is libFuzzer's: files to try once, or a folder for the
    corpus, which gets the seeds."""
    for folder in filter(Path.is_dir, map(Path, sys.argv[1:])):
        for number, seed in enumerate(seeds):
            (folder / f"seed-{number:03}").write_bytes(seed)
    atheris.Setup(sys.argv, check)
    atheris.Fuzz()
    raise AssertionError("the fuzzer ends the process itself")
