"""What `suction-feasibility` says of a site: verdicts and their edges, reasons, warnings, refusals."""

from collections import defaultdict

import msgspec
import pytest
from msgspec.structs import replace

from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.suction_state import suction_state
from footvalve.contract.examples import examples
from footvalve.contract.line import FittingKind, ValveKind
from footvalve.contract.problem import Refused
from footvalve.contract.suction_feasibility import (
    SuctionFeasibilityAnswer,
    SuctionFeasibilityRequest,
)
from footvalve.tables.valves import VALVES, valve

SUCTION = ENDPOINT["suction-feasibility"]


def of(value, unit):
    return {"value": value, "unit": unit}


def pipe(length, end=None, bore=26.0, **more):
    """A smooth pipe: length and end in m, bore in mm."""
    part = {
        "part": "pipe",
        "bore": {"diameter": of(bore, "mm"), "roughness": of(0.0015, "mm")},
        "length": of(length, "m"),
        **more,
    }
    return part if end is None else part | {"end_elevation": of(end, "m")}


def pump(**more):
    usual = {"style": "rotary", "inlet_elevation": of(0, "m"), "npsh_required": of(3, "m")}
    return {name: value for name, value in (usual | more).items() if value is not None}


FOOT_VALVE = {"part": "valve", "valve": "foot-valve-hinged", "name": "foot valve"}
ELBOW = {"part": "fitting", "fitting": "elbow-90", "name": "elbow"}
WHOLE_LINE = [FOOT_VALVE, pipe(9, -1, name="drop pipe"), ELBOW, pipe(10, 0, name="run")]
"""Nothing that a suction line has as a rule is missing here."""


LIFTED = {"flow": of(18, "L/min"), "line": [FOOT_VALVE | {"bore": {"diameter": of(15, "mm")}}, *WHOLE_LINE[1:]]}
"""A flow and a foot valve whose disc it lifts fully."""


def request(**changes):
    """A sound site in metres: 4 m to the water, half a metre of drawdown, 12 L/min, the pump on the ground."""
    sound = {
        "units": "metric",
        "depth_to_water": of(4, "m"),
        "drawdown": of(0.5, "m"),
        "flow": of(12, "L/min"),
        "pump": pump(),
        "intake_elevation": of(-9.5, "m"),
        "line": WHOLE_LINE,
    }
    body = {name: value for name, value in (sound | changes).items() if value is not None}
    return msgspec.json.decode(msgspec.json.encode(body), type=SuctionFeasibilityRequest)


def ask(**changes):
    return SUCTION(request(**changes))


def refusal(**changes):
    """The pointers of a refusal, in its order."""
    with pytest.raises(Refused) as refused:
        ask(**changes)
    return [fault.pointer for fault in refused.value.faults]


def warned(answer):
    gathered = defaultdict(list)
    for warning in answer.warnings:
        gathered[warning.pointer].append(warning.detail)
    return gathered


# The verdict and its edges


def test_a_sound_site_is_feasible_and_nothing_is_doubtful_about_it():
    answer = ask(**LIFTED)
    assert answer.verdict == "feasible"
    assert answer.warnings == []
    assert answer.static_lift.value == 4.5
    assert answer.margin.value == pytest.approx(answer.npsh_available.value - 3.0, abs=2e-5)


STATE = suction_state(request(**LIFTED))


@pytest.mark.parametrize(
    ("available", "verdict"),
    [
        (5.0, "feasible"),
        (4.0, "feasible"),
        (3.999999999, "marginal"),
        (3.0, "marginal"),
        (2.999999999, "infeasible"),
    ],
)
def test_the_margin_decides_with_its_ends_included(available, verdict):
    """Required 3 m, policy 1 m: feasible from a margin of 1 on, infeasible only below 0."""
    state = replace(STATE, npsh_available=available, npsh_required=3.0, policy_margin=1.0)
    assert state.verdict == verdict


def test_a_policy_of_nothing_leaves_nothing_marginal():
    state = replace(STATE, npsh_available=3.0, npsh_required=3.0, policy_margin=0.0)
    assert state.verdict == "feasible"


def test_the_policy_moves_the_verdict_and_nothing_else():
    kind, strict = ask(policy={"margin": of(0, "m")}), ask(policy={"margin": of(15, "m")})
    assert (kind.verdict, strict.verdict) == ("feasible", "marginal")
    assert kind.margin == strict.margin
    assert kind.profile == strict.profile


def test_the_policy_is_three_feet_unless_told():
    margin = suction_state(request()).policy_margin
    assert margin == pytest.approx(0.9144, rel=1e-12)


CREST = {
    "depth_to_water": of(5, "m"),
    "pump": pump(inlet_elevation=of(-4.5, "m"), npsh_required=of(1, "m")),
    "line": [
        FOOT_VALVE,
        pipe(16, 5.5, name="over the joist"),
        ELBOW,
        pipe(12, -4.5, name="down to the shed"),
    ],
}


def test_water_that_boils_at_a_crest_is_infeasible_though_the_pump_has_enough():
    """And the crest is the tightest place, and the reasons name it."""
    answer = ask(**CREST)
    assert answer.margin.value > 5
    assert answer.verdict == "infeasible"
    assert answer.tightest.name in ("over the joist", "elbow")
    assert answer.tightest.above_vapour.value < 0
    assert answer.tightest in answer.profile
    assert answer.reasons[0].startswith(f"The water boils at the end of {answer.tightest.name}")
    assert not any(" -" in reason for reason in answer.reasons), "no sentence tells a height below zero"
    lower = CREST | {"line": [FOOT_VALVE, pipe(16, 1), ELBOW, pipe(12, -4.5)]}
    assert ask(**lower).verdict == "feasible"


def test_an_intake_that_falls_dry_is_infeasible_and_the_reason_says_so():
    answer = ask(intake_elevation=of(-4.2, "m"))
    assert answer.margin.value > 1
    assert answer.verdict == "infeasible"
    assert "draws air" in answer.reasons[0]


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize(
    ("under", "verdict"), [(0.0, "infeasible"), (0.01, "marginal"), (0.299, "marginal"), (0.3, "feasible")]
)
def test_the_water_over_the_intake_decides_with_the_margin(under, verdict, units):
    """None is dry; less than 0.3 m is a yes no more, and says so first."""
    answer = ask(**LIFTED, intake_elevation=of(-4.5 - under, "m"), units=units)
    assert answer.verdict == verdict
    assert any("vortex" in detail for detail in warned(answer)["/depth_to_water"]) == (verdict == "marginal")
    first = {"infeasible": "draws air", "marginal": "of water stand over the intake", "feasible": "Of NPSH"}
    assert first[verdict] in answer.reasons[0]


def test_an_intake_without_a_sound_margin_tells_the_margin_first():
    answer = ask(**LIFTED, intake_elevation=of(-4.6, "m"), policy={"margin": of(15, "m")})
    assert answer.verdict == "marginal"
    assert answer.reasons[0].startswith("Of NPSH")
    assert "over the intake" in answer.reasons[1]


def test_only_an_inferred_intake_is_told_of_as_the_deepest():
    line = [FOOT_VALVE, pipe(3, -1), ELBOW, pipe(10)]
    told = ask(intake_elevation=of(-4, "m"), line=line).reasons[0]
    assert told == "The water falls to 4.5 m below the ground and the intake lies 4 m below the ground: it draws air."
    inferred = ask(intake_elevation=None, line=line).reasons[0]
    assert "4 m below the ground at the deepest that this line reaches" in inferred
    level = ask(intake_elevation=of(0, "m"), line=[FOOT_VALVE, pipe(3, 0), ELBOW, pipe(10)]).reasons[0]
    assert "the intake lies level with the ground" in level
    shallow = ask(intake_elevation=None, line=[FOOT_VALVE, pipe(3.6, -1), ELBOW, pipe(10)]).reasons[0]
    assert shallow.startswith("Only 0.1 m of water stand over the intake at the most")


# Discs that the flow does not lift


def test_a_disc_that_hangs_makes_no_yes_of_a_margin_that_it_may_use_up():
    """Policy a centimetre below the margin: the disc may take more. The margin stays that of what is counted."""
    state = suction_state(request())
    (more,) = (head for head in state.uncounted if head)
    assert more > 0.1
    for policy, verdict in ((state.margin - 0.01, "marginal"), (state.margin - more - 0.01, "feasible")):
        answer = ask(policy={"margin": of(policy, "m")})
        assert answer.verdict == verdict
        assert answer.margin == ask().margin
        told = [reason for reason in answer.reasons if "does not lift the disc of foot valve" in reason]
        assert len(told) == (verdict == "marginal")


def test_the_reason_tells_what_the_disc_may_take_and_what_it_makes_of_the_verdict():
    """The pump needs 5 cm less than there is."""
    state = suction_state(request())
    answer = ask(pump=pump(npsh_required=of(state.npsh_available - 0.05, "m")), policy={"margin": of(0, "m")})
    assert answer.verdict == "marginal"
    more = sum(state.uncounted)
    assert f"may take {more:.3f} m more than is counted" in answer.reasons[0]
    assert answer.reasons[0].endswith(f"the margin would then be {0.05 - more:.3g} m: infeasible.")


def test_a_disc_before_a_crest_may_make_the_water_boil_there():
    """The crest is set so that 5 cm are left there as counted, with margin enough at the pump below."""
    site = {
        "pump": pump(inlet_elevation=of(-4, "m"), npsh_required=of(0, "m")),
        "policy": {"margin": of(0, "m")},
    }

    def at(crest):
        return site | {"line": [FOOT_VALVE, pipe(17, crest, name="up"), ELBOW, pipe(12, -4, name="down")]}

    left = ask(**at(4)).tightest.above_vapour.value
    answer = ask(**at(4 + left - 0.05))
    assert answer.verdict == "marginal"
    assert 0 < answer.tightest.above_vapour.value < 0.1
    assert "the water would then boil on the way: infeasible" in answer.reasons[0]


def over_a_crest(crest, **changes):
    """A line over a crest to a pump below, whose intake is open, so that no disc hangs."""
    line = [LIFTED["line"][0], pipe(17, crest, name="up"), ELBOW, pipe(12, -4, name="down")]
    return ask(flow=LIFTED["flow"], pump=pump(inlet_elevation=of(-4, "m"), **changes), line=line)


def test_a_crest_with_less_to_spare_than_the_policy_asks_for_is_marginal():
    """A foot of water is what the weather alone takes."""
    easy = {"npsh_required": of(0.1, "m")}
    spare = over_a_crest(2, **easy).tightest.above_vapour.value
    policy = 3 * 0.3048
    assert over_a_crest(2 + spare - policy - 0.02, **easy).verdict == "feasible"
    answer = over_a_crest(2 + spare - policy + 0.02, **easy)
    assert answer.verdict == "marginal"
    assert any("left before the water boils, less than" in reason for reason in answer.reasons)


def test_a_crest_higher_than_the_pump_draws_a_dry_line_is_marginal_and_has_no_time():
    """The pump stands low, and has margin enough once the line is full; but it has to be filled first."""
    weak = {"npsh_required": of(6, "m")}
    assert over_a_crest(-2, **weak).verdict == "feasible"
    answer = over_a_crest(1.5, **weak)
    assert answer.verdict == "marginal"
    assert answer.priming.time is msgspec.UNSET
    assert any("it may not prime" in reason for reason in answer.reasons)


def test_a_disc_behind_a_crest_does_not_make_the_water_boil_there():
    """What it takes is taken after the crest."""
    check = FOOT_VALVE | {"name": "check"}
    lifted = LIFTED["line"][0]

    def at(crest):
        line = [lifted, pipe(17, crest, name="up"), ELBOW, pipe(12, -4, name="down"), check]
        return {
            "flow": LIFTED["flow"],
            "pump": pump(inlet_elevation=of(-4, "m"), npsh_required=of(0, "m")),
            "policy": {"margin": of(0, "m")},
            "line": line,
        }

    left = ask(**at(4)).tightest.above_vapour.value
    assert ask(**at(4 + left - 0.05)).verdict == "feasible"


def test_each_disc_that_hangs_counts():
    twice = suction_state(request(line=[*WHOLE_LINE, FOOT_VALVE]))
    once = suction_state(request())
    assert sum(twice.uncounted) == pytest.approx(2 * sum(once.uncounted), rel=1e-9)
    answer = ask(line=[*WHOLE_LINE, FOOT_VALVE], policy={"margin": of(twice.margin, "m")})
    assert "the disc of foot valve (part 1 of the line) and of foot valve (part 5 of the line)" in answer.reasons[0]
    many = [*WHOLE_LINE, *[FOOT_VALVE] * 5]
    policy = {"margin": of(suction_state(request(line=many)).margin, "m")}
    assert "the disc of each of 6 check valves, which may take" in ask(line=many, policy=policy).reasons[0]


def test_a_flowing_well_gives_head_instead_of_taking_it():
    answer = ask(depth_to_water=of(-2, "m"), drawdown=of(0, "m"))
    assert answer.pumping_depth.value == -2
    assert answer.static_lift.value == -2
    assert answer.npsh_available.value > 12
    assert "of water at this altitude, and the water above the inlet adds 2 m; the line takes " in answer.reasons[1]
    assert answer.verdict == "feasible"
    assert answer.priming.line_volume.value == 0
    assert answer.priming.time.value == 0


@pytest.mark.parametrize(("depth", "flows"), [(-2.0, True), (-0.0005, False), (0.0, False)])
def test_a_well_whose_water_at_rest_stands_above_the_ground_may_flow_once_it_is_opened(depth, flows):
    """As in sounding and well-recovery, and even if it does not in the dry season. Common practice, no source."""
    assert ("flowing-well" in codes(depth_to_water=of(depth, "m"), seasonal_fall=of(4, "m"))) == flows


def test_a_pump_below_the_water_may_stand_under_pressure_everywhere():
    line = [FOOT_VALVE, pipe(9, -6), ELBOW, pipe(10, -6)]
    answer = ask(pump=pump(inlet_elevation=of(-6, "m")), line=line)
    assert answer.static_lift.value == -1.5
    assert not any(node.under_vacuum for node in answer.profile)
    assert answer.air_entry == []
    assert "suction-under-vacuum" not in {caution.code for caution in answer.cautions}


def test_a_pump_below_the_water_can_still_have_a_crest_under_vacuum():
    line = [FOOT_VALVE, pipe(11, 0, name="up"), ELBOW, pipe(10, -6, name="down")]
    answer = ask(pump=pump(inlet_elevation=of(-6, "m")), line=line)
    assert answer.verdict == "feasible"
    assert [entry.name for entry in answer.air_entry] == ["up", "elbow", "down"]
    assert answer.tightest.name in ("up", "elbow")
    assert any("not the pump inlet" in reason for reason in answer.reasons)


def test_a_pump_under_less_air_than_vapour_pressure_draws_nothing():
    """Water of 95 degC at 5000 m boils in the open."""
    site = {"altitude": of(5000, "m"), "water_temperature": of(95, "degC")}
    answer = ask(site=site)
    assert answer.verdict == "infeasible"
    assert answer.npsh_available.value < -5
    assert answer.priming.time is msgspec.UNSET


# What the numbers mean


def test_the_drawdown_follows_from_the_wells_yield():
    by_yield = ask(drawdown=None, specific_capacity=of(0.4, "L/s/m"))
    by_depth = ask(drawdown=of(0.5, "m"))
    assert by_yield == by_depth


def test_the_dry_season_counts_as_depth():
    fallen = ask(depth_to_water=of(2.5, "m"), seasonal_fall=of(1.5, "m"))
    deep = ask(depth_to_water=of(4, "m"))
    assert fallen == deep
    assert fallen.pumping_depth.value == 4.5


def test_a_rated_lift_is_told_for_sea_level_and_cold_water():
    """At 2000 m the same pump needs the same NPSH and has less."""
    low = ask(pump=pump(npsh_required=None, rated_suction_lift=of(7, "m")))
    high = ask(
        pump=pump(npsh_required=None, rated_suction_lift=of(7, "m")),
        site={"altitude": of(2000, "m")},
    )
    assert low.npsh_required == high.npsh_required
    assert low.npsh_required.value == pytest.approx(3.21, abs=0.005)
    assert low.margin.value - high.margin.value == pytest.approx(2.23, abs=0.02)
    assert any("rated lift" in step.step for step in low.basis)


def test_only_a_reciprocating_pump_takes_acceleration_head():
    steady = ask()
    strokes = {"style": "reciprocating", "strokes_per_minute": 100, "chambers": 3}
    beating = ask(pump=pump(**strokes))
    cushioned = ask(pump=pump(**strokes, gas_cushion=True))
    assert steady.acceleration_head.value == 0
    assert beating.acceleration_head.value > cushioned.acceleration_head.value > 0
    for answer in (beating, cushioned):
        lost = steady.npsh_available.value - answer.npsh_available.value
        assert lost == pytest.approx(answer.acceleration_head.value, abs=3e-5)
        assert any("Acceleration" in step.step for step in answer.basis)
        assert any("strokes" in reason for reason in answer.reasons)


def test_a_short_last_piece_does_not_hide_the_line_from_the_strokes():
    """Under a cushion fifteen bores count, over as many pieces as they reach."""
    strokes = {"style": "reciprocating", "strokes_per_minute": 200, "chambers": 1, "gas_cushion": True}
    whole = ask(pump=pump(**strokes))
    pieces = [*WHOLE_LINE[:3], pipe(9.95, -0.005), pipe(0.05, 0)]
    assert ask(pump=pump(**strokes), line=pieces).acceleration_head == whole.acceleration_head


def test_the_profile_has_the_intake_and_each_parts_end():
    answer = ask()
    assert [node.name for node in answer.profile] == ["intake", "foot valve", "drop pipe", "elbow", "run"]
    assert answer.profile[0].index is msgspec.UNSET
    assert [node.index for node in answer.profile[1:]] == [0, 1, 2, 3]
    assert [node.elevation.value for node in answer.profile] == [-9.5, -9.5, -1, -1, 0]
    assert [node.under_vacuum for node in answer.profile] == [False, False, True, True, True]
    assert [entry.index for entry in answer.air_entry] == [1, 2, 3]
    for node in answer.profile:
        gauge = node.absolute_pressure.value - 1.01325
        assert node.gauge_pressure.value == pytest.approx(gauge, abs=2e-5)


def test_npsh_is_the_last_node_with_its_velocity_head():
    """Static head over the vapour's at the inlet, and the water's own speed there."""
    answer = ask(flow=of(40, "L/min"))
    velocity = 40 / 60_000 / (3.141592653589793 * 0.026**2 / 4)
    moving = velocity**2 / (2 * 9.80665)
    last = answer.profile[-1].above_vapour.value
    assert answer.npsh_available.value == pytest.approx(last + moving, abs=2e-5)


def test_a_spring_costs_its_cracking_pressure_at_the_smallest_flow():
    spring = {"part": "valve", "valve": "spring-check", "cracking_pressure": of(0.5, "psi")}
    with_it = ask(flow=of(0.01, "L/min"), line=[*WHOLE_LINE[:3], spring, WHOLE_LINE[3]])
    without = ask(flow=of(0.01, "L/min"))
    assert with_it.losses.value - without.losses.value == pytest.approx(0.3517, abs=1e-4)


def test_a_strainer_counts_dirty_where_that_is_told():
    rating = {"part": "strainer", "rated_flow": of(12, "L/min"), "clean_drop": of(1, "kPa")}
    clean = ask(line=[*WHOLE_LINE, rating])
    dirty = ask(line=[*WHOLE_LINE, rating | {"dirty_drop": of(11, "kPa")}])
    assert clean.margin.value - dirty.margin.value == pytest.approx(10_000 / (999.5 * 9.80665), abs=1e-4)


@pytest.mark.parametrize("kind", FittingKind.__args__)
def test_every_fitting_of_the_contract_costs_margin(kind):
    before, after = (20, 40) if kind == "sudden-enlargement" else (40, 20)
    ends = [pipe(10, -1, bore=before), pipe(10, 0, bore=after)]
    fitting = {"part": "fitting", "fitting": kind}
    with_it = ask(line=[FOOT_VALVE, ends[0], fitting, ends[1]], flow=of(30, "L/min"))
    assert with_it.margin.value < ask(line=[FOOT_VALVE, *ends], flow=of(30, "L/min")).margin.value


@pytest.mark.parametrize("kind", ValveKind.__args__)
def test_every_valve_of_the_contract_costs_margin(kind):
    open_valve = {"part": "valve", "valve": kind}
    with_it = ask(line=[*WHOLE_LINE[:3], open_valve, WHOLE_LINE[3]])
    assert with_it.margin.value < ask().margin.value


def test_the_rule_of_thumb_knows_neither_flow_nor_line():
    easy, hard = ask(), ask(flow=of(50, "L/min"), line=[FOOT_VALVE, pipe(9, -1, 13), ELBOW, pipe(60, 0, 13)])
    assert easy.rule_of_thumb.allowed_lift == hard.rule_of_thumb.allowed_lift
    assert easy.rule_of_thumb.allowed_lift.value == pytest.approx(7.62, rel=1e-6)
    assert easy.rule_of_thumb.agrees
    assert hard.verdict == "infeasible"
    assert not hard.rule_of_thumb.agrees
    (told,) = (reason for reason in hard.reasons if "rule of thumb" in reason)
    assert "says yes here, for it allows 7.62 m of lift at this altitude and 4.5 m are asked" in told
    assert not any("rule of thumb" in reason for reason in easy.reasons)


def test_a_yes_beyond_the_rule_says_so():
    answer = ask(depth_to_water=of(7.5, "m"), pump=pump(npsh_required=of(0.2, "m")), policy={"margin": of(0.1, "m")})
    assert answer.verdict == "feasible"
    assert "says no here, for it allows 7.62 m of lift at this altitude and 8 m are asked" in answer.reasons[-1]


def test_a_marginal_site_is_a_yes_to_the_rule():
    answer = ask(policy={"margin": of(15, "m")})
    assert answer.verdict == "marginal"
    assert answer.rule_of_thumb.agrees


def test_the_rule_agrees_where_both_say_no():
    deep = ask(
        depth_to_water=of(9, "m"),
        intake_elevation=of(-12, "m"),
        line=[FOOT_VALVE, pipe(13, -1), ELBOW, pipe(3)],
    )
    assert deep.verdict == "infeasible"
    assert deep.rule_of_thumb.agrees


# Priming


def test_priming_draws_out_what_stands_over_the_water_at_rest():
    """26 mm hold 0.5309 L a metre: of the drop pipe's 9 m over 8.5 m of height the upper 3 m, and the whole run."""
    answer = ask()
    dry = 9 * 3 / 8.5 + 10
    assert answer.priming.line_volume.value == pytest.approx(dry * 0.530929, rel=1e-5)
    assert answer.priming.time.value > answer.priming.line_volume.value / 12


def test_beyond_a_crest_the_line_is_dry_even_below_the_water():
    line = [FOOT_VALVE, pipe(11, 0.5), ELBOW, pipe(12, -8)]
    answer = ask(pump=pump(inlet_elevation=of(-8, "m")), line=line)
    assert answer.priming.line_volume.value == pytest.approx((11 * 4.5 / 10 + 12) * 0.530929, rel=1e-5)


def test_a_centrifugal_pump_has_no_priming_time_and_the_warning_says_why():
    answer = ask(pump=pump(style="centrifugal"))
    assert answer.priming.time is msgspec.UNSET
    assert answer.priming.line_volume.value > 0
    assert any("filled by hand" in detail for detail in warned(answer)["/pump/style"])


def test_a_centrifugal_pump_below_the_water_is_not_warned_of_air():
    line = [FOOT_VALVE, pipe(9, -6), ELBOW, pipe(10, -6)]
    answer = ask(pump=pump(style="centrifugal", inlet_elevation=of(-6, "m")), line=line)
    assert "/pump/style" not in warned(answer)


def test_a_line_that_air_cannot_fill_has_no_priming_time():
    answer = ask(pump=pump(inlet_elevation=of(7, "m")), line=[FOOT_VALVE, pipe(20, 7), ELBOW, pipe(10)])
    assert answer.priming.time is msgspec.UNSET


def test_an_intake_that_hangs_dry_at_rest_cannot_be_primed():
    answer = ask(intake_elevation=of(-2, "m"), line=[FOOT_VALVE, pipe(3, -3), ELBOW, pipe(10)])
    assert answer.verdict == "infeasible"
    assert answer.priming.time is msgspec.UNSET


# Warnings


def test_each_thing_that_a_line_lacks_is_warned_of_and_none_is_added():
    """A bare pipe: intake, turn, strainer and check valve are missing, and its friction is all that it loses."""
    bare = ask(line=[pipe(19)])
    details = warned(bare)["/line"]
    assert len(details) == 4
    for word in ("intake", "elbow", "strainer", "check valve"):
        assert any(word in detail for detail in details), word
    assert bare.losses.value < ask().losses.value


@pytest.mark.parametrize(
    ("part", "settled"),
    [
        ({"part": "fitting", "fitting": "entrance-sharp"}, {"intake"}),
        ({"part": "fitting", "fitting": "elbow-45"}, {"intake", "elbow"}),
        ({"part": "fitting", "fitting": "pitless-adapter"}, {"intake", "elbow"}),
        ({"part": "fitting", "fitting": "tee-branch"}, {"intake", "elbow"}),
        ({"part": "valve", "valve": "swing-check"}, {"intake", "check valve"}),
        ({"part": "valve", "valve": "foot-valve-poppet"}, {"intake", "check valve", "strainer"}),
        (
            {"part": "strainer", "rated_flow": of(10, "L/min"), "clean_drop": of(1, "kPa")},
            {"intake", "strainer"},
        ),
    ],
)
def test_what_is_listed_is_not_missed(part, settled):
    details = warned(ask(line=[part, pipe(19)]))["/line"]
    missed = {
        word for word in ("intake", "elbow", "strainer", "check valve") if any(f"no {word}" in d for d in details)
    }
    assert missed == {"intake", "elbow", "strainer", "check valve"} - settled


@pytest.mark.parametrize(
    ("need", "pointer"),
    [
        ({"npsh_required": of(0.99, "m")}, "/pump/npsh_required"),
        ({"npsh_required": None, "rated_suction_lift": of(9.5, "m")}, "/pump/rated_suction_lift"),
    ],
)
def test_a_pump_that_needs_next_to_nothing_is_doubted(need, pointer):
    (detail,) = warned(ask(pump=pump(**need)))[pointer]
    assert "few pumps need as little NPSH" in detail
    assert ("dead-head" in detail) == (pointer == "/pump/rated_suction_lift")


@pytest.mark.parametrize(
    "need", [{"npsh_required": of(1, "m")}, {"npsh_required": None, "rated_suction_lift": of(9, "m")}]
)
def test_a_pump_that_needs_what_pumps_do_is_not_doubted(need):
    assert not {"/pump/npsh_required", "/pump/rated_suction_lift"} & warned(ask(pump=pump(**need))).keys()


@pytest.mark.parametrize(("flow", "fast"), [(47, False), (48.5, True)])
def test_water_faster_than_suction_lines_are_run_is_warned_of(flow, fast):
    """1.5 m/s through 26 mm are 47.8 L/min."""
    found = warned(ask(flow=of(flow, "L/min")))
    assert {pointer for pointer in found if any(" is fast" in detail for detail in found[pointer])} == (
        {"/line/1", "/line/3"} if fast else set()
    )


def test_where_no_intake_is_listed_a_stopped_well_pump_is_asked_for_too():
    """It may hang there instead of a foot valve, and costs far more."""
    idle = {"part": "idle-pump", "flow": of(10, "L/min"), "drop": of(3, "kPa")}
    (intake,) = [detail for detail in warned(ask(line=WHOLE_LINE[1:]))["/line"] if "no intake" in detail]
    assert "a stopped well pump before the first pipe" in intake
    assert not [detail for detail in warned(ask(line=[idle, *WHOLE_LINE[1:]]))["/line"] if "no intake" in detail]


def test_an_unknown_drawdown_is_warned_of():
    assert "/drawdown" in warned(ask(drawdown=None))
    assert "/drawdown" not in warned(ask(drawdown=None, specific_capacity=of(1, "L/s/m")))


def test_a_spring_that_is_not_told_of_is_warned_of():
    spring = {"part": "valve", "valve": "spring-check"}
    line = [*WHOLE_LINE[:3], spring, WHOLE_LINE[3]]
    assert "/line/3/cracking_pressure" in warned(ask(line=line))
    line[3] = spring | {"cracking_pressure": of(0, "kPa")}
    assert "/line/3/cracking_pressure" not in warned(ask(line=line))


def test_a_last_pipe_that_ends_below_the_pump_is_warned_of_and_the_inlet_counts():
    line = [*WHOLE_LINE[:3], pipe(10, -1.5)]
    answer = ask(line=line)
    assert "/line/3/end_elevation" in warned(answer)
    assert answer.profile[-1].elevation.value == 0
    near = ask(line=[*WHOLE_LINE[:3], pipe(10, 0.009)])
    assert "/line/3/end_elevation" not in warned(near)


@pytest.mark.parametrize(
    "line", [[FOOT_VALVE, pipe(19)], [FOOT_VALVE, pipe(9), ELBOW, pipe(10)], WHOLE_LINE], ids=["one", "several", "end"]
)
def test_an_intake_that_is_only_guessed_is_warned_of_with_where_it_is_taken(line):
    """Also where one pipe is all that there is, and its end is the pump's inlet, and where the first one's is told."""
    answer = ask(intake_elevation=None, line=line)
    (detail,) = warned(answer)["/intake_elevation"]
    assert f"taken as {answer.profile[0].elevation}, the deepest" in detail
    assert "/intake_elevation" not in warned(ask())


def test_pipes_whose_ends_are_not_told_are_warned_of_one_by_one():
    line = [FOOT_VALVE, pipe(5), ELBOW, pipe(5), pipe(9)]
    found = warned(ask(line=line))
    assert {pointer for pointer in found if "crest" in " ".join(found[pointer])} == {"/line/1", "/line/3"}


def test_a_rule_beyond_its_altitudes_is_warned_of():
    assert "/site/altitude" in warned(ask(site={"altitude": of(3001, "m")}))
    assert "/site/altitude" in warned(ask(site={"altitude": of(-1, "m")}))
    assert "/site/altitude" not in warned(ask(site={"altitude": of(3000, "m")}))


def test_strokes_beyond_the_formulas_range_are_warned_of():
    strokes = {"style": "reciprocating", "chambers": 3}
    assert "/pump/strokes_per_minute" in warned(ask(pump=pump(**strokes, strokes_per_minute=1001)))
    assert "/pump/strokes_per_minute" not in warned(ask(pump=pump(**strokes, strokes_per_minute=1000)))


def test_the_lines_own_doubts_are_passed_on():
    line = [FOOT_VALVE, pipe(9, -1, 40), ELBOW, pipe(10, 0, 20)]
    assert "/line/3" in warned(ask(line=line, flow=of(40, "L/min")))


# Elevations between what is told


def test_unstated_ends_lie_on_a_straight_slope_between_the_stated():
    """From -9.5 m over 4, 6 and 9 m of pipe to 0: by their lengths."""
    line = [FOOT_VALVE, pipe(4), ELBOW, pipe(6), pipe(9)]
    elevations = [node.elevation.value for node in ask(line=line).profile]
    assert elevations == pytest.approx([-9.5, -9.5, -7.5, -7.5, -4.5, 0.0], rel=1e-5)


def test_without_an_intake_the_first_pipe_hangs_straight_down_from_its_end():
    answer = ask(intake_elevation=None)
    assert answer.profile[0].elevation.value == -10
    several = ask(intake_elevation=None, line=[FOOT_VALVE, pipe(4), ELBOW, pipe(5, -1), pipe(8)])
    assert [node.elevation.value for node in several.profile][:3] == [-10, -10, -6]


# Cautions


def codes(**changes):
    return {caution.code for caution in ask(**changes).cautions}


def test_cautions_are_those_that_the_site_calls_for():
    assert {"suction-under-vacuum", "run-dry", "back-flow", "local-code"} <= codes()
    assert not codes() & {"two-pumps", "mains-electricity", "confined-pit", "frost"}
    idle = {"part": "idle-pump", "flow": of(10, "L/min"), "drop": of(3, "kPa")}
    assert {"two-pumps", "mains-electricity"} <= codes(line=[idle, *WHOLE_LINE])
    below = [*WHOLE_LINE[:3], pipe(10, -0.5)]
    assert "confined-pit" in codes(pump=pump(inlet_elevation=of(-0.5, "m")), line=below)
    assert "frost" in codes(site={"air_temperature": of(0, "degC")})


# Refusals

REFUSALS = {
    "two drawdowns": ({"specific_capacity": of(1, "L/s/m")}, ["/specific_capacity"]),
    "no need of the pump": ({"pump": pump(npsh_required=None)}, ["/pump"]),
    "two needs of the pump": ({"pump": pump(rated_suction_lift=of(7, "m"))}, ["/pump"]),
    "no pipe": ({"line": [FOOT_VALVE | {"bore": {"diameter": of(26, "mm")}}]}, ["/line"]),
    "no pipe to tell the bore of a valve": ({"line": [FOOT_VALVE, ELBOW]}, ["/line"]),
    "a pipe too short for its height": ({"line": [FOOT_VALVE, pipe(8, -1), pipe(10)]}, ["/line/1/length"]),
    "two pipes too short between them": ({"line": [pipe(4), pipe(4, -1), pipe(10)]}, ["/line/1/length"]),
    "a last pipe too short for the inlet": (
        {"line": [pipe(9, -1), pipe(0.5, -1)]},
        ["/line/1/length"],
    ),
    "a crest that nothing leads down from": (
        {"line": [*WHOLE_LINE[:3], pipe(10, 1.5)]},
        ["/line/3/end_elevation"],
    ),
    "a bore that is not told": ({"line": [FOOT_VALVE, {"part": "pipe", "length": of(9, "m")}]}, ["/line/1"]),
    "a passage with a flow out of range": (
        {"line": [*WHOLE_LINE, {"part": "idle-pump", "flow": of(0, "L/s"), "drop": of(1, "kPa")}]},
        ["/line/4/flow"],
    ),
    "a lift beyond what air can carry": (
        {"pump": pump(npsh_required=None, rated_suction_lift=of(10.1, "m"))},
        ["/pump/rated_suction_lift"],
    ),
}


@pytest.mark.parametrize(("changes", "pointers"), REFUSALS.values(), ids=REFUSALS.keys())
def test_what_cannot_be_is_refused_where_it_is(changes, pointers):
    assert refusal(**changes) == pointers


def test_a_pipe_that_just_reaches_is_taken():
    """A centimetre is left to the tape."""
    assert ask(line=[FOOT_VALVE, pipe(8.5, -1), pipe(10)]).verdict == "feasible"
    assert ask(line=[FOOT_VALVE, pipe(8.4901, -1), pipe(10)]).verdict == "feasible"


def test_faults_of_pump_level_and_line_come_in_one_answer():
    line = [FOOT_VALVE, pipe(3, -1), pipe(0.2), pipe(0.2)]
    assert refusal(pump=pump(npsh_required=None), specific_capacity=of(1, "L/s/m"), line=line) == [
        "/pump",
        "/specific_capacity",
        "/line/1/length",
        "/line/3/length",
    ]


def test_all_faults_of_the_parts_come_before_those_of_the_whole_line():
    rough = {"diameter": of(20, "mm"), "roughness": of(3, "mm")}
    line = [{"part": "pipe", "bore": rough, "length": of(1, "m")}] * 2
    assert refusal(line=line) == ["/line/0/bore/roughness", "/line/1/bore/roughness"]


# The answer's shape


@pytest.mark.parametrize("example", examples("suction-feasibility"), ids=lambda example: example.name)
def test_each_worked_example_gets_an_answer_that_fits_its_own_contract(example):
    answer = SUCTION(msgspec.convert(example.request, SuctionFeasibilityRequest))
    wire = msgspec.json.encode(answer)
    assert msgspec.json.decode(wire, type=SuctionFeasibilityAnswer) == answer
    assert b"null" not in wire
    assert answer.reasons
    assert all(step.source and step.method and step.valid_for for step in answer.basis)


def test_the_examples_show_more_than_one_verdict():
    """A reader who sees only a yes does not learn what a no looks like."""
    verdicts = {
        SUCTION(msgspec.convert(example.request, SuctionFeasibilityRequest)).verdict
        for example in examples("suction-feasibility")
    }
    assert {"infeasible"} < verdicts


def test_the_same_body_gives_the_same_answer():
    assert ask() == ask()


def test_reasons_tell_the_balance_in_the_answers_own_units():
    us, metric = ask(units="us"), ask()
    assert "; the lift takes 14.8 ft, the line " in us.reasons[1]
    assert " ft " in us.reasons[0]
    assert " m " in metric.reasons[0]
    assert len(us.reasons) == len(metric.reasons)


def test_the_table_of_valves_tells_which_lift_a_disc():
    """Each check valve without a spring that the answer can warn of has the velocity that lifts its disc."""
    for name in VALVES:
        if valve(name).is_check and name != "spring-check":
            assert valve(name).full_lift_constant, name
