"""The key that a request brings, in the header Authorization: Bearer <key> (RFC 6750, section 2.1)."""

import re
from typing import Final

from litestar.types import Scope

from footvalve.web import problem_types as kinds
from footvalve.web.problems import Declined

_BEARER: Final = re.compile(rb"bearer +([A-Za-z0-9._~+/-]{1,512}=*)", re.IGNORECASE)


def presented_key(scope: Scope) -> bytes | None:
    """The key; None where there is no such header. Raises Declined for another scheme, and for two such headers."""
    told = [value for name, value in scope["headers"] if name == b"authorization"]
    if not told:
        return None
    found = _BEARER.fullmatch(told[0].strip()) if len(told) == 1 else None
    if found is None:
        raise unauthenticated("Authorization must be there once, as Bearer, a space and the key.")
    return found[1]


def unauthenticated(detail: str, challenge: bytes = b"Bearer") -> Declined:
    """The refusal of who brings no key that is known."""
    return Declined(kinds.UNAUTHENTICATED, detail, ((b"www-authenticate", challenge),))
