"""What `well-recovery` answers, warns of and refuses, and what must hold for every well."""

import csv
import json
import math
from pathlib import Path

import msgspec
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import curve_fit

from footvalve.answers.endpoints import ENDPOINT
from footvalve.contract.examples import examples
from footvalve.contract.problem import Refused
from footvalve.contract.well_recovery import DEEPEST

FOOT = 0.3048
GALLON_A_MINUTE = 231 * 0.0254**3 / 60
ENDPOINT_UNDER_TEST = ENDPOINT["well-recovery"]
REFERENCE = Path(__file__).parents[1] / "reference" / "wells.csv"
UNSET = msgspec.UNSET


def quantity(value, unit):
    return {"value": value, "unit": unit}


def decoded(body):
    return msgspec.json.decode(msgspec.json.encode(body), type=ENDPOINT_UNDER_TEST.request)


def ask(**body):
    return ENDPOINT_UNDER_TEST(decoded(body))


def well(*, static=5.0, casing=150.0, pipe=32.0, **more):
    """A drilled well in metric units, its drop pipe of 32 mm hanging in 150 mm."""
    body = {"units": "metric", "static_depth": quantity(static, "m"), "casing_diameter": quantity(casing, "mm")}
    if pipe is not None:
        body["drop_pipe_diameter"] = quantity(pipe, "mm")
    return body | more


AREA = math.pi / 4 * (0.15**2 - 0.032**2)


def readings(*pairs):
    """Minutes and depths in m."""
    return {"readings": [{"elapsed": quantity(t, "min"), "depth": quantity(d, "m")} for t, d in pairs]}


def recovering(constant, *, static=5.0, initial=10.0, minutes=(0, 4, 8, 16, 24, 40), rest=None):
    """Readings of a level that comes back with a time constant in minutes, to another rest if that is told."""
    rest = static if rest is None else rest
    return readings(*((t, rest + (initial + static - rest) * math.exp(-t / constant)) for t in minutes))


def test_of(flow, depth, duration):
    """L/min, m, minutes."""
    return {
        "flow": quantity(flow, "L/min"),
        "pumping_depth": quantity(depth, "m"),
        "duration": quantity(duration, "min"),
    }


test_of.__test__ = False


def drawn(flow, limit):
    return {"design_flow": quantity(flow, "L/min"), "limit_depth": quantity(limit, "m")}


def warned(answer):
    return [warning.pointer for warning in answer.warnings]


def told(answer, pointer):
    return " ".join(warning.detail for warning in answer.warnings if warning.pointer == pointer)


def codes(answer):
    return [caution.code for caution in answer.cautions]


# --- the answer


@pytest.mark.parametrize("example", examples("well-recovery"), ids=lambda example: example.name)
def test_every_example_answers(example):
    answer = ENDPOINT_UNDER_TEST(msgspec.convert(example.request, ENDPOINT_UNDER_TEST.request))
    assert answer.reasons
    with_its_scatter = 2 if "recovery" in example.request else 0
    assert len(answer.basis) == 3 + with_its_scatter
    assert all(step.source and step.valid_for for step in answer.basis)


def test_there_is_an_example_of_every_verdict_and_of_both_kinds_of_test():
    requests = [example.request for example in examples("well-recovery")]
    verdicts = {ENDPOINT_UNDER_TEST(decoded(request)).verdict for request in requests}
    assert verdicts == {"sustains", "storage-limited", "dry"}
    assert {kind for request in requests for kind in ("recovery", "pumping_test") if kind in request} == {
        "recovery",
        "pumping_test",
    }
    assert {request.get("units", "us") for request in requests} == {"us", "metric"}


def test_a_recovery_by_hand():
    """Half of the drawdown back in 10 min: A / C = 600 s / ln 2 = 865.6 s, C = 0.016867 m^2 / 865.6 s."""
    answer = ask(**well(recovery=readings((0, 15.0), (10, 10.0), (20, 7.5))), **drawn(10, 20))
    assert answer.time_constant.base == pytest.approx(865.617, rel=1e-5)
    assert answer.specific_capacity.base == pytest.approx(1.94856e-5, rel=1e-4)
    assert answer.specific_capacity.unit == "L/s/m"
    assert answer.fit.r_squared == 1.0
    assert answer.fit.points == 3
    assert answer.fit.initial_drawdown.base == pytest.approx(10.0)
    assert answer.inflow_at_limit.base == pytest.approx(15 * 1.94856e-5, rel=1e-4)
    assert answer.pumping_depth.base == pytest.approx(5 + 10 / 60e3 / 1.94856e-5, rel=1e-4)
    assert answer.storage.base == pytest.approx(15 * AREA, rel=1e-5)
    assert answer.verdict == "sustains"
    assert answer.correction is UNSET


def test_a_pumping_test_by_hand():
    """20 L/min for 30 min are 600 L; 12 m of casing gave 202.4 L of it, y = 0.3373. (1 - exp(-x)) / x = 0.3373 at
    x = 2.781, so C = 2.781 x 0.016867 m^2 / 1800 s, and flow over drawdown, 2.7778e-5, is 6.6 % too much."""
    answer = ask(**well(pumping_test=test_of(20, 17.0, 30)))
    assert answer.correction.casing_water_fraction == pytest.approx(12 * AREA / 0.6, rel=1e-5)
    assert answer.specific_capacity.base == pytest.approx(2.606e-5, rel=1e-3)
    assert answer.correction.apparent_specific_capacity.base == pytest.approx(2.77778e-5, rel=1e-5)
    assert answer.fit is UNSET
    assert any("34% came out of the casing" in reason and "7% too much" in reason for reason in answer.reasons)


def test_the_answer_speaks_the_system_that_is_asked_for():
    body = well(recovery=recovering(12), **drawn(10, 20)) | {"units": "us"}
    answer = ask(**body)
    assert answer.specific_capacity.unit == "gal/min/ft"
    assert (answer.pumping_depth.unit, answer.inflow_at_limit.unit, answer.storage.unit) == ("ft", "gal/min", "gal")


@pytest.mark.parametrize(("constant", "unit"), [(12, "min"), (700, "h"), (20000, "d")])
def test_spans_are_told_in_the_unit_that_people_would_use(constant, unit):
    answer = ask(**well(recovery=recovering(constant, minutes=(0, constant / 4, constant / 2))))
    assert answer.time_constant.unit == unit
    assert answer.time_constant.base == pytest.approx(60 * constant, rel=1e-5)


# --- the verdict


def test_the_verdict_turns_where_the_level_settles_at_the_limit():
    """C of 2e-5 m^2/s and 15 m of drawdown: 18 L/min."""
    recovery = recovering(AREA / 2e-5 / 60)
    yes, no = (ask(**well(recovery=recovery), **drawn(flow, 20)) for flow in (17.9, 18.01))
    assert (yes.verdict, no.verdict) == ("sustains", "storage-limited")
    assert yes.time_to_limit is UNSET
    assert no.time_to_limit.base > 5 * no.time_constant.base


def test_the_time_to_the_limit_is_the_integrated_one():
    answer = ask(**well(recovery=recovering(AREA / 2e-5 / 60)), **drawn(40, 20))

    def at_limit(_, s):
        return s[0] - 15.0

    at_limit.terminal = True
    solved = solve_ivp(lambda _, s: (40 / 60e3 - 2e-5 * s) / AREA, (0, 1e5), [0.0], events=at_limit, rtol=1e-10)
    assert answer.time_to_limit.base == pytest.approx(solved.t_events[0][0], rel=1e-5)


@pytest.mark.parametrize("limit", [5.0, 4.0])
def test_a_well_whose_rest_lies_at_the_limit_or_below_it_is_dry(limit):
    answer = ask(**well(recovery=recovering(12)), **drawn(1, limit))
    assert answer.verdict == "dry"
    assert answer.inflow_at_limit.value == answer.storage.value == 0.0
    assert answer.time_to_limit is UNSET
    assert warned(answer) == ["/limit_depth"]


@pytest.mark.parametrize(
    ("asked", "verdict"),
    [
        (drawn(10, 20), "storage-limited"),
        ({"design_flow": quantity(10, "L/min")}, "storage-limited"),
        ({"limit_depth": quantity(20, "m")}, "storage-limited"),
        ({}, "storage-limited"),
        (drawn(10, 5), "dry"),
    ],
)
def test_a_well_without_inflow_lives_on_its_casing(asked, verdict):
    answer = ask(**well(recovery=readings((0, 15), (30, 15), (60, 15))), **asked)
    assert answer.specific_capacity.value == 0.0
    assert answer.verdict == verdict
    assert answer.time_constant is UNSET
    assert answer.pumping_depth is UNSET


def test_the_casing_alone_lasts_as_long_as_its_water():
    answer = ask(**well(recovery=readings((0, 15), (30, 15), (60, 15))), **drawn(10, 20))
    assert answer.time_to_limit.base == pytest.approx(15 * AREA / (10 / 60e3), rel=1e-5)


@pytest.mark.parametrize(
    ("asked", "wanting"),
    [
        ({}, "`design_flow` and `limit_depth`"),
        ({"design_flow": quantity(10, "L/min")}, "without `limit_depth`"),
        ({"limit_depth": quantity(20, "m")}, "without `design_flow`"),
    ],
)
def test_there_is_no_verdict_where_nothing_decides_and_a_reason_says_so(asked, wanting):
    answer = ask(**well(recovery=recovering(12)), **asked)
    assert answer.verdict is UNSET
    assert answer.time_to_limit is UNSET
    assert wanting in answer.reasons[0]
    assert (answer.pumping_depth is UNSET) == ("design_flow" not in asked)
    assert (answer.storage is UNSET) == (answer.inflow_at_limit is UNSET) == ("limit_depth" not in asked)
    assert len(answer.basis) == (3 if asked else 2)


def test_a_depth_that_no_well_has_is_not_told():
    answer = ask(**well(recovery=recovering(3000, minutes=(0, 1500, 3000))), **drawn(200, 20))
    assert answer.pumping_depth is UNSET
    assert answer.verdict == "storage-limited"
    assert answer.reasons[0] == f"No level down to {DEEPEST:g} m would make 200 L/min flow in."


def test_a_test_that_only_emptied_the_casing_is_no_yes():
    """Flow over drawdown would have sustained a third of the flow that was pumped."""
    fallen = 20 / 60e3 * 600 / AREA
    answer = ask(**well(pumping_test=test_of(20, 5 + fallen, 10)), **drawn(6, 20))
    assert answer.correction.apparent_specific_capacity.base * 15 > 6 / 60e3
    assert answer.specific_capacity.value == 0.0
    assert answer.verdict == "storage-limited"
    assert "/pumping_test" in warned(answer)
    assert any("only emptied the casing" in reason for reason in answer.reasons)


def test_a_short_test_whose_flow_over_drawdown_says_yes_is_corrected_to_a_no():
    """Made by integration with C = 5e-6 m^2/s, of which 15 m sustain 4.5 L/min; flow over drawdown says 20."""
    solved = solve_ivp(lambda _, s: (20 / 60e3 - 5e-6 * s) / AREA, (0, 600), [0.0], rtol=1e-10)
    fallen = float(solved.y[0][-1])
    assert 20 / 60e3 / fallen * 15 > 10 / 60e3
    answer = ask(**well(pumping_test=test_of(20, 5 + fallen, 10)), **drawn(10, 20))
    assert answer.specific_capacity.base == pytest.approx(5e-6, rel=1e-4)
    assert answer.verdict == "storage-limited"


# --- published values and independent fits, through the wire


def published(quantity_name):
    found = list(csv.DictReader(REFERENCE.read_text(encoding="utf-8").splitlines()))
    rows = [row for row in found if row["quantity"] == quantity_name]
    assert rows, f"{REFERENCE.name} has no row of {quantity_name!r}: the file was changed, follow it here"
    return [pytest.param(row, json.loads(row["inputs"]), id=row["id"]) for row in rows]


@pytest.mark.parametrize(("row", "inputs"), published("transmissivity of a recovery"))
def test_published_readings_of_a_real_well_are_fitted_as_scipy_fits_them(row, inputs):
    """Real ground bends on the logarithm, and both fits bend with it: a tenth of the standard error apart."""
    assert row["obtained"] == "memory"
    times, heads = np.array(inputs["t_s"]), np.array(inputs["h_m"])
    (_, rate), covariance = curve_fit(lambda t, a, k: a * np.exp(-k * t), times, heads, p0=(heads[0], 0.02))
    area = math.pi / 4 * inputs["diameter_m"] ** 2
    pairs = [(t / 60, 20 + h) for t, h in zip(inputs["t_s"], inputs["h_m"], strict=True)]
    answer = ask(**well(static=20, casing=1000 * inputs["diameter_m"], pipe=None, recovery=readings(*pairs)))
    sigma = area * math.sqrt(covariance[1][1])
    assert answer.specific_capacity.base == pytest.approx(area * rate, abs=0.25 * sigma)
    assert answer.fit.standard_uncertainty.base == pytest.approx(sigma, rel=0.2)
    assert answer.fit.points == len(times)


# --- warnings about readings


def test_clean_readings_call_for_no_warning():
    assert warned(ask(**well(recovery=recovering(12)))) == []


def test_readings_at_rest_or_above_it_are_left_out_and_named():
    clean = recovering(12)["readings"]
    more = readings((60, 5.002), (80, 4.9))["readings"]
    answer = ask(**well(recovery={"readings": clean + more}))
    assert answer.fit.points == len(clean)
    assert answer.specific_capacity == ask(**well(recovery={"readings": clean})).specific_capacity
    assert warned(answer) == ["/recovery/readings/6/depth", "/recovery/readings/7/depth"]
    assert "as near as a tape can tell" in told(answer, "/recovery/readings/6/depth")
    assert "0.1 m above the water at rest" in told(answer, "/recovery/readings/7/depth")


def test_readings_out_of_order_are_named_and_count_at_their_times():
    clean = recovering(12)["readings"]
    swapped = [clean[i] for i in (0, 2, 1, 3, 4, 5)]
    answer = ask(**well(recovery={"readings": swapped}))
    assert warned(answer) == ["/recovery/readings/2/elapsed"]
    assert answer.specific_capacity == ask(**well(recovery={"readings": clean})).specific_capacity


def test_a_level_that_falls_again_is_named():
    pairs = [(0, 15), (4, 12), (8, 12.02), (12, 9), (20, 7.5), (30, 6.2)]
    assert "/recovery/readings/2/depth" in warned(ask(**well(recovery=readings(*pairs))))


def test_two_readings_of_a_tape_may_differ_by_0_02_ft():
    """GWPD 1, step 9: 6.1 mm."""
    for fall, named in ((0.006, False), (0.007, True)):
        pairs = [(0, 15), (4, 12), (4.1, 12 + fall), (8, 9.9), (20, 6.7), (40, 5.2)]
        answer = ask(**well(recovery=readings(*pairs)))
        assert ("/recovery/readings/2/depth" in warned(answer)) == named


def test_two_readings_are_answered_with_a_warning_and_without_r_squared():
    answer = ask(**well(recovery=readings((0, 15), (20, 7.5))))
    assert warned(answer) == ["/recovery/readings"]
    assert answer.fit.r_squared is UNSET
    assert answer.fit.standard_uncertainty is UNSET
    assert answer.fit.points == 2


def test_a_static_depth_that_is_not_deep_enough_is_named_with_the_depth_of_rest():
    answer = ask(**well(recovery=recovering(12, rest=6.5, minutes=(0, 4, 8, 16, 24, 40, 60, 80))))
    assert "/static_depth" in warned(answer)
    assert "deeper than `static_depth`" in told(answer, "/static_depth")


def test_a_static_depth_that_is_too_deep_is_named_for_it_overstates_the_inflow():
    answer = ask(**well(recovery=recovering(12, rest=4.2, minutes=(0, 3, 6, 9, 12, 18, 24, 30))))
    assert "inflow is overstated" in told(answer, "/static_depth")
    true = ask(**well(static=4.2, recovery=recovering(12, static=4.2, initial=10.8)))
    assert answer.specific_capacity.value > true.specific_capacity.value


def test_readings_that_scatter_are_named():
    pairs = [(0, 15), (5, 13.5), (10, 8.5), (15, 8.4), (20, 9.8), (30, 6.0), (40, 6.2)]
    assert "r squared" in told(ask(**well(recovery=readings(*pairs))), "/recovery/readings")


def test_readings_that_end_before_one_time_constant_are_named():
    early = ask(**well(recovery=recovering(60, minutes=(0, 10, 20, 30, 58))))
    late = ask(**well(recovery=recovering(60, minutes=(0, 10, 20, 30, 62))))
    assert "recovered fraction" in told(early, "/recovery/readings")
    assert warned(late) == []


@pytest.mark.parametrize("pairs", [[(0, 15), (60, 15), (120, 15)], [(0, 15), (60, 14.999), (120, 14.998)]])
def test_a_rise_that_no_tape_can_tell_is_no_inflow(pairs):
    answer = ask(**well(recovery=readings(*pairs)))
    assert answer.specific_capacity.value == 0.0
    assert "no inflow is seen" in told(answer, "/recovery/readings")


@pytest.mark.parametrize(("casing", "pipe", "warns"), [(150, None, True), (150, 32, False), (900, None, False)])
def test_a_drop_pipe_that_is_not_told_of_overstates_the_inflow_of_a_narrow_well(casing, pipe, warns):
    answer = ask(**well(casing=casing, pipe=pipe, recovery=recovering(12)))
    assert ("/drop_pipe_diameter" in warned(answer)) == warns
    if warns:
        assert "9% for one of 42.2 mm" in told(answer, "/drop_pipe_diameter")


# --- warnings about tests, flows and limits


@pytest.mark.parametrize(("hours", "warns"), [(3.9, True), (4.0, False)])
def test_a_test_shorter_than_four_hours_is_named(hours, warns):
    answer = ask(**well(pumping_test=test_of(20, 17, 60 * hours)))
    assert ("/pumping_test/duration" in warned(answer)) == warns
    assert ("test-long-enough" in codes(answer)) == warns


def test_a_test_that_the_casing_gave_most_of_is_named():
    answer = ask(**well(pumping_test=test_of(20, 17, 15)))
    assert answer.correction.casing_water_fraction > 0.5
    assert "casing water fraction" in told(answer, "/pumping_test/duration")


def test_a_level_that_fell_by_more_than_was_pumped_is_a_contradiction():
    answer = ask(**well(pumping_test=test_of(20, 27, 10)))
    assert answer.correction.casing_water_fraction > 1.1
    assert "is wrong" in told(answer, "/pumping_test")
    assert answer.specific_capacity.value == 0.0


def test_a_flow_beyond_the_tested_drawdown_is_named():
    """Tested to 10 m of drawdown, which is 12 L/min at 2e-5 m^2/s."""
    recovery = recovering(AREA / 2e-5 / 60)
    within, beyond = (ask(**well(recovery=recovery), design_flow=quantity(flow, "L/min")) for flow in (12, 14))
    assert warned(within) == []
    assert warned(beyond) == ["/design_flow"]


def test_a_limit_below_the_tested_level_is_named():
    recovery = recovering(12)
    within, beyond = (ask(**well(recovery=recovery), limit_depth=quantity(limit, "m")) for limit in (15, 18))
    assert warned(within) == []
    assert warned(beyond) == ["/limit_depth"]


def test_a_yes_within_what_the_readings_leave_open_is_not_proven():
    """Seven readings of a line with five degrees of freedom: 2.65 sigmas (JCGM 100:2008, Table G.2, 95.45 %)."""
    pairs = [(0, 15), (5, 11.3), (10, 9.7), (15, 7.6), (20, 7.2), (30, 5.7), (40, 5.5)]
    found = ask(**well(recovery=readings(*pairs)))
    most = found.specific_capacity.base * 10 * 60e3
    sigma = found.fit.standard_uncertainty.base * 10 * 60e3
    sure, unsure = (ask(**well(recovery=readings(*pairs)), **drawn(most - n * sigma, 15)) for n in (2.7, 2.6))
    assert (sure.verdict, unsure.verdict) == ("sustains", "storage-limited")
    assert "doubtful" not in told(sure, "/design_flow")
    assert "doubtful" in told(unsure, "/design_flow")
    assert "unproven" in unsure.reasons[0]
    flow, least = (most - 2.6 * sigma) / 60e3, (most - 2.65 * sigma) / 60e3
    at_least = -10 * AREA / least * math.log1p(-least / flow)
    assert unsure.time_to_limit.base == pytest.approx(at_least, rel=1e-3)
    assert "run-dry" in codes(unsure)


NOISE = [(0, 30), (5, 24), (9, 29), (12, 28)]


def noisy(**more):
    """Four readings in ft that go up and down."""
    pairs = [{"elapsed": quantity(t, "min"), "depth": quantity(d, "ft")} for t, d in NOISE]
    body = {"static_depth": quantity(20, "ft"), "casing_diameter": quantity(6, "in"), "recovery": {"readings": pairs}}
    return ask(**body, **more)


@pytest.mark.parametrize("flow", [0.2, 50])
def test_readings_that_are_all_scatter_prove_neither_yes_nor_no(flow):
    answer = noisy(design_flow=quantity(flow, "gal/min"), limit_depth=quantity(60, "ft"))
    assert answer.fit.standard_uncertainty.value > answer.specific_capacity.value > 0.0
    assert answer.verdict is UNSET
    assert answer.time_to_limit is UNSET
    assert answer.reasons[0].startswith("There is no verdict: the readings scatter")
    assert "run-dry" in codes(answer)
    assert "they tell no inflow" in told(answer, "/recovery/readings")


def test_readings_that_are_all_scatter_do_not_make_a_dry_well_wet():
    answer = noisy(design_flow=quantity(0.2, "gal/min"), limit_depth=quantity(20, "ft"))
    assert answer.verdict == "dry"


@pytest.mark.parametrize("times_told", [1, 3])
def test_two_readings_prove_nothing_however_often_they_are_told(times_told):
    pair = readings(*[(0, 15), (8, 9)] * times_told)
    found = ask(**well(recovery=pair))
    answer = ask(**well(recovery=pair), **drawn(found.specific_capacity.base * 60e3 * 2, 15))
    assert answer.verdict is UNSET
    assert answer.reasons[0].startswith("There is no verdict: two readings fit any inflow")
    assert "only two readings" in told(answer, "/recovery/readings")
    assert "run-dry" in codes(answer)


def test_readings_that_are_told_again_make_nothing_surer():
    once = [(0, 15), (5, 11.3), (10, 9.7), (15, 7.6), (20, 7.2), (30, 5.7), (40, 5.5)]
    found = ask(**well(recovery=readings(*once)))
    most = found.specific_capacity.base * 10 * 60e3
    sigma = found.fit.standard_uncertainty.base * 10 * 60e3
    for flow, verdict in ((most - 2.7 * sigma, "sustains"), (most - 2.6 * sigma, "storage-limited")):
        for pairs in (once, once * 4):
            assert ask(**well(recovery=readings(*pairs)), **drawn(flow, 15)).verdict == verdict


def test_readings_that_meet_a_curve_count_as_good_as_a_tape_reads():
    """With weights of s^2 an error e of each moves C by A e over the root of the sum of s^2 (t - t_m)^2."""
    times, left = (0.0, 15.0, 30.0), (0.5, 0.5 * 0.8**0.5, 0.4)
    recovery = readings(*((t / 60, 5 + s) for t, s in zip(times, left, strict=True)))
    found = ask(**well(recovery=recovery)).specific_capacity.base
    mean = sum(s**2 * t for t, s in zip(times, left, strict=True)) / sum(s**2 for s in left)
    spread = sum(s**2 * (t - mean) ** 2 for t, s in zip(times, left, strict=True))
    sigma = AREA * 0.01 * FOOT / spread**0.5
    flows = [(found - n * sigma) * 0.9 * 60e3 for n in (2.05, 1.95)]
    assert [ask(**well(recovery=recovery), **drawn(flow, 5.9)).verdict for flow in flows] == [
        "sustains",
        "storage-limited",
    ]


@pytest.mark.parametrize(("last", "verdict"), [(13.9, "sustains"), (14.1, UNSET)])
def test_a_recovery_that_was_hardly_begun_proves_nothing(last, verdict):
    """A tenth of the 10 m has to come back while the level is read: 14.0 m."""
    between = 5 + (10 * (last - 5)) ** 0.5
    pair = readings((0, 15), (15, between), (30, last))
    found = ask(**well(recovery=pair)).specific_capacity.base
    answer = ask(**well(recovery=pair), **drawn(found * 60e3 * 9, 15))
    assert answer.verdict == verdict
    assert "run-dry" in codes(answer)
    assert any("came back while it was read" in reason for reason in answer.reasons) is (verdict is UNSET)


@pytest.mark.parametrize(("times_tested", "verdict"), [(1.99, "sustains"), (2.01, UNSET)])
def test_far_beyond_the_tested_drawdown_nothing_is_sustained(times_tested, verdict):
    """20 L/min drew the level down by 2 m in 6 h; the line goes on, and the well may not."""
    answer = ask(**well(pumping_test=test_of(20, 7, 360)), **drawn(20 * times_tested, 200))
    assert answer.verdict == verdict
    assert warned(answer) == ["/design_flow", "/limit_depth"]
    assert "`inflow_at_limit` is the most that can be hoped for" in told(answer, "/limit_depth")
    assert "run-dry" in codes(answer)


def test_what_is_missing_beyond_the_test_is_said_with_the_test_and_what_to_do():
    answer = ask(
        static_depth=quantity(20, "ft"),
        casing_diameter=quantity(6, "in"),
        drop_pipe_diameter=quantity(1.66, "in"),
        pumping_test={
            "flow": quantity(5, "gal/min"),
            "pumping_depth": quantity(21, "ft"),
            "duration": quantity(4, "h"),
        },
        design_flow=quantity(400, "gal/min"),
        limit_depth=quantity(300, "ft"),
    )
    assert answer.verdict is UNSET
    assert "the drawdown of 1 ft that was tested, at 5 gal/min" in answer.reasons[0]
    assert answer.reasons[0].endswith("Test the well at 400 gal/min for 4 h or more.")
    assert "run-dry" in codes(answer)


def test_a_flow_that_not_even_the_line_beyond_the_test_carries_is_storage_limited():
    answer = ask(**well(pumping_test=test_of(20, 7, 360)), **drawn(300, 20))
    assert answer.verdict == "storage-limited"


@pytest.mark.parametrize(("minutes", "verdict"), [(15, UNSET), (40, "sustains")])
def test_a_test_that_mostly_emptied_the_casing_sustains_nothing(minutes, verdict):
    answer = ask(**well(pumping_test=test_of(20, 17, minutes)), **drawn(1, 17))
    assert answer.inflow_at_limit.base * 60e3 > 1
    assert (answer.correction.casing_water_fraction > 0.5) == (verdict is UNSET)
    assert answer.verdict == verdict
    assert ("came out of the casing at the drawdown of 12 m that was tested" in answer.reasons[0]) == (verdict is UNSET)
    assert "run-dry" in codes(answer)


def test_a_sure_yes_brings_no_caution_of_running_dry():
    answer = ask(**well(recovery=recovering(12)), **drawn(5, 15))
    assert (answer.verdict, warned(answer)) == ("sustains", [])
    assert "run-dry" not in codes(answer)


@pytest.mark.parametrize(("units", "error"), [("us", "0.01 ft"), ("metric", "3.05 mm")])
def test_a_tapes_error_is_told_in_the_system_that_is_asked_for(units, error):
    with pytest.raises(Refused) as refused:
        ask(**well(static=16, recovery=RECOVERY) | {"units": units})
    assert error in refused.value.faults[0].detail
    still = ask(**well(recovery=readings((0, 15), (60, 15), (120, 15))) | {"units": units})
    assert error in told(still, "/recovery/readings")


# --- cautions


def test_cautions_follow_the_well_and_the_verdict():
    safe = ask(**well(pumping_test=test_of(20, 17, 240)), **drawn(10, 17))
    assert safe.verdict == "sustains"
    assert codes(safe) == ["well-opened", "local-code"]
    untested = ask(**well(pumping_test=test_of(20, 17, 240)), **drawn(30, 40))
    assert codes(untested) == ["well-opened", "run-dry", "test-long-enough", "local-code"]
    dug = ask(**well(casing=900, static=-0.2, recovery=recovering(12, static=-0.2)), **drawn(1, -0.5))
    assert dug.verdict == "dry"
    assert codes(dug) == ["well-opened", "open-shaft", "flowing-well", "run-dry", "test-long-enough", "local-code"]


# --- refusals

RECOVERY = recovering(12)
TEST = test_of(20, 17, 60)


@pytest.mark.parametrize(
    ("body", "pointers"),
    [
        (well(), ["/recovery"]),
        (well(recovery=RECOVERY, pumping_test=TEST), ["/pumping_test"]),
        (well(pipe=150, recovery=RECOVERY), ["/drop_pipe_diameter"]),
        (well(pipe=200), ["/recovery", "/drop_pipe_diameter"]),
        (well(static=17, pumping_test=TEST), ["/pumping_test/pumping_depth"]),
        (well(static=16.998, pumping_test=TEST), ["/pumping_test/pumping_depth"]),
        (well(static=40, pumping_test=TEST, pipe=151), ["/drop_pipe_diameter", "/pumping_test/pumping_depth"]),
        (well(static=16, recovery=RECOVERY), ["/recovery/readings"]),
        (well(recovery=readings((0, 15), (10, 5), (20, 4.9))), ["/recovery/readings"]),
        (well(recovery=readings((3, 15), (3, 10), (3, 7))), ["/recovery/readings"]),
        (well(recovery=readings((0, 15), (0.1, 10), (0.16, 7))), ["/recovery/readings"]),
        (well(recovery=readings((0, 15), (0.01, 5.1), (0.2, 5.01))), ["/recovery/readings"]),
        (well(casing=10, recovery=RECOVERY), ["/casing_diameter"]),
        (well(pipe=1, recovery=RECOVERY), ["/drop_pipe_diameter"]),
        (well(static=1001, recovery=RECOVERY), ["/static_depth"]),
        (
            well(recovery=readings((0, 1001), (-0.0, 15), (14401, 12))),
            [f"/recovery/readings/{p}" for p in ("0/depth", "2/elapsed")],
        ),
        (well(pumping_test=test_of(6001, 17, 43201)), ["/pumping_test/flow", "/pumping_test/duration"]),
        (well(recovery=RECOVERY, **drawn(0, -101)), ["/design_flow", "/limit_depth"]),
    ],
)
def test_what_no_well_can_be_is_refused_with_every_fault(body, pointers):
    with pytest.raises(Refused) as refused:
        ask(**body)
    assert [fault.pointer for fault in refused.value.faults] == pointers
    assert all(fault.detail for fault in refused.value.faults)


@pytest.mark.parametrize(
    "body",
    [
        {"recovery": RECOVERY},
        well(recovery=readings((0, 15))),
        well(recovery=readings(*((t, 15 - t / 200) for t in range(1001)))),
        well(recovery={"readings": [{"elapsed": quantity(0, "min")}] * 3}),
        well(recovery=readings((-1, 15), (5, 12))),
        well(pumping_test=TEST | {"pumping_level": quantity(3, "m")}),
        well(recovery=RECOVERY, design_flow=quantity(-1, "L/min")),
        well(recovery=RECOVERY, depth=quantity(1, "m")),
    ],
)
def test_what_breaks_the_schema_is_no_request(body):
    with pytest.raises(msgspec.ValidationError):
        decoded(body)


# --- what must hold for every well

depths = st.floats(-90, 500)
casings = st.floats(50, 2000)
flows = st.floats(0.1, 500)


@st.composite
def wells_in_two_systems(draw):
    """One well in metres, and the same in feet, inches, hours and gallons a minute."""
    static, casing, flow = draw(depths), draw(casings), draw(flows)
    pipe = draw(st.floats(0.11, 0.5)) * casing
    limit = static + draw(st.floats(-5, 200))
    metric = well(static=static, casing=casing, pipe=pipe, **drawn(flow, limit))
    us = metric | {
        "static_depth": quantity(static / FOOT, "ft"),
        "casing_diameter": quantity(casing / 25.4, "in"),
        "drop_pipe_diameter": quantity(pipe / 25.4, "in"),
        "design_flow": quantity(flow / 60e3 / GALLON_A_MINUTE, "gal/min"),
        "limit_depth": quantity(limit / FOOT, "ft"),
    }
    if draw(st.booleans()):
        constant, initial = draw(st.floats(2, 5000)), draw(st.floats(0.5, 200))
        pairs = [(f * constant, static + initial * math.exp(-f)) for f in (0, 0.3, 0.7, 1.2)]
        metric["recovery"] = readings(*pairs)
        us["recovery"] = {
            "readings": [{"elapsed": quantity(t / 60, "h"), "depth": quantity(d / FOOT, "ft")} for t, d in pairs]
        }
    else:
        tested, depth, minutes = draw(flows), static + draw(st.floats(0.5, 200)), draw(st.floats(5, 5000))
        metric["pumping_test"] = test_of(tested, depth, minutes)
        us["pumping_test"] = {
            "flow": quantity(tested / 60e3 / GALLON_A_MINUTE, "gal/min"),
            "pumping_depth": quantity(depth / FOOT, "ft"),
            "duration": quantity(minutes / 60, "h"),
        }
    return metric, us


def same(one, other, rel=2e-5):
    """Equal up to the sixth digit of each, and the cancellation in a drawdown of little."""
    if one is UNSET or other is UNSET:
        return one is other
    return one.base == pytest.approx(other.base, rel=rel, abs=1e-12)


@given(wells_in_two_systems())
def test_the_same_well_in_feet_and_in_metres_gives_the_same_answer(bodies):
    in_metres, in_feet = (ask(**body) for body in bodies)
    for field in ("specific_capacity", "time_constant", "inflow_at_limit", "pumping_depth", "storage"):
        assert same(getattr(in_metres, field), getattr(in_feet, field))
    if in_metres.verdict == in_feet.verdict == "storage-limited":
        assert same(in_metres.time_to_limit, in_feet.time_to_limit, rel=1e-3)
    assert warned(in_metres) == warned(in_feet) or in_metres.verdict != in_feet.verdict


@given(wells_in_two_systems())
def test_the_verdict_and_its_numbers_agree(bodies):
    answer, request = ask(**bodies[0]), bodies[0]
    flow, limit, static = (request[name]["value"] for name in ("design_flow", "limit_depth", "static_depth"))
    if limit <= static:
        assert answer.verdict == "dry"
        return
    most = answer.inflow_at_limit.base * 60e3
    if answer.verdict is UNSET:
        tested = (
            answer.fit.initial_drawdown.base
            if answer.fit
            else request["pumping_test"]["pumping_depth"]["value"] - static
        )
        twice = 2 * tested * answer.specific_capacity.base * 60e3
        assert flow > twice * (1 - 1e-4) or answer.correction.casing_water_fraction > 0.5
        assert answer.reasons[0].startswith("There is no verdict")
        assert "run-dry" in codes(answer)
    elif answer.verdict == "sustains":
        assert most >= flow * (1 - 1e-5)
        assert answer.pumping_depth.base <= limit + 1e-4 * abs(limit)
    else:
        assert answer.verdict == "storage-limited"
        assert most <= flow * (1 + 1e-5)
        assert answer.time_to_limit.base >= answer.storage.base / (flow / 60e3) * (1 - 1e-5)
    assert b"null" not in msgspec.json.encode(answer)


@given(st.floats(2, 2000), st.floats(1.05, 10))
def test_a_well_that_comes_back_faster_gives_more(constant, faster):
    slow, fast = (
        ask(**well(recovery=recovering(c, minutes=[f * c for f in (0, 0.5, 1, 2)])))
        for c in (constant, constant / faster)
    )
    assert fast.specific_capacity.value > slow.specific_capacity.value


@given(st.floats(2, 2000), casings, st.floats(1.01, 2))
def test_the_same_recovery_in_a_wider_casing_is_more_water(constant, casing, wider):
    recovery = recovering(constant, minutes=[f * constant for f in (0, 0.5, 1, 2)])
    narrow, wide = (ask(**well(casing=c, recovery=recovery)) for c in (casing, wider * casing))
    assert wide.specific_capacity.value > narrow.specific_capacity.value


def answered_or_refused(body):
    """The answer, or None and the pointers of the faults."""
    try:
        return ask(**body), []
    except Refused as refused:
        return None, [fault.pointer for fault in refused.faults]


anywhere = st.floats(-100, 1000)
any_time = st.floats(0, 864000)


@given(
    st.floats(0.02, 5),
    anywhere,
    st.lists(st.tuples(any_time, anywhere), min_size=2, max_size=8),
    st.floats(1e-6, 0.1),
    anywhere,
)
def test_no_readings_break_the_answer(casing, static, pairs, flow, limit):
    """Whatever stands in the ranges is answered or refused with a pointer; nothing else is raised."""
    body = {
        "static_depth": quantity(static, "m"),
        "casing_diameter": quantity(casing, "m"),
        "recovery": {"readings": [{"elapsed": quantity(t, "s"), "depth": quantity(d, "m")} for t, d in pairs]},
        "design_flow": quantity(1e3 * flow, "L/s"),
        "limit_depth": quantity(limit, "m"),
    }
    answer, pointers = answered_or_refused(body)
    assert all(pointers)
    if answer is not None:
        assert answer.specific_capacity.value >= 0.0
        assert b"null" not in msgspec.json.encode(answer)


@given(
    st.floats(0.02, 5), anywhere, st.floats(1e-6, 0.1), anywhere, st.floats(1, 2.592e6), st.floats(1e-6, 0.1), anywhere
)
def test_no_test_breaks_the_answer(casing, static, tested, depth, duration, flow, limit):
    body = {
        "static_depth": quantity(static, "m"),
        "casing_diameter": quantity(casing, "m"),
        "pumping_test": {
            "flow": quantity(1e3 * tested, "L/s"),
            "pumping_depth": quantity(depth, "m"),
            "duration": quantity(duration, "s"),
        },
        "design_flow": quantity(1e3 * flow, "L/s"),
        "limit_depth": quantity(limit, "m"),
    }
    answer, pointers = answered_or_refused(body)
    if answer is None:
        assert pointers == ["/pumping_test/pumping_depth"]
    else:
        apparent = answer.correction.apparent_specific_capacity.value
        assert 0.0 <= answer.specific_capacity.value <= apparent * (1 + 1e-5)
        assert b"null" not in msgspec.json.encode(answer)


def test_three_readings_that_lie_on_a_curve_by_luck_are_no_surer_than_a_tape():
    recovery = recovering(15, minutes=(0, 4, 8))
    found = ask(**well(recovery=recovery))
    assert found.fit.standard_uncertainty.value < 1e-6 * found.specific_capacity.value
    most = found.specific_capacity.base * 10 * 60e3
    verdicts = [ask(**well(recovery=recovery), **drawn(share * most, 15)).verdict for share in (0.99, 0.9995)]
    assert verdicts == ["sustains", "storage-limited"]
