"""Single changes that would better a suction line: each fed back gives what was told, and a hair less does not do."""

import re
from copy import deepcopy

import msgspec
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from msgspec import UNSET

from footvalve.answers import suction_levers as levers_module
from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.suction_lever_line import MOST_TRIED
from footvalve.answers.suction_levers import helpful, stated_side, suction_changes
from footvalve.answers.suction_state import suction_state
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest
from footvalve.quantity import to_base

SUCTION = ENDPOINT["suction-feasibility"]


def of(value, unit):
    return {"value": value, "unit": unit}


def decoded(body):
    return msgspec.json.decode(msgspec.json.encode(body), type=SuctionFeasibilityRequest)


def levers(body):
    return SUCTION(decoded(body | {"limits": True})).levers


def changes(body):
    request = decoded(body)
    state = suction_state(request)
    return helpful(state, suction_changes(stated_side(request, state)))


MEASURED = {"bore": {"diameter": of(20, "mm"), "roughness": of(0.0015, "mm")}}
OF_THE_TABLE = {"size": {"product": "pe-sidr-15", "nominal": "3/4"}}


def site(**changed):
    """A cellar 6 m above the water: a little too much for what the line and a dirty filter take."""
    sound = {
        "units": "metric",
        "depth_to_water": of(6.75, "m"),
        "flow": of(14, "L/min"),
        "pump": {"style": "rotary", "inlet_elevation": of(-1, "m"), "npsh_required": of(2.2, "m")},
        "intake_elevation": of(-11, "m"),
        "line": [
            {
                "part": "pipe",
                "name": "drop pipe",
                "length": of(10.5, "m"),
                "end_elevation": of(-0.5, "m"),
                **OF_THE_TABLE,
            },
            {"part": "fitting", "fitting": "elbow-90"},
            {"part": "pipe", "name": "run", "length": of(12, "m"), "end_elevation": of(-1, "m"), **MEASURED},
            {
                "part": "strainer",
                "name": "pre-filter",
                "rated_flow": of(20, "L/min"),
                "clean_drop": of(2, "kPa"),
                "dirty_drop": of(8, "kPa"),
            },
            {"part": "pipe", "length": of(0.6, "m"), "end_elevation": of(-1, "m"), **OF_THE_TABLE},
        ],
    }
    return sound | changed


RATED = {"style": "rotary", "inlet_elevation": of(-1, "m"), "rated_suction_lift": of(6.9, "m")}
SITES = {
    "marginal": site(),
    "in feet": site(units="us"),
    "by rated lift": site(pump=RATED),
    "too deep": site(depth_to_water=of(8, "m")),
    "by the wells yield": site(specific_capacity=of(0.2, "L/s/m"), depth_to_water=of(5.5, "m")),
    "reciprocating": site(
        pump=site()["pump"] | {"style": "reciprocating", "strokes_per_minute": 120, "chambers": 3, "gas_cushion": True}
    ),
    "intake nearly dry": site(intake_elevation=of(-6.95, "m")),
}
EVERY_KIND = {
    "/line/0/size/nominal",
    "/line/2/bore/diameter",
    "/line/3/dirty_drop",
    "/pump/inlet_elevation",
    "/flow",
    "/pump/npsh_required",
}


def test_every_kind_of_change_that_betters_the_line_is_told():
    assert {lever.pointer for lever in levers(site())} == EVERY_KIND


def test_a_pump_that_was_told_by_its_rated_lift_is_asked_for_by_it():
    assert {lever.pointer for lever in levers(SITES["by rated lift"])} == (
        {"/pump/inlet_elevation", "/flow", "/pump/rated_suction_lift", "/line/0/size/nominal", "/line/3/dirty_drop"}
    )


STYLES = {
    "rotary": {"style": "rotary"},
    "reciprocating": {"style": "reciprocating", "strokes_per_minute": 120, "chambers": 3, "gas_cushion": True},
    "centrifugal": {"style": "centrifugal"},
}


@pytest.mark.parametrize("style", STYLES)
def test_a_valve_behind_the_pump_is_told_of_a_centrifugal_one_alone(style):
    """A displacement pump gives hardly less against a valve: its pressure rises until something opens or bursts. Common
    practice, no source."""
    told = levers(site(pump=site()["pump"] | STYLES[style]))
    (less,) = [lever.change for lever in told if lever.pointer == "/flow"]
    assert "by a smaller or slower pump" in less
    assert ("valve" in less) == (style == "centrifugal")


@pytest.mark.parametrize("body", SITES.values(), ids=SITES.keys())
def test_a_change_fed_back_gives_the_margin_and_the_verdict_that_were_told(body):
    told, tried = levers(body), changes(body)
    assert len(told) == len(tried)
    for lever, change in zip(told, tried, strict=True):
        answer = SUCTION(change.request)
        assert (lever.change, lever.pointer) == (change.text, change.pointer)
        assert answer.margin == lever.margin, lever
        assert answer.verdict == lever.verdict, lever


@pytest.mark.parametrize("body", SITES.values(), ids=SITES.keys())
def test_the_sufficient_changes_come_first_and_all_of_them_help(body):
    answer = SUCTION(decoded(body | {"limits": True}))
    verdicts = [lever.verdict for lever in answer.levers]
    assert verdicts == sorted(verdicts)  # feasible, marginal
    assert "infeasible" not in verdicts
    assert all(lever.margin.base > answer.margin.base for lever in answer.levers)


near_the_edge = st.floats(-0.5, 1.5)


@st.composite
def bodies(draw, shortfalls=near_the_edge):
    """Sites by either kind of pipe and of figure for the pump, with the water so deep that so much head is wanting."""
    nominal, mm = draw(st.sampled_from(["1/2", "3/4", "1"])), draw(st.floats(14, 30))
    body = deepcopy(site(units=draw(st.sampled_from(["us", "metric"]))))
    for part in body["line"]:
        if "size" in part:
            part["size"]["nominal"] = nominal
        if "bore" in part:
            part["bore"]["diameter"] = of(mm, "mm")
    needs = {"npsh_required": of(draw(st.floats(1.5, 4)), "m")}
    if draw(st.booleans()):
        needs = {"rated_suction_lift": of(draw(st.floats(5, 8)), "m")}
    pump = {"style": "rotary", "inlet_elevation": of(-1, "m"), **needs}
    level = {"specific_capacity": of(draw(st.floats(0.2, 3)), "L/s/m")} if draw(st.booleans()) else {}
    body |= {"pump": pump, "flow": of(draw(st.floats(3, 20)), "L/min"), "depth_to_water": of(4, "m"), **level}
    depth = 4 - suction_state(decoded(body)).shortfall + draw(shortfalls)
    return body | {"depth_to_water": of(depth, "m")}


short_bodies = bodies(shortfalls=st.floats(0.02, 0.8))


@settings(max_examples=100)
@given(bodies())
def test_every_lever_of_any_line_holds_when_it_is_fed_back(body):
    told, tried = levers(body), changes(body)
    if SUCTION(decoded(body)).verdict == "feasible":
        assert told == []
        return
    assert [lever.change for lever in told] == [change.text for change in tried]
    for lever, change in zip(told, tried, strict=True):
        answer = SUCTION(change.request)
        assert answer.margin == lever.margin
        assert answer.verdict == lever.verdict != "infeasible"
        assert len(lever.change) < 140


@settings(max_examples=60)
@given(short_bodies)
def test_the_elevation_and_the_way_down_that_are_told_hold_as_told(body):
    """Either alone, with as much more of the last pipe as the pump is told to be lower."""
    found = [lever for lever in levers(body) if lever.pointer == "/pump/inlet_elevation"]
    assume(found and found[0].verdict == "feasible")
    by, unit = number_in(found[0].change, "Set the pump # lower,")
    to, of_inlet = number_in(found[0].change, "inlet at an elevation of #,")
    assert unit == of_inlet
    for inlet in (-1 - to_base(by, unit), to_base(to, unit)):
        fed = at_pointer(body, "/pump/inlet_elevation", of(inlet, "m"))
        fed["line"][-1] |= {"length": of(0.6 + to_base(by, unit), "m"), "end_elevation": of(inlet, "m")}
        assert SUCTION(decoded(fed)).verdict == "feasible"
    assert to_base(to, unit) <= -1 - to_base(by, unit) + 1e-7


def test_a_lever_points_at_what_is_there_where_no_rated_lift_is_enough():
    """In place of it the NPSH is to be stated: both together are refused."""
    found = [
        lever
        for depth in (7.6, 8, 8.4, 8.8)
        for lever in levers(site(pump=RATED, depth_to_water=of(depth, "m")))
        if "of NPSH" in lever.change
    ]
    assert found, "none of these sites is beyond a rated lift"
    for lever in found:
        assert lever.pointer == "/pump/rated_suction_lift"
        assert lever.change.endswith("; state that in place of the rated suction lift.")


NUMBER = r"(-?[\d.]+) (\S+?)"


def number_in(text, pattern):
    value, unit = re.search(pattern.replace("#", NUMBER), text).groups()
    return float(value), unit


def at_pointer(body, pointer, value):
    """The body with something else where a pointer leads to."""
    body = deepcopy(body)
    *way, last = (int(step) if step.isdigit() else step for step in pointer.split("/")[1:])
    home = body
    for step in way:
        home = home[step]
    home[last] = value
    return body


WORDS = {
    "/flow": ("no more than #,", 1.011),
    "/pump/npsh_required": ("no more than # of NPSH", 1.011),
    "/pump/rated_suction_lift": ("suction lift of # or more", 0.989),
    "/line/2/bore/diameter": ("bore of # or more", 0.989),
}


@pytest.mark.parametrize("pointer", WORDS)
@pytest.mark.parametrize("units", ["us", "metric"])
@settings(max_examples=40)
@given(body=short_bodies)
def test_what_the_words_say_does_at_the_pointer_and_a_hair_less_does_not(pointer, units, body):
    """Read from the sentence and put where the pointer leads to, as a reader would; told with three digits."""
    found = [lever for lever in levers(body | {"units": units}) if lever.pointer == pointer]
    assume(found and found[0].verdict == "feasible" and "in place of" not in found[0].change)
    pattern, hair = WORDS[pointer]
    value, unit = number_in(found[0].change, pattern)
    as_told, short = (at_pointer(body, pointer, of(value * part, unit)) for part in (1.0, hair))
    assert SUCTION(decoded(as_told)).verdict == "feasible"
    assert SUCTION(decoded(short)).verdict != "feasible"


@settings(max_examples=40)
@given(short_bodies)
def test_a_wider_size_is_the_first_that_does_or_else_the_largest(body):
    found = [lever for lever in levers(body) if lever.pointer == "/line/0/size/nominal"]
    assume(found)
    sizes = ["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"]
    stated = body["line"][0]["size"]["nominal"]
    told = re.match(r"Take (\S+) in instead of (\S+) in", found[0].change)
    assert told[2] == stated
    for nominal in sizes[sizes.index(stated) + 1 : sizes.index(told[1]) + 1]:
        other = deepcopy(body)
        for part in other["line"]:
            if "size" in part:
                part["size"]["nominal"] = nominal
        does = SUCTION(decoded(other)).verdict == "feasible"
        assert does == (nominal == told[1] and found[0].verdict == "feasible")
    assert found[0].verdict == "feasible" or told[1] == "2"


@settings(max_examples=40)
@given(short_bodies)
def test_a_pump_a_hair_higher_than_told_is_not_feasible(body):
    """With as much more of the last pipe as it stands lower; a hundredth of the way less is short in any case."""
    found = [change for change in changes(body) if change.pointer == "/pump/inlet_elevation"]
    assume(found)
    assert found[0].after.verdict == "feasible"
    by = -1.0 - found[0].request.pump.inlet_elevation.base
    for part, verdict in ((1.0, "feasible"), (0.985, None)):
        lower = at_pointer(body, "/pump/inlet_elevation", of(-1 - part * by, "m"))
        lower["line"][-1] |= {"length": of(0.6 + part * by, "m"), "end_elevation": of(-1 - part * by, "m")}
        assert (SUCTION(decoded(lower)).verdict == "feasible") == (verdict == "feasible")


@pytest.mark.parametrize("name", ["marginal", "by rated lift", "too deep", "by the wells yield", "reciprocating"])
def test_the_levers_are_the_same_in_either_system(name):
    """But for the third digit of what is told."""
    us, metric = (levers(SITES[name] | {"units": units}) for units in ("us", "metric"))
    assert [(lever.pointer, lever.verdict) for lever in us] == [(lever.pointer, lever.verdict) for lever in metric]
    for in_feet, in_metres in zip(us, metric, strict=True):
        assert in_feet.margin.base == pytest.approx(in_metres.margin.base, abs=0.03)
    assert all(" ft" in lever.change or "gal" in lever.change or " in " in lever.change for lever in us)


def test_a_feasible_line_has_no_levers_and_one_that_is_not_asked_has_no_list():
    sound = site(depth_to_water=of(4, "m"))
    assert SUCTION(decoded(sound)).verdict == "feasible"
    assert levers(sound) == []
    assert SUCTION(decoded(site())).levers is UNSET


def test_what_no_single_change_mends_has_no_levers():
    """Water at 30 m, with the pump kept on the ground by a crest at the well's top that boils."""
    assert levers(site(depth_to_water=of(30, "m"), intake_elevation=of(-40, "m"), line=deep_line())) == []


def deep_line():
    line = deepcopy(site()["line"])
    line[0]["length"] = of(40, "m")
    return line


def test_no_change_of_line_or_pump_brings_water_over_the_intake():
    """20 cm over it are too few whatever is drawn, where the level does not fall: more margin is no help."""
    answer = SUCTION(decoded(site(intake_elevation=of(-5.2, "m"), depth_to_water=of(5, "m"), limits=True)))
    assert answer.verdict == "marginal"
    assert answer.levers == []


def test_less_flow_brings_water_over_the_intake_of_a_well_that_falls():
    (lever,) = levers(site(intake_elevation=of(-6, "m"), depth_to_water=of(5.5, "m"), specific_capacity=of(1, "L/s/m")))
    value, unit = number_in(lever.change, WORDS["/flow"][0])
    assert to_base(value, unit) == pytest.approx(0.2e-3, rel=0.005)


@pytest.mark.parametrize(("capacity", "told"), [(0.09, True), (0.07, False)])
def test_a_flow_that_brings_hardly_any_water_is_no_advice(capacity, told):
    """0.2 m of drawdown are left: 0.09 L/s/m bring 0.29 gal/min there, 0.07 L/s/m 0.22."""
    slow = {"intake_elevation": of(-6, "m"), "depth_to_water": of(5.5, "m")}
    assert bool(levers(site(**slow, specific_capacity=of(capacity, "L/s/m")))) == told


def test_a_pump_that_does_not_prime_is_told_what_it_must_draw():
    """On a hill over a flowing margin: the crest lies higher than the pump draws a dry line."""
    line = [
        {"part": "pipe", "length": of(7, "m"), "end_elevation": of(5.2, "m"), **MEASURED},
        {"part": "pipe", "length": of(9, "m"), "end_elevation": of(-1, "m"), **MEASURED},
    ]
    hill = site(
        line=line,
        depth_to_water=of(1.2, "m"),
        intake_elevation=of(-1.6, "m"),
        flow=of(3, "L/min"),
        pump={"style": "rotary", "inlet_elevation": of(-1, "m"), "npsh_required": of(5, "m")},
        policy={"margin": of(0.5, "m")},
    )
    assert "may not prime" in SUCTION(decoded(hill)).reasons[0]
    (lever,) = levers(hill)
    value, unit = number_in(lever.change, WORDS["/pump/npsh_required"][0])
    assert lever.verdict == "feasible"
    state = suction_state(decoded(hill))
    assert to_base(value, unit) == pytest.approx(5 - (state.summit - state.reach), rel=0.006)


def test_a_pump_that_would_have_to_need_next_to_nothing_is_told_to_be_rare():
    texts = [lever.change for lever in levers(SITES["too deep"])]
    assert any(text.endswith("of NPSH, which few do.") for text in texts)


def test_of_many_parts_of_a_kind_only_the_costliest_are_tried():
    """A thousand filters would be a thousand lines reckoned; each of these takes a little more than the one before."""
    filters = [
        {
            "part": "strainer",
            "rated_flow": of(20, "L/min"),
            "clean_drop": of(100, "Pa"),
            "dirty_drop": of(800 + 10 * number, "Pa"),
        }
        for number in range(9)
    ]
    body = site(line=[*site()["line"][:3], *filters])
    cleaned = [lever.pointer for lever in levers(body) if lever.pointer.endswith("dirty_drop")]
    assert cleaned == [f"/line/{place}/dirty_drop" for place in (11, 10, 9, 8, 7)]
    assert len(cleaned) == MOST_TRIED


def test_pipes_of_one_bore_are_widened_together_and_others_are_left():
    body = site()
    body["line"][0] |= MEASURED
    del body["line"][0]["size"]
    (wider,) = (change for change in changes(body) if change.pointer == "/line/0/bore/diameter")
    bores = [part.bore for part in wider.request.line if part.bore is not UNSET]
    assert len(bores) == 2
    assert bores[0] == bores[1] != decoded(body).line[0].bore
    assert wider.request.line[4] == decoded(body).line[4]
    assert "for the 22.5 m of it" in wider.text


def test_a_size_that_breaks_a_change_of_bore_is_not_told():
    """Between 1 in and 3/4 in stands a contraction: 1 in for the narrow pipe would leave nothing to contract."""
    narrow, wide = ({"size": {"product": "copper-l", "nominal": nominal}} for nominal in ("3/4", "1"))
    line = [
        {"part": "pipe", "length": of(12, "m"), "end_elevation": of(-1, "m"), **wide},
        {"part": "fitting", "fitting": "sudden-contraction"},
        {"part": "pipe", "length": of(12, "m"), "end_elevation": of(-1, "m"), **narrow},
    ]
    pointers = {lever.pointer for lever in levers(site(line=line, depth_to_water=of(7.6, "m")))}
    assert "/pump/inlet_elevation" in pointers
    assert "/line/2/size/nominal" not in pointers


@pytest.mark.parametrize("body", SITES.values(), ids=SITES.keys())
def test_a_line_is_reckoned_only_a_few_times(body, monkeypatch):
    """Fewer than 60 times for all levers, though each bore and each lower pump is a line of its own."""
    reckoned = []

    def counted(function):
        return lambda *args: reckoned.append(function.__name__) or function(*args)

    for name in ("on_the_same_line", "suction_state"):
        monkeypatch.setattr(levers_module, name, counted(getattr(levers_module, name)))
    levers(body)
    assert len(reckoned) < 60


def test_limits_do_not_change_what_is_told_without_them():
    asked, plain = SUCTION(decoded(site(limits=True))), SUCTION(decoded(site()))
    told = [name for name in plain.__struct_fields__ if getattr(plain, name) is not UNSET]
    assert [getattr(asked, name) for name in told] == [getattr(plain, name) for name in told]
