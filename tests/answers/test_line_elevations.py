"""How high the parts of a line end, where it is told and where it has to be reckoned."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.answers.line_elements import resolve_line
from footvalve.answers.line_elevations import line_elevations
from footvalve.answers.unit_system import METRIC, US
from footvalve.contract.line import Bore, Fitting, Pipe
from footvalve.contract.problem import Refused
from footvalve.contract.quantities import Length

BORE = Bore(diameter=Length(26.0, "mm"), roughness=Length(0.0, "mm"))


def pipe(length, end=None):
    told = {} if end is None else {"end_elevation": Length(float(end), "m")}
    return Pipe(length=Length(float(length), "m"), bore=BORE, **told)


def elevations(*parts, intake=None, inlet=0.0, units=METRIC):
    line = resolve_line(list(parts), "darcy-weisbach", units)
    return line_elevations(line, intake=intake, inlet=inlet, units=units)


def test_told_ends_are_kept_and_fittings_lie_at_the_end_of_the_pipe_before():
    elbow = Fitting(fitting="elbow-90", bore=BORE)
    found = elevations(elbow, pipe(9, -1), elbow, elbow, pipe(5), elbow, intake=-9.0)
    assert found.ends == [-9.0, -1.0, -1.0, -1.0, 0.0, 0.0]
    assert found.intake == -9.0
    assert not found.intake_is_inferred


@given(st.lists(st.floats(0.5, 20), min_size=2, max_size=6), st.floats(-1, 1))
def test_untold_ends_lie_on_one_straight_slope(lengths, slope):
    """The rise of each pipe over its length is that of the whole run."""
    total = sum(lengths)
    found = elevations(*map(pipe, lengths), intake=0.0, inlet=slope * total)
    level = 0.0
    for length, end in zip(lengths, found.ends, strict=True):
        assert end - level == pytest.approx(slope * length, abs=1e-9)
        level = end
    assert len(found.warnings) == len(lengths) - 1


@given(st.lists(st.floats(0.5, 20), min_size=1, max_size=5), st.floats(-5, 5))
def test_without_an_intake_all_up_to_the_first_told_end_hangs_straight_down(lengths, end):
    hanging = [*map(pipe, lengths[:-1]), pipe(lengths[-1], end)]
    found = elevations(*hanging, pipe(30), inlet=0.0)
    assert found.intake == pytest.approx(end - sum(lengths), abs=1e-9)
    assert found.intake_is_inferred


def test_the_inlet_counts_where_the_last_pipe_is_told_to_end_below_it():
    found = elevations(pipe(9, -2.0), intake=-3.0, inlet=0.5)
    assert found.ends == [0.5]
    assert [warning.pointer for warning in found.warnings] == ["/line/0/end_elevation"]
    assert elevations(pipe(9, 0.509), intake=-3.0, inlet=0.5).warnings == []


def test_a_last_pipe_that_ends_above_the_inlet_is_refused_for_its_crest_would_be_lost():
    with pytest.raises(Refused) as refused:
        elevations(pipe(9, 0.511), intake=-3.0, inlet=0.5)
    (fault,) = refused.value.faults
    assert fault.pointer == "/line/0/end_elevation"
    assert "so that the crest counts" in fault.detail


def test_a_lost_crest_and_a_pipe_too_short_are_named_at_once():
    with pytest.raises(Refused) as refused:
        elevations(pipe(2, -1), pipe(9, 4), intake=-9.0, inlet=0.0)
    assert [fault.pointer for fault in refused.value.faults] == ["/line/1/end_elevation", "/line/0/length"]


def test_many_pipes_without_their_ends_make_few_warnings():
    """Five are pointed at, the sixth and seventh are told together; the last ends at the inlet."""
    found = elevations(*[pipe(3)] * 8, intake=-9.0)
    assert [warning.pointer for warning in found.warnings] == [f"/line/{index}" for index in range(5)] + ["/line"]
    assert "2 more places" in found.warnings[-1].detail


@pytest.mark.parametrize(("units", "unit"), [(METRIC, " m "), (US, " ft ")])
def test_a_pipe_too_short_is_refused_in_the_callers_units(units, unit):
    with pytest.raises(Refused) as refused:
        elevations(pipe(2, -1), intake=-9.0, units=units)
    (fault,) = refused.value.faults
    assert fault.pointer == "/line/0/length"
    assert unit in fault.detail


def test_every_pipe_too_short_is_named():
    with pytest.raises(Refused) as refused:
        elevations(pipe(2, -1), pipe(1, -1), pipe(0.5), intake=-9.0, inlet=4.0)
    assert [fault.pointer for fault in refused.value.faults] == ["/line/0/length", "/line/2/length"]
