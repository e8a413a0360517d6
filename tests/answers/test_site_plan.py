"""What `site-plan` makes of a site: the parts, the verdict with its edges, what is left out, what is refused."""

import math
from copy import deepcopy

import msgspec
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.plan_duty import pump_duty
from footvalve.answers.plan_state import plan_state
from footvalve.answers.plan_steps import step_requests
from footvalve.answers.site_plan import site_plan
from footvalve.contract.examples import examples
from footvalve.contract.problem import Refused
from footvalve.contract.ranges import outside_ranges
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.quantity import from_base, to_base

UNSET = msgspec.UNSET
STEPS = {
    "sounding",
    "well-recovery",
    "suction-feasibility",
    "friction",
    "tank-cycle",
    "battery-runtime",
    "manifold-check",
}
EXAMPLES = {example.name: example.request for example in examples("site-plan")}


def of(value, unit):
    return {"value": value, "unit": unit}


def decoded(body):
    return msgspec.json.decode(msgspec.json.encode(body), type=SitePlanRequest)


def ask(body):
    request = decoded(body)
    assert not list(outside_ranges(request))
    return site_plan(request)


def sound(**changes):
    """The first example with other fields; None leaves a field out."""
    body = deepcopy(EXAMPLES["us"]) | changes
    return {name: value for name, value in body.items() if value is not None}


def pump(**changes):
    body = deepcopy(EXAMPLES["us"]["pump"]) | changes
    return {name: value for name, value in body.items() if value is not None}


def points(*rows):
    """psi, gal/min, A."""
    told = []
    for rise, flow, *current in rows:
        told.append({"pressure": of(rise, "psi"), "flow": of(flow, "gal/min")})
        if current:
            told[-1]["current"] = of(current[0], "A")
    return told


def refusal(body):
    with pytest.raises(Refused) as refused:
        ask(body)
    return {fault.pointer: fault.detail for fault in refused.value.faults}


def plain(quantity):
    """On the wire."""
    return of(quantity.value, quantity.unit)


# The examples


@pytest.mark.parametrize(
    ("name", "verdict", "steps"),
    [
        ("us", "feasible", 7),
        ("metric-marginal", "marginal", 5),
        ("out-of-reach", "infeasible", 1),
    ],
)
def test_the_examples_show_one_plan_of_each_verdict(name, verdict, steps):
    answer = ask(EXAMPLES[name])
    assert answer.verdict == verdict
    assert len(msgspec.to_builtins(answer).keys() & STEPS) == steps


# One way to compute each thing


def test_the_parts_are_what_the_single_endpoints_answer_to_the_plans_own_figures():
    """Asked by hand, with the flow and the currents that the plan tells on the wire, to the digits that it tells."""
    body, answer = EXAMPLES["us"], ask(EXAMPLES["us"])
    duty, common = answer.duty, {"units": "us", "site": EXAMPLES["us"]["site"]}
    depth = plain(answer.sounding.depth_below_ground)
    capacity = plain(answer.well_recovery.specific_capacity)
    asked = {
        "sounding": body["sounding"],
        "suction-feasibility": {
            "depth_to_water": depth,
            "seasonal_fall": body["seasonal_fall"],
            "specific_capacity": capacity,
            "flow": plain(duty.cut_in.flow),
            "pump": {n: v for n, v in body["pump"].items() if n not in ("points", "voltage")},
            "intake_elevation": body["intake_elevation"],
            "line": body["suction_line"],
        },
        "friction": {"flow": plain(duty.cut_in.flow), "line": body["delivery_line"]},
        "battery-runtime": {
            "battery": body["battery"],
            "loads": [
                {
                    "name": "pump",
                    "current": plain(duty.mean.current),
                    "greatest_current": plain(duty.cut_out.current),
                },
                *body["loads"],
            ],
            "pump_flow": plain(duty.mean.flow),
            **{name: body[name] for name in ("daily_water", "wire", "charger", "days")},
        },
    }
    told = msgspec.to_builtins(answer)
    for name, single in asked.items():
        endpoint = ENDPOINT[name]
        found = msgspec.to_builtins(endpoint.compute(msgspec.convert(common | single, endpoint.request)))
        assert same(told[name] | {"basis": 0, "cautions": 0, "warnings": 0}, found), name


def same(one, other):
    """Two answers in builtins, numbers to five digits, the lists that a plan gathers and rounded texts put aside."""
    match one, other:
        case dict(), dict():
            gathered = {"basis", "cautions", "warnings"}
            assert one.keys() == other.keys()
            return all(same(one[key], other[key]) for key in one.keys() - gathered)
        case list(), list():
            return len(one) == len(other) and all(map(same, one, other))
        case bool(), bool():
            return one == other
        case float() | int(), float() | int():
            return one == pytest.approx(other, rel=3e-5, abs=1e-4)
    return isinstance(one, str) or one == other


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_parts_are_the_endpoints_answers_to_the_questions_that_the_plan_puts(name):
    """To the last digit, and within the ranges of the contract; only three lists are gathered in the plan. What the
    uncertainties of the inputs add is told of the plan as a whole."""
    request = decoded(EXAMPLES[name])
    state = plan_state(request)
    asked = step_requests(state, pump_duty(state))
    told = msgspec.to_builtins(site_plan(request))
    for endpoint, question in {
        "well-recovery": asked.well,
        "suction-feasibility": asked.suction,
        "friction": asked.friction,
        "tank-cycle": asked.tank,
        "battery-runtime": asked.battery,
    }.items():
        assert (question is None) == (endpoint not in told)
        if question is not None:
            assert not list(outside_ranges(question))
            single = msgspec.to_builtins(ENDPOINT[endpoint].compute(question))
            assert told[endpoint] == single | {"basis": [], "cautions": [], "warnings": []}
            for gathered, key in [("basis", "step"), ("cautions", "code"), ("warnings", "detail")]:
                assert {item[key] for item in single[gathered]} <= {item[key] for item in told[gathered]}


# Where the pump runs


def test_the_mean_is_that_of_scipys_integral_over_the_exact_system():
    """The plan takes flow and current as straight over 16 stretches; here each pressure is solved for by itself."""
    request = decoded(sound(well=None))
    state, answer = plan_state(request), site_plan(request)
    system, curve, air = state.system, state.pump.curve, state.air_pressure
    weight = state.drawn.density * 9.80665

    def rise(pressure):
        def excess(rise):
            return rise - pressure - weight * system.head_at(curve.flow_at(rise))

        return brentq(excess, curve.pressures[0], curve.pressures[-1], xtol=1e-6)

    def mean(value):
        def over_flow(pressure):
            at = rise(pressure)
            return value(at) / curve.flow_at(at) / (pressure + air) ** 2

        ends = (request.switch.cut_in.base, request.switch.cut_out.base)
        return (
            quad(over_flow, *ends, epsrel=1e-8)[0]
            / quad(lambda p: 1 / curve.flow_at(rise(p)) / (p + air) ** 2, *ends)[0]
        )

    assert answer.duty.mean.flow.base == pytest.approx(mean(curve.flow_at), rel=1e-5)
    assert answer.duty.mean.current.base == pytest.approx(mean(state.pump.current_at), rel=1e-5)


def test_without_tanks_the_mean_is_that_of_any_tank_charged_to_cut_in():
    bare = ask(sound(tanks=None, least_run=None))
    assert bare.tank_cycle is UNSET
    for volume, precharge in [(20, 25), (300, 25), (44, 18)]:
        tanks = [{"volume": of(volume, "gal"), "precharge": of(precharge, "psi")}]
        with_tanks = ask(sound(tanks=tanks, least_run=None))
        assert with_tanks.duty.mean == bare.duty.mean
        assert with_tanks.tank_cycle is not UNSET


def test_a_pump_of_one_flow_runs_at_it_whatever_the_tank_says():
    answer = ask(sound(pump=pump(points=points((10, 3, 5), (80, 3, 12)))))
    duty = answer.duty
    assert duty.cut_in.flow.value == duty.mean.flow.value == duty.cut_out.flow.value == 3.0
    assert duty.cut_in.current.value < duty.mean.current.value < duty.cut_out.current.value


def test_only_the_height_from_the_pumping_level_to_the_tank_counts_and_not_where_the_pump_stands_between():
    """A pump that stands lower has more to push and less to pull. Its way through the last pipe is kept the same."""
    low, high = (ask(sound(pump=pump(inlet_elevation=of(at, "ft")), suction_line=line_to(at))) for at in (-4.5, -3.0))
    assert low.duty.cut_in.flow == high.duty.cut_in.flow
    gained = low.suction_feasibility.margin.value - high.suction_feasibility.margin.value
    assert gained == pytest.approx(1.5, abs=1e-4)


def line_to(elevation):
    line = deepcopy(EXAMPLES["us"]["suction_line"])
    line[-1]["end_elevation"] = of(elevation, "ft")
    return line


def test_the_tap_has_the_tanks_pressure_less_its_height():
    answer = ask(sound(tank_elevation=of(2, "ft"), house_elevation=of(12, "ft")))
    tap = answer.duty.tap_pressure
    assert tap.at_cut_out.value - tap.at_cut_in.value == pytest.approx(20.0, abs=1e-4)
    assert 25 - tap.at_cut_in.value == pytest.approx(10 * 0.4333, rel=1e-3), "a foot of water makes 0.433 psi"


def test_the_tank_stands_at_the_highest_tap_unless_it_is_told():
    tap = ask(sound(tank_elevation=None)).duty.tap_pressure
    assert (tap.at_cut_in.value, tap.at_cut_out.value) == (25.0, 45.0)


# A pump that does not meet the system


def test_a_pump_whose_points_end_below_cut_out_is_infeasible_and_says_how_far_it_comes():
    weak = pump(points=points((20, 3.5, 8), (45, 2.6, 11)))
    answer = ask(sound(pump=weak))
    assert answer.verdict == "infeasible"
    assert any(reason.startswith("The pump does not reach cut-out, 45 psi") for reason in answer.reasons)
    most = answer.duty.greatest_tank_pressure.value
    assert 25 < most < 45
    assert answer.duty.mean is answer.duty.run_hours_per_day is answer.tank_cycle is answer.battery_runtime is UNSET
    just = {"cut_in": of(25, "psi"), "cut_out": of(0.9999 * most, "psi")}
    assert ask(sound(pump=weak, switch=just)).verdict == "feasible"
    beyond = {"cut_in": of(25, "psi"), "cut_out": of(1.0001 * most, "psi")}
    assert ask(sound(pump=weak, switch=beyond)).verdict == "infeasible"


def test_a_pump_that_shuts_off_below_cut_in_gives_nothing_to_draw():
    answer = ask(sound(pump=pump(points=points((5, 6, 8), (22, 0, 4)))))
    assert answer.verdict == "infeasible"
    assert answer.duty.cut_in is answer.suction_feasibility is answer.friction is UNSET
    assert any("cut-in, 25 psi" in reason for reason in answer.reasons)
    assert answer.well_recovery.pumping_depth is UNSET
    assert answer.levers == []


def test_a_pump_that_does_not_lift_the_water_up_to_the_tank_says_so():
    answer = ask(sound(tank_elevation=of(150, "ft"), house_elevation=of(150, "ft")))
    assert answer.duty.greatest_tank_pressure is UNSET
    assert "The pump does not lift the water up to the tank, as far as its points tell." in answer.reasons


def test_points_that_begin_above_what_cut_in_takes_are_refused_with_the_rise_to_begin_at():
    high = pump(points=points((40, 3.1, 10), (60, 2.6, 13)))
    faults = refusal(sound(pump=high))
    assert list(faults) == ["/pump/points/0/pressure"]
    assert "gives more than here" in faults["/pump/points/0/pressure"]


def test_a_shut_off_point_ends_the_curve_at_the_least_flow_that_counts():
    """With points down to no flow the pump reaches cut-out as long as it gives a trickle there."""
    reaching = ask(sound(pump=pump(points=points((20, 3.5, 8), (56, 0, 12)))))
    assert reaching.duty.cut_out.flow.value < 0.5
    assert reaching.duty.greatest_tank_pressure.value < 56


@pytest.mark.parametrize(
    ("rows", "pointers"),
    [
        (points((20, 3.0), (40, 3.2)), {"/pump/points/1/flow"}),
        (points((40, 3.0), (20, 2.0)), {"/pump/points/1/pressure"}),
        (points((20, 3.0), (20, 2.0)), {"/pump/points/1/pressure"}),
        (points((20, 0.0), (60, 0.0)), {"/pump/points/0/flow"}),
        (points((20, 3.0), (60, 0.005)), {"/pump/points/1/flow"}),
        (points((20, 3.0, 8), (60, 2.0)), {"/pump/points/1/current"}),
        (points((20, 3.0), (40, 3.2), (30, 2)), {"/pump/points/1/flow", "/pump/points/2/pressure"}),
    ],
)
def test_points_that_are_no_curve_are_refused(rows, pointers):
    assert refusal(sound(pump=pump(points=rows), battery=None)).keys() == pointers


# The well


TEST = {"flow": of(4, "gal/min"), "pumping_depth": of(16.1, "ft"), "duration": of(5, "h")}


def test_a_well_that_is_read_is_answered_as_in_the_dry_season_and_from_the_ground():
    """The tape started 1.2 ft above the ground and the season takes 2.5 ft: 14.6 ft at rest, and 1.3 ft more in all."""
    answer = ask(sound())
    rest = 12.095 + 2.5
    well = answer.well_recovery
    fall = answer.duty.cut_in.flow.value / well.specific_capacity.value
    assert well.pumping_depth.value == pytest.approx(rest + fall, rel=1e-5)
    assert well.pumping_depth == answer.suction_feasibility.pumping_depth
    assert well.specific_capacity.value == pytest.approx(4 / (16.1 - 13.295), rel=1e-4), "readings keep their drawdown"


def test_the_readings_may_have_been_taken_at_another_rest():
    """A year ago the water stood 3 ft higher, and the test was read from some other point: the drawdown is the same."""
    moved = EXAMPLES["us"]["well"] | {
        "static_depth": of(40, "ft"),
        "pumping_test": TEST | {"pumping_depth": of(40 + 16.1 - 13.295, "ft")},
    }
    one, other = ask(sound()), ask(sound(well=moved))
    assert one.duty == other.duty
    assert one.well_recovery == other.well_recovery


def test_a_specific_capacity_that_is_known_gives_the_same_duty_as_the_test_that_shows_it():
    tested = ask(sound())
    known = ask(sound(well={"specific_capacity": plain(tested.well_recovery.specific_capacity)}))
    assert known.well_recovery is UNSET
    assert known.duty.cut_in.flow.value == pytest.approx(tested.duty.cut_in.flow.value, rel=1e-5)


def test_the_limit_is_a_foot_over_the_intake_and_a_stated_one_counts_where_it_is_higher():
    def storage(limit):
        well = EXAMPLES["us"]["well"] | ({"limit_depth": of(limit, "ft")} if limit else {})
        return ask(sound(well=well)).well_recovery.storage.value

    assert storage(None) == storage(63) == storage(90)
    assert storage(40) / storage(None) == pytest.approx((40 - 14.595) / (63 - 14.595), rel=1e-5)


def test_a_dry_well_is_infeasible():
    answer = ask(sound(well=EXAMPLES["us"]["well"] | {"limit_depth": of(13, "ft")}))
    assert answer.verdict == "infeasible"
    assert answer.well_recovery.verdict == "dry"
    assert any(reason.startswith("The well is dry") for reason in answer.reasons)


@pytest.mark.parametrize(
    ("stated", "level"),
    [({"specific_capacity": of(2, "gal/min/ft")}, None), ({"drawdown": of(1.5, "ft")}, 12.095 + 2.5 + 1.5)],
    ids=["specific capacity", "drawdown"],
)
def test_a_stated_yield_is_held_against_the_limit(stated, level):
    """As one that was read: the flow over the specific capacity, or the drawdown itself, below the season's rest."""
    free = ask(sound(well=stated))
    level = level or 12.095 + 2.5 + free.duty.cut_in.flow.value / 2
    assert free.suction_feasibility.pumping_depth.value == pytest.approx(level, rel=1e-5)
    assert free.verdict == "feasible"
    for limit, verdict in [(level + 0.1, "feasible"), (level - 0.1, "marginal"), (14.5, "infeasible")]:
        held = ask(sound(well=stated | {"limit_depth": of(limit, "ft")}))
        assert held.verdict == verdict
        assert [reason[:24] for reason in held.reasons] == {
            "feasible": [],
            "marginal": ["The well does not sustain"[:24]],
            "infeasible": ["The well is dry: its water"[:24]],
        }[verdict]
        assert held.suction_feasibility == free.suction_feasibility


def test_what_belongs_to_readings_alone_is_said_to_be_unused_without_them():
    names = {"static_depth": of(15, "ft"), "casing_diameter": of(6, "in"), "drop_pipe_diameter": of(1.3, "in")}
    stated = ask(sound(well={"drawdown": of(1, "ft")} | names))
    read = ask(sound(well=EXAMPLES["us"]["well"] | names))
    unused = [[w.pointer for w in found.warnings if w.detail.startswith("not used")] for found in (stated, read)]
    assert unused == [[f"/well/{name}" for name in names], []]


def test_a_well_that_nothing_flows_into_is_infeasible():
    emptied = {"flow": of(4, "gal/min"), "pumping_depth": of(40, "ft"), "duration": of(8, "min")}
    well = {"casing_diameter": of(6, "in"), "pumping_test": emptied, "limit_depth": of(20, "ft")}
    answer = ask(sound(well=well))
    assert answer.well_recovery.specific_capacity.value == 0.0
    assert "Nothing flows into the well that its readings show." in answer.reasons
    assert answer.suction_feasibility.pumping_depth.value == pytest.approx(20, rel=1e-5)


def slow_well(limit=22.0, drop=10.0):
    """4 gal/min drew it down by 10 ft: 0.4 gal/min/ft."""
    test = {"flow": of(4, "gal/min"), "pumping_depth": of(13.295 + drop, "ft"), "duration": of(10, "h")}
    return {"casing_diameter": of(36, "in"), "pumping_test": test, "limit_depth": of(limit, "ft")}


def test_a_well_that_does_not_sustain_the_pump_is_marginal_only_where_the_day_goes_short():
    """The shaft holds 390 gal above the limit, and 2.96 gal/min flow in there."""
    for daily, verdict in [(300, "feasible"), (100_000, "marginal")]:
        answer = ask(sound(well=slow_well(), daily_water=of(daily, "gal"), battery=None, days=None))
        assert answer.well_recovery.verdict == "storage-limited"
        short = [reason for reason in answer.reasons if reason.startswith("The well is short of the day's")]
        assert bool(short) == (verdict == "marginal")
    unknown = ask(sound(well=slow_well(), daily_water=None, battery=None, days=None))
    assert unknown.verdict == "marginal"


def test_a_wide_shaft_with_next_to_no_inflow_is_marginal_though_a_day_can_be_drawn_at_once():
    """2 m wide, 2.4 ft over the limit: 600 gal at once. A time constant of 500 h lets 29 gal a day in, of 160."""
    rest, hours = 13.295, 500
    readings = [{"elapsed": of(t, "h"), "depth": of(rest + 3 * math.exp(-t / hours), "ft")} for t in (0, 24, 48, 96)]
    shaft = {"casing_diameter": of(2, "m"), "recovery": {"readings": readings}, "limit_depth": of(17, "ft")}
    answer = ask(sound(well=shaft))
    assert answer.verdict == "marginal"
    (reason,) = answer.reasons
    assert reason.startswith("The well is short of the day's 160 gal")
    assert answer.well_recovery.storage.value > 600


def test_a_day_that_flows_in_but_cannot_be_drawn_at_one_go_is_not_called_short():
    """The intake 16 ft down, of which a foot stays over it: next to nothing is stored above the limit."""
    test = EXAMPLES["us"]["well"]["pumping_test"] | {"pumping_depth": of(15, "ft")}
    shallow = {
        "sounding": None,
        "depth_to_water": of(12, "ft"),
        "well": EXAMPLES["us"]["well"] | {"pumping_test": test},
        "intake_elevation": of(-16, "ft"),
    }
    answer = ask(sound(**shallow))
    (told,) = (reason for reason in answer.reasons if "160 gal" in reason)
    assert told.startswith("The well gives the day's 160 gal, but not at one go: 3.23 gal/min can be drawn for ")
    assert "Then the pump has to rest until the level has risen, or it draws air; no more than 960 gal flow" in told
    assert not any("short of the day's" in reason for reason in answer.reasons)
    assert answer.verdict != "feasible"
    greedy = ask(sound(**shallow, daily_water=of(1000, "gal"), battery=None, days=None))
    assert any(reason.startswith("The well is short of the day's 1000 gal") for reason in greedy.reasons)


def test_the_level_falls_no_further_than_the_limit():
    answer = ask(sound(well=slow_well(limit=16.0)))
    assert answer.suction_feasibility.pumping_depth.value == pytest.approx(16.0, rel=1e-5)


# What else makes a plan marginal or infeasible


def test_a_pump_that_would_have_to_run_for_more_than_a_day_is_infeasible():
    answer = ask(sound(daily_water=of(5000, "gal")))
    assert answer.verdict == "infeasible"
    assert answer.duty.run_hours_per_day == pytest.approx(5000 / 3.025 / 60, rel=1e-3)
    assert any("27.5 hours a day" in reason for reason in answer.reasons)
    assert answer.battery_runtime is UNSET


@pytest.mark.parametrize(
    ("height", "verdict"),
    [(46, "feasible"), (47, "marginal"), (57, "marginal"), (58, "infeasible"), (110, "infeasible")],
)
def test_the_highest_tap_must_get_water_at_cut_in_and_5_psi_of_it(height, verdict):
    """46 ft of water make 19.93 psi, 47 ft 20.36, 57 ft 24.7, 58 ft 25.1; the pump starts at 25 psi."""
    answer = ask(sound(house_elevation=of(height - 3, "ft")))
    assert answer.verdict == verdict
    if verdict == "marginal":
        left = answer.duty.tap_pressure.at_cut_in
        assert answer.reasons == [f"The highest tap has {left} at cut-in, less than the 5 psi that a tap needs."]


def test_too_many_starts_are_marginal_at_the_demand_or_without_one_at_the_worst():
    small = [{"volume": of(3, "gal"), "precharge": of(23, "psi")}]
    worst = ask(sound(tanks=small, least_run=None))
    assert worst.verdict == "marginal"
    assert "more than the 15 in use as a ceiling" in worst.reasons[0]
    assert ask(sound(tanks=small, least_run=None, demand=of(0.02, "gal/min"))).verdict == "feasible"
    assert ask(sound(tanks=small, least_run=None, demand=of(1.5, "gal/min"))).verdict == "marginal"


def test_a_demand_that_the_pump_does_not_keep_up_with_is_marginal():
    answer = ask(sound(demand=of(3.1, "gal/min")))
    assert answer.tank_cycle.outcome == "runs-on"
    assert answer.reasons == ["The pump does not keep up with 3.1 gal/min, and never stops while that is drawn."]
    assert any(warning.pointer == "/demand" for warning in answer.warnings)


def test_a_run_shorter_than_the_least_is_marginal():
    answer = ask(sound(least_run=of(6, "min")))
    assert answer.reasons == ["The pump runs 279 s at a time, less than the 6 min wanted."]


def test_a_battery_that_does_not_last_is_marginal():
    answer = ask(sound(days=9))
    assert answer.reasons == [
        f"A full battery lasts {answer.battery_runtime.days_of_autonomy:.3g} days, not the 9 wanted."
    ]
    assert ask(sound(days=8)).verdict == "feasible"
    assert ask(sound(days=None)).verdict == "feasible"


def test_a_battery_that_nothing_charges_fully_is_marginal():
    idle = {"currents": [of(0.01, "A")]}
    (reason,) = ask(sound(charger=idle)).reasons
    assert reason.startswith("No charger outruns the battery's own loss and the loads that run day and night: under C/")
    dark = {"array_power": of(10, "W"), "sun_hours": [1, 2, 3, 4, 5, 6, 6, 5, 4, 3, 2, 0.5]}
    (reason,) = ask(sound(charger=idle, solar=dark)).reasons
    assert reason.startswith("In December the sun covers 2%")
    bright = {"array_power": of(400, "W"), "sun_hours": [3]}
    assert ask(sound(charger=idle, solar=bright)).verdict == "feasible"
    assert ask(sound(charger=None, solar=None)).verdict == "feasible"


def test_a_well_whose_test_proves_nothing_is_marginal():
    """A test of a fraction of the pump's flow does not show that the well sustains it: a wrong yes otherwise."""
    timid = {"flow": of(0.5, "gal/min"), "pumping_depth": of(13.65, "ft"), "duration": of(5, "h")}
    well = {"casing_diameter": of(6, "in"), "pumping_test": timid}
    answer = ask(sound(well=well))
    assert answer.well_recovery.verdict is msgspec.UNSET
    assert answer.verdict == "marginal"
    assert answer.reasons[0].startswith("It is not proven that the well sustains the pump.")


def wired(gauge, **changes):
    return ask(sound(wire={"length": of(40, "ft"), "gauge": gauge}, **changes))


def test_a_wire_that_overheats_is_infeasible_and_a_thicker_one_is_to_do():
    """12.4 A in a wire for 7 A: the fuse for the one would let the other burn."""
    answer = wired("18", charger=None)
    assert answer.verdict == "infeasible"
    assert "the wire may carry 7 A with 86 degF around it: it overheats, and may start a fire" in answer.reasons[0]
    assert "overheats" in answer.summary[0]
    to_do = [item for item in answer.to_do if "battery" in item]
    assert to_do[0].startswith("Take a thicker wire from the battery to the pump, for 12.4 A")
    assert fuse_of(answer) == "20 A, once the wire is thicker: this one carries 7 A with 86 degF around it"
    assert fuse_of(wired("4")) == "20 A or more, but no more than the wire carries: 70 A with 86 degF around it"


def test_a_wire_is_judged_though_no_day_of_the_battery_is_known():
    assert wired("18", daily_water=None).verdict == "infeasible"


def test_a_wire_that_takes_more_than_a_twentieth_is_marginal_and_a_thirtieth_is_not():
    """12 V and 80 ft there and back at 12.43 A: 8.3 % in 10 AWG, 3.3 % in 6 AWG."""
    answer = wired("10")
    assert answer.verdict == "marginal"
    assert len(answer.reasons) == 1
    assert "% of the battery's voltage" in answer.reasons[0]
    assert any(item.startswith("Take a thicker wire") for item in answer.to_do)
    doubtful = wired("6")
    assert doubtful.verdict == "feasible"
    assert 0.03 < doubtful.battery_runtime.voltage_drop.fraction < 0.05


def test_a_wire_that_carries_the_current_but_not_its_fuse_is_marginal():
    answer = ask(sound(wire={"length": of(5, "ft"), "gauge": "14"}))
    assert answer.verdict == "marginal"
    assert answer.reasons[0].endswith("the wire may carry 15 A with 86 degF around it: that fuse does not guard it.")


def warm(air, gauge="12", **wire):
    """A short wire in air of so many degC, with nothing else that the air bears on."""
    short = {"length": of(5, "ft"), "gauge": gauge} | wire
    return ask(sound(wire=short, charger=None, site=EXAMPLES["us"]["site"] | {"air_temperature": of(air, "degC")}))


@pytest.mark.parametrize(
    ("air", "verdict", "carries"),
    [
        (12, "feasible", "20 A with 86 degF"),
        (35, "marginal", "18.3 A with 95 degF"),
        (45, "marginal", "14.1 A with 113 degF"),
        (50, "infeasible", "11.5 A with 122 degF"),
        (55, "infeasible", "8.16 A with 131 degF"),
    ],
)
def test_a_wire_carries_less_in_warm_air_and_so_may_its_fuse(air, verdict, carries):
    """12.43 A and a fuse of 20 A on 12 AWG: 20 A by the factors 0.91, 0.71, 0.58 and 0.41 of NFPA 70, Table
    310.15(B)(1), 60 degC column (read in a copy), of which each has two digits."""
    answer = warm(air)
    assert answer.verdict == verdict
    assert f"{carries} around it" in fuse_of(answer)
    assert all(f"{carries} around it" in reason for reason in answer.reasons)
    assert any(item.startswith("Take a thicker wire") for item in answer.to_do) == (verdict != "feasible")


HEAT = "See that the wire from the battery to the pump, its insulation and its lugs bear the heat they stand in."


def test_in_air_that_the_table_does_not_reach_no_wire_is_thick_enough():
    """The same column ends at 55 degC."""
    answer = warm(56, gauge="2/0")
    assert answer.verdict == "infeasible"
    assert "may carry nothing in air above 131 degF" in answer.reasons[0]
    assert fuse_of(answer) == "20 A, once the wire lies cooler or bears more heat: this one carries nothing"
    assert HEAT in answer.to_do
    assert not any(item.startswith("Take a thicker wire") for item in answer.to_do)
    assert any(w.pointer == "/site/air_temperature" and "may carry nothing" in w.detail for w in answer.warnings)


@pytest.mark.parametrize(("stated", "verdict"), [(None, "feasible"), (60, "feasible"), (61, "marginal")])
def test_a_wire_that_is_said_to_be_warmer_than_its_insulation_bears_is_marginal(stated, verdict):
    """What it may carry is that of 60 degC insulation, NFPA 70, Table 310.16 (read in a copy)."""
    answer = warm(12, gauge="6", **({} if stated is None else {"temperature": of(stated, "degC")}))
    assert answer.verdict == verdict
    assert (HEAT in answer.to_do) == (verdict == "marginal")
    assert ("/wire/temperature" in [warning.pointer for warning in answer.warnings]) == (verdict == "marginal")
    if verdict == "marginal":
        assert "said to be at 142 degF" in answer.reasons[0]


def fuse_of(answer):
    (fuse,) = (row.size for row in answer.materials if row.item.startswith("Fuse"))
    return fuse


def test_a_charger_that_is_too_strong_for_the_battery_is_marginal():
    """A third of 210 Ah in an hour at the most: 69.9 A."""
    for amperes, verdict in [(69, "feasible"), (71, "marginal")]:
        assert ask(sound(charger={"currents": [of(amperes, "A")]})).verdict == verdict
    (reason,) = ask(sound(charger={"currents": [of(71, "A")]})).reasons
    assert reason == "A charger of 71 A is more than this battery should take, 69.9 A: limit it."


def test_a_recharge_of_more_than_three_days_is_marginal_unless_the_sun_does_it():
    slow = {"currents": [of(1.2, "A")]}
    (reason,) = ask(sound(charger=slow)).reasons
    assert reason.endswith("days to fill the battery, more than 3.")
    assert ask(sound(charger=slow, solar={"array_power": of(400, "W"), "sun_hours": [3]})).verdict == "feasible"
    both = ask(sound(charger={"currents": [of(1.2, "A"), of(10, "A")]}))
    assert both.verdict == "feasible"
    assert [row.size for row in both.materials if row.item == "Charger"] == ["10 A"], "the slow one is not for this"


def test_a_battery_that_would_be_emptied_within_an_hour_is_marginal():
    for capacity, verdict in [(13, "feasible"), (12, "marginal")]:
        battery = EXAMPLES["us"]["battery"] | {"capacity": of(capacity, "Ah"), "parallel": 1}
        answer = ask(sound(battery=battery, charger=None, days=None))
        assert answer.verdict == verdict
    assert "whole capacity is 12 A for one hour" in answer.reasons[0]


FIT_ONE = "Fit a foot valve or check valve, or water runs back at each stop."


def test_a_suction_line_without_a_check_valve_is_marginal_and_one_is_to_do():
    line = [part for part in EXAMPLES["us"]["suction_line"] if part["part"] != "valve"]
    answer = ask(sound(suction_line=line))
    assert answer.reasons == ["The suction line has no foot valve or check valve: it empties at each stop."]
    assert FIT_ONE in answer.to_do
    assert FIT_ONE not in ask(sound()).to_do


def test_a_line_below_the_water_does_not_empty_without_a_check_valve():
    """Then it is the house's water that runs back; the air cannot get in."""
    line = [part for part in EXAMPLES["us"]["suction_line"] if part["part"] != "valve"]
    behind = [part for part in EXAMPLES["us"]["delivery_line"] if part["part"] != "valve"]
    flooded = {"sounding": None, "depth_to_water": of(-3, "ft"), "well": {"drawdown": of(1, "ft")}}
    answer = ask(sound(suction_line=line, delivery_line=behind, **flooded))
    assert answer.reasons == ["No line has a check valve: the water of house and tank runs back at each stop."]
    assert FIT_ONE in answer.to_do
    told = [warning.detail for warning in answer.warnings if "check valve" in warning.detail]
    assert [detail for detail in told if "house's water runs back" in detail]
    assert not [detail for detail in told if "empties" in detail]


def test_reasons_are_ordered_and_the_headline_takes_the_first():
    """Infeasible by its wire, dangerous by its manifold, marginal by its days and its line without a check valve."""
    without_relief = [element for element in manifold()["elements"] if element["kind"] != "relief"]
    line = [part for part in EXAMPLES["us"]["suction_line"] if part["part"] != "valve"]
    changes = {"suction_line": line, "manifold": manifold(elements=without_relief), "days": 9}
    answer = wired("18", **changes)
    starts = ["The pump and all else draw", "The manifold is wrong", "The suction line has no"]
    assert all(map(str.startswith, answer.reasons, starts))
    assert answer.summary[0].lower() == f"infeasible: {answer.reasons[0].lower()}"
    assert ask(sound(**changes)).reasons[0].startswith("The manifold is wrong")


def manifold(**changes):
    return deepcopy(EXAMPLES["us"]["manifold"]) | changes


def test_a_manifold_that_does_not_deliver_is_infeasible():
    modes = [{"name": "outage", "running": ["booster"], "closed": ["house valve"]}]
    answer = ask(sound(manifold=manifold(modes=modes)))
    assert answer.reasons == ["In the mode 'outage' a pump of the manifold runs and brings nothing to the house."]
    assert answer.verdict == "infeasible"


def test_a_mode_that_runs_no_pump_need_not_deliver():
    modes = [*manifold()["modes"], {"name": "away"}]
    assert ask(sound(manifold=manifold(modes=modes))).verdict == "feasible"


def test_a_manifold_that_is_wrong_is_marginal():
    without_relief = [element for element in manifold()["elements"] if element["kind"] != "relief"]
    answer = ask(sound(manifold=manifold(elements=without_relief)))
    assert answer.manifold_check.verdict == "wrong"
    assert answer.verdict == "marginal"
    assert answer.reasons[0].startswith("The manifold is wrong: ")
    assert any(item.startswith("Mend the manifold: ") for item in answer.to_do)


def test_a_manifold_that_is_doubtful_is_marginal_by_its_worst_finding():
    whole = manifold()
    spur = {"id": "spur valve", "kind": "shutoff", "from": "spur", "to": "spur end"}
    nodes, elements = [*whole["nodes"], "spur", "spur end"], [*whole["elements"], spur]
    answer = ask(sound(manifold=manifold(nodes=nodes, elements=elements)))
    worst = next(finding.text for finding in answer.manifold_check.findings if finding.severity == "warning")
    assert answer.manifold_check.verdict == "doubtful"
    assert answer.verdict == "marginal"
    assert answer.reasons == [f"The manifold is doubtful: {worst}"]


def test_a_pump_below_the_water_needs_no_valve_before_it_in_its_manifold():
    """As with the suction line itself: the water at rest keeps it full. Common practice, no source."""
    kinds = {"well pump's check": "pipe", "discharge valve": "check"}
    elements = [element | {"kind": kinds.get(element["id"], element["kind"])} for element in manifold()["elements"]]
    changes = {"sounding": None, "manifold": manifold(elements=elements)}
    for depth, loses in ((14, True), (-9, False)):
        found = ask(sound(depth_to_water=of(depth, "ft"), **changes)).manifold_check.findings
        assert ("loses-prime" in {finding.code for finding in found}) == loses


def stopped_pumps(body):
    return [warning.pointer for warning in ask(body).warnings if "stopped pump" in warning.detail]


def test_a_stopped_pump_that_the_piping_or_the_line_alone_has_is_warned_of():
    """The example has it in both: what the line does not list costs no head, what the piping does not have is not
    checked."""
    line = [part for part in EXAMPLES["us"]["suction_line"] if part["part"] != "idle-pump"]
    assert len(line) < len(EXAMPLES["us"]["suction_line"])
    kinds = {"well pump": "pipe"}
    elements = [element | {"kind": kinds.get(element["id"], element["kind"])} for element in manifold()["elements"]]
    without = {"elements": elements, "modes": [{"name": "outage", "running": ["booster"]}]}
    assert stopped_pumps(sound()) == []
    assert stopped_pumps(sound(suction_line=line)) == ["/suction_line"]
    assert stopped_pumps(sound(manifold=manifold(**without))) == ["/manifold/elements"]
    assert stopped_pumps(sound(suction_line=line, manifold=manifold(**without))) == []
    assert stopped_pumps(sound(suction_line=line, manifold=None)) == []


def test_a_stopped_pump_behind_the_booster_is_none_of_the_suction_line():
    """well -|>- a -(booster)- b -(second, stopped)- house"""
    elements = [
        {"id": "foot", "kind": "check", "from": "well", "to": "a"},
        {"id": "booster", "kind": "pump", "from": "a", "to": "b"},
        {"id": "second", "kind": "pump", "from": "b", "to": "house"},
    ]
    piping = manifold(
        nodes=["well", "a", "b", "house"], elements=elements, modes=[{"name": "one", "running": ["booster"]}]
    )
    line = [part for part in EXAMPLES["us"]["suction_line"] if part["part"] != "idle-pump"]
    assert stopped_pumps(sound(suction_line=line, manifold=piping)) == []


def test_a_manifold_in_which_no_mode_delivers_or_without_a_pump_is_infeasible():
    answer = ask(sound(manifold=manifold(modes=[{"name": "away"}])))
    assert answer.verdict == "infeasible"
    assert answer.reasons[0].startswith("In no mode does the manifold bring water to the house.")
    pipes = {
        "nodes": ["well", "house"],
        "elements": [{"kind": "pipe", "id": "riser", "from": "well", "to": "house"}],
        "source": "well",
        "house": "house",
        "modes": [{"name": "always"}],
    }
    bare = ask(sound(manifold=pipes))
    assert (bare.verdict, bare.reasons) == ("infeasible", ["The manifold holds no pump."])


# What is left out


SKELETON = ("depth_to_water", "suction_line", "intake_elevation", "pump", "switch", "house_elevation")


def test_the_verdict_takes_no_more_than_water_line_pump_switch_and_house():
    whole = sound(sounding=None, depth_to_water=of(12, "ft"))
    answer = ask({name: whole[name] for name in SKELETON})
    assert answer.verdict == "feasible"
    for step in ("sounding", "well_recovery", "friction", "tank_cycle", "battery_runtime", "manifold_check"):
        assert getattr(answer, step) is UNSET
    assert answer.summary[0].endswith("but nothing is known of the well's yield.")
    assert {"/well", "/delivery_line"} <= {warning.pointer for warning in answer.warnings}


@pytest.mark.parametrize(
    ("missing", "told"),
    [
        ("well", "Measure how the well's level comes back"),
        ("seasonal_fall", "Find out how much lower the water stands"),
        ("delivery_line", "List the line from the pump to the tank"),
        ("tanks", "Choose pressure tanks of"),
        ("daily_water", "Reckon the water that is used in a day"),
        ("battery", "Choose a battery"),
        ("charger", "Choose how the battery is charged"),
        ("wire", "Measure the way from the battery to the pump"),
        ("manifold", "Draw the piping between well pump, booster and house"),
    ],
)
def test_what_is_missing_is_to_do(missing, told):
    assert not any(item.startswith(told) for item in ask(sound()).to_do)
    assert any(item.startswith(told) for item in ask(sound(**{missing: None})).to_do)


def test_without_currents_the_battery_is_left_out_and_they_are_to_be_measured():
    answer = ask(sound(pump=pump(points=points((20, 3.5), (60, 2.6)))))
    assert answer.battery_runtime is answer.duty.charge_per_day is answer.duty.mean.current is UNSET
    assert "Measure the pump's current at two rises of pressure or more, for the battery." in answer.to_do


def test_the_tank_that_is_to_be_chosen_gives_the_run_that_is_wanted():
    answer = ask(sound(tanks=None, least_run=of(3, "min")))
    (told,) = (item for item in answer.to_do if item.startswith("Choose pressure tanks"))
    gallons = float(told.split()[4])
    chosen = ask(sound(tanks=[{"volume": of(gallons, "gal"), "precharge": of(25, "psi")}], least_run=None))
    assert chosen.tank_cycle.shortest_run.base == pytest.approx(180, rel=5e-3)


# What is refused


def test_all_faults_of_all_parts_come_in_one_answer_with_places_in_the_plan():
    body = sound(
        depth_to_water=of(12, "ft"),
        well=EXAMPLES["us"]["well"] | {"drawdown": of(1, "ft"), "casing_diameter": None},
        pump=pump(npsh_required=of(5, "ft"), points=points((20, 3.0, 8), (40, 3.2, 9))),
        switch={"cut_in": of(45, "psi"), "cut_out": of(25, "psi")},
        solar={"array_power": of(100, "W"), "sun_hours": [1, 2, 3]},
        wire={"length": of(9, "ft")},
        loads=[{"name": "lamp", "current": of(1, "A")}],
        manifold=manifold(house="nowhere"),
    )
    del body["well"]["casing_diameter"]
    body["suction_line"] = deepcopy(body["suction_line"])
    del body["suction_line"][3]["size"]
    body["delivery_line"] = [{"part": "valve", "valve": "ball"}]
    assert refusal(body).keys() == {
        "/depth_to_water",
        "/well",
        "/well/casing_diameter",
        "/suction_line/3",
        "/delivery_line/0/bore",
        "/pump",
        "/pump/points/1/flow",
        "/switch/cut_out",
        "/solar/sun_hours",
        "/wire",
        "/loads/0",
        "/manifold/house",
    }


@pytest.mark.parametrize(
    ("changes", "pointers"),
    [
        ({"sounding": None}, {"/depth_to_water"}),
        ({"depth_to_water": of(12, "ft")}, {"/depth_to_water"}),
        ({"well": {}}, {"/well"}),
        ({"well": {"pumping_test": TEST}}, {"/well/casing_diameter"}),
        ({"well": {"drawdown": of(1, "ft"), "specific_capacity": of(1, "gal/min/ft")}}, {"/well"}),
        (
            {"well": {"casing_diameter": of(6, "in"), "pumping_test": TEST | {"pumping_depth": of(9, "ft")}}},
            {"/well/pumping_test/pumping_depth"},
        ),
        ({"pump": pump(voltage=of(24, "V"))}, {"/pump/voltage"}),
        (
            {"suction_line": [{"part": "fitting", "fitting": "elbow-90", "bore": {"diameter": of(1, "in")}}]},
            {"/suction_line"},
        ),
        ({"suction_line": [{"part": "valve", "valve": "foot-valve-poppet"}]}, {"/suction_line"}),
        ({"tanks": [{"volume": of(40, "gal"), "precharge": of(60, "psi")}]}, {"/tanks"}),
        ({"daily_water": of(0.001, "m^3"), "loads": None}, {"/daily_water"}),
        ({"wire": {"length": of(900, "m"), "gauge": "18"}}, {"/wire"}),
        (
            {"loads": [{"name": "pump", "current": of(1, "A"), "hours_per_day": 1, "draws_water": True}]},
            {"/loads/0/draws_water"},
        ),
    ],
)
def test_what_cannot_be_is_refused_with_its_place(changes, pointers):
    body = sound(**changes)
    if "daily_water" in changes:
        body["daily_water"] = of(1, "L")
    assert refusal(body).keys() == pointers


def test_a_battery_refused_for_the_cold_of_the_air_says_so_and_one_that_is_kept_warm_is_not():
    winter = {"site": EXAMPLES["us"]["site"] | {"air_temperature": of(-20, "degC")}}
    bank = {name: value for name, value in EXAMPLES["us"]["battery"].items() if name != "temperature"}
    told = refusal(sound(battery=bank, **winter))
    assert told.keys() == {"/site/air_temperature"}
    assert "taken to be as cold as the air: state `battery.temperature`" in told["/site/air_temperature"]
    assert ask(sound(battery=bank | {"temperature": of(10, "degC")}, **winter)).battery_runtime.bank


@pytest.mark.parametrize("empty", ["suction_line", "delivery_line", "tanks"])
def test_an_empty_list_breaks_the_schema(empty):
    with pytest.raises(msgspec.ValidationError, match=empty):
        decoded(sound(**{empty: []}))


# What is told


def test_no_list_of_a_step_is_told_twice():
    told = msgspec.to_builtins(ask(sound()))
    steps = [part for part in told.values() if isinstance(part, dict) and "basis" in part]
    assert len(steps) == 7
    assert all(part["basis"] == part["cautions"] == part["warnings"] == [] for part in steps)
    for name in ("basis", "cautions", "warnings"):
        texts = [str(item) for item in told[name]]
        assert len(set(texts)) == len(texts)
    assert told["cautions"][-1]["code"] == "local-code"


def test_warnings_point_into_the_plan():
    body = sound()
    body["suction_line"] = deepcopy(body["suction_line"])
    del body["suction_line"][5]["end_elevation"]
    body["delivery_line"] = [
        {"part": "pipe", "size": {"product": "copper-l", "nominal": "3/4"}, "length": of(9, "ft")},
        {"part": "pipe", "size": {"product": "copper-l", "nominal": "1/2"}, "length": of(9, "ft")},
    ]
    body["well"] = EXAMPLES["us"]["well"] | {"pumping_test": TEST | {"duration": of(1, "h")}}
    pointers = {warning.pointer for warning in ask(body).warnings}
    assert {"/suction_line/5", "/delivery_line/1", "/well/pumping_test/duration"} <= pointers


def test_materials_are_added_up_by_product_size_and_line():
    rows = {(row.item, row.size, row.purpose): row for row in ask(sound()).materials}
    buried = rows["Polyethylene pipe SIDR 15, controlled inside diameter", "1 in", "suction line"]
    assert (buried.length.value, buried.length.unit) == (112, "ft")
    assert rows["90 degree elbow", "1 in", "suction line"].count == 2
    assert rows["90 degree elbow", "3/4 in", "delivery line"].count == 4
    assert rows["Wire, copper", "6 AWG", "battery to pump, both conductors"].length.value == 18
    assert rows["Pressure tank", "44 gal", "storage of pressure"].count == 1
    assert not any("entrance" in item.lower() or "idle" in item.lower() for item, *_ in rows)


def test_the_fuse_carries_a_quarter_more_than_the_greatest_current():
    """12.36 A at cut-out and 0.07 beside it: 15.5 A with a quarter more, and 20 A is the next rating."""
    answer = ask(sound())
    (fuse,) = (row for row in answer.materials if row.item.startswith("Fuse"))
    assert answer.duty.cut_out.current.value + 0.07 == pytest.approx(12.43, abs=5e-3)
    assert fuse.size.startswith("20 A or more")
    assert fuse.purpose.endswith("up to 12.4 A")


def test_wire_and_fuse_are_told_one_greatest_current_and_the_charge_that_of_the_mean():
    """The pump draws the most at cut-out, and 0.07 A run beside it. 80 ft of 14 AWG at 3.14 ohm/kft (NFPA 70, chapter
    9, Table 8) take 0.2512 V for each A."""
    answer = ask(sound(wire={"length": of(40, "ft"), "gauge": "14"}))
    battery, duty = answer.battery_runtime, answer.duty
    most = battery.daily_draw.greatest_current.value
    assert most == pytest.approx(duty.cut_out.current.value + 0.07, rel=1e-5)
    assert battery.voltage_drop.volts.value == pytest.approx(0.2512 * most, rel=1e-5)
    assert battery.daily_draw.charge.value == pytest.approx(duty.charge_per_day.value + 24 * 0.07, rel=1e-5)
    told = f"{battery.voltage_drop.volts.value:.3g} V"
    assert any(f"takes {told}" in warning.detail for warning in answer.warnings)
    assert any(f"takes {told}" in reason for reason in answer.reasons)


def test_a_battery_that_the_pump_empties_too_fast_is_doubted_at_the_pump():
    """Peukert's law is used from half an hour on; with a load that draws more beside it, at that load."""
    small = {"battery": EXAMPLES["us"]["battery"] | {"capacity": of(3, "Ah"), "peukert_exponent": 1.1}}
    heater = {"name": "heater", "current": of(40, "A"), "hours_per_day": 0.1}
    for loads, pointer in ((None, "/pump/points"), ([heater], "/loads/0")):
        warnings = ask(sound(loads=loads, **small)).warnings
        assert [w.pointer for w in warnings if "Peukert" in w.detail] == [pointer]


def test_a_bank_that_kills_by_touch_is_cautioned_of_in_the_plan():
    bank = EXAMPLES["us"]["battery"] | {"series": 24}
    told = {caution.code: caution.severity for caution in ask(sound(battery=bank, pump=pump(voltage=None))).cautions}
    assert told["battery-shock"] == "danger"
    assert "battery-shock" not in [caution.code for caution in ask(sound()).cautions]


def test_a_battery_is_cautioned_of_though_no_day_of_it_is_known():
    known, unknown = (
        {caution.code for caution in ask(sound(daily_water=water)).cautions} for water in (of(80, "gal"), None)
    )
    assert {"battery-gas", "fuse-near-battery", "mains-charger"} <= unknown
    assert known == unknown


def test_the_charger_is_the_smallest_that_holds():
    answer = ask(sound(charger={"currents": [of(25, "A"), of(0.01, "A"), of(10, "A")]}))
    (charger,) = (row for row in answer.materials if row.item == "Charger")
    assert charger.size == "10 A"


def test_the_summary_is_told_in_the_units_that_are_asked_for():
    us, metric = ask(sound()), ask(sound(units="metric"))
    assert len(us.summary) == len(metric.summary) == 5
    assert "gal/min" in us.summary[2]
    assert "L/min" in metric.summary[2]
    told = from_base(to_base(us.duty.mean.flow.value, "gal/min"), "L/min")
    assert metric.duty.mean.flow.value == pytest.approx(told, rel=1e-5)


def test_a_pump_below_the_water_is_told_to_stand_below_it():
    line = deepcopy(EXAMPLES["us"]["suction_line"])
    line[-1] = line[-1] | {"length": of(25, "ft"), "end_elevation": of(-20, "ft")}
    answer = ask(sound(pump=pump(inlet_elevation=of(-20, "ft")), suction_line=line))
    assert answer.suction_feasibility.static_lift.value < 0
    assert "the pump stands 3.1" in answer.summary[1]
    assert "below it" in answer.summary[1]


def test_the_water_of_a_flowing_well_is_told_above_the_ground_and_no_air_is_to_be_drawn():
    flowing = ask(sound(sounding=None, depth_to_water=of(-9, "ft"), well={"drawdown": of(1, "ft")}))
    assert flowing.suction_feasibility.pumping_depth.value == pytest.approx(-5.5)
    assert flowing.summary[1].startswith("With the water at 5.5 ft above the ground")
    assert flowing.suction_feasibility.priming.time.value == 0.0
    assert not any("0 min" in item for item in flowing.to_do)
    assert "flowing-well" in {caution.code for caution in flowing.cautions}
    assert "flowing-well" not in {caution.code for caution in ask(sound()).cautions}
    assert any(item.startswith("Let the pump draw the air out") for item in ask(sound()).to_do)


def test_the_caution_about_a_flowing_well_stands_where_the_pump_gives_nothing_too():
    """With the tank 300 ft up no step is asked at a flow; the well flows all the same once it is opened."""
    high = sound(sounding=None, depth_to_water=of(-9, "ft"), well=None, tank_elevation=of(300, "ft"))
    answer = ask(high | {"house_elevation": of(305, "ft")})
    assert answer.suction_feasibility is UNSET
    assert "flowing-well" in {caution.code for caution in answer.cautions}


def test_a_few_minutes_a_day_are_not_told_in_hours():
    """17 gal at 3.03 gal/min are 5.62 min, 0.0936 h; 20 gal are 0.11 h."""
    assert ", and runs 5.62 minutes a day for 17 gal." in ask(sound(daily_water=of(17, "gal"))).summary[2]
    assert " hours a day for 20 gal." in ask(sound(daily_water=of(20, "gal"))).summary[2]
