"""The charge with its taper against an integrator and the trade's rule."""

from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from footvalve.physics.charging import ChargedBattery, charged_fraction, holds, recharge_hours
from footvalve.physics.method import OutsideDomain

batteries = st.builds(
    ChargedBattery,
    capacity=st.floats(10, 2000),
    net_current=st.floats(0.5, 200),
    efficiency=st.floats(0.6, 1.0),
    taper_start=st.floats(0.5, 0.98),
)
FLOODED = ChargedBattery(capacity=200.0, net_current=20.0, efficiency=0.85, taper_start=0.8)


@given(batteries)
def test_the_last_fifth_takes_as_long_as_the_first_four(battery):
    battery = replace(battery, taper_start=0.8)
    whole, last = (recharge_hours(battery, start=start) for start in (0.0, 0.8))
    assert whole == pytest.approx(2 * last)


@given(batteries)
def test_with_another_taper_start_the_taper_takes_the_derived_share(battery):
    s0 = battery.taper_start
    whole, taper = (recharge_hours(battery, start=start) for start in (0.0, s0))
    assert taper == pytest.approx((whole - taper) * 4 * (1 - s0) / s0)


@pytest.mark.parametrize("start", [0.0, 0.5, 0.8, 0.93])
def test_state_of_charge_follows_the_differential_equation(start):
    """The oracle knows only the current: the charger's, or what the acceptance allows, whichever is less."""

    def rate(_, s):
        share = min(1.0, (1 - s[0]) / (1 - 0.8))
        return [0.85 * 20.0 * share / 200.0]

    times = [0.5, 3.0, 8.0, 15.0, 24.0]
    oracle = solve_ivp(rate, (0, 24), [start], t_eval=times, rtol=1e-9, atol=1e-11, max_step=0.05).y[0]
    found = [charged_fraction(FLOODED, start=start, hours=t) for t in times]
    assert found == pytest.approx(list(oracle), abs=1e-6)


@given(batteries, st.floats(0, 0.99))
def test_after_the_recharge_hours_the_battery_is_full_but_for_the_tail(battery, start):
    tail = (1 - battery.taper_start) * 0.0183156  # e^-4
    assume(1 - start > tail * 1.001)
    hours = recharge_hours(battery, start=start)
    assert charged_fraction(battery, start=start, hours=hours) == pytest.approx(1 - tail, abs=1e-6)


@given(batteries, st.floats(0, 1), st.floats(1.01, 5))
def test_a_larger_charger_is_never_slower(battery, start, more):
    larger = replace(battery, net_current=battery.net_current * more)
    assert recharge_hours(larger, start=start) <= recharge_hours(battery, start=start)


@given(batteries, st.floats(0, 0.9), st.floats(0, 0.1))
def test_a_fuller_battery_is_never_slower(battery, start, more):
    assert recharge_hours(battery, start=start + more) <= recharge_hours(battery, start=start) * (1 + 1e-12)


def test_a_full_battery_needs_no_time():
    assert recharge_hours(FLOODED, start=1.0) == 0


@pytest.mark.parametrize(
    ("charger", "expected"), [(0.9, False), (1.0, False), (1.016, False), (1.017, True), (2.0, True)]
)
def test_a_charger_holds_only_above_standing_loads_and_self_discharge(charger, expected):
    # 1.0 A standing and 0.0137 A lost: 1 + 0.0137 / 0.85 = 1.0161 A is the least that holds.
    found = holds(charger_current=charger, standing_current=1.0, efficiency=0.85, self_discharge=0.0137)
    assert found is expected


@pytest.mark.parametrize("change", [{"capacity": 0}, {"net_current": 0}, {"efficiency": 1.1}, {"taper_start": 1.0}])
def test_a_battery_without_meaning_is_refused(change):
    with pytest.raises(OutsideDomain):
        replace(FLOODED, **change)


def test_other_inputs_without_meaning_are_refused():
    with pytest.raises(OutsideDomain):
        recharge_hours(FLOODED, start=1.2)
    with pytest.raises(OutsideDomain):
        charged_fraction(FLOODED, start=0.5, hours=-1)
    with pytest.raises(OutsideDomain):
        holds(charger_current=-1, standing_current=0, efficiency=0.85, self_discharge=0)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"capacity": 0.0}, "^the capacity and the net current"),
        ({"net_current": -1.0}, "^the capacity and the net current"),
        ({"efficiency": 0.0}, "^the efficiency must lie above 0 to 1, the taper's start between"),
        ({"efficiency": 1.001}, "^the efficiency must lie above 0 to 1, the taper's start between"),
        ({"taper_start": 0.0}, "^the efficiency must lie above 0 to 1, the taper's start between"),
    ],
)
def test_a_battery_beyond_the_ends_is_refused_with_what_is_wrong(change, told):
    with pytest.raises(OutsideDomain, match=told):
        replace(FLOODED, **change)


def test_a_small_battery_that_loses_nothing_charges_by_the_current_alone():
    """0.5 Ah at 0.1 A without loss: 0.8 of it in 4 h, and the taper as long again."""
    small = ChargedBattery(capacity=0.5, net_current=0.1, efficiency=1.0, taper_start=0.8)
    assert recharge_hours(small, start=0.0) == pytest.approx(8.0)


def test_in_no_time_nothing_is_charged():
    """Also into a full battery, which stays full."""
    for start in (0.0, 0.3, 0.8, 0.9, 1.0):
        assert charged_fraction(FLOODED, start=start, hours=0.0) == pytest.approx(start, abs=1e-15)
    assert charged_fraction(FLOODED, start=1.0, hours=5.0) == 1.0


@pytest.mark.parametrize("start", [-0.001, 1.001])
def test_a_start_beyond_empty_or_full_is_refused(start):
    with pytest.raises(OutsideDomain, match=r"^a state of charge lies from 0 to 1"):
        recharge_hours(FLOODED, start=start)
    with pytest.raises(OutsideDomain, match=r"^hours must not be negative; a state of charge"):
        charged_fraction(FLOODED, start=start, hours=1.0)


def test_a_charger_that_gives_just_what_is_lost_does_not_hold():
    """It must outrun the loss: 2 A less 1 A standing, without loss in the battery, against 1 A."""
    assert holds(charger_current=2.0, standing_current=1.0, efficiency=1.0, self_discharge=1.0) is False
    assert holds(charger_current=2.0, standing_current=0.0, efficiency=1.0, self_discharge=0.0) is True


@pytest.mark.parametrize(
    "change",
    [
        {"charger_current": -0.1},
        {"standing_current": -0.1},
        {"self_discharge": -0.1},
        {"efficiency": 0.0},
        {"efficiency": 1.001},
    ],
)
def test_currents_below_zero_and_efficiencies_beyond_their_ends_are_refused(change):
    right = {"charger_current": 2.0, "standing_current": 1.0, "efficiency": 0.85, "self_discharge": 0.01}
    with pytest.raises(OutsideDomain, match=r"^currents must not be negative, the efficiency"):
        holds(**right | change)
