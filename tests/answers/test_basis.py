"""The steps of an answer and the doubts about its inputs, in the units of whoever asks."""

import re
from math import inf
from pathlib import Path

import msgspec
import pytest

from footvalve import answers
from footvalve.answers.basis import At, Reckoned, basis, basis_step, merged, range_doubts, range_warnings, reckoned
from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.unit_system import METRIC, US
from footvalve.contract.examples import examples
from footvalve.contract.quantities import Length
from footvalve.physics.method import Method, Range

ANSWERS = Path(answers.__file__).parent

METHOD = Method(
    "a method",
    "a source",
    (
        Range("altitude", -500.0, 3000.0, "m"),
        Range("pipe_diameter", 0.05, 1.0, "m"),
        Range("temperature", 273.15, 373.15, "K"),
        Range("velocity", 0.0, 3.0, "m/s"),
        Range("cut_out", 0.0, 1e6, "Pa"),
        Range("hours", 0.5, 100.0, "h"),
        Range("reynolds", 4000.0, 1e8),
        Range("depth", -inf, 60.96, "m"),
        Range("ratio", 1.0, inf),
    ),
    "and a note",
)
INSIDE = {limit.quantity: At("/here", max(limit.low, 0.0) or min(limit.high, 1.0)) for limit in METHOD.ranges}


def step(title="a step", **beyond):
    return reckoned(title, METHOD, **(INSIDE | beyond))


@pytest.mark.parametrize(
    ("units", "told"),
    [
        (
            US,
            "altitude -1640 to 9843 ft; pipe diameter 1.97 to 39.4 in; temperature 32 to 212 degF; "
            "velocity 0 to 9.84 ft/s; cut out 0 to 145 psi; {}; depth up to 200 ft",
        ),
        (
            METRIC,
            "altitude -500 to 3000 m; pipe diameter 50 to 1000 mm; temperature 0 to 100 degC; "
            "velocity 0 to 3 m/s; cut out 0 to 10 bar; {}; depth up to 61 m",
        ),
    ],
)
def test_ranges_are_told_in_the_callers_units_and_those_without_a_dimension_plainly(units, told):
    (found,) = basis([step()], units)
    plain = "hours 0.5 to 100 h; Reynolds number 4000 to 100 million"
    assert found.valid_for == f"{told.format(plain)}; ratio from 1; and a note"
    assert basis_step("a step", Method("other", "source")).valid_for == "no limit of its own"


def test_a_doubt_tells_the_input_and_the_range_in_the_callers_units():
    beyond = step(altitude=At("/high", 3353.0), reynolds=At("/slow", 3000.0), ratio=At("/low", 0.5))
    found = range_warnings([beyond], US)
    assert [warning.pointer for warning in found] == ["/high", "/slow", "/low"]
    assert found[0].detail == "altitude 11001 ft lies outside the range of a method: altitude -1640 to 9843 ft"
    assert found[1].detail == "the flow is too slow (Reynolds number 3000) for a method: it holds from 4000 on"
    assert found[2].detail == "ratio 0.5 lies outside the range of a method: ratio from 1"
    (metric,) = range_warnings([step(pipe_diameter=At("/here", 0.02664))], METRIC)
    assert metric.detail.startswith("pipe diameter 26.6 mm lies outside")


def test_a_flow_beyond_the_greatest_reynolds_number_is_told_to_be_too_fast():
    (found,) = range_warnings([step(reynolds=At("/torrent", 2.5e8))], US)
    assert found.detail == "the flow is too fast (Reynolds number 250 million) for a method: it holds up to 100 million"


def test_doubts_of_one_quantity_of_one_method_are_of_one_kind_unless_they_are_told_otherwise():
    slow = [At("/slow", 3000.0), At("/slower", 2500.0), At("/turbulent", 5000.0)]
    hung = At("/valve", 0.5, lambda: "the disc hangs", "a disc hangs")
    found = list(range_doubts([step(reynolds=slow, ratio=hung)], METRIC))
    assert [doubt.warning.pointer for doubt in found] == ["/slow", "/slower", "/valve"]
    assert [doubt.kind for doubt in found[:2]] == ["Reynolds number lies outside the range of a method"] * 2
    assert (found[2].kind, found[2].warning.detail) == ("a disc hangs", "the disc hangs")


def test_what_is_told_in_other_words_is_told_only_where_the_range_is_left():
    def never():
        raise AssertionError("within the range nothing is told")

    (found,) = basis([step(ratio=At("/valve", 1.0, never))])
    assert found.within_range


def test_a_step_is_within_range_where_every_input_at_every_place_is():
    assert basis([step()])[0].within_range
    assert basis([step(reynolds=())])[0].within_range, "no input, nothing outside"
    assert not basis([step(reynolds=[At("/a", 5000.0), At("/b", 3000.0)])])[0].within_range
    (alone,) = basis([step(), step(reynolds=At("/b", 3000.0)), step()])
    assert not alone.within_range


def test_the_same_step_of_two_answers_is_one():
    one, other = basis([step()])[0], basis([step(reynolds=At("/b", 3000.0))])[0]
    different = basis([step("another step")])[0]
    assert merged([one, different, other]) == [other, different]
    assert merged([other, different, one]) == [other, different]


@pytest.mark.parametrize("end", [-1640.4199475065616, 9842.519685039370])
def test_the_end_of_a_range_is_inside_in_every_unit(end):
    """-500 m and 3000 m in ft, whose way back ends a last digit outside."""
    at_the_end = step(altitude=At("/here", Length(end, "ft").base))
    assert basis([at_the_end])[0].within_range
    assert not basis([step(altitude=At("/here", Length(end * 1.00001, "ft").base))])[0].within_range


def test_a_range_that_is_not_stated_is_a_fault_of_the_code():
    stated = dict(INSIDE)
    del stated["reynolds"]
    with pytest.raises(AssertionError, match="state"):
        reckoned("a step", METHOD, **stated)
    with pytest.raises(AssertionError, match="state"):
        reckoned("a step", METHOD, **INSIDE, salinity=At("/here", 1.0))
    with pytest.raises(AssertionError, match="state"):
        basis_step("a step", METHOD)


def test_nothing_but_the_one_statement_makes_a_step():
    """`Reckoned(...)` without `reckoned` would pass by the check that every range is stated."""
    makers = [
        path.name for path in ANSWERS.glob("*.py") if re.search(r"\b(Reckoned|BasisStep)\(", path.read_text("utf-8"))
    ]
    assert makers == ["basis.py"]
    assert Reckoned.__module__ == "footvalve.answers.basis"


METRIC_SPAN = re.compile(r"\d to -?[\d.]+ (m|mm|K|Pa|kPa|bar|degC|m/s|m\^3/s|L/min)\b")
US_SPAN = re.compile(r"\d to -?[\d.]+ (ft|in|psi|degF|ft/s|gal/min|gal)\b")
BOTH = [(name, example) for name in ENDPOINT if name != "batch" for example in examples(name)]


@pytest.mark.parametrize(("name", "example"), BOTH, ids=[f"{name}: {example.name}" for name, example in BOTH])
@pytest.mark.parametrize(("units", "foreign"), [("us", METRIC_SPAN), ("metric", US_SPAN)])
def test_no_range_of_an_answer_is_told_in_foreign_units(name, example, units, foreign):
    """A method whose ranges have a dimension needs the units with its step."""
    endpoint = ENDPOINT[name]
    answer = endpoint(msgspec.convert(example.request | {"units": units}, endpoint.request))
    for step in answer.basis:
        assert not foreign.search(step.valid_for), step
