"""Where the numbers of a line come from."""

import pytest

from footvalve.answers import basis as steps_of
from footvalve.answers.line_basis import line_steps
from footvalve.answers.line_elements import name_in_line, part_name, resolve_line
from footvalve.answers.unit_system import METRIC, US
from footvalve.contract.line import Bore, Fitting, FlowResistance, IdlePump, Pipe, PipeSize, Strainer, Valve
from footvalve.contract.quantities import Flow, Length, Pressure
from footvalve.physics.water import water
from footvalve.tables.fittings import FITTINGS, fitting
from footvalve.tables.valves import VALVES, valve

FLOW, DROP = Flow(10.0, "L/min"), Pressure(2.0, "kPa")
WIDE = Bore(diameter=Length(40.0, "mm"), roughness=Length(0.0, "mm"), hazen_williams_coefficient=150.0)
NARROW = Bore(diameter=Length(26.0, "mm"), roughness=Length(0.0, "mm"), hazen_williams_coefficient=150.0)
METRE = Length(1.0, "m")
COPPER = Pipe(size=PipeSize("copper-l", "1"), length=METRE)


QUICK = Flow(40.0, "L/min")
DRAWN = water(temperature=285.15)


def basis(*parts, method="darcy-weisbach", units=METRIC, flow=QUICK):
    return steps_of.basis(line_steps(resolve_line(list(parts), method, units), flow.base, DRAWN, units), units)


@pytest.mark.parametrize("name", FITTINGS)
def test_every_fittings_step_carries_the_source_of_its_table(name):
    before, after = (NARROW, WIDE) if name == "sudden-enlargement" else (WIDE, NARROW)
    ends = (Pipe(bore=before, length=METRE), Pipe(bore=after, length=METRE))
    step = basis(ends[0], Fitting(fitting=name), ends[1])[1]
    row = fitting(name)
    assert step.step == row.title
    assert row.kind == "bore-change" or step.source == row.source


@pytest.mark.parametrize("name", VALVES)
def test_every_valves_step_carries_the_source_of_its_table(name):
    step = basis(Valve(valve=name, bore=NARROW))[0]
    assert (step.step, step.source) == (valve(name).title, valve(name).source)


def test_a_pipe_by_product_tells_bore_and_wall_and_the_friction_its_method():
    bore, friction = basis(COPPER, COPPER)
    assert "roughness 0.0015 mm" in bore.method
    assert "ASTM B88" in bore.source
    assert "Colebrook" in friction.source
    bore, friction = basis(COPPER, method="hazen-williams")
    assert "C 140" in bore.method
    assert "Williams and Hazen" in friction.source


def test_wall_and_range_are_told_in_the_callers_units():
    """1.5 um are 59 millionths of an inch; 50 mm to 1.85 m, 3 m/s and 5 to 25 degC by hand."""
    assert basis(COPPER, units=US)[0].method == "Bore, and roughness 0.0000591 in"
    friction = basis(COPPER, method="hazen-williams", units=US)[1]
    ends = "Reynolds number from 4000; turbulent flow; ranges: common practice, no source"
    told = "diameter 1.97 to 72.8 in; velocity 0 to 9.84 ft/s; water temperature 41 to 77 degF"
    assert friction.valid_for == f"{told}; {ends}"
    friction = basis(COPPER, method="hazen-williams")[1]
    told = "diameter 50 to 1850 mm; velocity 0 to 3 m/s; water temperature 5 to 25 degC"
    assert friction.valid_for == f"{told}; {ends}"


def test_a_pipe_by_its_bore_has_only_its_method():
    assert len(basis(Pipe(bore=NARROW, length=METRE))) == 1


@pytest.mark.parametrize(
    ("part", "name"),
    [
        (COPPER, "pipe"),
        (Fitting(fitting="elbow-90", bore=NARROW), "elbow-90"),
        (Valve(valve="gate", bore=NARROW), "gate"),
        (Strainer(rated_flow=FLOW, clean_drop=DROP), "strainer"),
        (IdlePump(flow=FLOW, drop=DROP), "idle-pump"),
        (FlowResistance(flow_coefficient=3.0, basis="Kv"), "resistance"),
        (FlowResistance(flow_coefficient=3.0, basis="Kv", name="meter"), "meter"),
    ],
)
def test_each_part_is_named_and_has_a_step(part, name):
    assert part_name(part) == name
    assert basis(part)[-1].valid_for


def test_parts_that_share_a_name_are_told_apart_by_their_place():
    parts = resolve_line([COPPER, Fitting(fitting="elbow-90"), COPPER], "darcy-weisbach", METRIC)
    names = [name_in_line(parts, index) for index in range(3)]
    assert names == ["pipe (part 1 of the line)", "elbow-90", "pipe (part 3 of the line)"]


def test_each_regime_has_the_method_that_reckons_it():
    """Re 1700 and 3400 in 26 mm at 12 degC; the turbulent factor is taken between, where neither is sure."""
    pipe = Pipe(bore=NARROW, length=METRE)
    (laminar,) = basis(pipe, flow=Flow(2.6, "L/min"))
    (between,) = basis(pipe, flow=Flow(5.2, "L/min"))
    (turbulent,) = basis(pipe)
    assert (laminar.within_range, between.within_range, turbulent.within_range) == (True, False, True)
    assert "64/Re" in laminar.method
    assert between.method == turbulent.method


def test_a_step_that_any_place_leaves_is_told_so_once():
    wide, narrow = Pipe(bore=WIDE, length=METRE), Pipe(bore=NARROW, length=METRE)
    elbows = Fitting(fitting="elbow-90", bore=WIDE), Fitting(fitting="elbow-90", bore=NARROW)
    flow = Flow(7.0, "L/min")
    found = {step.step: step for step in basis(wide, elbows[0], narrow, elbows[1], flow=flow)}
    assert not found["90 degree elbow"].within_range
    assert [step.within_range for step in basis(narrow, elbows[1], flow=flow)] == [True, True]


@pytest.mark.parametrize("name", FITTINGS)
def test_only_what_rests_on_the_friction_factor_of_the_bore_has_a_range_of_bores(name):
    before, after = (NARROW, WIDE) if name == "sudden-enlargement" else (WIDE, NARROW)
    step = basis(Pipe(bore=before, length=METRE), Fitting(fitting=name), Pipe(bore=after, length=METRE))[1]
    assert ("diameter" in step.valid_for) == (fitting(name).kind == "equivalent-length-ratio")
    assert ("n fT" in step.method) == (fitting(name).kind == "equivalent-length-ratio")
