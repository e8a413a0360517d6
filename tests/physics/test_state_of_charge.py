"""The state of charge through an outage, and what must hold for any."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from footvalve.physics.method import OutsideDomain
from footvalve.physics.state_of_charge import (
    CyclingBattery,
    DailySun,
    hourly_state_of_charge,
    sun_charge,
)

BATTERY = CyclingBattery(capacity=200.0, floor=0.5, reconnect=0.6, efficiency=0.85)
SUN = DailySun(charge=60.0, daylight=10.0)


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


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"capacity": 0.0}, "^the capacity must be positive, the efficiency"),
        ({"efficiency": 1.001}, "^the capacity must be positive, the efficiency"),
        ({"floor": -0.001}, "^fractions must lie in order: 0, floor, reconnect, 1"),
        ({"reconnect": 1.001}, "^fractions must lie in order: 0, floor, reconnect, 1"),
        ({"reconnect": 0.5}, "^fractions must lie in order: 0, floor, reconnect, 1"),
    ],
)
def test_a_battery_beyond_its_ends_is_refused_with_what_is_wrong(change, told):
    with pytest.raises(OutsideDomain, match=told):
        replace(BATTERY, **change)


@pytest.mark.parametrize("change", [{"charge": -0.1}, {"daylight": 0.0}, {"daylight": 24.1}])
def test_a_sun_beyond_its_ends_is_refused_with_what_is_wrong(change):
    with pytest.raises(OutsideDomain, match=r"^the sun's charge must not be negative, and daylight"):
        replace(SUN, **change)


@pytest.mark.parametrize("change", [{"load_current": -0.1}, {"days": -1}, {"start": 0.499}, {"start": 1.001}])
def test_an_outage_beyond_its_ends_is_refused_with_what_is_wrong(change):
    with pytest.raises(OutsideDomain, match=r"^days and load must not be negative, and the start"):
        hourly_state_of_charge(BATTERY, SUN, **{"load_current": 3.0, "days": 1} | change)


@pytest.mark.parametrize("daylight", [0.25, 24.0])
def test_the_shortest_and_the_longest_day_bring_all_of_their_charge(daylight):
    """Half of it by noon, which is the middle of the half sine."""
    battery = CyclingBattery(capacity=200.0, floor=0.0, reconnect=1.0, efficiency=1.0)
    trace = hourly_state_of_charge(battery, DailySun(40.0, daylight), load_current=0.0, days=1, start=0.5)
    assert trace[12] == pytest.approx(0.6, abs=1e-12)
    assert trace[-1] == pytest.approx(0.7, abs=1e-12)


def test_an_outage_of_no_days_is_its_start():
    assert hourly_state_of_charge(BATTERY, SUN, load_current=3.0, days=0, start=0.7) == [0.7]


def test_an_outage_may_start_at_the_floor_and_stays_there_without_sun():
    trace = hourly_state_of_charge(BATTERY, DailySun(0.0, 10.0), load_current=3.0, days=1, start=0.5)
    assert trace == [0.5] * 25


def test_loads_come_back_as_soon_as_the_reconnect_point_is_reached():
    """Cut off in the night, a battery stands at its floor until the sun rises at 7 h, and takes all of it until the
    reconnect point; from there on the sun has the loads to carry first. 128 Ah keep the digits of a fraction."""
    battery = CyclingBattery(capacity=128.0, floor=0.25, reconnect=1.0, efficiency=0.85)
    outage = {"load_current": 8.0, "days": 1, "start": 0.3}

    def brought(start, end):
        return quad(lambda t: 60.0 * math.pi / 20 * math.sin(math.pi * t / 10), start, end)[0]

    at_eleven = hourly_state_of_charge(battery, SUN, **outage)[11]
    assert at_eleven == pytest.approx(0.25 + 0.85 * brought(0.0, 4.0) / 128, rel=1e-12)
    trace = hourly_state_of_charge(replace(battery, reconnect=at_eleven), SUN, **outage)
    assert trace[:12] == hourly_state_of_charge(battery, SUN, **outage)[:12]
    assert trace[12] == pytest.approx(at_eleven + 0.85 * (brought(4.0, 5.0) - 8.0) / 128, rel=1e-12)
