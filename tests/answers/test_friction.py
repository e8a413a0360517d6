"""The public answer of `friction` worked out by hand, and what must hold for any line."""

import math
import re
from collections import defaultdict

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from iapws import IAPWS95

from footvalve.answers.endpoints import ENDPOINT
from footvalve.contract.examples import examples
from footvalve.contract.friction import FrictionAnswer, FrictionRequest
from footvalve.contract.line import FittingKind, NominalSize, PipeProduct, ValveKind
from footvalve.contract.problem import Refused

FOOT, INCH, POUND_FORCE, GRAVITY = 0.3048, 0.0254, 4.4482216152605, 9.80665
GALLON_PER_MINUTE = 231 * INCH**3 / 60
PSI = POUND_FORCE / INCH**2
"""NIST SP 811 (2008), Appendix B.8, by hand: the tests do not lean on the service's own conversions."""


def of(value, unit):
    return {"value": value, "unit": unit}


def ask(line, flow, **body):
    """What the service answers, in metric units unless the body says otherwise."""
    request = {"units": "metric", "flow": flow, "line": line, **body}
    endpoint = ENDPOINT["friction"]
    return endpoint(msgspec.json.decode(msgspec.json.encode(request), type=endpoint.request))


def refusal(line, flow=None, **body):
    """The pointers of a refusal."""
    with pytest.raises(Refused) as refused:
        ask(line, of(10, "L/min") if flow is None else flow, **body)
    return {fault.pointer for fault in refused.value.faults}


def site(temperature, unit="degC"):
    return {"water_temperature": of(temperature, unit)}


def pipe(length=10.0, bore=26.0, roughness=0.0015, **more):
    """A pipe by its bore and roughness in mm and its length in m."""
    return {
        "part": "pipe",
        "bore": {"diameter": of(bore, "mm"), "roughness": of(roughness, "mm"), **more.pop("of_bore", {})},
        "length": of(length, "m"),
        **more,
    }


def crane_turbulent_factor(bore):
    """Colebrook's limit for commercial steel, 0.00015 ft: what Crane's fT stands for."""
    return 0.25 / math.log10(0.00015 * FOOT / (3.7 * bore)) ** 2


# An answer worked out by hand


def test_a_line_of_every_kind_of_part_is_the_sum_of_its_parts_worked_out_by_hand():
    """Worked out here from the equations, with density and viscosity of an independent library."""
    water = IAPWS95(T=283.15, P=0.101325)
    flow, bore, narrow = 0.3e-3, 0.0266, 0.020
    speed = flow / (math.pi * bore**2 / 4)
    reynolds = speed * bore / water.nu
    factor = 0.025
    for _ in range(60):
        factor = 0.25 / math.log10(0.01e-3 / (3.7 * bore) + 2.51 / (reynolds * math.sqrt(factor))) ** 2
    head = speed**2 / (2 * GRAVITY)
    narrow_head = head * (bore / narrow) ** 4
    metre = water.rho * GRAVITY
    expected = {
        "drop pipe": factor * 12.0 / bore * head,
        "elbows": 3 * 30 * crane_turbulent_factor(bore) * head,
        "check": 100 * crane_turbulent_factor(bore) * head + 2500.0 / metre,
        "reduced entrance": 0.5 * narrow_head,
        "strainer below its rating": 9000.0 * (0.3 / 0.5) / metre,
        "strainer above its rating": 2000.0 * (0.3 / 0.2) ** 2 / metre,
        "stopped pump": 4000.0 * (0.3 / 0.4) ** 2 / metre,
        "meter, Kv": 1e5 * (water.rho / 999.1) * (0.3 * 3.6 / 5.0) ** 2 / metre,
        "meter, Cv": PSI * (water.rho / 999.1) * (flow / GALLON_PER_MINUTE / 6.0) ** 2 / metre,
    }
    line = [
        pipe(12.0, bore * 1000, 0.01, name="drop pipe"),
        {"part": "fitting", "fitting": "elbow-90", "count": 3, "name": "elbows"},
        {"part": "valve", "valve": "swing-check", "cracking_pressure": of(2500, "Pa"), "name": "check"},
        {
            "part": "fitting",
            "fitting": "entrance-sharp",
            "bore": {"diameter": of(20, "mm")},
            "name": "reduced entrance",
        },
        {
            "part": "strainer",
            "rated_flow": of(0.5, "L/s"),
            "clean_drop": of(3, "kPa"),
            "dirty_drop": of(9, "kPa"),
            "name": "strainer below its rating",
        },
        {
            "part": "strainer",
            "rated_flow": of(0.2, "L/s"),
            "clean_drop": of(2, "kPa"),
            "name": "strainer above its rating",
        },
        {
            "part": "idle-pump",
            "flow": of(0.4, "L/s"),
            "drop": of(4, "kPa"),
            "name": "stopped pump",
        },
        {"part": "resistance", "flow_coefficient": 5, "basis": "Kv", "name": "meter, Kv"},
        {"part": "resistance", "flow_coefficient": 6, "basis": "Cv", "name": "meter, Cv"},
    ]
    answer = ask(line, of(0.3, "L/s"), site=site(10))
    for part in answer.parts:
        by_hand = expected[part.name]
        crane = part.name in ("elbows", "check")  # the fit of fT by which Crane's K are reckoned: 1.1 %
        assert part.head_loss.value == pytest.approx(by_hand, rel=0.015 if crane else 5e-6), part.name
    assert answer.parts[0].friction_factor == pytest.approx(factor, rel=5e-6)
    assert answer.parts[0].regime == "turbulent"
    assert answer.parts[3].velocity.value == pytest.approx(speed * (bore / narrow) ** 2, rel=5e-6)
    assert answer.greatest_velocity.index == 3
    total = sum(part.head_loss.value for part in answer.parts)
    assert answer.total_head_loss.value == pytest.approx(total, rel=1e-5)
    assert answer.total_pressure_drop.value == pytest.approx(total * metre / 1e5, rel=1e-5)


def test_a_change_of_bore_is_borda_and_carnots():
    """(1 - b^2)^2 of the smaller bore's velocity head on widening, half of 1 - b^2 on narrowing."""
    line = [
        pipe(1, 40),
        {"part": "fitting", "fitting": "sudden-contraction"},
        pipe(1, 20),
        {"part": "fitting", "fitting": "sudden-enlargement"},
        pipe(1, 40),
    ]
    answer = ask(line, of(0.5, "L/s"))
    head = (0.5e-3 / (math.pi * 0.02**2 / 4)) ** 2 / (2 * GRAVITY)
    assert answer.parts[1].head_loss.value == pytest.approx(0.5 * 0.75 * head, rel=5e-6)
    assert answer.parts[3].head_loss.value == pytest.approx(0.75**2 * head, rel=5e-6)


# The answer's shape


@pytest.mark.parametrize("example", examples("friction"), ids=lambda example: example.name)
def test_each_worked_example_gets_an_answer_that_fits_its_own_contract(example):
    answer = ENDPOINT["friction"](msgspec.convert(example.request, FrictionRequest))
    wire = msgspec.json.encode(answer)
    assert msgspec.json.decode(wire, type=FrictionAnswer) == answer
    assert b"null" not in wire


def test_the_curve_has_a_point_for_each_flow_and_passes_through_the_answer():
    flows = [of(4, "L/min"), of(20, "L/min"), of(12, "L/min")]
    answer = ask([pipe()], of(12, "L/min"), flows=flows)
    assert [point.flow.value for point in answer.curve] == [4, 20, 12]
    assert answer.curve[2].head_loss == answer.total_head_loss
    assert answer.flow.value == 12


def test_with_flows_alone_the_parts_are_reckoned_at_the_greatest():
    answer = ENDPOINT["friction"](
        msgspec.convert(
            {"units": "metric", "flows": [of(9, "L/min"), of(15, "L/min")], "line": [pipe()]},
            FrictionRequest,
        )
    )
    assert answer.flow.value == 15
    assert answer.curve[1].head_loss == answer.total_head_loss


def test_a_line_without_a_bore_has_no_velocity():
    line = [{"part": "resistance", "flow_coefficient": 5, "basis": "Kv"}]
    answer = ask(line, of(10, "L/min"))
    assert answer.greatest_velocity is msgspec.UNSET
    assert answer.parts[0].velocity is msgspec.UNSET
    assert answer.curve is msgspec.UNSET


def test_under_hazen_williams_there_is_no_friction_factor():
    part = pipe(of_bore={"hazen_williams_coefficient": 140})
    answer = ask([part], of(10, "L/min"), method="hazen-williams")
    assert answer.parts[0].friction_factor is msgspec.UNSET
    assert answer.parts[0].reynolds > 0


@pytest.mark.parametrize("kind", FittingKind.__args__)
def test_every_fitting_of_the_contract_works_in_a_line(kind):
    before, after = (20, 40) if kind == "sudden-enlargement" else (40, 20)
    line = [pipe(1, before), {"part": "fitting", "fitting": kind}, pipe(1, after)]
    answer = ask(line, of(30, "L/min"))
    assert answer.parts[1].head_loss.value > 0
    assert answer.parts[1].name == kind


@pytest.mark.parametrize("kind", ValveKind.__args__)
def test_every_valve_of_the_contract_works_in_a_line(kind):
    answer = ask([{"part": "valve", "valve": kind}, pipe()], of(30, "L/min"))
    assert answer.parts[0].head_loss.value > 0
    assert answer.parts[0].name == kind


@pytest.mark.parametrize("product", PipeProduct.__args__)
def test_every_pipe_of_the_contract_works_by_either_method(product):
    """A larger nominal size costs less, in every product and by both methods."""
    for method in ("darcy-weisbach", "hazen-williams"):
        losses = []
        for nominal in NominalSize.__args__:
            part = {"part": "pipe", "size": {"product": product, "nominal": nominal}, "length": of(10, "m")}
            losses.append(ask([part], of(20, "L/min"), method=method).total_head_loss.value)
        assert losses == sorted(losses, reverse=True)
        assert losses[-1] > 0


# Basis and warnings


def test_the_basis_names_each_step_once_with_its_source():
    line = [
        {"part": "fitting", "fitting": "entrance-sharp"},
        {"part": "pipe", "size": {"product": "copper-l", "nominal": "1"}, "length": of(10, "m")},
        {"part": "fitting", "fitting": "elbow-90"},
        {"part": "pipe", "size": {"product": "copper-l", "nominal": "1"}, "length": of(3, "m")},
        {"part": "fitting", "fitting": "elbow-90"},
    ]
    steps = ask(line, of(20, "L/min")).basis
    assert len({(step.step, step.method) for step in steps}) == len(steps)
    assert all(step.source and step.valid_for for step in steps)
    assert any("Darcy-Weisbach" in step.method for step in steps)
    assert any("ASTM B88" in step.source for step in steps)
    assert sum("elbow" in step.step for step in steps) == 1


def warnings_by_pointer(answer):
    gathered = defaultdict(list)
    for warning in answer.warnings:
        gathered[warning.pointer].append(warning.detail)
    return gathered


def test_a_pipe_and_a_fitting_between_laminar_and_turbulent_are_warned_of():
    line = [pipe(bore=26), {"part": "fitting", "fitting": "elbow-90"}]
    answer = ask(line, of(4, "L/min"))
    assert answer.parts[0].regime == "transitional"
    assert set(warnings_by_pointer(answer)) == {"/line/0", "/line/1"}


def test_laminar_flow_in_a_pipe_is_no_cause_for_a_warning():
    answer = ask([pipe(bore=26)], of(1, "L/min"))
    assert answer.parts[0].regime == "laminar"
    assert answer.warnings == []


def test_hazen_williams_beyond_its_range_is_warned_of_with_what_is_beyond():
    part = pipe(bore=26, of_bore={"hazen_williams_coefficient": 150})
    details = " ".join(
        warnings_by_pointer(ask([part], of(120, "L/min"), method="hazen-williams", site=site(40)))["/line/0"]
    )
    assert all(word in details for word in ("diameter 26 mm", "velocity 3.77 m/s", "temperature 40 degC"))


def test_a_change_of_bore_that_no_part_stands_for_is_warned_of_where_it_is():
    bare = ask([pipe(bore=40), pipe(bore=26)], of(60, "L/min"))
    assert set(warnings_by_pointer(bare)) == {"/line/1"}
    stated = [pipe(bore=40), {"part": "fitting", "fitting": "sudden-contraction"}, pipe(bore=26)]
    assert ask(stated, of(60, "L/min")).warnings == []
    small = ask([pipe(bore=26), pipe(bore=25)], of(60, "L/min"))
    assert small.warnings == []


def test_a_check_valve_whose_disc_the_flow_does_not_lift_is_warned_of():
    slow = [pipe(bore=60), {"part": "valve", "valve": "swing-check"}]
    assert "/line/1" in warnings_by_pointer(ask(slow, of(20, "L/min")))
    fast = [pipe(bore=26), {"part": "valve", "valve": "swing-check"}]
    assert ask(fast, of(60, "L/min")).warnings == []


def test_what_is_counted_for_a_disc_and_what_is_possible_are_told_unambiguously():
    """Reckoned here: K of the answer's own loss, at the velocity that Crane's 60 / sqrt(rho), by weight, asks for."""
    answer = ask([pipe(bore=60), {"part": "valve", "valve": "swing-check"}], of(20, "L/min"))
    (detail,) = warnings_by_pointer(answer)["/line/1"]
    told = re.search(
        r"([\d.]+) m/s does not .* takes ([\d.]+) m/s: .* counted as ([\d.]+) m, .* much as ([\d.]+) m", detail
    )
    velocity, lifting, counted, possible = map(float, told.groups())
    assert counted == pytest.approx(answer.parts[1].head_loss.value, rel=0.005)
    assert possible == pytest.approx(counted * (lifting / velocity) ** 2, rel=0.02)


@pytest.mark.parametrize(("flow", "fast"), [(95, False), (97, True)])
def test_water_faster_than_pipes_are_run_is_warned_of(flow, fast):
    """3 m/s through 26 mm are 95.6 L/min."""
    details = warnings_by_pointer(ask([pipe(bore=26)], of(flow, "L/min")))["/line/0"]
    assert any("3 m/s" in detail for detail in details) == fast


RATED = {
    "rated_flow": {"part": "strainer", "rated_flow": of(10, "L/min"), "clean_drop": of(3, "kPa")},
    "flow": {"part": "idle-pump", "flow": of(10, "L/min"), "drop": of(3, "kPa")},
}


@pytest.mark.parametrize("field", RATED)
@pytest.mark.parametrize(("flow", "far"), [(3.32, True), (3.34, False), (30, False), (30.1, True)])
def test_a_drop_that_is_used_far_from_its_flow_is_warned_of(field, flow, far):
    found = warnings_by_pointer(ask([RATED[field]], of(flow, "L/min")))
    assert set(found) == ({f"/line/0/{field}"} if far else set())


def test_many_doubts_of_one_kind_are_few_warnings():
    """Twelve fast pipes and seven strainers far from their rating: five of each, and one for the rest of each."""
    line = [*[pipe(1)] * 12, *[RATED["rated_flow"]] * 7]
    found = warnings_by_pointer(ask(line, of(120, "L/min")))
    assert set(found) == {"/line", *(f"/line/{i}" for i in range(5)), *(f"/line/{i}/rated_flow" for i in range(12, 17))}
    assert sorted(int(re.search(r"(\d+) more place", detail)[1]) for detail in found["/line"]) == [2, 7]


@pytest.mark.parametrize(("units", "bores"), [("metric", "from 40 mm to 20 mm"), ("us", "from 1.57 in to 0.787 in")])
def test_a_wrong_change_of_bore_is_told_with_units_and_what_fits(units, bores):
    line = [pipe(bore=40), {"part": "fitting", "fitting": "sudden-enlargement"}, pipe(bore=20)]
    with pytest.raises(Refused, match=rf"{bores} here: that is a sudden-contraction"):
        ask(line, of(10, "L/min"), units=units)
    line[2] = pipe(bore=40)
    with pytest.raises(Refused, match="on both sides"):
        ask(line, of(10, "L/min"), units=units)


@pytest.mark.parametrize("units", ["us", "metric"])
def test_warnings_speak_the_units_of_the_answer(units):
    unit = {"us": " in ", "metric": " mm "}[units]
    answer = ask([pipe(bore=40), pipe(bore=26)], of(60, "L/min"), units=units)
    assert unit in answer.warnings[0].detail


# Refusals


def test_no_flow_at_all_is_refused():
    with pytest.raises(Refused) as refused:
        ENDPOINT["friction"](msgspec.convert({"line": [pipe()]}, FrictionRequest))
    assert [fault.pointer for fault in refused.value.faults] == ["/flow"]


REFUSED_LINES = {
    "a pipe without size and bore": ([{"part": "pipe", "length": of(1, "m")}], "/line/0"),
    "a pipe with both": (
        [pipe(size={"product": "copper-l", "nominal": "1"})],
        "/line/0",
    ),
    "a bore without roughness": (
        [{"part": "pipe", "bore": {"diameter": of(26, "mm")}, "length": of(1, "m")}],
        "/line/0/bore/roughness",
    ),
    "a wall too rough for the bore": ([pipe(bore=20, roughness=1.01)], "/line/0/bore/roughness"),
    "a fitting that no pipe tells the bore of": (
        [{"part": "fitting", "fitting": "elbow-90"}],
        "/line/0/bore",
    ),
    "a valve that no pipe tells the bore of": ([{"part": "valve", "valve": "gate"}], "/line/0/bore"),
    "a change of bore without a pipe after it": (
        [pipe(), {"part": "fitting", "fitting": "sudden-contraction"}],
        "/line/1",
    ),
    "a change of bore without a pipe before it": (
        [{"part": "fitting", "fitting": "sudden-enlargement"}, pipe()],
        "/line/0",
    ),
    "a contraction that widens": (
        [pipe(bore=20), {"part": "fitting", "fitting": "sudden-contraction"}, pipe(bore=40)],
        "/line/1/fitting",
    ),
    "an enlargement that narrows": (
        [pipe(bore=40), {"part": "fitting", "fitting": "sudden-enlargement"}, pipe(bore=20)],
        "/line/1/fitting",
    ),
    "a change of bore that changes nothing": (
        [pipe(bore=40), {"part": "fitting", "fitting": "sudden-enlargement"}, pipe(bore=40)],
        "/line/1/fitting",
    ),
    "two changes of bore at once": (
        [pipe(bore=40), {"part": "fitting", "fitting": "sudden-contraction", "count": 2}, pipe(bore=20)],
        "/line/1",
    ),
    "a change of bore with a bore of its own": (
        [
            pipe(bore=40),
            {"part": "fitting", "fitting": "sudden-contraction", "bore": {"diameter": of(30, "mm")}},
            pipe(bore=20),
        ],
        "/line/1",
    ),
    "a spring in a valve that is no check": (
        [pipe(), {"part": "valve", "valve": "gate", "cracking_pressure": of(3, "kPa")}],
        "/line/1/cracking_pressure",
    ),
    "a dirty strainer that is better than a clean one": (
        [
            {
                "part": "strainer",
                "rated_flow": of(10, "L/min"),
                "clean_drop": of(9, "kPa"),
                "dirty_drop": of(3, "kPa"),
            }
        ],
        "/line/0/dirty_drop",
    ),
}


@pytest.mark.parametrize(("line", "pointer"), REFUSED_LINES.values(), ids=REFUSED_LINES.keys())
def test_what_cannot_be_is_refused_where_it_is(line, pointer):
    assert refusal(line) == {pointer}


def test_a_bore_without_c_is_refused_under_hazen_williams():
    assert refusal([pipe()], method="hazen-williams") == {"/line/0/bore/hazen_williams_coefficient"}


def test_a_wall_as_rough_as_a_twentieth_of_the_bore_is_taken():
    assert ask([pipe(bore=20, roughness=1.0)], of(10, "L/min")).total_head_loss.value > 0


def test_all_faults_of_a_line_come_in_one_answer():
    """And with them the missing flow."""
    line = [
        pipe(bore=20, roughness=2),
        {"part": "fitting", "fitting": "sudden-contraction"},
        {"part": "pipe", "bore": {"diameter": of(40, "mm")}, "length": of(1, "m")},
    ]
    with pytest.raises(Refused) as refused:
        ENDPOINT["friction"](msgspec.convert({"line": line}, FrictionRequest))
    pointers = [fault.pointer for fault in refused.value.faults]
    assert pointers == ["/flow", "/line/0/bore/roughness", "/line/1/fitting", "/line/2/bore/roughness"]


def test_every_quantity_out_of_its_range_is_named_at_once():
    line = [
        pipe(length=0.0001, bore=0.5),
        {"part": "strainer", "rated_flow": of(0, "L/min"), "clean_drop": of(-1, "psi")},
    ]
    assert refusal(line, of(1e6, "L/min"), site=site(110)) == {
        "/flow",
        "/site/water_temperature",
        "/line/0/length",
        "/line/0/bore/diameter",
        "/line/1/rated_flow",
        "/line/1/clean_drop",
    }


# Properties


@settings(max_examples=60, deadline=None)
@given(
    length=st.floats(0.5, 60),
    bore=st.floats(12, 60),
    roughness=st.floats(0, 0.2),
    flow=st.floats(2, 60),
    temperature=st.floats(1, 60),
)
def test_feet_and_metres_give_the_same_answer(length, bore, roughness, flow, temperature):
    """To the six digits of the wire; beside a change of regime the last digit of an input may decide it."""
    metric = ask([pipe(length, bore, roughness)], of(flow, "L/min"), site=site(temperature))
    inch_bore = {"diameter": of(bore / 25.4, "in"), "roughness": of(roughness / 25.4, "in")}
    part = {"part": "pipe", "bore": inch_bore, "length": of(length / FOOT, "ft")}
    gallons = flow / 60_000 / GALLON_PER_MINUTE
    imperial = ask([part], of(gallons, "gal/min"), units="us", site=site(temperature * 1.8 + 32, "degF"))
    reynolds = metric.parts[0].reynolds
    if abs(reynolds - 2040) > 0.1:
        assert imperial.total_head_loss.value * FOOT == pytest.approx(metric.total_head_loss.value, rel=1.5e-5)
        assert imperial.total_pressure_drop.value * PSI / 1e5 == pytest.approx(
            metric.total_pressure_drop.value, rel=1.5e-5
        )
    assert imperial.parts[0].reynolds == pytest.approx(reynolds, rel=1.5e-5)


@settings(max_examples=40, deadline=None)
@given(flows=st.lists(st.floats(0.01, 5000), min_size=2, max_size=8, unique=True))
def test_more_flow_costs_more_head(flows):
    """Through every kind of part and over the change from laminar to turbulent."""
    line = [
        pipe(20, 26, 0.05),
        {"part": "valve", "valve": "spring-check", "cracking_pressure": of(2, "kPa")},
        {"part": "strainer", "rated_flow": of(20, "L/min"), "clean_drop": of(5, "kPa")},
        {"part": "resistance", "flow_coefficient": 4, "basis": "Cv"},
    ]
    curve = ask(line, of(1, "L/min"), flows=[of(flow, "L/min") for flow in sorted(flows)]).curve
    heads = [point.head_loss.value for point in curve]
    assert heads == sorted(heads)


@settings(max_examples=40, deadline=None)
@given(units=st.sampled_from(["us", "metric"]), order=st.permutations(range(4)))
def test_the_order_of_parts_with_bores_of_their_own_does_not_change_the_total(units, order):
    bore = {"diameter": of(26, "mm")}
    parts = [
        {"part": "fitting", "fitting": "elbow-90", "bore": bore},
        {"part": "valve", "valve": "gate", "bore": bore},
        {"part": "resistance", "flow_coefficient": 4, "basis": "Kv"},
        pipe(8),
    ]
    straight = ask(parts, of(20, "L/min"), units=units)
    shuffled = ask([parts[index] for index in order], of(20, "L/min"), units=units)
    assert shuffled.total_head_loss.value == pytest.approx(straight.total_head_loss.value, rel=2e-6)


def test_a_thousand_parts_and_two_hundred_flows_are_reckoned():
    """The most that the contract takes."""
    line = [pipe(), *({"part": "fitting", "fitting": "tee-run"} for _ in range(999))]
    flows = [of(1 + step, "L/min") for step in range(200)]
    answer = ask(line, of(20, "L/min"), flows=flows)
    assert len(answer.parts) == 1000
    assert len(answer.curve) == 200


def test_an_answer_beyond_what_the_wire_takes_is_no_answer():
    """A hundred litres a second through a millimetre would take more head than the contract has numbers for."""
    with pytest.raises(ArithmeticError, match="more than the contract takes"):
        ask([pipe(10_000, 1)], of(100, "L/s"))
