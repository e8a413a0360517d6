"""Harvest and need of a day."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.method import OutsideDomain
from footvalve.physics.solar_harvest import daily_harvest, daily_need


def test_harvest_agrees_with_the_peak_sun_method_computed_elsewhere():
    # 214.3 W, 4.0 peak sun hours, 0.7 overall: 600 Wh a day, computed (row T12-067).
    assert daily_harvest(array_power=214.3, sun_hours=4.0, derate=0.7) == pytest.approx(600, abs=0.3)


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
