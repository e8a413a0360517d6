"""The parts of a line on the wire, and that the contract's lists are the tables'."""

from itertools import product
from typing import get_args

import msgspec
import pytest

from footvalve.contract.line import (
    FittingKind,
    Line,
    LinePart,
    NominalSize,
    PipeProduct,
    ValveKind,
)
from footvalve.tables.fittings import FITTINGS
from footvalve.tables.pipes import PIPE_PRODUCTS, nominals
from footvalve.tables.valves import VALVES

LENGTH = {"value": 3, "unit": "m"}
FLOW = {"value": 10, "unit": "L/min"}
DROP = {"value": 2, "unit": "kPa"}
PARTS = {
    "pipe": {"size": {"product": "copper-l", "nominal": "1"}, "length": LENGTH},
    "fitting": {"fitting": "elbow-90"},
    "valve": {"valve": "gate"},
    "strainer": {"rated_flow": FLOW, "clean_drop": DROP},
    "idle-pump": {"flow": FLOW, "drop": DROP},
    "resistance": {"flow_coefficient": 5, "basis": "Cv"},
}


def decode(part):
    return msgspec.convert(part, LinePart, strict=True)


def test_the_contracts_lists_are_the_tables_keys():
    """Whoever adds a row to a table adds its key to the contract, and the other way round."""
    assert get_args(PipeProduct) == PIPE_PRODUCTS
    assert get_args(FittingKind) == FITTINGS
    assert get_args(ValveKind) == VALVES


@pytest.mark.parametrize("pipe", PIPE_PRODUCTS)
def test_every_product_comes_in_every_nominal_size_of_the_contract(pipe):
    assert nominals(pipe) == get_args(NominalSize)


@pytest.mark.parametrize("kind", PARTS)
def test_each_kind_of_part_decodes_by_its_tag_and_may_be_named_and_bored(kind):
    bare = decode({"part": kind, **PARTS[kind]})
    assert bare.name is msgspec.UNSET
    named = decode({"part": kind, **PARTS[kind], "name": "in the shed", "bore": {"diameter": LENGTH}})
    assert named.name == "in the shed"
    assert named.bore.diameter.value == 3


@pytest.mark.parametrize(
    ("kind", "field"), [(kind, field) for kind in PARTS for field in PARTS[kind] if field != "size"]
)
def test_what_a_part_cannot_do_without_is_required(kind, field):
    rest = {name: value for name, value in PARTS[kind].items() if name != field}
    with pytest.raises(msgspec.ValidationError, match=field):
        decode({"part": kind, **rest})


@pytest.mark.parametrize(("kind", "other"), [pair for pair in product(PARTS, PARTS) if pair[0] != pair[1]])
def test_the_fields_of_another_kind_are_refused(kind, other):
    strange = {name: value for name, value in PARTS[other].items() if name not in PARTS[kind]}
    if strange:
        with pytest.raises(msgspec.ValidationError):
            decode({"part": kind, **PARTS[kind], **strange})


@pytest.mark.parametrize("coefficient", [0, 1e-300, -1, 9.9e-4, 1.1e6])
def test_a_flow_coefficient_that_no_passage_has_is_refused(coefficient):
    """At 1e-300 the square of the flow over it is no number any more."""
    with pytest.raises(msgspec.ValidationError):
        decode({"part": "resistance", "flow_coefficient": coefficient, "basis": "Kv"})


@pytest.mark.parametrize("count", [0, -1, 1001, 1.5, "2"])
def test_a_count_is_a_whole_number_from_one_to_a_thousand(count):
    with pytest.raises(msgspec.ValidationError):
        decode({"part": "fitting", "fitting": "coupling", "count": count})


@pytest.mark.parametrize(
    "name", ["", "x" * 81, "line\nbreak", "bell\x07", "del\x7f", "last\n", "next\u0085", "\u2028", "\u202e"]
)
def test_a_name_is_short_and_without_control_characters(name):
    with pytest.raises(msgspec.ValidationError):
        decode({"part": "valve", "valve": "gate", "name": name})


def test_a_line_has_one_part_to_a_thousand():
    part = {"part": "valve", "valve": "gate"}
    assert len(msgspec.convert([part] * 1000, Line)) == 1000
    for count in (0, 1001):
        with pytest.raises(msgspec.ValidationError):
            msgspec.convert([part] * count, Line)


def test_an_unknown_part_is_refused():
    with pytest.raises(msgspec.ValidationError):
        decode({"part": "hose", "length": LENGTH})
