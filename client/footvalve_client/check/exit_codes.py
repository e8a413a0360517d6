"""What the command's exit code tells a script."""

from enum import IntEnum
from typing import Final


class ExitCode(IntEnum):
    """0 to 2 are verdicts; the others are errors."""

    FEASIBLE = 0
    MARGINAL = 1
    INFEASIBLE = 2
    REFUSED = 3
    UNREADABLE = 4
    NO_SERVICE = 5
    WRONG_USE = 6
    FAULT = 7
    INTERRUPTED = 130


BY_VERDICT: Final = {"feasible": ExitCode.FEASIBLE, "infeasible": ExitCode.INFEASIBLE}
"""Any other verdict, of a newer service too, is no clear yes and no clear no: 1."""

TOLD: Final = """\
exit code:
  0  feasible
  1  marginal
  2  infeasible
  3  the site in the file was refused; what is wrong stands on the standard error
  4  the file cannot be read, or the answer or the sheet not be written
  5  no service, or it failed
  6  wrong use of this command
  7  a fault of this command itself
  130  interrupted
"""


class CheckFailed(Exception):
    """There is no verdict; the message says why, in whole lines."""

    def __init__(self, code: ExitCode, message: str) -> None:
        super().__init__(message)
        self.code = code
