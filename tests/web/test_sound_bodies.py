"""Bodies that keep the schema and the ranges: an answer comes, or a refusal with reasons, and no number is amiss.

The fuzzer of the contract draws magnitudes without regard to the ranges, so most of its bodies are refused at once.
These come through to physics.
"""

import json
import logging
from typing import get_type_hints

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec import inspect

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.quantities import Quantity
from footvalve.contract.ranges import range_in
from footvalve.quantity import wire_units
from footvalve.web.problem_types import BEYOND_RECKONING


def bodies(struct):
    """Bodies of a Struct, with every quantity inside its field's range."""
    return _objects(inspect.type_info(struct))


def _objects(info):
    hints = get_type_hints(info.cls, include_extras=True)
    required, optional = {}, {}
    for field in info.fields:
        found = range_in(hints[field.name])
        members = _values(field.type, found[1] if found else None)
        (required if field.required else optional)[field.encode_name] = members
    if info.tag is not None:
        required[info.tag_field] = st.just(info.tag)
    return st.fixed_dictionaries(required, optional=optional)


def _quantities(info, within):
    @st.composite
    def drawn(draw):
        unit = draw(st.sampled_from(wire_units(info.cls.__name__)))
        low, high = within.ends_in(unit) if within else (0.0, 1e9)
        return {"value": draw(st.one_of(st.sampled_from([low, high]), st.floats(low, high))), "unit": unit}

    return drawn()


def _values(info, within):  # noqa: PLR0911 - one line for each kind of type
    match info:
        case inspect.Metadata():
            return _values(info.type, within)
        case inspect.StructType() if issubclass(info.cls, Quantity):
            return _quantities(info, within)
        case inspect.StructType():
            return _objects(info)
        case inspect.UnionType():
            return st.one_of(*(_values(member, within) for member in info.types))
        case inspect.ListType():
            most = min(info.max_length or 6, 6)
            return st.lists(
                _values(info.item_type, within), min_size=info.min_length or 0, max_size=max(most, info.min_length or 0)
            )
        case inspect.LiteralType():
            return st.sampled_from(info.values)
        case inspect.FloatType():
            low, high = (info.ge if info.ge is not None else info.gt), (info.le if info.le is not None else info.lt)
            return st.floats(low, high, exclude_min=info.gt is not None, exclude_max=info.lt is not None)
        case inspect.IntType():
            return st.integers(info.ge, info.le)
        case inspect.StrType():
            return st.from_regex(info.pattern, fullmatch=True) if info.pattern else st.text(max_size=info.max_length)
        case inspect.BoolType():
            return st.booleans()
    raise NotImplementedError(f"teach this test to draw {info}")


@pytest.mark.parametrize("endpoint", ENDPOINTS, ids=lambda endpoint: endpoint.name)
def test_a_sound_body_is_answered_or_refused_with_reasons(endpoint, post, caplog):
    """Where this fails on BEYOND_RECKONING, let the answer raise Refused with a pointer: the log tells where."""
    caplog.set_level(logging.INFO, "footvalve")

    @settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(bodies(endpoint.request))
    def check(body):
        caplog.clear()
        response = post(endpoint.name, json.dumps(body).encode())
        assert response.status_code in (200, 422), response.text
        if response.status_code == 200:
            msgspec.json.decode(response.content, type=endpoint.answer)
        elif response.json()["type"] == BEYOND_RECKONING.uri:
            assert [record.exc_info[0] for record in caplog.records] == [ArithmeticError], caplog.text

    check()
