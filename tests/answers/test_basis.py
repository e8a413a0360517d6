"""The steps of an answer and the doubts about its inputs, in the units of whoever asks."""

import re

import msgspec
import pytest

from footvalve.answers.basis import basis_step, doubts
from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.unit_system import METRIC, US
from footvalve.contract.examples import examples
from footvalve.physics.method import Method, Range

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
    ),
    "and a note",
)


@pytest.mark.parametrize(
    ("units", "told"),
    [
        (
            US,
            "altitude -1640 to 9843 ft; pipe diameter 1.97 to 39.4 in; temperature 32 to 212 degF; "
            "velocity 0 to 9.84 ft/s; cut out 0 to 145 psi",
        ),
        (
            METRIC,
            "altitude -500 to 3000 m; pipe diameter 50 to 1000 mm; temperature 0 to 100 degC; "
            "velocity 0 to 3 m/s; cut out 0 to 10 bar",
        ),
    ],
)
def test_ranges_are_told_in_the_callers_units_and_those_without_a_dimension_plainly(units, told):
    step = basis_step("a step", METHOD, units)
    assert step.valid_for == f"{told}; hours 0.5 to 100 h; reynolds 4000 to 100000000; and a note"
    assert basis_step("a step", Method("other", "source")).valid_for == "no limit of its own"


def test_a_doubt_tells_the_input_and_the_range_in_the_callers_units():
    found = doubts(METHOD, "/here", US, altitude=3353.0, temperature=300.0, reynolds=3000.0)
    assert [warning.pointer for warning in found] == ["/here", "/here"]
    assert found[0].detail == "altitude 11001 ft lies outside the range of a method: altitude -1640 to 9843 ft"
    assert found[1].detail == "reynolds 3000 lies outside the range of a method: reynolds 4000 to 100000000"
    (metric,) = doubts(METHOD, "/here", pipe_diameter=0.02664)
    assert metric.detail.startswith("pipe diameter 26.6 mm lies outside")


METRIC_SPAN = re.compile(r"\d to -?[\d.]+ (m|mm|K|Pa|kPa|bar|degC|m/s|m\^3/s|L/min)\b")
US_SPAN = re.compile(r"\d to -?[\d.]+ (ft|in|psi|degF|ft/s|gal/min|gal)\b")
BOTH = [(name, example) for name in ENDPOINT if name != "batch" for example in examples(name)]


@pytest.mark.parametrize(("name", "example"), BOTH, ids=[f"{name}: {example.name}" for name, example in BOTH])
@pytest.mark.parametrize(("units", "foreign"), [("us", METRIC_SPAN), ("metric", US_SPAN)])
def test_no_range_of_an_answer_is_told_in_foreign_units(name, example, units, foreign):
    """A method whose ranges have a dimension needs the units with its `basis_step`."""
    endpoint = ENDPOINT[name]
    answer = endpoint(msgspec.convert(example.request | {"units": units}, endpoint.request))
    for step in answer.basis:
        assert not foreign.search(step.valid_for), step
