"""The id by which a request is found again: the caller's own, or else one that is made here."""

import re
import secrets
from itertools import count

from litestar.types import Scope

_ACCEPTABLE = re.compile(rb"[0-9A-Za-z-]{1,64}")


def request_id(scope: Scope) -> str:
    """The request's id; the same at every call for one request."""
    state = scope["state"]
    known: str | None = state.get("request_id")
    if known is None:
        known = state["request_id"] = _given(scope) or made_id()
    return known


def _given(scope: Scope) -> str | None:
    for name, value in scope["headers"]:
        if name == b"x-request-id":
            return value.decode("ascii") if _ACCEPTABLE.fullmatch(value) else None
    return None


def _process_part() -> str:
    """The random first part of a UUID of version 8 (RFC 9562), drawn once a process."""
    drawn = secrets.token_hex(9)
    return f"{drawn[:8]}-{drawn[8:12]}-8{drawn[12:15]}-b{drawn[15:18]}-"


_PROCESS = _process_part()
_NUMBERS = count()


def made_id() -> str:
    """A new UUID of version 8: the process's random part, and a running number. A tenth of the cost of a random one."""
    return f"{_PROCESS}{next(_NUMBERS):012x}"
