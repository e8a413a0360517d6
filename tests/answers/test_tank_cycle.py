"""How often the pump starts: what must hold for any plant, diagnoses that find what was hidden, and refusals."""

from copy import deepcopy

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footvalve.answers.tank_cycle import tank_cycle
from footvalve.answers.tank_diagnosis import AGREEMENT
from footvalve.contract.examples import examples
from footvalve.contract.problem import Refused
from footvalve.contract.quantities import GREATEST
from footvalve.contract.ranges import outside_ranges
from footvalve.contract.tank_cycle import TankCycleAnswer, TankCycleRequest

SIX_DIGITS = 1.1e-5
"""Two numbers that are equal before they are rounded to six digits differ by no more than this part."""


def q(value, unit):
    return {"value": value, "unit": unit}


def curve(*points):
    return {"points": [{"pressure": q(psi, "psi"), "flow": q(gpm, "gal/min")} for psi, gpm in points]}


BODY = {
    "tanks": [{"volume": q(40, "gal"), "precharge": q(28, "psi")}],
    "switch": {"cut_in": q(30, "psi"), "cut_out": q(50, "psi")},
    "pump": {"flow": q(6, "gal/min")},
    "demand": q(2, "gal/min"),
}


def body(**changes):
    """The plain request with fields set by path: tanks__0__precharge; None takes a field out."""
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
    return tank_cycle(msgspec.convert(body(**changes), TankCycleRequest))


def faults(**changes):
    with pytest.raises(Refused) as refused:
        answer(**changes)
    return [fault.pointer for fault in refused.value.faults]


def pointers(found):
    return [warning.pointer for warning in found.warnings]


def codes(found):
    return [caution.code for caution in found.cautions]


def test_a_pump_of_one_flow_is_worst_at_half_of_it():
    """15 Q / V_d starts an hour (ground-water trade columns, computed)."""
    found = answer()
    assert found.worst_case.demand.value == pytest.approx(3, rel=SIX_DIGITS)
    assert found.worst_case.starts_per_hour == pytest.approx(15 * 60 * 6 / 60 / found.drawdown.value, rel=SIX_DIGITS)


def test_run_and_rest_come_from_the_drawdown():
    found = answer()
    assert found.run_time.value == pytest.approx(found.drawdown.value / (6 - 2), rel=SIX_DIGITS)
    assert found.rest_time.value == pytest.approx(found.drawdown.value / 2, rel=SIX_DIGITS)
    assert found.starts_per_hour == pytest.approx(60 / (found.run_time.value + found.rest_time.value), rel=SIX_DIGITS)


def test_the_same_plant_in_metric_units_gives_the_same_answer():
    us, metric = (
        answer(),
        answer(
            tanks=[{"volume": q(40 * 3.785411784, "L"), "precharge": q(28 * 0.06894757293168, "bar")}],
            switch={"cut_in": q(30 * 6.894757293168, "kPa"), "cut_out": q(50 * 6894.757293168, "Pa")},
            pump={"flow": q(6 * 3.785411784, "L/min")},
            demand=q(2 * 3.785411784e-3 * 60, "m^3/h"),
        ),
    )
    same = pytest.approx(us.starts_per_hour, rel=SIX_DIGITS)
    assert metric.starts_per_hour == same
    assert metric.drawdown.value == pytest.approx(us.drawdown.value, rel=SIX_DIGITS)


def test_metric_answers_speak_litres_and_bar():
    found = answer(units="metric")
    spoken = {found.drawdown.unit, found.demand.unit, found.precharge_advice.precharge.unit, found.run_time.unit}
    assert spoken == {"L", "L/min", "bar", "min"}
    assert "psi" not in found.precharge_advice.text


@given(st.floats(1.01, 4.0), st.floats(0.05, 5.5))
def test_a_bigger_tank_starts_the_pump_less_often(growth, gpm):
    few, many = (answer(tanks__0__volume=q(40 * g, "gal"), demand=q(gpm, "gal/min")) for g in (growth, 1.0))
    assert few.starts_per_hour < many.starts_per_hour


@given(st.integers(1, 10))
def test_several_equal_tanks_are_one_of_their_whole_volume(count):
    several = answer(tanks__0__count=count)
    one = answer(tanks__0__volume=q(40 * count, "gal"))
    assert several.starts_per_hour == pytest.approx(one.starts_per_hour, rel=SIX_DIGITS)
    assert several.acceptance_fraction == one.acceptance_fraction


@given(st.floats(0, 4000), st.floats(200, 1000))
def test_higher_up_the_same_settings_give_more_water(altitude, climb):
    """With the precharge at cut-in the drawdown is V (p2 - p1) / p2, and p2 is lower in thinner air."""
    low, high = (
        answer(tanks__0__precharge=q(30, "psi"), site={"altitude": q(a, "m")}) for a in (altitude, altitude + climb)
    )
    assert high.drawdown.value > low.drawdown.value


@pytest.mark.parametrize(
    ("demands", "headline", "outcome"),
    [
        ((0.5, 7, 2.8, 9, 0), 9, "runs-on"),
        ((0, 9), 9, "runs-on"),
        ((0, 0.5, 2.8, 5.9), 2.8, "cycles"),
        ((0, 0.01), 0.01, "cycles"),
        ((0, 0), 0, "stays-off"),
    ],
)
def test_the_headline_of_several_demands_is_the_worst_of_them(demands, headline, outcome):
    """A pump that never stops is worse than one that starts often, and that is worse than one that stays off."""
    found = answer(demand=None, demands=[q(g, "gal/min") for g in demands])
    assert (found.demand.value, found.outcome) == (headline, outcome)
    (told,) = {cycle for cycle in found.cycles if cycle.demand.value == headline}
    assert found.starts_per_hour == told.starts_per_hour


def test_the_least_span_of_a_switch_is_told_in_the_unit_that_it_was_stated_in():
    with pytest.raises(Refused) as refused:
        answer(switch__cut_out=q(30, "psi"))
    assert refused.value.faults[0].detail == "must be above cut-in, 30 psi, by 0.145 psi at least"


def test_very_many_starts_are_told_in_plain_digits():
    found = answer(tanks__0__volume=q(0.2, "gal"), demand=q(3, "gal/min"))
    assert found.starts_per_hour > 1000
    assert all("e+" not in warning.detail for warning in found.warnings)


def test_without_demand_the_pump_fills_the_tank_once_and_stays_off():
    found = answer(demand=q(0, "L/s"))
    assert found.outcome == "stays-off"
    assert found.starts_per_hour == 0
    assert found.run_time == found.shortest_run
    assert found.rest_time is msgspec.UNSET


@pytest.mark.parametrize("gpm", [6, 9])
def test_a_demand_of_the_pumps_whole_flow_is_said_to_never_stop_it(gpm):
    found = answer(demand=q(gpm, "gal/min"))
    assert (found.outcome, found.starts_per_hour) == ("runs-on", 0)
    assert found.run_time is found.rest_time is msgspec.UNSET
    assert pointers(found) == ["/demand"]
    assert "pump-runs-on" in codes(found)


def test_a_pump_that_runs_on_settles_where_its_curve_meets_the_demand():
    found = answer(pump=curve((20, 8), (40, 6), (60, 4)), demand=q(5.5, "gal/min"))
    assert found.settling_pressure.value == pytest.approx(45)
    assert "45 psi" in found.warnings[0].detail


def test_a_pump_that_cannot_reach_cut_out_has_no_worst_case():
    found = answer(pump=curve((20, 8), (45, 0)), demand=q(0, "gal/min"), least_run=q(1, "min"))
    assert found.outcome == "runs-on"
    assert found.settling_pressure.value == pytest.approx(45)
    absent = (found.worst_case, found.shortest_run, found.volume_needed)
    assert all(field is msgspec.UNSET for field in absent)


def test_a_run_of_more_than_a_year_counts_as_running_on():
    found = answer(demand=q(6 * (1 - 1e-9), "gal/min"))
    assert found.outcome == "runs-on"


def test_a_flat_curve_is_a_pump_of_one_flow():
    flat = answer(pump=curve((20, 6), (60, 6)))
    assert flat.starts_per_hour == answer().starts_per_hour


def test_the_volume_for_a_least_run_is_enough_and_no_more():
    short = answer(least_run=q(3, "min"))
    assert pointers(short) == ["/least_run"]
    mended = answer(least_run=q(3, "min"), tanks__0__volume=msgspec.to_builtins(short.volume_needed))
    assert mended.shortest_run.value == pytest.approx(3, rel=SIX_DIGITS)


def test_a_least_run_that_is_met_is_no_warning():
    assert pointers(answer(least_run=q(1, "min"))) == []


@pytest.mark.parametrize(("cut_in", "advised"), [(20, 18), (30, 28), (40, 38)])
def test_the_precharge_is_set_2_psi_below_cut_in(cut_in, advised):
    """Water Systems Council, wellcare sheet Pressure Tanks (January 2007), seen."""
    found = answer(switch__cut_in=q(cut_in, "psi"))
    assert found.precharge_advice.precharge.value == pytest.approx(advised, rel=SIX_DIGITS)
    assert ("tank 1 stands at 28 psi" in found.precharge_advice.text) == (advised != 28)


def observed(gallons, precharge=28):
    return answer(observed_drawdown=q(gallons, "gal"), tanks__0__precharge=q(precharge, "psi")).diagnosis


def drawdown(precharge):
    return answer(tanks__0__precharge=q(precharge, "psi")).drawdown.value


@pytest.mark.parametrize("part", [1 - AGREEMENT + 0.001, 1.0, 1 + AGREEMENT - 0.001])
def test_an_observation_within_the_tolerance_agrees(part):
    found = observed(part * drawdown(28))
    assert found.finding == "agrees"
    assert (found.precharge.value, found.shift.value) == (28, 0)


@given(st.floats(1, 23))
def test_lost_air_is_found_and_the_overcharge_that_looks_alike_is_named(left):
    found = observed(drawdown(left))
    assert found.finding == "lost-air"
    assert found.precharge.value == pytest.approx(left, abs=0.001)
    assert found.shift.value == pytest.approx(left - 28, abs=0.001)
    assert drawdown(found.other_precharge.value) == pytest.approx(drawdown(left), rel=1e-4)
    assert found.other_precharge.value > 30


@given(st.floats(36, 49))
def test_an_overcharge_is_found_from_a_stated_precharge_above_cut_in(charged):
    found = observed(drawdown(charged), precharge=31)
    assert found.finding == "overcharged"
    assert found.precharge.value == pytest.approx(charged, abs=0.001)
    assert found.other_precharge.value < 30


def test_more_gas_than_stated_is_an_overcharge():
    found = observed(drawdown(20), precharge=10)
    assert found.finding == "overcharged"
    assert found.precharge.value == pytest.approx(20, abs=0.001)


def test_hardly_more_than_the_switch_allows_is_a_precharge_at_cut_in():
    found = observed(drawdown(30) * 1.05, precharge=10)
    assert found.finding == "overcharged"
    assert found.precharge.value == pytest.approx(30, rel=SIX_DIGITS)
    assert found.other_precharge is msgspec.UNSET


def test_more_than_any_precharge_gives_means_that_the_switch_differs():
    found = observed(drawdown(30) * (1 + AGREEMENT) + 0.1)
    assert found.finding == "switch-differs"
    assert found.precharge is found.shift is msgspec.UNSET


def test_a_tank_that_gives_nothing_has_no_gas_or_is_charged_to_cut_out():
    found = observed(0)
    assert found.finding == "lost-air"
    assert found.precharge.value == pytest.approx(-14.6959, rel=SIX_DIGITS)
    assert found.other_precharge.value == pytest.approx(50)
    assert "waterlogged" in found.text


def test_several_tanks_are_shifted_together():
    pair = [{"volume": q(20, "gal"), "precharge": q(p, "psi")} for p in (28, 24)]
    leaked = [{"volume": q(20, "gal"), "precharge": q(p, "psi")} for p in (18, 14)]
    given_ = answer(tanks=leaked).drawdown
    found = answer(tanks=pair, observed_drawdown=msgspec.to_builtins(given_)).diagnosis
    assert found.shift.value == pytest.approx(-10, abs=0.001)
    assert "all others moved alike" in found.text


def test_a_precharge_above_cut_in_is_warned_of():
    assert pointers(answer(tanks__0__precharge=q(35, "psi"))) == ["/tanks/0/precharge"]


def test_a_tank_that_takes_no_water_beside_one_that_does_is_warned_of():
    tanks = [{"volume": q(40, "gal"), "precharge": q(p, "psi")} for p in (28, 55)]
    assert pointers(answer(tanks=tanks)) == ["/tanks/1/precharge"]


def test_pressures_beyond_the_ideal_gas_are_warned_of():
    assert "/switch/cut_out" in pointers(answer(switch__cut_out=q(14, "bar")))


def test_too_many_starts_are_warned_of_with_the_ceiling_in_use():
    """15 an hour for motors to 3/4 hp (Water Systems Council, performance standard PST, seen)."""
    found = answer(tanks__0__volume=q(5, "gal"), demand=q(3, "gal/min"))
    assert found.starts_per_hour > 15
    assert pointers(found) == ["/demand", "/tanks"]
    assert {"short-cycling", "motor-starts"} <= set(codes(found))


def test_a_big_tank_brings_no_caution_about_starts():
    assert not {"short-cycling", "motor-starts", "pump-runs-on"} & set(codes(answer(tanks__0__volume=q(200, "gal"))))


def test_every_tank_brings_the_cautions_of_a_pressure_vessel():
    assert codes(answer())[:3] == ["tank-relief-valve", "tank-rating", "tank-precharge-empty"]
    assert codes(answer())[-1] == "local-code"


@pytest.mark.parametrize(("celsius", "is_told"), [(-3.0, True), (0.0, True), (4.0, False)])
def test_frost_is_told_of_where_the_air_can_freeze_the_water(celsius, is_told):
    assert ("frost" in codes(answer(site={"air_temperature": q(celsius, "degC")}))) is is_told


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"switch__cut_out": q(30, "psi")}, ["/switch/cut_out"]),
        ({"switch__cut_out": q(1.9, "bar")}, ["/switch/cut_out"]),
        ({"tanks__0__precharge": q(50, "psi")}, ["/tanks"]),
        ({"switch__cut_out": q(30.001, "psi")}, ["/switch/cut_out"]),
        ({"tanks__0__precharge": q(49.999, "psi")}, ["/tanks"]),
        ({"pump": {}}, ["/pump"]),
        ({"pump": curve((20, 6), (60, 4)) | {"flow": q(6, "gal/min")}}, ["/pump"]),
        (
            {"pump": curve((60, 4), (20, 6))},
            ["/pump/points/1/pressure", "/pump/points/1/flow"],
        ),
        ({"pump": curve((20, 4), (60, 6))}, ["/pump/points/1/flow"]),
        ({"pump": curve((35, 6), (60, 4))}, ["/pump/points/0/pressure"]),
        ({"pump": curve((20, 6), (45, 4))}, ["/pump/points/1/pressure"]),
        ({"pump": curve((20, 0), (60, 0))}, ["/pump/points/0/flow"]),
        ({"pump": curve((20, 6), (60, 1e-9))}, ["/pump/points/1/flow"]),
        ({"demand": None}, ["/demand"]),
        ({"demands": [q(1, "gal/min")]}, ["/demand"]),
        ({"demand": q(1e-9, "gal/min")}, ["/demand"]),
        ({"demand": None, "demands": [q(1, "gal/min"), q(1e-9, "gal/min")]}, ["/demands/1"]),
        ({"demand": None, "switch__cut_out": q(20, "psi"), "pump": {}}, ["/switch/cut_out", "/pump", "/demand"]),
    ],
)
def test_what_the_trade_does_not_allow_is_refused_with_a_pointer_to_it(changes, expected):
    assert faults(**changes) == expected


@pytest.mark.parametrize("example", examples("tank-cycle"), ids=lambda example: example.name)
def test_examples_are_answered(example):
    request = msgspec.convert(example.request, TankCycleRequest)
    assert list(outside_ranges(request)) == []
    found = tank_cycle(request)
    assert found.starts_per_hour > 0
    assert (found.diagnosis is not msgspec.UNSET) == ("observed_drawdown" in example.request)


def span(low, high, unit):
    return st.floats(low, high).map(lambda value: q(value, unit))


flows = st.one_of(st.just(q(0, "L/s")), span(1e-5, 20, "L/s"))
pumps = st.one_of(
    span(1e-4, 20, "L/s").map(lambda flow: {"flow": flow}),
    st.tuples(st.floats(0, 2e4), st.lists(st.floats(1e3, 7e5), min_size=1, max_size=4), st.floats(1e-4, 20)).map(
        lambda drawn: {
            "points": [{"pressure": q(drawn[0], "Pa"), "flow": q(drawn[2], "L/s")}]
            + [
                {"pressure": q(drawn[0] + sum(drawn[1][: n + 1]), "Pa"), "flow": q(drawn[2] * f, "L/s")}
                for n, f in zip(range(len(drawn[1])), (0.9, 0.9, 0.3, 0.0), strict=False)
            ]
        }
    ),
)
requests = st.fixed_dictionaries(
    {
        "tanks": st.lists(
            st.fixed_dictionaries(
                {"volume": span(1e-4, 2, "m^3"), "precharge": span(0, 7, "bar"), "count": st.integers(1, 10)}
            ),
            min_size=1,
            max_size=3,
        ),
        "switch": st.tuples(st.floats(20, 700), st.floats(0, 700)).map(
            lambda drawn: {"cut_in": q(drawn[0], "kPa"), "cut_out": q(sum(drawn), "kPa")}
        ),
        "pump": pumps,
        "demands": st.lists(flows, min_size=1, max_size=3),
        "site": st.fixed_dictionaries({"altitude": span(-500, 5000, "m")}),
        "gas_exponent": st.floats(1, 1.4),
        "units": st.sampled_from(["us", "metric"]),
    },
    optional={"least_run": span(1, 3600, "s"), "observed_drawdown": span(0, 20, "m^3")},
)


@settings(max_examples=300)
@given(requests)
def test_any_request_within_its_ranges_is_answered_within_the_contract_or_refused(drawn):
    request = msgspec.convert(drawn, TankCycleRequest)
    assert list(outside_ranges(request)) == []
    try:
        found = tank_cycle(request)
    except Refused:
        return
    wire = msgspec.json.encode(found)
    assert b"null" not in wire
    assert msgspec.json.decode(wire, type=TankCycleAnswer) == found
    assert found.worst_case is msgspec.UNSET or found.starts_per_hour <= found.worst_case.starts_per_hour * 1.00001
    assert found.shortest_run is msgspec.UNSET or found.shortest_run.value <= GREATEST
