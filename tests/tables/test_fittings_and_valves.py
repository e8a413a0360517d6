"""Fittings and valves against another keeper of Crane's paper, and what must hold for any of them."""

import pytest
from fluids.fittings import (
    K_butterfly_valve_Crane,
    K_globe_stop_check_valve_Crane,
    K_lift_check_valve_Crane,
    bend_rounded_Crane,
    entrance_distance,
    entrance_rounded,
    entrance_sharp,
    exit_normal,
)
from fluids.friction import ft_Crane

from footvalve.tables.fittings import FITTINGS, fitting
from footvalve.tables.reading import UnknownEntry, rows
from footvalve.tables.valves import VALVES, valve

BORE = 0.0266446  # m, 1 in schedule 40


@pytest.mark.parametrize(
    ("name", "coefficient"),
    [
        ("butterfly", K_butterfly_valve_Crane(D=BORE, style=0)),
        ("lift-check-angle", K_lift_check_valve_Crane(D1=BORE, D2=BORE, angled=True)),
        ("spring-check", K_globe_stop_check_valve_Crane(D1=BORE, D2=BORE, style=0)),
    ],
)
def test_valve_is_that_of_cranes_paper_as_a_library_holds_it(name, coefficient):
    """fluids 1.3.1 holds Crane Technical Paper 410 (2009) by itself; the ratio is free of fT."""
    assert valve(name).equivalent_length_ratio == pytest.approx(coefficient / ft_Crane(BORE), rel=1e-9)


@pytest.mark.parametrize(
    ("name", "coefficient"),
    [
        ("entrance-inward-projecting", entrance_distance(Di=BORE, method="Crane")),
        ("entrance-rounded", entrance_rounded(Di=BORE, rc=0.15 * BORE, method="Crane")),
        ("entrance-sharp", entrance_sharp(method="Crane")),
        ("exit", exit_normal()),
    ],
)
def test_entrance_and_exit_are_those_of_cranes_paper_as_a_library_holds_it(name, coefficient):
    """fluids 1.3.1 holds Crane Technical Paper 410 (2009) by itself."""
    assert fitting(name).value == pytest.approx(coefficient, abs=1e-9)


def test_the_long_elbow_is_cranes_bend_of_one_and_a_half_diameters():
    """fluids 1.3.1 smooths Crane's table of bends: 14.06 for 14."""
    ratio = bend_rounded_Crane(Di=BORE, angle=90, bend_diameters=1.5) / ft_Crane(BORE)
    assert fitting("elbow-90-long-radius").value == pytest.approx(ratio, abs=0.1)


@pytest.mark.parametrize("name", FITTINGS)
def test_a_fitting_has_a_value_unless_the_bores_make_it(name):
    """A change of bore is reckoned from the bores on its two sides; all else carries its number."""
    found = fitting(name)
    if found.kind == "bore-change":
        assert found.value is None
    else:
        assert found.value is not None
        assert found.value > 0


def test_a_sharper_turn_costs_more():
    """By what the water is made to do: a bend, an elbow, a street elbow, a branch."""
    turns = ["elbow-90-long-radius", "elbow-45", "elbow-90", "elbow-90-street", "tee-branch"]
    values = [fitting(name).value for name in turns]
    assert values == sorted(values)
    assert fitting("tee-run").value < fitting("elbow-90").value


def test_check_valves_are_marked_as_such():
    """Whoever looks for the valve that holds the prime goes by this mark."""
    assert {name for name in VALVES if valve(name).is_check} == {
        "foot-valve-hinged",
        "foot-valve-poppet",
        "lift-check",
        "lift-check-angle",
        "spring-check",
        "swing-check",
        "swing-check-straight",
    }
    assert {name for name in VALVES if valve(name).includes_strainer} == {
        "foot-valve-hinged",
        "foot-valve-poppet",
    }


def test_a_practice_without_a_source_says_so():
    """The pitless adapter has no published number: the table must not look as if it had."""
    (row,) = (row for row in rows("fittings") if row["fitting"] == "pitless-adapter")
    assert row["source"].startswith("common practice, no source")
    assert fitting("pitless-adapter").value == 2 * fitting("elbow-90").value


def test_an_unknown_fitting_or_valve_is_named_with_the_choices():
    """A caller who asks for what is not there learns what is."""
    with pytest.raises(UnknownEntry) as unknown_fitting:
        fitting("elbow")
    assert unknown_fitting.value.choices == FITTINGS
    with pytest.raises(UnknownEntry) as unknown_valve:
        valve("tap")
    assert unknown_valve.value.choices == VALVES
