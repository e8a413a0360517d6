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


def test_the_ends_of_what_a_battery_can_lose():
    """Nothing; and all of a small one, 0.5 Ah, in a month of 730.5 h."""
    assert self_discharge_current(capacity=0.5, fraction_per_month=0.0) == 0.0
    assert self_discharge_current(capacity=0.5, fraction_per_month=1.0) == pytest.approx(0.5 / 730.5)


@pytest.mark.parametrize("change", [{"capacity": 0.0}, {"fraction_per_month": -0.001}, {"fraction_per_month": 1.001}])
def test_a_loss_is_refused_with_what_is_wrong(change):
    with pytest.raises(OutsideDomain, match=r"^the capacity must be positive and the month's fraction"):
        self_discharge_current(**{"capacity": 200.0, "fraction_per_month": 0.05} | change)
