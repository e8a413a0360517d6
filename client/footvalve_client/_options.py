"""How long a call may take, how often it is tried, and with which key."""

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

from msgspec import UNSET, Struct, UnsetType

from footvalve_client._key import Key

if TYPE_CHECKING:
    from footvalve_client._border import Timeouts

TIMEOUT_SECONDS: Final = 10.0
"""How long each phase of a try may take where nobody says."""

DEADLINE_SECONDS: Final = 60.0
"""How long a call may take with all its tries where nobody says."""

MAX_RETRIES: Final = 2
"""How often a call is tried again where nobody says."""

PHASES: Final = ("connect", "read", "write", "pool")

Phases = Mapping[str, float | None]
"""Seconds for each phase of a try; None for no limit."""


class Options(Struct, frozen=True):
    """The options of one client. What is out of range raises ValueError; what is no number, TypeError."""

    phases: Phases | None
    """Seconds for each phase of a try; None for those of the HTTP client."""
    deadline: float | None
    """Seconds for a call with all its tries and the waits between them; None for no limit."""
    max_retries: int
    """How often a call is tried again after its first try."""
    key: Key | None = None
    """What the service knows the caller by; None where it may ask without."""

    @classmethod
    def of(
        cls, timeout: "float | Timeouts | None", deadline: float | None, max_retries: int, key: str | None = None
    ) -> "Options":
        """What a caller says."""
        return cls(_phases(timeout), _deadline(deadline), _count(max_retries), Key.of(key))

    def changed(
        self,
        timeout: "float | Timeouts | UnsetType | None",
        deadline: float | UnsetType | None,
        max_retries: int | UnsetType,
        key: str | UnsetType | None = UNSET,
    ) -> "Options":
        """The same but for what a caller says."""
        return Options(
            self.phases if timeout is UNSET else _phases(timeout),
            self.deadline if deadline is UNSET else _deadline(deadline),
            self.max_retries if max_retries is UNSET else _count(max_retries),
            self.key if key is UNSET else Key.of(key),
        )


def _phases(timeout: "float | Timeouts | None") -> Phases | None:
    if timeout is None:
        return None
    if isinstance(timeout, int | float):
        return dict.fromkeys(PHASES, _seconds("timeout", timeout))
    if not hasattr(timeout, "as_dict"):
        raise TypeError(f"timeout must be a number of seconds or a Timeout of httpx or httpx2, not {timeout!r}")
    return timeout.as_dict()


def _deadline(deadline: float | None) -> float | None:
    if deadline is None or math.isinf(_seconds("deadline", deadline)):
        return None
    return deadline


def _seconds(name: str, seconds: object) -> float:
    if not isinstance(seconds, int | float):
        raise TypeError(f"{name} must be a number of seconds, not {seconds!r}")
    if not seconds > 0:
        raise ValueError(f"{name} must be more than 0 s, not {seconds!r}")
    return seconds


def _count(max_retries: object) -> int:
    if not isinstance(max_retries, int):
        raise TypeError(f"max_retries must be a whole number, not {max_retries!r}")
    if max_retries < 0:
        raise ValueError(f"max_retries must be 0 or more, not {max_retries!r}")
    return max_retries
