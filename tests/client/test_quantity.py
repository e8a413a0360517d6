"""Quantities: what they are made from, and what they turn into."""

from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.quantity import CONVERSIONS, wire_units
from footvalve_client import Flow, Length, Pressure, Quantity, QuantityError, SpecificCapacity, Temperature

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


@given(value=st.floats(allow_nan=False, allow_infinity=False), kind=st.sampled_from(KINDS), data=st.data())
def test_any_number_survives_as_a_text(value: float, kind: type[Quantity[Any]], data: st.DataObject) -> None:
    quantity = kind(value, data.draw(st.sampled_from(kind.units)))
    assert kind.of(f"{value} {quantity.unit}") == quantity


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        ("14 psi", "'psi' is none of its units"),
        ("14 foot", "'foot' is none of its units"),
        ("14 FT", "'FT' is none of its units"),
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
    assert "units: cm, ft, in, m, mm" in str(refused.value)


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
    with pytest.raises(QuantityError, match=r"'psi' is no unit of Length\. Units: cm, ft, in, m, mm"):
        Length(14, "ft").to("psi")  # type: ignore[arg-type]


def test_a_quantity_prints_as_it_is_written() -> None:
    assert str(Length(14, "ft")) == "14 ft"
    assert f"{Length(14.126, 'ft'):.1f}" == "14.1 ft"
    assert repr(Length(14, "ft")) == "Length(value=14, unit='ft')"
