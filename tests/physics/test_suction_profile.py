"""The pressure at each node, derived again from the energy equation."""

import math
from dataclasses import dataclass
from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from footvalve.physics.acceleration_head import acceleration_head
from footvalve.physics.suction_profile import Stage, Strokes, suction_profile
from footvalve.physics.water import water

GRAVITY = 9.80665
COLD = water(temperature=283.15)
METRE = COLD.density * GRAVITY
AIR = 101325.0


@dataclass(frozen=True)
class Fixed:
    """An element that takes a known head."""

    head: float

    def head_loss(self, _flow, _water):
        return self.head


stages = st.builds(
    Stage,
    element=st.builds(Fixed, st.floats(0, 3)),
    diameter=st.floats(0.01, 0.06),
    length=st.floats(0.1, 30),
    end_elevation=st.floats(-20, 5),
)
lines = st.lists(stages, min_size=1, max_size=8)


def profile(line, *, flow=5e-4, surface=-4.0, intake=-9.0, strokes=None):
    return suction_profile(
        stages=line,
        intake_elevation=intake,
        surface_elevation=surface,
        flow=flow,
        water=COLD,
        atmospheric_pressure=AIR,
        strokes=strokes,
    )


def speed_head(stage, flow):
    return (flow / (math.pi * stage.diameter**2 / 4)) ** 2 / (2 * GRAVITY)


@given(lines, st.floats(1e-6, 3e-3), st.floats(-15, 2))
def test_total_head_at_a_node_is_the_surfaces_less_what_was_lost(line, flow, surface):
    """Static head plus height plus the velocity head of the faster neighbour, from the surface to each node."""
    nodes = profile(line, flow=flow, surface=surface)
    lost = [0.0, *accumulate(stage.element.head for stage in line)]
    heights = [-9.0, *(stage.end_elevation for stage in line)]
    bordering = [[line[max(0, index - 1)], line[min(index, len(line) - 1)]] for index in range(len(line) + 1)]
    for node, height, losses, beside in zip(nodes, heights, lost, bordering, strict=True):
        faster = max(speed_head(stage, flow) for stage in beside)
        total = node.absolute_pressure / METRE + height + faster
        assert total == pytest.approx(AIR / METRE + surface - losses, rel=1e-9, abs=1e-9)
        assert node.elevation == height
        assert node.losses == pytest.approx(losses, rel=1e-12)
        assert node.acceleration_head == 0.0


def test_water_at_rest_stands_under_its_own_weight():
    """Without losses and with next to no flow the gauge pressure is that of the water above."""
    line = [Stage(Fixed(0.0), 0.03, 5.0, -4.0), Stage(Fixed(0.0), 0.03, 5.0, 1.0)]
    gauge = [(node.absolute_pressure - AIR) / METRE for node in profile(line, flow=1e-12)]
    assert gauge == pytest.approx([5.0, 0.0, -5.0], abs=1e-9)


def test_a_part_of_unknown_bore_has_the_speed_of_the_part_before():
    known = Stage(Fixed(0.1), 0.02, 4.0, -3.0)
    unknown = replace(known, diameter=None, length=0.0, end_elevation=-2.0)
    same = replace(unknown, diameter=0.02)
    assert profile([known, unknown]) == profile([known, same])
    strokes = Strokes(120.0, 3)
    assert profile([known, unknown], strokes=strokes) == profile([known, same], strokes=strokes)


def test_where_the_bore_grows_the_node_counts_the_narrow_side():
    narrow, wide = Stage(Fixed(0.0), 0.015, 2.0, -4.0), Stage(Fixed(0.0), 0.05, 2.0, -4.0)
    joint = profile([narrow, wide])[1].absolute_pressure
    assert profile([wide, narrow])[1].absolute_pressure == joint
    assert profile([narrow, narrow])[1].absolute_pressure == joint
    assert profile([wide, wide])[1].absolute_pressure > joint


def strokes_head(stage, length, flow):
    velocity = flow / (math.pi * stage.diameter**2 / 4)
    return acceleration_head(length=length, velocity=velocity, strokes_per_minute=120.0, chambers=3)


@given(lines)
def test_a_stroke_speeds_up_all_the_water_up_to_a_node(line):
    """Each length by its own bore, added up from the intake."""
    nodes = profile(line, strokes=Strokes(120.0, 3))
    expected = [0.0, *accumulate(strokes_head(stage, stage.length, 5e-4) for stage in line)]
    assert [node.acceleration_head for node in nodes] == pytest.approx(expected, rel=1e-9)
    calm = profile(line)
    for node, still, head in zip(nodes, calm, expected, strict=True):
        fall = (still.absolute_pressure - node.absolute_pressure) / METRE
        assert fall == pytest.approx(head, rel=1e-6, abs=1e-9)


@given(lines, st.floats(1.0, 60.0))
def test_a_cushion_spares_all_but_so_many_bores_next_to_the_pump(line, bores):
    """Counted back from the pump over as many parts as it takes: a short last piece does not hide the rest."""
    nodes = profile(line, strokes=Strokes(120.0, 3, bores))
    left, expected = bores, 0.0
    for stage in reversed(line):
        shaken = min(stage.length, left * stage.diameter)
        left -= shaken / stage.diameter
        expected += strokes_head(stage, shaken, 5e-4)
    assert nodes[-1].acceleration_head == pytest.approx(expected, rel=1e-9, abs=1e-12)


def test_cutting_a_pipe_in_two_changes_nothing_under_a_cushion():
    whole = Stage(Fixed(0.2), 0.026, 3.0, 0.0)
    first = replace(whole, element=Fixed(0.15), length=2.9, end_elevation=-0.1)
    last = replace(whole, element=Fixed(0.05), length=0.1)
    cushion = Strokes(200.0, 1, 15.0)
    in_one = profile([whole], strokes=cushion)[-1].acceleration_head
    in_two = profile([first, last], strokes=cushion)[-1].acceleration_head
    assert in_two == pytest.approx(in_one, rel=1e-12)


def test_each_element_is_asked_for_the_flow_and_the_water_of_the_line():
    @dataclass(frozen=True)
    class Asking:
        def head_loss(self, flow, water):
            assert flow == 5e-4
            assert water is COLD
            return 0.25

    line = [Stage(Asking(), 0.03, 5.0, -4.0), Stage(Asking(), 0.03, 5.0, 1.0)]
    assert [node.losses for node in profile(line)] == [0.0, 0.25, 0.5]


def test_a_part_of_unknown_bore_has_the_speed_of_the_nearest_part_before():
    """Not of the first: wide, then narrow, then unknown is as wide, narrow, narrow."""
    wide, narrow = Stage(Fixed(0.1), 0.05, 4.0, -5.0), Stage(Fixed(0.1), 0.015, 4.0, -4.0)
    unknown = Stage(Fixed(0.1), None, 0.0, -3.0)
    assert profile([wide, narrow, unknown]) == profile([wide, narrow, replace(unknown, diameter=0.015)])
