"""Quantities: what they are made from, and what they turn into."""

import re
from fractions import Fraction
from typing import Any

import msgspec
import numpy as np
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.quantity import CONVERSIONS, wire_units
from footvalve_client import (
    Current,
    Duration,
    Flow,
    Length,
    Pressure,
    Quantity,
    QuantityError,
    SpecificCapacity,
    Temperature,
)

KINDS: list[type[Quantity[Any]]] = Quantity.__subclasses__()

every_kind = pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
every_pair_of_units = pytest.mark.parametrize(
    ("kind", "unit", "other"),
    [(kind, unit, other) for kind in KINDS for unit in kind.units for other in kind.units],
    ids=lambda thing: getattr(thing, "__name__", thing),
)


@every_kind
def test_each_dimension_has_the_units_of_the_service(kind: type[Quantity[Any]]) -> None:
    assert set(kind.units) == set(wire_units(kind.__name__)), "run client/generate.py"


@every_pair_of_units
def test_units_convert_as_the_service_converts_them(kind: type[Quantity[Any]], unit: str, other: str) -> None:
    """Within twice the rounding of a double, as the service goes by way of its base unit."""
    (scale, offset), (other_scale, other_offset) = CONVERSIONS[unit], CONVERSIONS[other]
    expected = (12.5 * scale + offset - other_offset) / other_scale
    assert kind(12.5, unit).to(other).value == pytest.approx(expected, rel=1e-12)


@every_pair_of_units
def test_pint_converts_alike_and_comes_back_as_it_went(kind: type[Quantity[Any]], unit: str, other: str) -> None:
    quantity = kind(12.5, unit)
    there = kind(1.0, other).quantity.units
    assert quantity.quantity.m_as(there) == pytest.approx(quantity.value_in(other), rel=1e-12)
    assert kind.of(quantity.quantity) == quantity


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("14 ft", Length(14, "ft")),
        ("14ft", Length(14, "ft")),
        (" -3.5  m ", Length(-3.5, "m")),
        ("+.5 in", Length(0.5, "in")),
        ("2e2 mm", Length(200, "mm")),
        ("4 gal/min", Flow(4, "gal/min")),
        ("2.5 m^3/h", Flow(2.5, "m^3/h")),
        ("51 degF", Temperature(51, "degF")),
        ("1.5 gal/min/ft", SpecificCapacity(1.5, "gal/min/ft")),
    ],
)
def test_a_text_is_a_number_and_a_unit_of_the_contract(text: str, expected: Quantity[Any]) -> None:
    assert type(expected).of(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("100'", Length(100, "ft")),
        ("100\u2032", Length(100, "ft")),
        ('6"', Length(6, "in")),
        ("100 ft 6 in", Length(100.5, "ft")),
        ("100' 6\"", Length(100.5, "ft")),
        ("100'6\"", Length(100.5, "ft")),
        ("100'-6\"", Length(100.5, "ft")),
        ("100 feet 6 inches", Length(100.5, "ft")),
        ("-3 ft 6 in", Length(-3.5, "ft")),
        ("2' 4-1/2\"", Length(2.375, "ft")),
        ("2' 4.5\"", Length(2.375, "ft")),
        ("1/2 in", Length(0.5, "in")),
        ('1/2"', Length(0.5, "in")),
        ("1-1/4 in", Length(1.25, "in")),
        ("1 1/4 in.", Length(1.25, "in")),
        ("-1-1/4 in", Length(-1.25, "in")),
        ("14 FT", Length(14, "ft")),
        ("5 gpm", Flow(5, "gal/min")),
        ("5 GPM", Flow(5, "gal/min")),
        ("5 gallons per  minute", Flow(5, "gal/min")),
        ("300 gph", Flow(300, "gal/h")),
        ("20 l/min", Flow(20, "L/min")),
        ("20 LPM", Flow(20, "L/min")),
        ("2.5 m\u00b3/h", Flow(2.5, "m^3/h")),
        ("51 F", Temperature(51, "degF")),
        ("51\u00b0F", Temperature(51, "degF")),
        ("10 \u00b0C", Temperature(10, "degC")),
        ("40 PSI", Pressure(40, "psi")),
        ("1.5 gpm/ft", SpecificCapacity(1.5, "gal/min/ft")),
        ("5 amps", Current(5, "A")),
    ],
)
def test_a_text_may_be_as_installers_write_it(text: str, expected: Quantity[Any]) -> None:
    assert type(expected).of(text) == expected


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        (Current, "5 MA"),
        (Pressure, "14.7 psia"),
        (Pressure, "5 ft"),
        (Flow, "5 cfm"),
        (Length, "5 gal"),
        (Duration, "5'"),
        (Flow, "5 ft 6 in"),
    ],
)
def test_what_could_mean_something_else_is_not_taken(kind: type[Quantity[Any]], text: str) -> None:
    with pytest.raises(QuantityError, match="is none of its units"):
        kind.of(text)


@every_kind
def test_every_spelling_is_read(kind: type[Quantity[Any]]) -> None:
    assert set(kind.spellings.values()) == set(kind.units)
    for spelling, unit in kind.spellings.items():
        assert kind.of(f"3 {spelling}") == kind(3, unit)


@every_kind
def test_what_a_refusal_shows_would_be_taken(kind: type[Quantity[Any]]) -> None:
    for example in kind.examples:
        assert str(kind.of(example)) == example


@given(feet=st.integers(0, 10**6), over=st.integers(0, 15), inches=st.integers(0, 11))
def test_feet_and_inches_are_rounded_once(feet: int, over: int, inches: int) -> None:
    expected = float(feet + Fraction(16 * inches + over, 192))
    assert Length.of(f"{feet} ft {inches}-{over}/16 in") == Length(expected, "ft")


@given(value=st.floats(allow_nan=False, allow_infinity=False), kind=st.sampled_from(KINDS), data=st.data())
def test_any_number_survives_as_a_text(value: float, kind: type[Quantity[Any]], data: st.DataObject) -> None:
    quantity = kind(value, data.draw(st.sampled_from(kind.units)))
    assert kind.of(f"{value} {quantity.unit}") == quantity


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        ("14 psi", "'psi' is none of its units"),
        ("14 foots", '\'foots\' is none of its units (did you mean ft?). Write such as "14 ft" or "4 m"'),
        ("14 yd", "'yd' is none of its units. Write"),
        ("1,000 ft", "expected a number without a comma"),
        ("1,5 m", "expected a number without a comma"),
        ("1/0 in", "expected a fraction such as 1/2 or 1-1/4"),
        ("1-5/4 in", "expected a fraction such as 1/2 or 1-1/4"),
        ("1/2/3 in", "'/2/3 in' is none of its units"),
        ("100 ft 12 in", "expected less than 12 inches after the feet"),
        ("100 ft 6", "the unit is missing"),
        ("100 ft 6 m", "expected inches after the feet"),
        ("1.5 ft 6 in", "'ft 6 in' is none of its units"),
        ("14 ft - 6 in", "'ft - 6 in' is none of its units"),
        ("14 ft -6 in", "'ft -6 in' is none of its units"),
        ("14'- 6\"", "is none of its units"),
        ("\u0663 ft \u0663 in", "expected a number, then its unit"),
        ("14", "the unit is missing"),
        ("", "expected a number, then its unit"),
        ("ft", "expected a number, then its unit"),
        ("nan ft", "expected a number, then its unit"),
        ("٣ ft", "expected a number, then its unit"),
        ("1e999 ft", "expected a finite number"),
        ("2 m**9**9**9", "'m**9**9**9' is none of its units"),
        (14, "expected a number with its unit"),
        (None, "expected a number with its unit"),
        (Pressure(3, "psi"), "expected a number with its unit"),
        (pint.Quantity(3, "psi"), "it is of another dimension"),
        (pint.Quantity([1, 2], "foot"), "expected a single number"),
        (pint.Quantity(float("inf"), "foot"), "expected a finite number"),
    ],
)
def test_what_is_no_length_is_told_with_the_units_of_length(wrong: Any, why: str) -> None:
    with pytest.raises(QuantityError) as refused:
        Length.of(wrong)
    assert why in str(refused.value)
    assert "units: m, cm, mm, ft, in" in str(refused.value)


def test_pint_in_a_unit_that_the_contract_has_keeps_it() -> None:
    assert Length.of(pint.Quantity(14, "foot")) == Length(14, "ft")


def test_pint_in_a_unit_that_the_contract_lacks_is_converted() -> None:
    assert Length.of(pint.Quantity(2, "yard")).value_in("ft") == pytest.approx(6, rel=1e-12)


def test_pint_from_any_registry_will_do() -> None:
    assert Length.of(3 * pint.UnitRegistry().meter) == Length(3, "m")


def test_an_inch_is_exact() -> None:
    assert Length(14, "ft").to("in") == Length(168, "in")


def test_the_same_unit_changes_nothing() -> None:
    length = Length(14, "ft")
    assert length.to("ft") is length


def test_a_unit_of_another_dimension_is_refused() -> None:
    with pytest.raises(QuantityError, match=r"'psi' is no unit of Length\. Units: m, cm, mm, ft, in"):
        Length(14, "ft").to("psi")  # type: ignore[arg-type]


def test_a_quantity_prints_as_it_is_written() -> None:
    assert str(Length(14, "ft")) == "14 ft"
    assert f"{Length(14.126, 'ft'):.1f}" == "14.1 ft"
    assert repr(Length(14, "ft")) == "Length(value=14, unit='ft')"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("14 ft \u00b1 0.5 ft", Length(14, "ft", 0.5)),
        ("14 \u00b1 0.5 ft", Length(14, "ft", 0.5)),
        ("14 ft +- 6 in", Length(14, "ft", 0.5)),
        ("100' 6\" +/- 1 in", Length(100.5, "ft", 1 / 12)),
        ("1-1/4 \u00b1 1/16 in", Length(1.25, "in", 0.0625)),
        ("50 F \u00b1 2 F", Temperature(50, "degF", 2)),
        ("5 \u00b1 0 gpm", Flow(5, "gal/min", 0)),
    ],
)
def test_a_text_may_say_how_sure_it_is(text: str, expected: Quantity[Any]) -> None:
    read = type(expected).of(text)
    assert (read.value, read.unit) == (expected.value, expected.unit)
    assert read.uncertainty == pytest.approx(expected.uncertainty, rel=1e-14)


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        ("14 \u00b1 ft", "expected a number, then its unit"),
        ("14 \u00b1 5", "the unit is missing"),
        ("14 ft \u00b1 -1 ft", "an uncertainty is not below zero"),
        ("14 ft \u00b1 1 ft \u00b1 1 ft", "expected one plus-minus sign"),
        ("14 ft \u00b1 1 psi", "'psi' is none of its units"),
        ("14 ft \u00b1 1e999 ft", "expected a finite number"),
        ("\u00b1 1 ft", "expected a number, then its unit"),
    ],
)
def test_what_is_no_uncertainty_is_told(wrong: str, why: str) -> None:
    with pytest.raises(QuantityError, match=re.escape(why)):
        Length.of(wrong)


@every_pair_of_units
def test_an_uncertainty_converts_as_a_difference(kind: type[Quantity[Any]], unit: str, other: str) -> None:
    (scale, _), (other_scale, _) = CONVERSIONS[unit], CONVERSIONS[other]
    assert kind(12.5, unit, 0.25).to(other).uncertainty == pytest.approx(0.25 * scale / other_scale, rel=1e-12)
    assert kind(12.5, unit).to(other).uncertainty is None


def test_a_quantity_tells_how_sure_it_is_where_that_is_known() -> None:
    assert str(Length(14, "ft", 0.5)) == "14 \u00b1 0.5 ft"
    assert f"{Length(14, 'ft', 0.5):.2f}" == "14.00 \u00b1 0.50 ft"
    assert str(Length(14, "ft")) == "14 ft"


def test_what_is_not_known_of_a_quantity_is_not_sent() -> None:
    assert msgspec.json.encode(Length(14, "ft")) == b'{"value":14,"unit":"ft"}'
    assert msgspec.json.encode(Length(14, "ft", 0.5)) == b'{"value":14,"unit":"ft","uncertainty":0.5}'


@pytest.mark.parametrize("wrong", ["14", None, True, [14]], ids=repr)
def test_a_value_that_is_no_number_is_refused_when_it_is_made(wrong: Any) -> None:
    with pytest.raises(QuantityError, match="is no number"):
        Length(wrong, "ft")


def test_a_number_of_another_library_becomes_one_of_python() -> None:
    made = Length(np.float64(14), "ft", np.float32(0.5))  # type: ignore[arg-type]
    assert (type(made.value), type(made.uncertainty), str(made)) == (float, float, "14 \u00b1 0.5 ft")
    assert Length(np.int64(3), "ft") == Length(Fraction(3), "ft") == Length(3, "ft")  # type: ignore[arg-type]
