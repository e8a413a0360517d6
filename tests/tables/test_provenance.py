"""Every row of every table says where it comes from, and no two rows are of the same thing."""

from importlib.resources import files

import pytest

from footvalve.tables.reading import UnknownEntry, facts, rows, yes_or_no
from footvalve.tables.si_values import FACTORS, si_value

KEYS = {
    "aluminum_wires": ("designation",),
    "cautions": ("code",),
    "chemistries": ("chemistry", "property"),
    "cold_capacity": ("family", "temperature_degC"),
    "conductors": ("conductor", "property"),
    "disc_lift": ("valve",),
    "fittings": ("fitting",),
    "fuses": ("rating_A",),
    "materials": ("material", "property"),
    "pipe_products": ("product",),
    "pipes": ("product", "nominal"),
    "valves": ("valve",),
    "wires": ("system", "designation"),
}
OBTAINED = {"seen", "computed", "memory"}


def test_every_table_is_tested_here():
    """A new table needs the columns of its key in KEYS."""
    stored = {
        path.name.removesuffix(".csv") for path in files("footvalve.tables").iterdir() if path.name.endswith(".csv")
    }
    assert stored == set(KEYS)


@pytest.mark.parametrize("table", KEYS)
def test_every_row_has_a_source_and_says_how_it_was_obtained(table):
    """Fill `source` with a citation or "common practice, no source", and `obtained` from the closed list."""
    for row in rows(table):
        sources = [value for column, value in row.items() if column.endswith("source")]
        obtained = [value for column, value in row.items() if column.endswith("obtained")]
        assert sources, row
        assert all(sources), row
        assert len(obtained) == len(sources), row
        assert set(obtained) <= OBTAINED, row


@pytest.mark.parametrize("table", KEYS)
def test_every_row_has_as_many_cells_as_the_header(table):
    """A comma too many or too few shifts a row: quote the cell that holds it."""
    for row in rows(table):
        assert None not in row, row
        assert None not in row.values(), row
        assert all(value == value.strip() for value in row.values()), row


@pytest.mark.parametrize(("table", "key"), KEYS.items())
def test_keys_are_unique(table, key):
    """Each thing stands once in its table."""
    found = [tuple(row[column] for column in key) for row in rows(table)]
    assert len(found) == len(set(found))


@pytest.mark.parametrize("table", ["chemistries", "conductors", "materials"])
def test_every_unit_is_known_and_every_subject_has_the_same_properties(table):
    """A unit that a table uses stands in FACTORS, or is a text, a yes or no, or a temperature."""
    subject = KEYS[table][0]
    assert {row["unit"] for row in rows(table)} <= set(FACTORS) | {"text", "yes/no", "degC"}
    assert len({frozenset(found) for found in facts(table, subject).values()}) == 1


def test_an_unknown_entry_names_its_table_and_the_choices():
    """The message is what a caller reads, so it must say what would have been right."""
    fault = UnknownEntry("fittings", "elbow", ("elbow-45", "elbow-90"))
    assert str(fault) == "the table of fittings has no 'elbow'; it has elbow-45, elbow-90"
    assert isinstance(fault, KeyError)


def test_rows_cannot_be_changed():
    """One caller's slip must not change a table for the next."""
    with pytest.raises(TypeError):
        rows("pipes")[0]["product"] = "other"


def test_units_become_si():
    """The inch and the foot are exact, and a temperature has an offset."""
    assert si_value("1", "in") == 0.0254
    assert si_value("304.8", "ohm/kft") == 1.0
    assert si_value("-17.78", "degC") == pytest.approx(255.37)
    assert (yes_or_no("yes"), yes_or_no("no")) == (True, False)
    with pytest.raises(KeyError):
        yes_or_no("maybe")
