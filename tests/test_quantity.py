"""Units against the definitions of pint, and against factors as they are printed."""

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.quantity import CONVERSIONS, DIMENSIONS, from_base, to_base, wire_units

EXACT = pint.UnitRegistry(non_int_type=Fraction, autoconvert_offset_to_baseunit=True)
SPELLED_FOR_PINT = {
    "mH2O": "meter * kilogram / liter * standard_gravity",
    "ftH2O": "foot * kilogram / liter * standard_gravity",
}
"""Conventional columns of water: 1000 kg/m^3 under standard gravity, NIST SP 811 (2008), Appendix B.8."""

CASES = [(unit, base) for dimension, (_, base) in DIMENSIONS.items() for unit in wire_units(dimension)]

PRINTED = {
    "ft": 0.3048,
    "in": 0.0254,
    "gal": 3.785412e-3,
    "gal/min": 6.309020e-5,
    "psi": 6.894757e3,
    "ftH2O": 2.989067e3,
    "mH2O": 9.80665e3,
    "hp": 7.456999e2,
    "ft/s": 0.3048,
    "in^2": 6.4516e-4,
}
"""NIST SP 811 (2008), Appendix B.8, as printed, from memory."""


def test_the_contracts_units_are_all_there_in_its_order_and_no_other():
    assert [unit for unit, _ in CASES] == list(CONVERSIONS)


@pytest.mark.parametrize(("unit", "base"), CASES)
def test_scale_and_offset_are_those_of_pint_to_the_last_digit_of_a_double(unit, base):
    spelled = SPELLED_FOR_PINT.get(unit, unit)
    zero, one = (EXACT.Quantity(Fraction(number), spelled).to(base).magnitude for number in (0, 1))
    assert CONVERSIONS[unit] == (float(one - zero), float(zero))


@pytest.mark.parametrize("unit", PRINTED)
def test_scale_is_what_is_printed(unit):
    assert f"{CONVERSIONS[unit][0]:.6e}" == f"{PRINTED[unit]:.6e}"


@given(st.sampled_from(sorted(CONVERSIONS)), st.floats(-1e6, 1e6))
def test_there_and_back_is_the_same_number(unit, value):
    """A temperature's offset leaves it the last digits of a few hundred kelvins."""
    assert from_base(to_base(value, unit), unit) == pytest.approx(value, rel=1e-14, abs=2e-13)


@pytest.mark.parametrize(
    ("value", "unit", "kelvins"),
    [
        (0, "degC", 273.15),
        (32, "degF", 273.15),
        (212, "degF", 373.15),
        (-40, "degF", 233.15),
        (-40, "degC", 233.15),
    ],
)
def test_temperatures_have_their_offsets(value, unit, kelvins):
    assert to_base(value, unit) == pytest.approx(kelvins, abs=1e-12)


def test_a_unit_that_is_on_no_list_is_not_guessed():
    """Text from a caller never reaches the library of units."""
    for unit in ("m**9**9", "furlong", "FT", ""):
        with pytest.raises(KeyError):
            to_base(1.0, unit)
        with pytest.raises(KeyError):
            from_base(1.0, unit)
