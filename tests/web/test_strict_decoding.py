"""Strict decoding: keys that stand twice are found by counting quotes, and that count must never be wrong."""

import json
import time
from collections import Counter
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.contract.faults import Misfit
from footvalve.web.strict_decoding import strict_decoder


class Anything(msgspec.Struct):
    """Takes any member."""

    a: Any = None


class Members(list[tuple[str, Any]]):
    """An object as its members stand in the text."""


TEXT = st.text(st.sampled_from('ab"\\\\:{},[]\u00e9\n\u2028'), max_size=4)
VALUES = st.recursive(
    st.one_of(st.none(), st.integers(0, 9), TEXT),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.lists(st.tuples(TEXT, inner), max_size=3).map(Members)),
    max_leaves=10,
)
OBJECTS = st.lists(st.tuples(TEXT, VALUES), max_size=4).map(Members)


def written(value, ascii_only):
    """The JSON text of a value."""
    match value:
        case Members():
            members = (f"{json.dumps(k, ensure_ascii=ascii_only)} : {written(v, ascii_only)}" for k, v in value)
            return "{" + ", ".join(members) + "}"
        case list():
            return "[" + ", ".join(written(item, ascii_only) for item in value) + "]"
    return json.dumps(value, ensure_ascii=ascii_only)


def repeats(value):
    """Whether a key stands twice in one object of a value."""
    if isinstance(value, Members):
        twice = any(times > 1 for times in Counter(key for key, _ in value).values())
        return twice or any(repeats(member) for _, member in value)
    return isinstance(value, list) and any(map(repeats, value))


@given(OBJECTS, st.booleans())
def test_a_key_that_stands_twice_is_always_found_and_never_imagined(members, ascii_only):
    decode = strict_decoder(Anything)
    raw = written(members, ascii_only).encode()
    if repeats(members):
        with pytest.raises(Misfit, match="more than once"):
            decode(raw)
    else:
        assert decode(raw).a == msgspec.json.decode(raw).get("a")


def test_a_body_of_faults_at_the_limit_is_refused_quickly():
    """What is refused must not bind the process: about a quarter of a megabyte, in this process's own time."""
    raw = b'{"a": 1, "a": [' + b'{"x": 1e0, "y": "z"}, ' * 11_000 + b"{}]}"
    decode, start = strict_decoder(Anything), time.process_time()
    with pytest.raises(Misfit):
        decode(raw)
    assert time.process_time() - start < 1.0
