"""Pressure and height of water."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.head import head_pressure, pressure_head

CONVENTIONAL = 1000.0  # kg/m^3, NIST SP 811 (2008), Appendix B.8


def test_the_conventional_metre_and_foot_of_water():
    """NIST SP 811 (2008), Appendix B.8: 9806.65 Pa and 2989.067 Pa (from memory), half the last digit."""
    assert head_pressure(head=1.0, density=CONVENTIONAL) == pytest.approx(9806.65, abs=0.005)
    assert head_pressure(head=0.3048, density=CONVENTIONAL) == pytest.approx(2989.067, abs=5e-4)


@given(st.floats(-1e7, 1e7), st.floats(950.0, 1000.0))
def test_one_undoes_the_other(pressure, density):
    head = pressure_head(pressure=pressure, density=density)
    assert head_pressure(head=head, density=density) == pytest.approx(pressure, rel=1e-12, abs=1e-12)


def test_a_partial_vacuum_is_a_height_below_zero():
    assert pressure_head(pressure=-9806.65, density=CONVENTIONAL) == pytest.approx(-1.0)
