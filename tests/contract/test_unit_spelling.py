"""How installers write units: closed lists, in which nothing stands for two things."""

import pytest

from footvalve.contract.unit_spelling import EXAMPLES, SPELLINGS, meant
from footvalve.quantity import DIMENSIONS, wire_units


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_every_unit_has_spellings_and_every_spelling_a_unit(dimension):
    assert set(SPELLINGS[dimension].values()) == set(wire_units(dimension))
    assert all(spelling == spelling.casefold().strip() for spelling in SPELLINGS[dimension])


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_no_spelling_is_another_unit_of_its_dimension(dimension):
    """A unit in small letters means itself: two units that differ by a capital alone must not be on one list."""
    for unit in wire_units(dimension):
        assert SPELLINGS[dimension].get(unit.casefold(), unit) == unit


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_every_dimension_shows_how_it_is_written(dimension):
    assert EXAMPLES[dimension]
    assert {unit for _, unit in EXAMPLES[dimension]} <= set(wire_units(dimension))


@pytest.mark.parametrize(
    ("unit", "dimension", "expected"),
    [
        ("gpm", "Flow", "gal/min"),
        ("GPM", "Flow", "gal/min"),
        (" gal  per min ", "Flow", "gal/min"),
        ("cfm", "Flow", None),
        ("feets", "Length", "ft"),
        ("gal", "Length", None),
        ("", "Length", None),
        ("\u00b0F", "Temperature", "degF"),
        ("PSI", "Pressure", "psi"),
    ],
)
def test_what_is_meant_is_found_and_nothing_else(unit, dimension, expected):
    assert meant(unit, dimension) == expected
