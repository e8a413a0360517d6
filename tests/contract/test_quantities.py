"""A number with its unit on the wire."""

import math
import re
from typing import get_args, get_type_hints

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.contract import quantities
from footvalve.contract.quantities import GREATEST, Length, Quantity, Temperature, figure, rounded
from footvalve.quantity import DIMENSIONS, wire_units

TYPES = {
    name: value
    for name, value in vars(quantities).items()
    if isinstance(value, type) and issubclass(value, Quantity) and value is not Quantity
}
SIGNED = {"Length", "Pressure", "Temperature"}


def decode(kind, text):
    return msgspec.json.decode(text, type=kind)


def test_each_dimension_has_its_type_and_each_type_its_closed_list():
    """A new dimension needs a row in DIMENSIONS and a type of the same name with its list of units."""
    assert TYPES.keys() == DIMENSIONS.keys()
    for name, kind in TYPES.items():
        assert get_args(get_type_hints(kind)["unit"]) == wire_units(name)


@pytest.mark.parametrize("name", TYPES)
def test_every_unit_of_a_type_decodes_and_tells_its_base(name):
    for unit in wire_units(name):
        found = decode(TYPES[name], f'{{"value": 1.5, "unit": "{unit}"}}')
        assert TYPES[name].from_base(found.base, unit) == found


@pytest.mark.parametrize(
    "text",
    [
        "1.5",
        '{"value": 1.5}',
        '{"unit": "m"}',
        '{"value": "1.5", "unit": "m"}',
        '{"value": null, "unit": "m"}',
        '{"value": 1.5, "unit": "psi"}',
        '{"value": 1.5, "unit": "M"}',
        '{"value": 1.5, "unit": "m", "uncertainity": 0.1}',
        '{"value": 1.1e9, "unit": "m"}',
        '{"value": 1e400, "unit": "m"}',
    ],
)
def test_what_is_no_length_is_refused(text):
    with pytest.raises(msgspec.MsgspecError):
        decode(Length, text)


@pytest.mark.parametrize("name", TYPES)
def test_only_what_can_be_below_zero_takes_a_minus_sign(name):
    text = f'{{"value": -1, "unit": "{wire_units(name)[0]}"}}'
    if name in SIGNED:
        assert decode(TYPES[name], text).value == -1
    else:
        with pytest.raises(msgspec.ValidationError):
            decode(TYPES[name], text)


@given(st.floats(-1e8, 1e8))
def test_six_digits_are_kept_and_more_are_not(value):
    told = rounded(value)
    assert told == pytest.approx(value, rel=5.0001e-6, abs=5e-324)
    assert told == float(f"{told:.5e}")


@given(
    st.floats(-1e9, 1e9)
    | st.builds(
        lambda digits, power: digits / 2.0 * 10.0**power, st.integers(-2_000_000, 2_000_000), st.integers(-14, 2)
    )
    | st.builds(
        lambda power, side: math.nextafter(10.0**power, side), st.integers(-11, 8), st.sampled_from([-1e9, 1e9])
    )
)
def test_the_six_digits_are_those_of_the_decimal_to_the_last_bit(value):
    """Ties and powers of ten among them, where a quick way would slip."""
    assert rounded(value) == float(f"{value:.6g}")


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_does_not_leave(value):
    """JSON would carry a null in its place."""
    with pytest.raises(ArithmeticError):
        rounded(value)
    with pytest.raises(ArithmeticError):
        Length.from_base(value, "m")


def test_what_the_contract_does_not_take_does_not_leave():
    """An answer never breaks its own schema."""
    assert Length.from_base(GREATEST, "m").value == GREATEST
    for beyond in (1.001 * GREATEST, -1.001 * GREATEST):
        with pytest.raises(ArithmeticError, match="more than the contract takes"):
            Length.from_base(beyond, "m")


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (3.14159, "3.14 m"),
        (0.00123456, "0.00123 m"),
        (99.96, "100 m"),
        (999.4, "999 m"),
        (999.7, "1000 m"),
        (4893.4, "4893 m"),
        (-4893.4, "-4893 m"),
        (1299.6, "1300 m"),
        (987654321.0, "987654321 m"),
        (0.00012, "0.00012 m"),
        (0.0000123456, "0.0000123 m"),
        (-0.0000123456, "-0.0000123 m"),
        (1e-6, "0.000001 m"),
        (2e-7, "nearly 0 m"),
        (-2e-7, "nearly 0 m"),
        (0.0, "0 m"),
        (-0.0, "0 m"),
    ],
)
def test_in_a_sentence_a_quantity_has_three_digits_and_no_power_of_ten(value, text):
    """A reader of reasons is no reader of 4.89e+03."""
    assert str(Length(value, "m")) == text


@given(st.floats(-GREATEST, GREATEST))
def test_no_number_of_a_sentence_has_an_exponent_or_a_nought_below_zero(value):
    told = figure(value)
    assert re.fullmatch(r"nearly 0|-?\d+(\.\d+)?", told)
    assert told != "-0"
    if told != "nearly 0":
        assert float(told) == pytest.approx(value, rel=0.00501, abs=1e-6)


@given(st.floats(-1e300, 1e300))
def test_no_number_of_a_sentence_is_a_row_of_digits(value):
    """What is beyond every quantity, as the days of a load of next to nothing, goes by a power of ten."""
    told = figure(value)
    assert len(told) <= len("-1000000000")
    if abs(value) > GREATEST:
        assert float(told) == pytest.approx(value, rel=0.00501)


def test_nought_has_no_sign_on_the_wire():
    assert math.copysign(1.0, Length.from_base(-0.0, "ft").value) == 1.0


def test_a_temperature_keeps_its_offset():
    assert Temperature(50.0, "degF").base == pytest.approx(283.15)
    assert Temperature.from_base(283.15, "degC").value == 10.0
