"""The tank's cycle and the battery's charge, as their answers tell them."""

from itertools import combinations, pairwise

import pytest

from footvalve.contract.examples import examples
from footvalve.contract.quantities import Pressure
from footvalve.drawings.figures import told
from footvalve.drawings.state_of_charge import state_of_charge
from footvalve.drawings.tank_cycle import tank_cycle


def flow(value):
    return {"value": value, "unit": "gal/min"}


@pytest.fixture
def tank(ask, example_of):
    """A tank with a demand, which a pump of 5 gal/min fills."""

    def asked(demand, **changes):
        body = example_of("tank-cycle", examples("tank-cycle")[0].name) | {"pump": {"flow": flow(5)}} | changes
        body.pop("demands", None)
        return ask("tank-cycle", body | {"demand": flow(demand)})

    return asked


def drawn(site):
    return tank_cycle(site.answer, site.request.switch)


def widths(reading, role):
    return [max(x for x, _ in bar) - min(x for x, _ in bar) for bar in reading.points_of(role)]


@pytest.mark.parametrize("demand", [0.0, 0.01, 1.0, 2.5, 4.9, 5.0, 7.0])
@pytest.mark.parametrize("units", ["us", "metric"])
def test_labels_keep_apart_and_all_lies_inside(tank, read, demand, units):
    reading = read(drawn(tank(demand, units=units)))
    for one, other in combinations(reading.labels, 2):
        assert not one.lies_on(other), (one.text, other.text)
    for x, y in reading.corners:
        assert 0 <= x <= reading.width
        assert 0 <= y <= reading.height


def test_runs_and_rests_are_as_long_as_the_answer_says(tank, read):
    site = tank(2.0)
    reading = read(drawn(site))
    ratio = site.answer.run_time.base / site.answer.rest_time.base
    runs, rests = widths(reading, "pump-runs"), widths(reading, "pump-rests")
    assert len(runs) == len(rests) == 2
    assert sum(runs) / sum(rests) == pytest.approx(ratio, rel=0.01)


def test_the_water_rises_while_the_pump_runs_and_falls_while_it_rests(tank, read):
    (water,) = read(drawn(tank(2.0))).points_of("water")
    heights = [y for _, y in water]
    assert [b < a for a, b in pairwise(heights)] == [True, False, True, False]


def test_without_demand_it_fills_once_and_stays(tank, read):
    reading = read(drawn(tank(0.0)))
    (water,) = reading.points_of("water")
    assert [b - a for (_, a), (_, b) in pairwise(water)][1:] == [0.0]
    assert "stays off" in reading.description


def test_a_pump_that_does_not_keep_up_runs_all_the_time(tank, read):
    site = tank(7.0)
    reading = read(drawn(site))
    assert site.answer.outcome == "runs-on"
    assert len(reading.of_role("pump-runs")) == 1
    assert not reading.of_role("pump-rests")
    assert "runs on" in reading.description


def test_the_pressure_at_which_it_stands_still_is_drawn_between_the_switchs(tank, read):
    points = [{"pressure": {"value": p, "unit": "psi"}, "flow": flow(f)} for p, f in ((0, 8), (100, 0))]
    site = tank(4.5, pump={"points": points})
    reading = read(drawn(site))
    (settling,) = reading.points_of("settling")
    assert told(site.answer.settling_pressure) in reading.description
    assert 46.0 < settling[0][1] < 90.0


@pytest.mark.parametrize(("units", "unit"), [("us", "psi"), ("metric", "bar")])
def test_the_switch_is_named_at_its_levels_in_the_answers_unit(tank, read, units, unit):
    site = tank(2.0, units=units)
    texts = [label.text for label in read(drawn(site)).labels]
    for name, pressure in (("cut-in", site.request.switch.cut_in), ("cut-out", site.request.switch.cut_out)):
        assert f"{name} {told(Pressure.from_base(pressure.base, unit))}" in texts
    assert any(told(site.answer.drawdown) in text for text in texts)


@pytest.fixture
def battery(ask, example_of):
    def asked(**changes):
        return ask("battery-runtime", example_of("battery-runtime", examples("battery-runtime")[0].name) | changes)

    return asked


@pytest.mark.parametrize("days", [1, 2, 5, 13, 60])
def test_the_charge_over_any_number_of_days(battery, read, days):
    site = battery(days=days)
    reading = read(state_of_charge(site.answer))
    for one, other in combinations(reading.labels, 2):
        assert not one.lies_on(other), (one.text, other.text)
    for x, y in reading.corners:
        assert 0 <= x <= reading.width
        assert 0 <= y <= reading.height
    (course,) = reading.points_of("charge")
    assert len(course) == len(site.answer.state_of_charge)


def test_the_course_is_the_answers(battery, read):
    site = battery(days=3)
    reading = read(state_of_charge(site.answer))
    (course,) = reading.points_of("charge")
    (floor,) = reading.points_of("floor")
    top = course[0][1]
    share_of_height = (floor[0][1] - top) / (1 - site.answer.bank.floor_fraction)
    for (_, y), state in zip(course, site.answer.state_of_charge, strict=True):
        assert y == pytest.approx(top + (1 - state.fraction) * share_of_height, abs=0.2)


def test_a_battery_that_comes_down_to_its_floor_says_when(battery, read):
    reading = read(state_of_charge(battery(days=60).answer))
    assert "down to the floor" in reading.description
    assert "above the floor" in read(state_of_charge(battery(days=1).answer)).description
