"""A JSON Pointer of ours leads into a decoded body, by the names that stand on the wire."""

import msgspec
import pytest

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.examples import examples
from footvalve.contract.pointed import changed_at, changed_together, tokens, value_at
from footvalve.contract.quantities import Length
from footvalve.contract.ranges import stated_quantities
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest

EXAMPLES = [
    pytest.param(endpoint.request, example.request, id=f"{endpoint.name} {example.name}")
    for endpoint in ENDPOINTS
    for example in examples(endpoint.name)
]


def suction_line():
    return msgspec.convert(examples("suction-feasibility")[0].request, SuctionFeasibilityRequest)


class Renamed(msgspec.Struct, frozen=True, rename={"from_": "from"}):
    """A body with a field that Python cannot spell."""

    from_: Length
    others: list[Length]


RENAMED = Renamed(Length(1.0, "m"), [Length(2.0, "m"), Length(3.0, "m")])


def test_the_steps_of_a_pointer():
    assert tokens("") == ()
    assert tokens("/line/3/length") == ("line", "3", "length")


@pytest.mark.parametrize(("request_type", "body"), EXAMPLES)
def test_every_quantity_of_a_body_is_where_its_pointer_leads(request_type, body):
    request = msgspec.convert(body, request_type)
    for stated in stated_quantities(request):
        assert value_at(request, stated.pointer) is stated.quantity


@pytest.mark.parametrize(("request_type", "body"), EXAMPLES)
def test_a_change_is_made_there_and_nowhere_else(request_type, body):
    request = msgspec.convert(body, request_type)
    for stated in stated_quantities(request):
        other = type(stated.quantity)(stated.quantity.value + 1.0, stated.quantity.unit)
        changed = changed_at(request, tokens(stated.pointer), lambda _, other=other: other)
        differ = [
            after.pointer
            for before, after in zip(stated_quantities(request), stated_quantities(changed), strict=True)
            if before.quantity != after.quantity
        ]
        assert differ == [stated.pointer]
        assert value_at(request, stated.pointer) is stated.quantity, "the body itself is left alone"
        assert changed_at(changed, tokens(stated.pointer), lambda _, back=stated.quantity: back) == request


def test_what_a_change_does_not_lead_through_is_the_same_object():
    request = suction_line()
    changed = changed_at(request, ("line", "3", "length"), lambda _: Length(1.0, "m"))
    assert changed.pump is request.pump
    assert all(
        after is before for i, (after, before) in enumerate(zip(changed.line, request.line, strict=True)) if i != 3
    )
    assert changed.line[3].size is request.line[3].size


def test_a_pointer_to_nothing_is_the_whole_body():
    request = suction_line()
    assert value_at(request, "") is request
    assert changed_at(request, (), lambda body: body.flow) is request.flow


def test_fields_go_by_their_names_on_the_wire():
    assert value_at(RENAMED, "/from") == Length(1.0, "m")
    assert changed_at(RENAMED, ("from",), lambda _: Length(9.0, "m")).from_ == Length(9.0, "m")
    assert changed_at(RENAMED, ("others", "1"), lambda _: Length(9.0, "m")).others == [
        Length(2.0, "m"),
        Length(9.0, "m"),
    ]


def test_a_field_that_is_left_out_ends_the_way():
    request = suction_line()
    assert value_at(request, "/drawdown") is msgspec.UNSET
    assert value_at(request, "/drawdown/value") is msgspec.UNSET


@pytest.mark.parametrize("pointer", ["/no_such_field", "/pump/no_such_field"])
def test_a_field_that_there_is_not_is_an_error(pointer):
    with pytest.raises(AttributeError):
        value_at(suction_line(), pointer)


def test_a_place_beyond_the_list_is_an_error():
    with pytest.raises(IndexError):
        value_at(suction_line(), "/line/99")


@pytest.mark.parametrize(("request_type", "body"), EXAMPLES)
def test_changes_made_together_are_those_made_one_by_one(request_type, body):
    request = msgspec.convert(body, request_type)
    paths = [tokens(stated.pointer) for stated in stated_quantities(request)]
    changes = [(path, lambda quantity: quantity.moved(1.0)) for path in paths if not any(map(str.isdigit, path))]
    one_by_one = request
    for path, change in changes:
        one_by_one = changed_at(one_by_one, path, change)
    assert changed_together(request, changes) == one_by_one != request
