"""What a resting battery loses."""

import pytest

from footvalve.physics.method import OutsideDomain
from footvalve.physics.self_discharge import HOURS_A_MONTH, self_discharge_current


def test_the_current_takes_the_months_fraction_in_a_month():
    current = self_discharge_current(capacity=200, fraction_per_month=0.05)
    assert current * HOURS_A_MONTH == pytest.approx(10)


def test_twelve_months_make_a_year_of_365_days_and_a_quarter():
    assert pytest.approx(365.25 * 24) == HOURS_A_MONTH * 12


@pytest.mark.parametrize("change", [{"capacity": 0}, {"fraction_per_month": -0.1}, {"fraction_per_month": 1.1}])
def test_a_loss_without_meaning_is_refused(change):
    with pytest.raises(OutsideDomain):
        self_discharge_current(**{"capacity": 200, "fraction_per_month": 0.05} | change)
