"""How long a battery lasts: an integrator, and what must hold for any bank."""

import math
from copy import deepcopy
from itertools import pairwise

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from footvalve.answers.battery_runtime import battery_runtime
from footvalve.answers.battery_wire_doubts import wire_ampacity
from footvalve.contract.battery_runtime import BatteryRuntimeRequest, Wire
from footvalve.contract.examples import examples
from footvalve.contract.problem import Refused
from footvalve.contract.quantities import GREATEST, Length
from footvalve.contract.ranges import outside_ranges
from footvalve.contract.request import Site

SIX_DIGITS = 1.1e-5
"""Two numbers that are equal before they are rounded to six digits differ by no more than this part."""


def q(value, unit):
    return {"value": value, "unit": unit}


BODY = {
    "battery": {
        "chemistry": "agm",
        "capacity": q(100, "Ah"),
        "rated_hours": 20,
        "voltage": q(12, "V"),
        "temperature": q(25, "degC"),
        "peukert_exponent": 1.2,
        "floor_fraction": 0.0,
    },
    "loads": [{"name": "pump", "current": q(10, "A"), "hours_per_day": 24}],
}


SHALLOW = {"battery__floor_fraction": 0.5}
"""The floor of the chemistry, which calls for no doubt; the plain request goes down to nothing."""


def body(**changes):
    """The plain request with fields set by path: battery__voltage, loads__0__current; None takes a field out."""
    changed = deepcopy(BODY)
    for path, value in changes.items():
        *way, last = [int(step) if step.isdigit() else step for step in path.split("__")]
        place = changed
        for step in way:
            place = place[step]
        if value is None:
            del place[last]
        else:
            place[last] = value
    return changed


def answer(**changes):
    return battery_runtime(msgspec.convert(body(**changes), BatteryRuntimeRequest))


def faults(**changes):
    with pytest.raises(Refused) as refused:
        answer(**changes)
    return [fault.pointer for fault in refused.value.faults]


def warned(found):
    return [warning.pointer for warning in found.warnings]


def test_a_second_rating_is_met_exactly():
    rating = {"capacity": q(80, "Ah"), "rated_hours": 5}
    found = answer(battery__peukert_exponent=None, battery__second_rating=rating, loads__0__current=q(16, "A"))
    assert found.usable_charge.value == pytest.approx(80, rel=SIX_DIGITS)
    assert found.runtime.value == pytest.approx(5, rel=SIX_DIGITS)


def test_a_day_of_several_loads_empties_the_bank_when_an_integrator_says_so():
    """The oracle draws the day's loads in their worst order day after day, under Peukert's law and its cap."""

    def rate(t, _):
        hour = t % 24
        current = 0.5 + (20 if hour < 1 else 0) + (8 if hour < 3 else 0)
        return [5 * max(current / 5, (current / 5) ** 1.2)]

    def floor(_, lost):
        return lost[0] - 60

    floor.terminal = True
    oracle = solve_ivp(rate, (0, 96), [0.0], events=floor, max_step=0.01).t_events[0][0]
    found = answer(
        battery__floor_fraction=0.4,
        loads=[
            {"current": q(8, "A"), "hours_per_day": 3},
            {"current": q(20, "A"), "duty_fraction": 1 / 24},
            {"current": q(500, "mA"), "hours_per_day": 24},
        ],
    )
    # The oracle may stop early or late in a day's course by what lies between the course and its mean.
    whole_days = math.floor(found.days_of_autonomy)
    assert whole_days * 24 <= oracle <= (whole_days + 1) * 24
    assert found.daily_draw.greatest_current.value == 28.5


# What must hold for any bank

currents = st.floats(0.5, 200)


@given(st.floats(-17, 37), st.floats(0.5, 20), currents)
def test_a_colder_battery_runs_shorter(temperature, less, current):
    load = q(current, "A")
    warm = answer(battery__temperature=q(temperature, "degC"), loads__0__current=load)
    cold = answer(battery__temperature=q(max(temperature - less, -17.7), "degC"), loads__0__current=load)
    assert cold.runtime.value < warm.runtime.value


@given(currents, st.floats(1.001, 5))
def test_more_current_runs_shorter(current, more):
    slow, fast = (answer(loads__0__current=q(min(i, 500), "A")) for i in (current, current * more))
    assert fast.runtime.value < slow.runtime.value


@given(st.floats(0.05, 0.95), st.floats(0.01, 0.05), currents)
def test_an_older_battery_runs_shorter(age, less, current):
    load = q(current, "A")
    old = answer(battery__age_fraction=max(age - less, 0.05), loads__0__current=load)
    assert old.runtime.value <= answer(battery__age_fraction=age, loads__0__current=load).runtime.value


@given(st.floats(0, 0.89), st.floats(0.01, 0.05), currents)
def test_a_higher_floor_leaves_less(floor, more, current):
    load = q(current, "A")
    low, high = (answer(battery__floor_fraction=f, loads__0__current=load) for f in (floor, floor + more))
    assert high.usable_charge.value < low.usable_charge.value


@given(st.floats(0.1, 100), st.floats(1.001, 3))
def test_a_longer_wire_drops_more(length, more):
    near, far = (
        answer(wire={"gauge": "2", "length": q(metres, "m")}, loads__0__current=q(5, "A"))
        for metres in (length, length * more)
    )
    assert far.voltage_drop.volts.value > near.voltage_drop.volts.value


@given(st.integers(1, 20), st.integers(1, 20))
def test_series_adds_voltage_and_parallel_adds_charge(series, parallel):
    one = answer(loads__0__current=q(1, "A"))
    bank = answer(battery__series=series, battery__parallel=parallel, loads__0__current=q(parallel, "A"))
    assert bank.bank.voltage.value == 12 * series
    assert bank.runtime.value == pytest.approx(one.runtime.value, rel=SIX_DIGITS)
    assert bank.usable_energy.value == pytest.approx(one.usable_energy.value * series * parallel, rel=SIX_DIGITS)


@given(st.floats(1, 100), st.floats(-10, 35), st.floats(0.2, 5))
def test_the_same_job_in_other_units_gives_the_same_answer(length, celsius, gallons):
    metric = answer(
        units="metric",
        battery__temperature=q(celsius, "degC"),
        loads__0__current=q(6, "A"),
        wire={"length": q(length, "m"), "area": q(13.3, "mm^2")},
        pump_flow=q(gallons * 3.785411784, "L/min"),
    )
    us = answer(
        battery__temperature=q(celsius * 9 / 5 + 32, "degF"),
        loads__0__current=q(6000, "mA"),
        wire={"length": q(length / 0.3048, "ft"), "area": q(13.3 / 25.4**2, "in^2")},
        pump_flow=q(gallons, "gal/min"),
    )
    assert us.runtime.value == pytest.approx(metric.runtime.value, rel=SIX_DIGITS)
    assert us.voltage_drop.volts.value == pytest.approx(metric.voltage_drop.volts.value, rel=SIX_DIGITS)
    assert us.water_per_charge.unit == "gal"
    assert metric.water_per_charge.unit == "L"
    assert us.water_per_charge.value * 3.785411784 == pytest.approx(metric.water_per_charge.value, rel=SIX_DIGITS)


def test_a_power_is_taken_at_the_banks_voltage():
    powered = answer(battery__series=2, loads=[{"power": q(0.24, "kW"), "hours_per_day": 24}])
    assert powered.daily_draw.greatest_current.value == 10


def test_wire_and_fuse_carry_the_most_of_each_load_that_runs_and_the_charge_is_that_of_the_mean():
    pump = {"name": "pump", "current": q(10, "A"), "greatest_current": q(12, "A"), "hours_per_day": 2}
    lamp = {"power": q(12, "W"), "greatest_current": q(3, "A"), "duty_fraction": 0.5}
    idle = {"current": q(5, "A"), "greatest_current": q(9, "A"), "hours_per_day": 0}
    wire = {"area": q(2.5, "mm^2"), "length": q(10, "m"), "temperature": q(20, "degC")}
    found = answer(loads=[pump, lamp, idle], wire=wire)
    assert found.daily_draw.greatest_current.value == 15
    assert found.daily_draw.charge.value == 10 * 2 + 1 * 12
    assert found.voltage_drop.volts.value == pytest.approx(2 * 10 * 7.41e-3 * 15, rel=SIX_DIGITS)  # IEC 60228, Table 2
    means = [{name: load[name] for name in load if name != "greatest_current"} for load in (pump, lamp, idle)]
    assert found.usable_charge == answer(loads=means).usable_charge


def test_below_the_rated_current_no_more_than_the_rating_is_counted():
    found = answer(loads__0__current=q(1, "A"), battery__floor_fraction=0.2)
    assert found.usable_charge.value == 80
    assert found.runtime.value == 80


def test_without_a_temperature_the_battery_is_as_warm_as_the_sites_air():
    at_site = answer(battery__temperature=None, site={"air_temperature": q(4, "degC")})
    assert at_site.bank == answer(battery__temperature=q(4, "degC")).bank


# Water and the pump


def test_the_pumps_hours_follow_from_the_daily_water():
    found = answer(loads=[{"current": q(10, "A")}], pump_flow=q(10, "L/min"), daily_water=q(1.2, "m^3"), units="metric")
    assert found.pump_hours_per_day == 2
    assert found.daily_draw.charge.value == 20
    assert found.water_per_charge.value == pytest.approx(1200 * found.days_of_autonomy, rel=SIX_DIGITS)


STANDING = {"name": "lamp", "current": q(0.1, "A"), "hours_per_day": 24}


@pytest.mark.parametrize(
    "loads",
    [
        [STANDING, {"name": " Pump ", "current": q(5, "A"), "hours_per_day": 3}],
        [STANDING, {"name": "booster", "current": q(5, "A"), "hours_per_day": 3, "draws_water": True}],
        [{"current": q(5, "A"), "hours_per_day": 3}],
        [STANDING | {"name": "pump"}, {"current": q(5, "A"), "hours_per_day": 3, "draws_water": True}],
    ],
)
def test_the_pump_is_found_by_its_mark_or_its_name_or_as_the_only_load(loads):
    assert answer(loads=loads, pump_flow=q(2, "gal/min")).pump_hours_per_day == 3


def test_stated_pump_hours_that_do_not_bring_the_water_are_remarked():
    water = {"pump_flow": q(10, "L/min"), "daily_water": q(600, "L")}
    water |= SHALLOW
    assert warned(answer(loads__0__hours_per_day=1.04, **water)) == []
    assert warned(answer(loads__0__hours_per_day=1.2, **water)) == ["/loads/0/hours_per_day"]
    by_duty = answer(loads=[{"current": q(10, "A"), "duty_fraction": 0.1}], **water)
    assert warned(by_duty) == ["/loads/0/duty_fraction"]
    assert by_duty.pump_hours_per_day == pytest.approx(2.4)


# Chargers, sun and the course of the charge


def test_a_charger_is_told_by_what_it_leaves_for_the_battery():
    found = answer(
        battery__floor_fraction=0.0,
        loads=[
            {"current": q(1, "A"), "hours_per_day": 24},
            {"name": "pump", "current": q(24, "A"), "hours_per_day": 2},
        ],
        charger={"currents": [q(0.9, "A"), q(2, "A"), q(11, "A"), q(40, "A")]},
    )
    short, small, fit, large = found.recharge
    assert [row.holds for row in found.recharge] == [False, True, True, True]
    assert [row.carries_loads for row in found.recharge] == [False, False, True, True]
    assert short.hours is msgspec.UNSET
    # 100 Ah from empty, of an AGM battery that tapers from 80 % on at 20 A: at 10 A from 90 % on. There 20 x 10 / 20 of
    # the first 20 % are wanting, which is e^-ln 2 of it; tau is 20 Ah / (0.85 x 20 A).
    tau = 20 / (0.85 * 20)
    assert fit.hours == pytest.approx(90 / (0.85 * 10) + tau * (3 - math.log(2) + 1), rel=SIX_DIGITS)
    # 1 A is a twentieth of 20 A, just more than e^-3: it tapers in the last percent alone.
    assert small.hours == pytest.approx(99 / 0.85 + tau * (3 - math.log(20) + 1), rel=SIX_DIGITS)
    assert "C/50: less than usual" in small.rate_note
    assert "C/2.5: more than" in large.rate_note


def test_a_slow_charger_fills_at_its_current_alone():
    """C/200 into an AGM battery, whose acceptance does not fall below C/100: 50 Ah over 85 %."""
    (row,) = answer(**SHALLOW, loads__0__hours_per_day=1, charger={"currents": [q(0.5, "A")]}).recharge
    assert row.hours == pytest.approx(50 / 0.85 / 0.5, rel=SIX_DIGITS)


def test_the_usual_rate_is_called_so():
    (row,) = answer(charger={"currents": [q(25, "A")]}).recharge
    assert row.rate_note.startswith("C/4: within the usual range")


SUN = [1.0, 1.5, 2.5, 3.5, 4.5, 5.0, 5.2, 4.6, 3.6, 2.4, 1.4, 0.9]


def test_the_sun_of_each_month_is_set_against_the_need():
    found = answer(
        loads__0__current=q(1, "A"),
        solar={"array_power": q(150, "W"), "sun_hours": SUN, "derate_fraction": 0.7},
    )
    assert [row.month for row in found.solar_balance][::11] == ["january", "december"]
    for row, sun_hours in zip(found.solar_balance, SUN, strict=True):
        assert row.harvest.value == pytest.approx(150 * sun_hours * 0.7)
        assert row.need.value == pytest.approx(24 * 12 / 0.85, rel=SIX_DIGITS)
        assert row.covers_fraction == pytest.approx(min(1, row.harvest.value / row.need.value), rel=SIX_DIGITS)


@given(st.floats(0.5, 30), st.floats(1.0, 2.0), st.floats(0, 0.8))
def test_sun_that_covers_the_need_never_lets_the_charge_run_down(current, room, floor):
    """What the balance calls covered must hold in the hourly course too, also where Peukert's law bites."""
    need = current * 2 * 12 / 0.85
    found = answer(
        battery__floor_fraction=floor,
        battery__capacity=q(current * 2 * 2 / (1 - floor), "Ah"),
        loads__0__current=q(current, "A"),
        loads__0__hours_per_day=2,
        solar={"array_power": q(need * room, "W"), "sun_hours": [1.0], "derate_fraction": 1.0},
        days=10,
    )
    assert found.solar_balance[0].covers_fraction == pytest.approx(1.0, abs=1e-5)
    midnights = [state.fraction for state in found.state_of_charge][24::24]
    assert all(later >= earlier - 1e-5 for earlier, later in pairwise(midnights))
    assert min(state.fraction for state in found.state_of_charge) > floor


@given(currents, st.floats(0, 0.8))
def test_the_course_reaches_the_floor_when_the_runtime_says(current, floor):
    found = answer(loads__0__current=q(current, "A"), battery__floor_fraction=floor, days=10)
    at_floor = [s.hour for s in found.state_of_charge if s.fraction <= floor + 1e-6]
    if found.runtime.value <= 240:
        assert at_floor[0] - 1 <= found.runtime.value * (1 + SIX_DIGITS)
        assert found.runtime.value <= at_floor[0] + 1e-3
    else:
        assert not at_floor


def test_the_course_has_every_hour_of_the_days_asked_for():
    found = answer(days=2)
    assert [state.hour for state in found.state_of_charge] == list(range(49))
    assert found.state_of_charge[0].fraction == 1


def test_the_course_takes_the_worst_months_sun():
    solar = {"array_power": q(100, "W"), "sun_hours": SUN}
    worst = {"array_power": q(100, "W"), "sun_hours": [min(SUN)]}
    load = {"loads__0__current": q(1, "A")}
    assert answer(solar=solar, **load).state_of_charge == answer(solar=worst, **load).state_of_charge


# Wires


def test_a_wire_by_its_metric_size_has_the_greatest_resistance_that_the_standard_allows():
    # 2.5 mm^2: 7.41 ohm/km at 20 degC (IEC 60228, Table 2, class 2).
    wire = {"area": q(2.5, "mm^2"), "length": q(10, "m"), "temperature": q(20, "degC")}
    assert answer(wire=wire).voltage_drop.volts.value == pytest.approx(2 * 10 * 7.41e-3 * 10, rel=SIX_DIGITS)


@pytest.mark.parametrize(
    ("area", "ohm_per_km"), [(10, 3.08), (16, 1.91), (25, 1.20), (35, 0.868), (50, 0.641), (70, 0.443)]
)
def test_so_has_one_of_aluminum(area, ohm_per_km):
    """IEC 60228, Table 2, class 2, aluminum (read in two table copies)."""
    wire = {"area": q(area, "mm^2"), "length": q(10, "m"), "temperature": q(20, "degC"), "material": "aluminum"}
    found = answer(wire=wire)
    assert found.voltage_drop.volts.value == pytest.approx(2 * 10 * ohm_per_km * 1e-3 * 10, rel=SIX_DIGITS)
    (step,) = [step for step in found.basis if step.step == "Resistance of the wire"]
    assert "aluminum" in step.source


def test_aluminum_drops_more_than_copper_by_the_ratio_of_the_metals():
    wire = {"gauge": "2", "length": q(10, "m"), "temperature": q(20, "degC")}
    copper = answer(wire=wire).voltage_drop.volts.value
    aluminum = answer(wire=wire | {"material": "aluminum"}).voltage_drop.volts.value
    assert aluminum / copper == pytest.approx(1 / 0.61, rel=0.01)  # 61 % IACS; the code's table rounds


# What is refused, remarked and warned of


@pytest.mark.parametrize(
    ("changes", "pointers"),
    [
        ({"loads__0__power": q(100, "W")}, ["/loads/0"]),
        ({"loads__0__current": None}, ["/loads/0"]),
        ({"loads__0__duty_fraction": 0.5}, ["/loads/0"]),
        ({"loads__0__hours_per_day": None}, ["/loads/0"]),
        ({"loads__0__hours_per_day": 0}, ["/loads"]),
        ({"loads__0__current": q(0, "A")}, ["/loads"]),
        ({"loads__0__current": q(1e-9, "A")}, ["/loads"]),
        ({"daily_water": q(100, "gal")}, ["/daily_water"]),
        ({"daily_water": q(100, "m^3"), "pump_flow": q(1, "L/min")}, ["/daily_water"]),
        ({"loads": [STANDING, STANDING], "pump_flow": q(1, "L/min")}, ["/loads"]),
        (
            {"loads": [STANDING | {"draws_water": True}] * 2, "pump_flow": q(1, "L/min")},
            ["/loads/1/draws_water"],
        ),
        ({"battery__temperature": q(-30, "degC")}, ["/battery/temperature"]),
        (
            {"battery__temperature": None, "site": {"air_temperature": q(-30, "degC")}},
            ["/site/air_temperature"],
        ),
        ({"battery__second_rating": {"capacity": q(80, "Ah"), "rated_hours": 5}}, ["/battery"]),
        (
            {
                "battery__peukert_exponent": None,
                "battery__second_rating": {"capacity": q(120, "Ah"), "rated_hours": 5},
            },
            ["/battery/second_rating"],
        ),
        (
            {
                "battery__peukert_exponent": None,
                "battery__second_rating": {"capacity": q(25.1, "Ah"), "rated_hours": 5},
            },
            ["/battery/second_rating"],
        ),
        ({"battery__voltage": q(100, "V"), "battery__series": 11}, ["/battery/series"]),
        ({"wire": {"length": q(1, "m")}}, ["/wire"]),
        ({"wire": {"length": q(1, "m"), "gauge": "8", "area": q(6, "mm^2")}}, ["/wire"]),
        ({"wire": {"length": q(500, "m"), "gauge": "18"}}, ["/wire"]),
        ({"solar": {"array_power": q(100, "W"), "sun_hours": [1, 2, 3]}}, ["/solar/sun_hours"]),
        (
            {"loads__0__current": None, "wire": {"length": q(1, "m")}, "battery__temperature": q(-40, "degC")},
            ["/battery/temperature", "/loads/0", "/wire"],
        ),
    ],
)
def test_what_the_trade_does_not_allow_is_refused_where_it_stands(changes, pointers):
    assert faults(**changes) == pointers


@pytest.mark.parametrize(
    ("changes", "pointers"),
    [
        ({}, []),
        ({"battery__peukert_exponent": 1.7}, ["/battery/peukert_exponent"]),
        ({"battery__rated_hours": 200}, ["/battery/rated_hours"]),
        ({"loads__0__current": q(200, "A")}, ["/loads/0"]),
        ({"loads__0__greatest_current": q(9.9, "A")}, ["/loads/0/greatest_current"]),
        ({"loads__0__greatest_current": q(10000, "mA")}, []),
        ({"loads__0__greatest_current": q(200, "A")}, []),
        ({"battery__temperature": q(45, "degC")}, ["/battery/temperature"]),
        ({"battery__temperature": q(50, "degC"), "battery__chemistry": "lfp"}, []),
        ({"battery__temperature": q(60, "degC"), "battery__chemistry": "lfp"}, ["/battery/temperature"]),
        ({"battery__temperature": None, "site": {"air_temperature": q(45, "degC")}}, ["/site/air_temperature"]),
        (
            {"battery__temperature": q(-16, "degC"), "charger": {"currents": [q(20, "A")]}},
            ["/battery/temperature"],
        ),
        ({"loads__0__current": q(0.03, "A")}, ["/loads"]),
        (
            {"wire": {"length": q(1, "m"), "gauge": "8", "temperature": q(120, "degC")}},
            ["/wire/temperature", "/wire/temperature"],
        ),
        ({"battery__floor_fraction": 0.49}, ["/battery/floor_fraction"]),
        ({"battery__floor_fraction": 0}, ["/battery/floor_fraction"]),
        ({"battery__floor_fraction": None}, []),
        ({"battery__chemistry": "lfp", "battery__floor_fraction": 0.2}, []),
        ({"battery__chemistry": "lfp", "battery__floor_fraction": 0.1}, ["/battery/floor_fraction"]),
        ({"wire": {"length": q(0.5, "m"), "gauge": "18"}}, ["/wire/gauge"]),
        ({"wire": {"length": q(0.5, "m"), "area": q(0.8, "mm^2")}}, ["/wire/area"]),
        ({"wire": {"length": q(60, "ft"), "gauge": "18"}}, ["/wire", "/wire/gauge"]),
    ],
)
def test_what_is_doubtful_is_remarked_where_it_stands(changes, pointers):
    assert warned(answer(**SHALLOW | changes)) == pointers


@pytest.mark.parametrize(
    ("chemistry", "volts", "doubtful"),
    [
        ("flooded", 2, False),
        ("flooded", 6, False),
        ("agm", 8, False),
        ("gel", 12, False),
        ("flooded", 1, True),
        ("flooded", 13, True),
        ("agm", 12.6, True),
        ("lfp", 3.2, False),
        ("lfp", 12.8, False),
        ("lfp", 51.2, False),
        ("lfp", 12, False),
        ("lfp", 24, False),
        ("lfp", 7, True),
        ("lfp", 3.7, True),
        ("lfp", 14.4, True),
    ],
)
def test_a_voltage_that_no_whole_number_of_cells_has_is_doubted(chemistry, volts, doubtful):
    """Batteries sold as 12 V, 24 V and so on are taken at that, of whatever cells."""
    found = answer(battery__chemistry=chemistry, battery__voltage=q(volts, "V"), loads__0__current=q(5, "A"))
    assert ("/battery/voltage" in warned(found)) == doubtful


def test_a_doubted_voltage_is_told_with_the_one_that_would_be_right():
    (found,) = (w.detail for w in answer(battery__voltage=q(13, "V"), **SHALLOW).warnings)
    assert "no whole number of cells of 2 V: 12 V would be 6 of them" in found


@pytest.mark.parametrize(
    ("feet", "words"), [(9, None), (9.2, "usual in one run"), (15, "usual in one run"), (15.3, "far too much")]
)
def test_a_wires_drop_is_doubted_from_3_and_strongly_from_5_percent(feet, words):
    """NFPA 70, informational notes to 210.19 and 215.2 (memory): 3 % of one run, 5 % in all. By its Table 8 12 AWG
    takes 2 x 10 A x 1.98 ohm/kft: 3 % of 12 V in 9.09 ft, 5 % in 15.15 ft."""
    found = answer(wire={"gauge": "12", "length": q(feet, "ft")}, **SHALLOW)
    told = [warning.detail for warning in found.warnings if warning.pointer == "/wire"]
    assert [words in detail for detail in told] == ([] if words is None else [True])


@pytest.mark.parametrize(
    ("wire", "amperes"),
    [
        ({"gauge": "18"}, 7),
        ({"gauge": "10"}, 30),
        ({"area": q(5.26, "mm^2")}, 30),
        ({"area": q(13.3, "mm^2")}, 55),
        ({"area": q(2.5, "mm^2")}, 15),
        ({"area": q(3, "mm^2")}, 15),
        ({"area": q(0.75, "mm^2")}, 6),
        ({"area": q(0.25, "mm^2")}, 2),
        ({"area": q(500, "mm^2")}, 145),
    ],
)
def test_a_wire_that_carries_more_than_it_may_is_warned_of(wire, amperes):
    below, above = (
        answer(wire=wire | {"length": q(0.1, "m")}, loads__0__current=q(amperes * part, "A"), **SHALLOW)
        for part in (0.99, 1.01)
    )
    assert not {"/wire/gauge", "/wire/area"} & set(warned(below))
    (told,) = (w.detail for w in above.warnings if w.pointer in {"/wire/gauge", "/wire/area"})
    assert f"may carry {amperes} A" in told
    assert "86 degF" in told


@pytest.mark.parametrize(
    ("gauge", "amperes"), [("8", 35), ("6", 40), ("4", 55), ("3", 65), ("2", 75), ("1", 85), ("1/0", 100), ("2/0", 115)]
)
def test_aluminum_may_carry_no_more_than_the_code_lets_it(gauge, amperes):
    """NFPA 70, Table 310.16, aluminum at 60 degC (memory); one share for all sizes is up to 17 % below."""
    wire = Wire(length=Length(1.0, "m"), gauge=gauge, material="aluminum")
    assert 0.83 * amperes < wire_ampacity(wire, Site()) <= amperes * (1 + 1e-12)


@pytest.mark.parametrize(
    ("air", "amperes"), [(10, 30), (30, 30), (35, 27.3), (40, 24.6), (45, 21.3), (50, 17.4), (55, 12.3)]
)
def test_a_wire_may_carry_less_in_warm_air_and_no_more_in_cool(air, amperes):
    """10 AWG, and the factors of NFPA 70, Table 310.15(B)(1), 60 degC column, of the band that ends there (read in a
    copy): two digits, so that half a hundredth of 30 A may be missing."""
    wire = {"gauge": "10", "length": q(0.1, "m")}
    for drawn, warned_of in ((amperes - 0.15, False), (amperes + 0.15, True)):
        found = answer(wire=wire, loads__0__current=q(drawn, "A"), site={"air_temperature": q(air, "degC")})
        assert ("/wire/gauge" in warned(found)) == warned_of


def test_where_no_current_may_flow_the_air_is_warned_of_and_not_the_wire():
    found = answer(wire={"gauge": "2", "length": q(0.1, "m")}, site={"air_temperature": q(55.1, "degC")}, **SHALLOW)
    assert warned(found) == ["/site/air_temperature"]


@pytest.mark.parametrize(
    ("stated", "doubted"), [({}, False), (q(60, "degC"), False), (q(140, "degF"), False), (q(75, "degC"), True)]
)
def test_a_wire_that_is_said_to_be_warmer_than_60_degrees_is_doubted_and_an_unstated_one_is_not(stated, doubted):
    """75 degC is only what its resistance is taken at where nothing is stated: the code's table of it is for that."""
    wire = {"gauge": "2", "length": q(1, "m")} | ({"temperature": stated} if stated else {})
    found = answer(wire=wire, **SHALLOW)
    assert warned(found) == (["/wire/temperature"] if doubted else [])
    hot = answer(wire=wire | {"temperature": q(75, "degC")})
    assert stated or found.voltage_drop == hot.voltage_drop


@pytest.mark.parametrize("chemistry", ["flooded", "agm", "gel", "lfp"])
@pytest.mark.parametrize(("units", "least"), [("us", {"lfp": "32 degF"}), ("metric", {"lfp": "0 degC"})])
def test_no_charger_holds_where_the_battery_is_too_cold_to_be_charged(chemistry, units, least):
    warm, cold = (1, -1) if chemistry == "lfp" else (-14, -16)
    told = least.get(chemistry, {"us": "5 degF", "metric": "-15 degC"}[units])
    for degrees in (warm, cold):
        (row,) = answer(
            units=units,
            battery__chemistry=chemistry,
            battery__temperature=q(degrees, "degC"),
            loads__0__hours_per_day=1,
            charger={"currents": [q(20, "A")]},
        ).recharge
        assert (row.holds, row.carries_loads, row.hours is not msgspec.UNSET) == (degrees == warm,) * 3
        assert (f"must not be charged below {told}" in row.rate_note) == (degrees == cold)


def test_the_least_temperature_of_charging_itself_is_warm_enough():
    for limit in (q(-15, "degC"), q(5, "degF"), q(258.15, "K")):
        (row,) = answer(
            battery__temperature=limit, loads__0__hours_per_day=1, charger={"currents": [q(20, "A")]}
        ).recharge
        assert row.holds


def test_a_charger_of_no_current_is_said_to_give_nothing():
    (row,) = answer(charger={"currents": [q(0, "A")]}).recharge
    assert row.rate_note == "0 A: gives nothing"
    assert not row.holds
    assert row.hours is msgspec.UNSET


@pytest.mark.parametrize(
    ("units", "cold", "warm"),
    [("us", "below 0 degF", "above 120 degF"), ("metric", "below -17.8 degC", "above 48.9 degC")],
)
def test_limits_of_temperature_are_told_in_the_system_that_is_asked_for(units, cold, warm):
    with pytest.raises(Refused) as refused:
        answer(units=units, battery__temperature=q(-20, "degF"))
    assert refused.value.faults[0].detail.startswith(cold)
    capacity, ventilation = answer(units=units, battery__temperature=q(50, "degC"), **SHALLOW).warnings
    assert capacity.detail.startswith(warm)
    assert "ventilation" in ventilation.detail


def test_many_days_are_told_in_plain_digits():
    found = answer(loads__0__current=q(1, "mA"), **SHALLOW)
    assert next(w.detail for w in found.warnings).startswith("in 2083 days")


def test_too_much_water_is_the_only_fault_of_a_pump_whose_hours_would_follow_from_it():
    load = [{"name": "pump", "current": q(5, "A")}]
    assert faults(loads=load, pump_flow=q(1, "gal/min"), daily_water=q(2000, "gal")) == ["/daily_water"]
    assert faults(loads=load, daily_water=q(200, "gal")) == ["/daily_water"]
    assert faults(loads=[*load, {"name": "lamp", "current": q(1, "A")}], daily_water=q(200, "gal")) == [
        "/daily_water",
        "/loads/1",
    ]


@pytest.mark.parametrize(
    ("changes", "codes"),
    [
        ({"battery__chemistry": "flooded"}, {"battery-gas", "battery-acid"}),
        ({"battery__chemistry": "gel", "battery__temperature": q(-5, "degC")}, {"battery-gas", "battery-frost"}),
        ({"battery__chemistry": "lfp", "battery__temperature": q(-5, "degC")}, {"lfp-charge-below-freezing"}),
        ({"charger": {"currents": [q(10, "A")]}}, {"mains-charger"}),
        ({"battery__series": 6}, {"battery-shock"}),
    ],
)
def test_the_cautions_that_a_bank_calls_for_are_given(changes, codes):
    found = [caution.code for caution in answer(**changes).cautions]
    assert codes | {"fuse-near-battery", "local-code"} <= set(found)
    assert found[-1] == "local-code"


@pytest.mark.parametrize(
    ("volts", "series", "warned_of"), [(12, 4, False), (12, 5, False), (51.2, 1, False), (62, 1, True), (12, 24, True)]
)
def test_a_bank_of_more_than_60_volts_calls_for_the_caution_of_shock(volts, series, warned_of):
    """IEC 61140 and NFPA 70, 110.27: 60 V of direct current (memory)."""
    found = answer(battery__voltage=q(volts, "V"), battery__series=series)
    assert ("battery-shock" in [caution.code for caution in found.cautions]) == warned_of


def test_a_bank_that_makes_no_gas_in_the_warm_calls_for_no_caution_of_gas_acid_or_frost():
    found = answer(battery__chemistry="lfp")
    assert [caution.code for caution in found.cautions] == ["fuse-near-battery", "local-code"]
    assert found.ventilation is msgspec.UNSET


# The answer on the wire


@pytest.mark.parametrize("example", examples("battery-runtime"), ids=lambda example: example.name)
def test_the_examples_lie_in_their_ranges_and_are_answered(example):
    request = msgspec.convert(example.request, BatteryRuntimeRequest)
    assert not list(outside_ranges(request))
    found = battery_runtime(request)
    assert found.days_of_autonomy > 0
    assert b"null" not in msgspec.json.encode(found)


def test_what_was_not_asked_for_is_absent():
    found = msgspec.to_builtins(answer())
    for field in ("water_per_charge", "pump_hours_per_day", "voltage_drop", "recharge", "solar_balance"):
        assert field not in found


def quantities(unit, low, high):
    return st.floats(low, high).map(lambda value: q(value, unit))


def sometimes(**fields):
    return {name: st.none() | strategy for name, strategy in fields.items()}


def without_none(fields):
    return {name: value for name, value in fields.items() if value is not None}


def any_load(**name):
    fields = {"current": quantities("A", 0, 500), "hours_per_day": st.floats(0, 24)}
    return st.fixed_dictionaries(fields).map(lambda load: load | name)


any_battery = st.fixed_dictionaries(
    {
        "chemistry": st.sampled_from(["flooded", "agm", "gel", "lfp"]),
        "capacity": quantities("Ah", 0.1, 5000),
        "rated_hours": st.floats(0.1, 1000),
        "voltage": quantities("V", 1, 100),
        "series": st.integers(1, 50),
        "parallel": st.integers(1, 50),
        "age_fraction": st.floats(0.05, 1),
    }
    | sometimes(
        temperature=quantities("degC", -20, 70),
        floor_fraction=st.floats(0, 0.95),
        peukert_exponent=st.floats(1, 2),
    )
).map(without_none)
any_request = st.fixed_dictionaries(
    {
        "battery": any_battery,
        "loads": st.tuples(any_load(name="pump"), any_load(), any_load()),
        "days": st.integers(1, 5),
    }
    | sometimes(
        pump_flow=quantities("L/s", 1e-4, 10),
        wire=st.fixed_dictionaries({"length": quantities("m", 0, 50), "area": quantities("mm^2", 0.1, 1000)}),
        charger=st.fixed_dictionaries({"currents": st.lists(quantities("A", 0, 5000), min_size=1, max_size=3)}),
        solar=st.fixed_dictionaries(
            {
                "array_power": quantities("W", 0, 1e6),
                "sun_hours": st.lists(st.floats(0, 24), min_size=1, max_size=1),
                "derate_fraction": st.floats(0.001, 1),
            }
        ),
    )
).map(without_none)


def numbers(value):
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        for item in value:
            yield from numbers(item)
    elif isinstance(value, int | float):
        yield value


@given(any_request)
def test_whatever_the_schema_allows_is_answered_in_finite_numbers_or_refused(case):
    """An answer's quantities keep to the same limit as those of requests."""
    request = msgspec.convert(case, BatteryRuntimeRequest)
    try:
        found = msgspec.to_builtins(battery_runtime(request))
    except Refused:
        return
    assert all(0 <= number <= GREATEST for number in numbers(found))


@pytest.mark.parametrize(("capacity", "amperes"), [(120, 40), (75, 25), (100, 100 / 3)])
def test_a_charger_of_just_the_greatest_rate_is_within_the_usual_range(capacity, amperes):
    """C/3 for AGM."""
    for factor, words in [(1.0, "within the usual range"), (1.01, "more than these batteries should take")]:
        (row,) = answer(
            battery__chemistry="agm",
            battery__capacity=q(capacity, "Ah"),
            charger={"currents": [q(factor * amperes, "A")]},
        ).recharge
        assert words in row.rate_note
