"""What holds the answers against published values: that it tells wrong from right, and what the command prints."""

import csv
import math

import pytest

from footvalve.accuracy.layout import table
from footvalve.accuracy.measuring import measured
from footvalve.accuracy.rows import BadRow, PublishedRow, published_rows
from footvalve.command import PUBLISHED, main

FEET = {"value": 22.0, "unit": "ft"}
ASKED = {"measurement": {"method": "direct", "depths": [FEET]}}


def row(**change):
    """A reading of 22 ft, of which an electric tape's depth is 22 ft."""
    sound = {
        "id": "A-1",
        "endpoint": "sounding",
        "inputs": ASKED,
        "answer": "/depth_to_water",
        "expected": 22.0,
        "unit": "ft",
        "tolerance": 0.5,
        "source": "A-BOOK",
        "locator": "page 1",
        "obtained": "seen",
        "note": "half the last digit",
    }
    return PublishedRow(**(sound | change))


PIPE = {"endpoint": "tables/pipes", "inputs": {"product": "pvc-sch-40"}, "answer": "/material", "unit": "-"}
CHECK = {"endpoint": "tables/valves", "inputs": {"valve": "swing-check"}, "answer": "/is_check", "unit": "-"}
BATCH = {"items": [{"id": "1", "endpoint": "sounding", "body": ASKED}]}
SIZE = {"product": "pvc-sch-40", "sizes": {"nominal": "1"}}


@pytest.mark.parametrize(
    ("change", "found"),
    [
        ({}, 22.0),
        ({"unit": "in", "expected": 264.0}, 264.0),
        ({"unit": "m", "expected": 6.7056, "tolerance": 1e-9}, 6.7056),
        ({**PIPE, "expected": "pvc", "tolerance": 0.0}, "pvc"),
        ({**CHECK, "expected": True, "tolerance": 0.0}, True),
        ({**PIPE, "inputs": SIZE, "answer": "/sizes/inside_diameter", "unit": "in", "expected": 1.049}, 1.049),
        ({"endpoint": "batch", "inputs": BATCH, "answer": "/items/0/body/readings/0"}, 22.0),
    ],
    ids=["number", "other unit", "other system", "word", "yes", "row of a table", "batch"],
)
def test_what_agrees_is_within(change, found):
    each = measured(row(**change))
    assert each.found == pytest.approx(found) if isinstance(found, float) else each.found == found
    assert each.is_within
    assert each.share < 1e-6


@pytest.mark.parametrize(
    ("change", "fraction"),
    [
        ({"expected": 22.6}, 0.6 / 22.6),
        ({"expected": 21.4}, 0.6 / 21.4),
        ({"expected": 0.0}, None),
        ({**PIPE, "expected": "copper", "tolerance": 0.0}, None),
        ({**CHECK, "expected": False, "tolerance": 0.0}, None),
    ],
    ids=["too little", "too much", "nought", "another word", "no for yes"],
)
def test_what_does_not_agree_is_beyond(change, fraction):
    each = measured(row(**change))
    assert not each.is_within
    assert each.share > 1
    assert each.fraction == (fraction if fraction is None else pytest.approx(fraction))


def test_a_yes_is_no_one():
    """Python holds that 1 and True are equal."""
    assert measured(row(**CHECK, expected=1.0)).deviation == math.inf


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"answer": "/depth"}, "the answer has no /depth"),
        ({"answer": "/readings/7"}, "the answer has no /readings/7"),
        ({"unit": "psi"}, "the answer is in ft, not in psi"),
        ({"unit": "-"}, "the answer is in ft, not in -"),
        ({"answer": "/readings"}, "the answer holds no quantity there"),
        ({"answer": "/depth_to_water/unit"}, "the answer holds no quantity there"),
        ({"endpoint": "soundings"}, "there is no endpoint soundings"),
        ({"endpoint": "tables/pumps"}, "there is no table pumps"),
        ({"endpoint": "tables/wires", "inputs": {"system": "awg"}}, "13 rows have"),
        ({"inputs": {"measurement": {"method": "direct", "depths": [22]}}}, "/measurement/depths/0"),
        ({"inputs": {"measurement": {"method": "direct", "depths": [{"value": 9000, "unit": "ft"}]}}}, "9000 ft"),
    ],
)
def test_what_cannot_be_asked_is_beyond_and_says_why(change, why):
    each = measured(row(**change))
    assert not each.is_within
    assert why in each.found


def write(folder, *rows, **change):
    """A file of rows, with the same change in each; the folder."""
    with (folder / "sounding.csv").open("w", encoding="utf-8", newline="") as text:
        writer = csv.writer(text)
        writer.writerow([*PublishedRow.__struct_fields__, *change.pop("more", [])])
        for each in rows or [row()]:
            cells = {field: getattr(each, field) for field in PublishedRow.__struct_fields__}
            inputs = '{"measurement": {"method": "direct", "depths": [{"value": 22, "unit": "ft"}]}}'
            writer.writerow((cells | {"inputs": inputs} | change).values())
    return folder


@pytest.mark.parametrize(("cell", "expected"), [("22", 22.0), ("true", True), ("false", False), ("pvc", "pvc")])
def test_a_cell_is_a_number_a_yes_or_no_or_a_word(tmp_path, cell, expected):
    (read,) = published_rows(write(tmp_path, expected=cell))
    assert (type(read.expected), read.expected) == (type(expected), expected)


@pytest.mark.parametrize(
    "change",
    [
        {"inputs": "{"},
        {"inputs": "[]"},
        {"obtained": "guessed"},
        {"tolerance": "narrow"},
        {"more": ["remark"], "remark": ""},
        {"remark": "a cell too many"},
    ],
    ids=str,
)
def test_a_row_that_cannot_be_read_is_named(tmp_path, change):
    with pytest.raises(BadRow, match=r"sounding\.csv, row A-1: "):
        published_rows(write(tmp_path, **change))


def test_the_command_prints_a_line_for_each_endpoint_and_one_for_all(tmp_path, capsys):
    word = row(id="A-2", answer="/depth_to_water/unit", unit="-", expected="ft", tolerance=0.0, obtained="memory")
    off = row(id="A-3", expected=21.9, source="B-BOOK")
    assert main(["accuracy", "--folder", str(write(tmp_path, row(), word, off))]) == 0
    printed = [line.split() for line in capsys.readouterr().out.splitlines()]
    header = [
        "endpoint",
        "rows",
        "sources",
        "seen",
        "computed",
        "memory",
        "exact",
        "median",
        "worst",
        "in",
        "row",
        "used",
    ]
    figures = ["3", "2", "2", "0", "1", "1", "0.23%", "0.46%", "A-3", "20%"]
    assert printed == [header, ["sounding", *figures], ["all", *figures]]


def test_the_command_tells_of_every_row_when_asked(tmp_path, capsys):
    assert main(["accuracy", "--rows", "--folder", str(write(tmp_path, row(expected=21.9)))]) == 0
    assert capsys.readouterr().out.startswith("sounding A-1: expected 21.9 ft, found 22 ft, 20% of its tolerance\n\n")


def test_a_row_beyond_its_tolerance_ends_the_command_with_1_and_is_told(tmp_path, capsys):
    assert main(["accuracy", "--folder", str(write(tmp_path, row(), row(id="A-2", expected=23.0)))]) == 1
    told = capsys.readouterr().out.splitlines()[-1]
    assert told == "sounding A-2: expected 23 ft, found 22 ft, tolerance 0.5, A-BOOK page 1"


def test_a_row_that_cannot_be_asked_is_told_with_the_reason(tmp_path, capsys):
    assert main(["accuracy", "--folder", str(write(tmp_path, row(answer="/depth")))]) == 1
    told = capsys.readouterr().out.splitlines()[-1]
    assert told.startswith("sounding A-1: expected 22 ft, found no answer: the answer has no /depth, tolerance")


def test_without_values_the_command_ends_with_a_sentence(tmp_path, capsys):
    missing = tmp_path / "missing"
    assert main(["accuracy", "--folder", str(missing)]) == 2
    told = capsys.readouterr().err
    assert told == f"footvalve: there are no published values in {missing}: name their folder with --folder.\n"


def test_a_bad_row_ends_the_command_with_a_sentence(tmp_path, capsys):
    assert main(["accuracy", "--folder", str(write(tmp_path, obtained="guessed"))]) == 2
    assert capsys.readouterr().err.startswith("footvalve: sounding.csv, row A-1: Invalid enum value 'guessed'")


def test_the_table_of_this_projects_own_values_fits_a_page():
    lines = table([measured(each) for each in published_rows(PUBLISHED)]).splitlines()
    assert max(map(len, lines)) < 100
    assert lines[-1].startswith("all ")
