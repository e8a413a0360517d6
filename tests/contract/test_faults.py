"""Every fault of a refused body, each with a JSON Pointer, in one answer, in words that help."""

import copy
from typing import Annotated, Literal

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec import UNSET, Meta, Struct, UnsetType

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.examples import examples
from footvalve.contract.faults import MOST_FAULTS, Misfit, faults_in, fitted
from footvalve.contract.quantities import Length
from footvalve.contract.ranges import Within


class Straight(Struct, forbid_unknown_fields=True, tag_field="part", tag="straight"):
    length: Annotated[Length, Within(0.0, 100.0)]


class Bend(Struct, forbid_unknown_fields=True, tag_field="part", tag="bend"):
    turns: Annotated[int, Meta(ge=1, le=4)] = 1


class Body(Struct, forbid_unknown_fields=True):
    depth: Annotated[Length, Within(-10.0, 50.0)]
    parts: Annotated[list[Straight | Bend], Meta(min_length=1, max_length=3)]
    kind: Literal["cold", "warm"] = "cold"
    name: Annotated[str, Meta(min_length=1, max_length=8, pattern="^[a-z]+$")] | UnsetType = UNSET
    depths: list[Annotated[Length, Within(0.0, 5.0)]] | UnsetType = UNSET
    ratio: Annotated[float, Meta(gt=0, lt=1)] | UnsetType = UNSET
    wet: bool | UnsetType = UNSET
    slope: float | Length | UnsetType = UNSET


SOUND = {"depth": {"value": 5, "unit": "m"}, "parts": [{"part": "bend"}]}
QUANTITY = 'an object such as {"value": 1, "unit": "m"}'

FAULTS = [
    ({"depth": 14}, "/depth", 'expected an object such as {"value": 14, "unit": "m"}, got the number 14'),
    ({"depth": "14 ft"}, "/depth", f'expected {QUANTITY}, got the string "14 ft"'),
    ({"depth": []}, "/depth", f"expected {QUANTITY}, got an array"),
    ({"depth": None}, "/depth", f"expected {QUANTITY}, got null"),
    ({"depth": {"unit": "m"}}, "/depth/value", "required, but missing: expected a number"),
    (
        {"depth": {"value": 1, "unit": "gal"}},
        "/depth/unit",
        "unit `gal` is not a unit of Length: use one of m, cm, mm, ft, in",
    ),
    (
        {"depth": {"value": 1, "unit": "feet"}},
        "/depth/unit",
        "unit `feet` is not a unit of Length: use one of m, cm, mm, ft, in; did you mean `ft`?",
    ),
    ({"depth": {"value": 1, "unit": 5}}, "/depth/unit", "expected a unit of Length, one of m, cm, mm, ft, in"),
    ({"depth": {"value": "5", "unit": "m"}}, "/depth/value", 'expected a number, got the string "5"'),
    ({"depth": {"value": True, "unit": "m"}}, "/depth/value", "expected a number, got true"),
    ({"depth": {"value": 2e9, "unit": "m"}}, "/depth/value", "must be at most 1000000000, but is 2000000000.0"),
    (
        {"depth": {"value": float("nan"), "unit": "m"}},
        "/depth/value",
        "expected a finite number within the reach of a double",
    ),
    ({"dept": 1}, "/dept", "unknown field `dept`; did you mean `depth`?"),
    ({"zzzzzz": 1}, "/zzzzzz", "unknown field `zzzzzz`"),
    ({"a/b~c": 1}, "/a~1b~0c", "unknown field `a/b~c`"),
    ({"parts": []}, "/parts", "must hold at least 1 item(s), holds 0"),
    ({"parts": [{"part": "bend"}] * 4}, "/parts", "must hold at most 3 item(s), holds 4"),
    ({"parts": {}}, "/parts", "expected an array, got an object"),
    ({"parts": [5]}, "/parts/0", "expected an object, got the number 5"),
    ({"parts": [{}]}, "/parts/0/part", "required, but missing: expected one of straight, bend"),
    (
        {"parts": [{"part": "bends"}]},
        "/parts/0/part",
        'expected one of straight, bend, got the string "bends"; did you mean `bend`?',
    ),
    ({"parts": [{"part": ["bend"]}]}, "/parts/0/part", "expected one of straight, bend, got an array"),
    ({"parts": [{"part": "bend"}, {"part": "bend", "turns": 9}]}, "/parts/1/turns", "must be at most 4, but is 9"),
    ({"parts": [{"part": "bend", "turns": 1.5}]}, "/parts/0/turns", "expected a whole number, got the number 1.5"),
    (
        {"parts": [{"part": "bend", "turns": None}]},
        "/parts/0/turns",
        "null is no value here: leave the field out, or give a whole number",
    ),
    ({"kind": "hot"}, "/kind", 'expected one of cold, warm, got the string "hot"'),
    ({"kind": None}, "/kind", "null is no value here: leave the field out, or give one of cold, warm"),
    ({"name": ""}, "/name", "must hold at least 1 character(s), holds 0"),
    ({"name": "abcdefghi"}, "/name", "must hold at most 8 character(s), holds 9"),
    ({"name": "A"}, "/name", "must match ^[a-z]+$"),
    ({"name": 5}, "/name", "expected a string, got the number 5"),
    ({"ratio": 0}, "/ratio", "must be greater than 0, but is 0"),
    ({"ratio": 1}, "/ratio", "must be less than 1, but is 1"),
    ({"wet": 1}, "/wet", "expected true or false, got the number 1"),
    ({"slope": "x"}, "/slope", f'expected a number or {QUANTITY}, got the string "x"'),
]


@pytest.mark.parametrize(("change", "pointer", "detail"), FAULTS, ids=[f"{p} {d}"[:60] for _, p, d in FAULTS])
def test_a_fault_is_pointed_to_in_words_that_help(change, pointer, detail):
    with pytest.raises(Misfit) as refused:
        fitted(SOUND | change, Body)
    assert [(fault.pointer, fault.detail) for fault in refused.value.faults] == [(pointer, detail)]


def test_a_body_that_is_no_object_is_pointed_to_as_a_whole():
    with pytest.raises(Misfit) as refused:
        fitted([], Body)
    assert [(fault.pointer, fault.detail) for fault in refused.value.faults] == [
        ("", "expected an object, got an array")
    ]


def test_every_fault_comes_at_once_in_the_order_of_the_body():
    body = {"kind": "hot", "depth": {"value": "5", "unit": "gal"}, "extra": 1}
    pointers = [fault.pointer for fault in faults_in(body, Body)]
    assert pointers == ["/kind", "/depth/value", "/depth/unit", "/extra", "/parts"]


def test_who_is_told_of_other_faults_is_told_of_ranges_too():
    body = SOUND | {
        "depth": {"value": 60, "unit": "m"},
        "depths": [{"value": 1, "unit": "m"}, {"value": 50, "unit": "ft"}],
        "extra": 1,
    }
    assert {fault.pointer: fault.detail for fault in faults_in(body, Body)} == {
        "/depth": "60 m is outside the range from -10 to 50 m",
        "/depths/1": f"50 ft is outside the range {Within(0.0, 5.0).spelled('ft')}",
        "/extra": "unknown field `extra`",
    }


def test_a_range_alone_does_not_break_the_schema():
    assert fitted(SOUND | {"depth": {"value": 60, "unit": "m"}}, Body).depth == Length(60.0, "m")


def test_a_float_without_a_fraction_is_a_whole_number():
    assert fitted(SOUND | {"parts": [{"part": "bend", "turns": 2.0}]}, Body).parts == [Bend(2)]


def test_there_are_never_more_faults_than_can_be_read():
    """And who is told of no more hears that there are more."""
    for number, more in ((MOST_FAULTS, False), (MOST_FAULTS + 1, True), (1000, True)):
        with pytest.raises(Misfit) as refused:
            fitted(SOUND | {str(n): n for n in range(number)}, Body)
        assert (len(refused.value.faults), refused.value.more) == (MOST_FAULTS, more)


def test_text_of_the_caller_is_cleaned_and_cut():
    (fault,) = faults_in(SOUND | {"x\u202e\x00" + "y" * 1000: 1}, Body)
    assert fault.detail.isprintable()
    assert "x??yyy" in fault.detail
    assert len(fault.detail) < 120


@pytest.mark.parametrize("key", ["a\u202eb", "a\x1bb", "y" * 81])
def test_the_pointer_to_a_key_that_cannot_be_sent_back_leads_to_its_object(key):
    (fault,) = faults_in(SOUND | {key: 1}, Body)
    assert fault.pointer == ""


JUNK = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**12), 10**12),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(max_size=12),
    st.builds(list),
    st.builds(dict),
    st.fixed_dictionaries({"value": st.just(1), "unit": st.sampled_from(["m", "gal"])}),
    st.lists(st.fixed_dictionaries({"part": st.just("pipe")})),
)


def places(value, path=()):
    """The path to every member of a body."""
    members = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, member in members:
        yield (*path, key)
        yield from places(member, (*path, key))


@st.composite
def spoiled_bodies(draw):
    """An example of an endpoint in which a few members were replaced, dropped or added."""
    endpoint = draw(st.sampled_from(ENDPOINTS))
    body = copy.deepcopy(draw(st.sampled_from(examples(endpoint.name))).request)
    for _ in range(draw(st.integers(1, 4))):
        *parents, key = draw(st.sampled_from(list(places(body))))
        parent = body
        for step in parents:
            parent = parent[step]
        match draw(st.sampled_from(["replace", "drop", "add"])):
            case "replace":
                parent[key] = draw(JUNK)
            case "drop":
                del parent[key]
            case "add" if isinstance(parent, dict):
                parent[draw(st.text(max_size=12))] = draw(JUNK)
        if not body:
            break
    return endpoint.request, body


@given(spoiled_bodies())
def test_the_walk_and_the_decoder_are_of_one_mind(spoiled):
    """faults.py must know of each way in which msgspec can refuse a body: teach it the kind of type that it missed."""
    expected, body = spoiled
    schema_faults = [fault for fault in faults_in(body, expected) if " is outside the range from " not in fault.detail]
    if accepted(body, expected):
        assert not schema_faults
    else:
        assert schema_faults


def accepted(body, expected):
    try:
        fitted(body, expected)
    except Misfit:
        return False
    return True


def resolves(pointer, body):
    """Whether a pointer leads to a member of the body, or to one that could be added to an object of it."""
    *parents, last = [part.replace("~1", "/").replace("~0", "~") for part in pointer.split("/")[1:]] or [""]
    for part in parents:
        body = body[int(part)] if isinstance(body, list) else body[part]
    return not pointer or isinstance(body, dict) or int(last) < len(body)


@given(spoiled_bodies())
def test_every_pointer_leads_somewhere(spoiled):
    expected, body = spoiled
    for fault in faults_in(body, expected):
        assert fault.pointer.isprintable()
        assert resolves(fault.pointer, body), fault


@pytest.mark.parametrize("endpoint", ENDPOINTS, ids=lambda endpoint: endpoint.name)
def test_no_example_has_a_fault(endpoint):
    for example in examples(endpoint.name):
        assert faults_in(example.request, endpoint.request) == []
        assert fitted(example.request, endpoint.request) == msgspec.convert(example.request, endpoint.request)
