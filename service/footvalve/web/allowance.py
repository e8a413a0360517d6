"""How many requests somebody may send in a time, as an operator writes it: 600/minute."""

import re
from dataclasses import dataclass
from typing import Final

_SECONDS: Final = {"second": 1, "minute": 60, "hour": 3600, "day": 86_400}
_WRITTEN: Final = re.compile(r"([1-9][0-9]{0,8})/(second|minute|hour|day)")


@dataclass(frozen=True, slots=True)
class Allowance:
    """So many requests in so many seconds."""

    requests: int
    seconds: int

    def __str__(self) -> str:
        return f"{self.requests}/{next(name for name, length in _SECONDS.items() if length == self.seconds)}"


def allowance(text: str) -> Allowance:
    """What the text spells. Raises ValueError for anything but a number and second, minute, hour or day.

    >>> allowance("600/minute")
    Allowance(requests=600, seconds=60)
    """
    found = _WRITTEN.fullmatch(text)
    if found is None:
        raise ValueError(f"not an allowance: {text!r}")
    return Allowance(int(found[1]), _SECONDS[found[2]])
