"""The shape of a body: how deep it nests, and how long its lists are."""

import re
from collections.abc import Sized
from typing import Any, Final

from msgspec import Struct

from footvalve.contract.fault_wording import pointer_to
from footvalve.web import problem_types as kinds
from footvalve.web.problems import Declined

NESTING: Final = 32
"""How deep a body may nest where no setting says otherwise; the contract's own nest far less."""

LONGEST_LIST: Final = 1_000
"""Entries of the longest list that the contract allows."""

_OCTETS_OF_ENTRY: Final = 2
"""Octets that an entry of a list takes at least: one of its own, and a comma."""

_STRING = re.compile(rb'"(?:[^"\\]++|\\.)*+"?', re.DOTALL)
"""A string, or one that never ends: it is gone through once, however many there are."""

_ALIKE: Final = bytes.maketrans(b"{}", b"[]")
_NO_BRACKETS: Final = bytes(set(range(256)) - set(b"[]{}"))


def refuse_deep(raw: bytes, limit: int) -> None:
    """Raises Declined for a body that nests deeper than the limit, without walking it.

    The innermost brackets are taken away layer by layer, whether or not they are of one kind.
    """
    brackets = _STRING.sub(b"", raw).translate(_ALIKE, _NO_BRACKETS)
    layers = 0
    is_deep = b"[" * (limit + 1) in brackets
    while not is_deep and b"[]" in brackets:
        brackets = brackets.replace(b"[]", b"")
        layers += 1
        is_deep = layers > limit
    if is_deep or layers + brackets.count(b"[") > limit:
        raise Declined(kinds.NOT_JSON, f"The body is nested more than {limit} deep, and no sound body is.")


def may_hold_a_list_longer_than(limit: int, raw: bytes) -> bool:
    """Whether it is worth looking: not where the contract allows none, nor in a body that is too short for one."""
    return limit < LONGEST_LIST and len(raw) > _OCTETS_OF_ENTRY * limit


def refuse_long(entries: Sized, limit: int, pointer: str) -> None:
    """Raises Declined for a list of more entries than the limit."""
    if len(entries) > limit:
        detail = f"The list at {pointer} has {len(entries)} entries, and this service takes {limit} at most."
        raise Declined(kinds.TOO_MUCH_WORK, detail)


def refuse_long_lists(body: Any, limit: int, pointer: str = "") -> None:
    """Raises Declined for a decoded body that has a list of more entries than the limit, at the first of them."""
    if isinstance(body, list):
        refuse_long(body, limit, pointer)
        for index, item in enumerate(body):
            refuse_long_lists(item, limit, pointer_to(pointer, index))
    elif isinstance(body, Struct):
        for name, wire_name in zip(body.__struct_fields__, body.__struct_encode_fields__, strict=True):
            refuse_long_lists(getattr(body, name), limit, pointer_to(pointer, wire_name))
