"""What a JSON Pointer (RFC 6901) of ours leads to in a Struct: to be read, and to be put in anew."""

from collections.abc import Callable, Iterable, Sequence
from functools import cache
from typing import Any, TypeVar

import msgspec
from msgspec import UNSET, Struct
from msgspec.structs import replace

Body = TypeVar("Body")
Change = tuple[Sequence[str], Callable[[Any], Any]]
"""The steps of a pointer, and what becomes of what they lead to."""


def tokens(pointer: str) -> tuple[str, ...]:
    """The steps of a pointer. The names and places that ours are made of need no escapes."""
    return tuple(pointer.split("/")[1:])


def value_at(body: Any, pointer: str) -> Any:
    """What stands at a pointer; UNSET where it ends before. Raises AttributeError for a field that there is not."""
    for token in tokens(pointer):
        if body is UNSET:
            return UNSET
        body = body[int(token)] if isinstance(body, list) else getattr(body, _field(type(body), token))
    return body


def changed_at(body: Body, path: Sequence[str], change: Callable[[Any], Any]) -> Body:
    """The body with something else where the steps of a pointer lead to, and all else as it was."""
    if not path:
        return change(body)  # type: ignore[no-any-return]
    token, rest = path[0], path[1:]
    if isinstance(body, list):
        index = int(token)
        return [*body[:index], changed_at(body[index], rest, change), *body[index + 1 :]]  # type: ignore[return-value]
    assert isinstance(body, Struct), f"{token!r} leads into what has no parts"
    name = _field(type(body), token)
    return replace(body, **{name: changed_at(getattr(body, name), rest, change)})


def changed_together(body: Body, changes: Iterable[Change]) -> Body:
    """The body with several things changed, each as by `changed_at`. None lies within another, and what holds several
    is put in anew once."""
    assert isinstance(body, Struct), "what has no fields is changed by `changed_at`"
    inside: dict[str, list[Change]] = {}
    for path, change in changes:
        inside.setdefault(_field(type(body), path[0]), []).append((path[1:], change))
    return replace(body, **{name: _changed_within(getattr(body, name), there) for name, there in inside.items()})


def _changed_within(body: Any, changes: Sequence[Change]) -> Any:
    if len(changes) > 1:
        return changed_together(body, changes)
    ((path, change),) = changes
    return changed_at(body, path, change)


def _field(struct: type[Struct], wire_name: str) -> str:
    return _fields(struct).get(wire_name, wire_name)


@cache
def _fields(struct: type[Struct]) -> dict[str, str]:
    return {field.encode_name: field.name for field in msgspec.structs.fields(struct)}
