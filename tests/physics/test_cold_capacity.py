"""Capacity in the cold, between the points of a table."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.cold_capacity import COLD_CAPACITY, CapacityPoint, capacity_fraction_at, cold_capacity
from footvalve.physics.method import OutsideDomain, Range

TABLE = [CapacityPoint(255.37, 0.40), CapacityPoint(277.59, 0.7692), CapacityPoint(298.15, 1.0)]


@given(st.floats(255.37, 298.15))
def test_it_interpolates_as_an_independent_library_does(temperature):
    expected = np.interp(temperature, [p.temperature for p in TABLE], [p.capacity_fraction for p in TABLE])
    assert capacity_fraction_at(TABLE, temperature=temperature) == pytest.approx(float(expected), rel=1e-12)


@pytest.mark.parametrize("point", TABLE)
def test_at_a_point_of_the_table_it_gives_the_tables_value(point):
    assert capacity_fraction_at(TABLE, temperature=point.temperature) == pytest.approx(point.capacity_fraction)


@given(st.floats(255.37, 298.15), st.floats(255.37, 298.15))
def test_a_colder_battery_never_holds_more(one, other):
    colder, warmer = sorted((one, other))
    assert capacity_fraction_at(TABLE, temperature=colder) <= capacity_fraction_at(TABLE, temperature=warmer) + 1e-12


@pytest.mark.parametrize("temperature", [250.0, 299.0, float("nan")])
def test_a_temperature_outside_the_table_is_refused(temperature):
    with pytest.raises(OutsideDomain):
        capacity_fraction_at(TABLE, temperature=temperature)


def test_a_temperature_outside_the_table_is_named_in_the_refusal():
    with pytest.raises(OutsideDomain, match=r"^the table of capacities does not reach 250 K"):
        capacity_fraction_at(TABLE, temperature=250.0)


def test_a_tables_method_reaches_from_its_coldest_point_to_its_warmest():
    method = cold_capacity(TABLE)
    assert method.ranges == (Range("temperature", 255.37, 298.15, "K"),)
    assert (method.name, method.source, method.note) == (COLD_CAPACITY.name, COLD_CAPACITY.source, COLD_CAPACITY.note)
