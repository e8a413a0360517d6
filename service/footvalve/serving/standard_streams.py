"""The standard streams of a service: one that is closed or cannot be written to harms nobody."""

import contextlib
import os
import sys


def fill_gaps() -> None:
    """Open the null device for each standard stream that is closed, so that no socket takes its number."""
    for descriptor in range(3):
        try:
            os.fstat(descriptor)
        except OSError:
            os.open(os.devnull, os.O_RDWR)  # the lowest number that is free, which is this one


def say(line: str) -> None:
    """Write a line to the standard output, if anybody can read it there."""
    _write(1, line)


def complain(line: str) -> None:
    """Write a line to the standard error, if anybody can read it there."""
    _write(2, line)


def _write(descriptor: int, line: str) -> None:
    with contextlib.suppress(OSError):
        os.write(descriptor, f"{line}\n".encode(errors="replace"))


def let_go() -> None:
    """Forget what could not be written: at the end it would be tried again, and spoil the exit code."""
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        try:
            if stream is not None:
                stream.flush()
        except (OSError, ValueError):
            setattr(sys, name, None)
