"""Harvest and need of a day."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.method import OutsideDomain
from footvalve.physics.solar_harvest import daily_harvest, daily_need


@given(st.floats(0.1, 1e4), st.floats(0.5, 0.99))
def test_a_battery_that_charges_badly_needs_more(charge, efficiency):
    need = daily_need(charge=charge, voltage=12, charge_efficiency=efficiency)
    assert need > daily_need(charge=charge, voltage=12, charge_efficiency=1.0)
    assert need * efficiency == pytest.approx(charge * 12)


def test_inputs_without_meaning_are_refused():
    with pytest.raises(OutsideDomain):
        daily_harvest(array_power=100, sun_hours=25, derate=0.7)
    with pytest.raises(OutsideDomain):
        daily_need(charge=10, voltage=12, charge_efficiency=0)


@pytest.mark.parametrize(
    ("array_power", "sun_hours", "derate", "expected"),
    [
        (0.0, 4.0, 0.7, 0.0),
        (0.5, 4.0, 1.0, 2.0),
        (100.0, 0.0, 0.7, 0.0),
        (100.0, 24.0, 1.0, 2400.0),
        (100.0, 4.0, 0.0, 0.0),
    ],
)
def test_a_harvest_reaches_to_its_ends(array_power, sun_hours, derate, expected):
    """No array, no sun and nothing left of it bring nothing; a sun that never sets brings 24 h of the rating."""
    assert daily_harvest(array_power=array_power, sun_hours=sun_hours, derate=derate) == pytest.approx(expected)


@pytest.mark.parametrize(
    "change",
    [{"array_power": -0.1}, {"sun_hours": -0.1}, {"sun_hours": 24.1}, {"derate": -0.001}, {"derate": 1.001}],
)
def test_a_harvest_beyond_its_ends_is_refused_with_what_is_wrong(change):
    with pytest.raises(OutsideDomain, match=r"^power must not be negative, sun hours 0 to 24"):
        daily_harvest(**{"array_power": 100.0, "sun_hours": 4.0, "derate": 0.7} | change)


def test_a_day_that_takes_nothing_needs_nothing():
    assert daily_need(charge=0.0, voltage=12.0, charge_efficiency=0.85) == 0.0


def test_one_cell_needs_its_charge_at_its_own_voltage():
    """10 Ah at 0.8 V, nothing lost: 8 Wh."""
    assert daily_need(charge=10.0, voltage=0.8, charge_efficiency=1.0) == pytest.approx(8.0)


@pytest.mark.parametrize(
    "change", [{"charge": -0.1}, {"voltage": 0.0}, {"charge_efficiency": 0.0}, {"charge_efficiency": 1.001}]
)
def test_a_need_beyond_its_ends_is_refused_with_what_is_wrong(change):
    with pytest.raises(OutsideDomain, match=r"^charge must not be negative, voltage positive, the efficiency"):
        daily_need(**{"charge": 10.0, "voltage": 12.0, "charge_efficiency": 0.85} | change)
