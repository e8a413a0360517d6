"""Units against factors written out by hand from their definitions."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.quantity import CONVERSIONS, DIMENSIONS, from_base, to_base, wire_units

FOOT, INCH, GALLON, POUND, GRAVITY = (
    Fraction("0.3048"),
    Fraction("0.0254"),
    231 * Fraction("0.0254") ** 3,
    Fraction("0.45359237"),
    Fraction("9.80665"),
)
PSI = POUND * GRAVITY / INCH**2
BY_HAND = {
    "m": 1,
    "cm": Fraction(1, 100),
    "mm": Fraction(1, 1000),
    "ft": FOOT,
    "in": INCH,
    "mm^2": Fraction(1, 10**6),
    "cm^2": Fraction(1, 10**4),
    "in^2": INCH**2,
    "s": 1,
    "min": 60,
    "h": 3600,
    "d": 86400,
    "L/s": Fraction(1, 1000),
    "L/min": Fraction(1, 60_000),
    "m^3/h": Fraction(1, 3600),
    "gal/min": GALLON / 60,
    "gal/h": GALLON / 3600,
    "L": Fraction(1, 1000),
    "m^3": 1,
    "gal": GALLON,
    "Pa": 1,
    "kPa": 1000,
    "bar": 100_000,
    "psi": PSI,
    "ftH2O": 1000 * GRAVITY * FOOT,
    "mH2O": 1000 * GRAVITY,
    "K": 1,
    "degC": 1,
    "degF": Fraction(5, 9),
    "A": 1,
    "mA": Fraction(1, 1000),
    "V": 1,
    "mV": Fraction(1, 1000),
    "W": 1,
    "kW": 1000,
    "hp": 550 * FOOT * POUND * GRAVITY,
    "Wh": 1,
    "kWh": 1000,
    "Ah": 1,
    "ohm": 1,
    "mohm": Fraction(1, 1000),
    "gal/min/ft": GALLON / 60 / FOOT,
    "L/s/m": Fraction(1, 1000),
    "m/s": 1,
    "ft/s": FOOT,
}
"""NIST SP 811 (2008), Appendix B.8: definitions, all exact. Charge counts in Ah and energy in Wh."""

OFFSETS = {"degC": Fraction("273.15"), "degF": Fraction("459.67") * Fraction(5, 9)}


def test_every_unit_of_the_contract_is_written_out_here():
    """A new unit needs its definition in BY_HAND."""
    assert CONVERSIONS.keys() == BY_HAND.keys()
    assert [unit for dimension in DIMENSIONS for unit in wire_units(dimension)] == list(CONVERSIONS)


@pytest.mark.parametrize("unit", BY_HAND)
def test_scale_is_the_definition_to_the_last_digit_of_a_double(unit):
    scale, offset = CONVERSIONS[unit]
    assert scale == float(BY_HAND[unit])
    assert offset == float(OFFSETS.get(unit, 0))


@given(st.sampled_from(sorted(BY_HAND)), st.floats(-1e6, 1e6))
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
