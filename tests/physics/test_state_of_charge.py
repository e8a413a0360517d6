"""The state of charge through an outage against an integrator, and what must hold for any outage."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from footvalve.physics.method import OutsideDomain
from footvalve.physics.state_of_charge import (
    CyclingBattery,
    DailySun,
    hourly_state_of_charge,
    sun_charge,
)

BATTERY = CyclingBattery(capacity=200.0, floor=0.5, reconnect=0.6, efficiency=0.85)
SUN = DailySun(charge=60.0, daylight=10.0)


def balance(t, load, sun):
    """What flows into the battery, in Ah an hour, from the sine itself; negative when it flows out."""
    after_sunrise = t % 24 - (24 - sun.daylight) / 2
    current = -load
    if 0 < after_sunrise < sun.daylight:
        current += sun.charge * math.pi / 2 / sun.daylight * math.sin(math.pi * after_sunrise / sun.daylight)
    return 0.85 * current if current > 0 else current


@pytest.mark.parametrize("daily_charge", [0.0, 20.0, 60.0])
def test_between_floor_and_full_it_follows_the_differential_equation(daily_charge):
    """1e-4: a quarter hour in which the balance changes its sign is counted with one sign."""
    sun, battery = replace(SUN, charge=daily_charge), replace(BATTERY, capacity=1000.0)
    oracle = solve_ivp(
        lambda t, _: [balance(t, 3.0, sun) / 1000.0],
        (0, 48),
        [0.8],
        t_eval=range(49),
        max_step=0.05,
        rtol=1e-8,
    ).y[0]
    trace = hourly_state_of_charge(battery, sun, load_current=3.0, days=2, start=0.8)
    assert trace == pytest.approx(list(oracle), abs=1e-4)


def test_held_between_floor_and_full_it_follows_small_euler_steps():
    """The oracle takes steps of 3.6 s; 1e-2 is what a load of 8 A draws from 200 Ah in a quarter hour."""
    sun = replace(SUN, charge=90.0)
    s, connected, oracle, step = 1.0, True, [1.0], 0.001
    for n in range(4 * 24 * 1000):
        s = min(s + balance(n * step, 8.0 * connected, sun) * step / 200, 1.0)
        if s < 0.5:
            s, connected = 0.5, False
        elif s >= 0.6:
            connected = True
        if (n + 1) % 1000 == 0:
            oracle.append(s)
    assert min(oracle) == 0.5
    assert max(oracle[24:]) > 0.6
    assert hourly_state_of_charge(BATTERY, sun, load_current=8.0, days=4) == pytest.approx(oracle, abs=1e-2)


def test_the_sun_between_two_times_is_the_area_under_the_half_sine():
    for start, end in [(0.0, 10.0), (1.0, 4.0), (9.0, 12.0), (-3.0, 20.0)]:
        area, _ = quad(lambda t: 3 * math.pi * math.sin(math.pi * t / 10), max(start, 0.0), min(end, 10.0))
        assert sun_charge(SUN, start=start, end=end) == pytest.approx(area, rel=1e-9)


def battery_with(floor):
    return st.builds(
        lambda capacity, floor, efficiency: CyclingBattery(capacity, floor, floor + 0.1, efficiency),
        st.floats(20, 1000),
        floor,
        st.floats(0.6, 1),
    )


batteries = battery_with(st.floats(0, 0.8))
suns = st.builds(DailySun, charge=st.floats(0, 500), daylight=st.floats(6, 16))
currents = st.floats(0, 30)


@given(batteries, suns, currents, st.integers(1, 6))
def test_it_never_leaves_the_room_between_floor_and_full(battery, sun, load, days):
    trace = hourly_state_of_charge(battery, sun, load_current=load, days=days)
    assert len(trace) == days * 24 + 1
    assert all(battery.floor - 1e-12 <= s <= 1 for s in trace)


@given(batteries, currents)
def test_without_sun_the_floor_is_reached_when_the_charge_above_it_is_used_up(battery, load):
    trace = hourly_state_of_charge(battery, DailySun(0.0, 10.0), load_current=load, days=4)
    expected = [max(1 - load * hour / battery.capacity, battery.floor) for hour in range(97)]
    assert trace == pytest.approx(expected, abs=1e-9)


@given(batteries, currents, st.floats(6, 16))
def test_a_harvest_of_the_days_need_holds_the_battery_from_day_to_day(battery, load, daylight):
    """What a balance calls covered must not run down in the trace. It starts with room for the sun."""
    battery = replace(battery, capacity=96 * load + 1, floor=0.0, reconnect=0.1)
    sun = DailySun(load * 24 / battery.efficiency, daylight)
    trace = hourly_state_of_charge(battery, sun, load_current=load, days=5, start=0.5)
    assert trace[-1] >= 0.5 - 1e-3


@given(batteries, suns, currents)
def test_more_sun_never_leaves_less_while_the_loads_run(battery, sun, load):
    battery = replace(battery, capacity=96 * load + 1, floor=0.0, reconnect=0.1)
    less, more = (
        hourly_state_of_charge(battery, replace(sun, charge=charge), load_current=load, days=4)
        for charge in (sun.charge, sun.charge * 1.5)
    )
    assert all(a <= b + 1e-9 for a, b in zip(less, more, strict=True))


@pytest.mark.parametrize("change", [{"capacity": 0}, {"efficiency": 0}, {"reconnect": 0.5}, {"floor": -0.1}])
def test_a_battery_without_meaning_is_refused(change):
    with pytest.raises(OutsideDomain):
        replace(BATTERY, **change)


@pytest.mark.parametrize("change", [{"charge": -1}, {"daylight": 0}, {"daylight": 25}])
def test_a_sun_without_meaning_is_refused(change):
    with pytest.raises(OutsideDomain):
        replace(SUN, **change)


@pytest.mark.parametrize("change", [{"load_current": -1}, {"days": -1}, {"start": 0.4}])
def test_an_outage_without_meaning_is_refused(change):
    with pytest.raises(OutsideDomain):
        hourly_state_of_charge(BATTERY, SUN, **{"load_current": 3.0, "days": 1} | change)
