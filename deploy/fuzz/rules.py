"""What must hold of whatever is said to any input: a rule that is broken raises AssertionError."""

import json
from collections.abc import Sequence
from typing import Any

import msgspec

from footvalve.contract.faults import MOST_FAULTS, Misfit
from footvalve.contract.problem import Fault, Refused
from footvalve.web import problem_types as kinds
from footvalve.web.problems import Declined, kind_of

LONGEST_DETAIL = 1_000


def told_well(error: Exception, raw: bytes) -> None:
    """What a body ended in is a thing that the service tells its sender, with pointers that lead somewhere.

    Anything else would be an internal error to the caller, and is raised again.
    """
    if kind_of(error) is kinds.INTERNAL_ERROR:
        raise error
    assert str(error).isprintable(), f"not printable: {error!r}"
    if isinstance(error, Misfit | Refused):
        assert 0 < len(error.faults) <= MOST_FAULTS, "too many faults, or none"
        _lead_somewhere(error.faults, json.loads(raw, parse_int=float))
    elif isinstance(error, Declined):
        assert error.kind.status < 500, error


def _lead_somewhere(faults: Sequence[Fault], body: Any) -> None:
    for fault in faults:
        assert fault.detail, f"{fault.pointer} without a word"
        assert len(fault.detail) <= LONGEST_DETAIL, f"{fault.pointer}: {len(fault.detail)} characters"
        assert leads_somewhere(fault.pointer, body), f"{fault.pointer!r} leads nowhere"


def leads_somewhere(pointer: str, body: Any) -> bool:
    """Whether a JSON Pointer leads to a value, or to where one is missing from its object."""
    if not pointer:
        return True
    if not pointer.startswith("/"):
        return False
    *way, last = (part.replace("~1", "/").replace("~0", "~") for part in pointer[1:].split("/"))
    for part in way:
        if isinstance(body, dict) and part in body:
            body = body[part]
        elif isinstance(body, list) and part.isdecimal() and int(part) < len(body):
            body = body[int(part)]
        else:
            return False
    return isinstance(body, dict) or (isinstance(body, list) and last.isdecimal() and int(last) < len(body))


def decoded_well(decoded: msgspec.Struct, raw: bytes) -> None:
    """A body that was taken is JSON, has no key twice, and means what Python's own decoder makes of it."""
    told = json.loads(raw.decode("utf-8"), object_pairs_hook=_each_key_once, parse_constant=_no_number)
    assert _holds(msgspec.to_builtins(decoded), told), f"taken for {decoded}"


def _each_key_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    assert len(found) == len(pairs), "a key stands twice"
    return found


def _no_number(word: str) -> Any:
    raise AssertionError(f"{word} was taken for a number")


def _holds(decoded: Any, told: Any) -> bool:
    """Whether all that was told stands in what was decoded, which also has the defaults of what was not."""
    match told:
        case dict():
            return isinstance(decoded, dict) and all(k in decoded and _holds(decoded[k], v) for k, v in told.items())
        case list():
            return isinstance(decoded, list) and len(decoded) == len(told) and all(map(_holds, decoded, told))
        case bool():
            return decoded is told
    return bool(decoded == told)
