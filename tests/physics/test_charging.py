"""The charge with its taper against an integrator and the trade's rule."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from footvalve.physics.charging import ChargedBattery, holds, recharge_hours
from footvalve.physics.method import OutsideDomain

batteries = st.builds(
    ChargedBattery,
    capacity=st.floats(10, 2000),
    net_current=st.floats(0.5, 200),
    efficiency=st.floats(0.6, 1.0),
    taper_start=st.floats(0.5, 0.98),
    taper_current=st.floats(0.5, 200),
)
FLOODED = ChargedBattery(capacity=200.0, net_current=20.0, efficiency=0.85, taper_start=0.8, taper_current=20.0)


@given(batteries)
def test_the_last_fifth_takes_as_long_as_the_first_four(battery):
    """The trade's rule, at the current that it is told for."""
    battery = replace(battery, taper_start=0.8, taper_current=battery.net_current)
    whole, last = (recharge_hours(battery, start=start) for start in (0.0, 0.8))
    assert whole == pytest.approx(2 * last)


@given(batteries)
def test_with_another_taper_start_the_taper_takes_the_derived_share(battery):
    battery = replace(battery, taper_current=battery.net_current)
    s0 = battery.taper_start
    whole, taper = (recharge_hours(battery, start=start) for start in (0.0, s0))
    assert taper == pytest.approx((whole - taper) * 4 * (1 - s0) / s0)


@pytest.mark.parametrize("net", [0.5, 1.0, 3.0, 20.0, 50.0, 150.0])
@pytest.mark.parametrize("start", [0.0, 0.5, 0.8, 0.93, 0.985, 0.995])
def test_a_charge_takes_as_long_as_the_differential_equation_says(net, start):
    """The oracle knows only the current: the charger's, or what the battery accepts, whichever is less."""

    def rate(_, wanting):
        accepted = 20.0 * max(wanting[0] / 0.2, math.exp(-3))
        return [-0.85 * min(net, accepted) / 200.0]

    def full(_, wanting):
        return wanting[0]

    full.terminal = True
    oracle = solve_ivp(rate, (0, 1000), [1 - start], events=full, rtol=1e-9, atol=1e-12, max_step=0.05)
    found = recharge_hours(replace(FLOODED, net_current=net), start=start)
    assert found == pytest.approx(oracle.t_events[0][0], abs=1e-3)


@given(batteries, st.floats(0, 1))
def test_no_charge_is_quicker_than_its_current(battery, start):
    by_current = (1 - start) * battery.capacity / (battery.efficiency * battery.net_current)
    assert recharge_hours(battery, start=start) >= by_current * (1 - 1e-12)


@given(batteries, st.floats(0, 1), st.floats(0.05, 1.0))
def test_a_charger_below_a_twentieth_of_the_tapers_current_never_tapers(battery, start, part):
    slow = replace(battery, net_current=battery.taper_current * part * math.exp(-3))
    by_current = (1 - start) * slow.capacity / (slow.efficiency * slow.net_current)
    assert recharge_hours(slow, start=start) == pytest.approx(by_current, rel=1e-9)


@pytest.mark.parametrize("start", [0.0, 0.5, 0.8, 0.9, 0.99])
def test_between_slow_and_strong_chargers_there_is_no_step(start):
    """Where one formula gives over to the next: at e^-3 of the taper's current, and where the taper begins at once."""
    for net in (20 * math.exp(-3), 20 * (1 - start) / 0.2):
        below, above = (
            recharge_hours(replace(FLOODED, net_current=net * part), start=start) for part in (1 - 1e-9, 1 + 1e-9)
        )
        assert below == pytest.approx(above, rel=1e-7)


@pytest.mark.parametrize(("rate", "seen"), [(0.4, 0.633), (0.2, 0.774)])
def test_a_tested_battery_tapers_and_fills_as_it_did(rate, seen):
    """Charging tests of one AGM battery from half full, in print (read): it met the voltage of absorption at 63.3 %
    with 0.4 C and at 77.4 % with 0.2 C, and was full in about 5.5 h with either, 12 minutes apart. The model's hours
    are to be no shorter, and no more than a fifth longer."""
    agm = ChargedBattery(capacity=1.0, net_current=rate, efficiency=0.85, taper_start=0.8, taper_current=0.2)
    assert 1 - agm.tapering_gap == pytest.approx(seen, abs=0.04)
    assert 5.5 <= recharge_hours(agm, start=0.5) <= 1.2 * 5.5


@given(batteries, st.floats(0, 1), st.floats(1.01, 5))
def test_a_larger_charger_is_never_slower(battery, start, more):
    larger = replace(battery, net_current=battery.net_current * more)
    assert recharge_hours(larger, start=start) <= recharge_hours(battery, start=start) * (1 + 1e-12)


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
        holds(charger_current=-1, standing_current=0, efficiency=0.85, self_discharge=0)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"capacity": 0.0}, "^the capacity and the currents"),
        ({"net_current": -1.0}, "^the capacity and the currents"),
        ({"taper_current": 0.0}, "^the capacity and the currents"),
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
    small = ChargedBattery(capacity=0.5, net_current=0.1, efficiency=1.0, taper_start=0.8, taper_current=0.1)
    assert recharge_hours(small, start=0.0) == pytest.approx(8.0)


@pytest.mark.parametrize("start", [-0.001, 1.001])
def test_a_start_beyond_empty_or_full_is_refused(start):
    with pytest.raises(OutsideDomain, match=r"^a state of charge lies from 0 to 1"):
        recharge_hours(FLOODED, start=start)


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
