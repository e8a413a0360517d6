"""Every published value runs through the public answers; and what must hold for the rows themselves."""

import csv
import json
import re
from collections import Counter

import pytest

from footvalve.accuracy.layout import beyond
from footvalve.accuracy.measuring import NO_UNIT, is_number, measured
from footvalve.accuracy.rows import published_rows
from footvalve.answers.endpoints import ENDPOINT
from footvalve.command import PUBLISHED
from footvalve.quantity import CONVERSIONS

ROWS = published_rows(PUBLISHED)
REFERENCE = PUBLISHED.parent
TABLES = {"pipes", "fittings", "valves", "wires", "chemistries", "units"}
WIDE, TOO_WIDE = 0.05, 0.25
"""Fractions of what is expected: a tolerance past the first says why, and none is past the second."""
REASON = re.compile(r"%|digit|decimal|band|coarse|practice|points")


def named(row):
    return f"{row.endpoint} {row.id}"


@pytest.mark.parametrize("row", ROWS, ids=named)
def test_the_service_says_what_the_source_says(row):
    """Where it does not, mend the service, or say in the note why the source is so far off and give it that much."""
    each = measured(row)
    assert each.is_within, f"{beyond([each])}: {row.note}"


def test_there_are_enough_of_them():
    assert len(ROWS) >= 300
    assert len({row.source for row in ROWS}) >= 25


def test_every_endpoint_and_every_table_of_numbers_is_held_against_something():
    """Cautions are the project's own words, so that no source outside has them."""
    wanted = {*ENDPOINT, "batch", *(f"tables/{name}" for name in TABLES)}
    assert wanted == {row.endpoint for row in ROWS}


@pytest.mark.parametrize("file", sorted(PUBLISHED.glob("*.csv")), ids=lambda file: file.stem)
def test_a_file_holds_the_rows_of_its_endpoint(file):
    """The tables share one file."""
    with file.open(encoding="utf-8") as text:
        assert {row["endpoint"].split("/")[0] for row in csv.DictReader(text)} == {file.stem}


def test_every_row_has_an_id_of_its_own():
    assert [row for row, times in Counter(row.id for row in ROWS).items() if times > 1] == []


def test_no_place_in_a_source_is_asked_after_twice():
    asked = Counter((row.endpoint, json.dumps(row.inputs), row.answer, row.source, row.locator) for row in ROWS)
    assert [each for each, times in asked.items() if times > 1] == []


def test_every_source_has_its_citation_and_every_citation_its_use():
    """Citations stand in sources.csv, for all files of values."""
    cited = [row["key"] for row in rows_of(REFERENCE / "sources.csv")]
    files = set(REFERENCE.rglob("*.csv")) - {REFERENCE / "sources.csv"}
    used = {row["source"] for file in files for row in rows_of(file)}
    assert len(cited) == len(set(cited))
    assert used == set(cited)


def rows_of(file):
    with file.open(encoding="utf-8") as text:
        return list(csv.DictReader(text))


@pytest.mark.parametrize("row", ROWS, ids=named)
def test_a_row_says_where_it_stands_and_how_far_off_the_answer_may_be(row):
    """A tolerance is no wider than its note can tell; what is no number is right or wrong."""
    assert row.locator, "say where in the source it stands"
    assert row.note, "say why the tolerance is as wide as it is, and how a computed value was computed"
    assert row.unit in {NO_UNIT, *CONVERSIONS}
    if not is_number(row.expected):
        assert row.tolerance == 0
        return
    assert row.tolerance > 0
    if row.expected:
        fraction = row.tolerance / abs(row.expected)
        assert fraction <= TOO_WIDE
        assert fraction <= WIDE or REASON.search(row.note), f"say why {fraction:.0%} is allowed"
