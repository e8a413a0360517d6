"""Requests: what may be given for a field, and what is held and sent."""

from typing import Any

import msgspec
import numpy as np
import pint
import pytest

from footvalve_client import (
    BatchItem,
    BatchRequest,
    Bore,
    Flow,
    FrictionRequest,
    Length,
    Pipe,
    QuantityError,
    RotaryPump,
    Site,
    SuctionFeasibilityRequest,
    Temperature,
)


def _sent(request: msgspec.Struct) -> Any:
    return msgspec.json.decode(msgspec.json.encode(request))


def test_a_struct_holds_quantities_however_they_were_given() -> None:
    pipe = Pipe(length="45 ft", end_elevation=pint.Quantity(-5, "foot"), bore=Bore(diameter=Length(1, "in")))
    assert pipe == Pipe(length=Length(45, "ft"), end_elevation=Length(-5, "ft"), bore=Bore(diameter=Length(1, "in")))


def test_a_list_of_quantities_holds_each() -> None:
    request = FrictionRequest(line=[], flows=("2 gal/min", Flow(3, "gal/min"), pint.Quantity(4, "gal/min")))
    assert request.flows == [Flow(2, "gal/min"), Flow(3, "gal/min"), Flow(4, "gal/min")]


def test_mappings_at_any_depth_are_sent_with_their_quantities_read() -> None:
    request = FrictionRequest(
        line=[{"part": "pipe", "length": "45 ft", "bore": {"diameter": "1 in", "roughness": None}}],  # type: ignore[list-item]
        site={"altitude": "1200 m"},  # type: ignore[arg-type]
    )
    assert _sent(request) == {
        "line": [
            {
                "part": "pipe",
                "length": {"value": 45, "unit": "ft"},
                "bore": {"diameter": {"value": 1, "unit": "in"}},
            }
        ],
        "site": {"altitude": {"value": 1200, "unit": "m"}},
    }


def test_a_mapping_keeps_what_only_a_newer_service_knows() -> None:
    part = {"part": "siphon", "rise": {"value": 1, "unit": "m"}, "new": [1]}
    assert _sent(FrictionRequest(line=[part]))["line"] == [part]  # type: ignore[list-item]


def test_what_was_not_given_is_not_sent() -> None:
    assert _sent(Site(water_temperature=Temperature(51, "degF"))) == {
        "water_temperature": {"value": 51, "unit": "degF"}
    }
    assert _sent(Pipe(length="1 m", name=None)) == {"part": "pipe", "length": {"value": 1, "unit": "m"}}


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"length": "45 psi"}, "/length"),
        ({"length": "45 ft", "bore": {"diameter": "1 gal"}}, "/bore/diameter"),
    ],
)
def test_a_wrong_dimension_is_told_with_its_place(fields: dict[str, Any], pointer: str) -> None:
    with pytest.raises(QuantityError, match=rf"^{pointer}: .* is no Length") as refused:
        Pipe(**fields)
    assert refused.value.pointer == pointer


def test_a_wrong_dimension_inside_a_list_is_told_with_its_index() -> None:
    line: list[Any] = [Pipe(length="3 ft"), {"part": "pipe", "length": "45 psi"}]
    with pytest.raises(QuantityError, match=r"^/line/1/length: '45 psi' is no Length"):
        FrictionRequest(line=line)


def test_the_struct_that_is_meant_is_told_by_the_tag() -> None:
    """`flow` is a quantity of an idle pump alone."""
    parts: list[Any] = [{"part": "idle-pump", "flow": "5 gal/min", "drop": "1 psi"}, {"part": "pipe", "flow": "text"}]
    assert _sent(FrictionRequest(line=parts))["line"][0]["flow"] == {"value": 5, "unit": "gal/min"}
    assert _sent(FrictionRequest(line=parts))["line"][1]["flow"] == "text"


def test_a_request_is_read_from_json() -> None:
    """As from a file; and it is what the same fields make."""
    text = (
        '{"depth_to_water": {"value": 12, "unit": "ft"}, "flow": {"value": 4, "unit": "gal/min"}, "line": [],'
        ' "pump": {"style": "rotary", "inlet_elevation": {"value": -3, "unit": "ft"}}}'
    )
    assert msgspec.json.decode(text, type=SuctionFeasibilityRequest) == SuctionFeasibilityRequest(
        depth_to_water="12 ft", flow="4 gal/min", line=[], pump=RotaryPump(inlet_elevation="-3 ft")
    )


def test_requests_do_not_change_once_made() -> None:
    with pytest.raises(AttributeError):
        Pipe(length="3 ft").length = "4 ft"  # type: ignore[misc]


def test_numbers_of_numpy_and_generators_are_sent_as_json_has_them() -> None:
    numbers: list[Any] = [np.float64(45), np.int64(45)]
    for number in numbers:
        line: Any = (part for part in [Pipe(length=Length(number, "ft")), {"part": "pipe", "count": number}])
        flows: Any = (f"{flow} gpm" for flow in (2, 3))
        sent = _sent(FrictionRequest(line=line, flows=flows))
        assert sent["line"] == [{"part": "pipe", "length": {"value": 45, "unit": "ft"}}, {"part": "pipe", "count": 45}]
        assert [flow["value"] for flow in sent["flows"]] == [2, 3]
        mapping: Any = {"altitude": {"value": number, "unit": "m"}}
        assert _sent(FrictionRequest(line=[], site=mapping))["site"] == {"altitude": {"value": 45, "unit": "m"}}


@pytest.mark.parametrize(
    ("length", "pointer"),
    [
        (Length(float("nan"), "ft"), "/line/0/length/value"),
        ({"value": float("nan"), "unit": "ft"}, "/line/0/length/value"),
        ({"value": np.float32("nan"), "unit": "ft"}, "/line/0/length/value"),
    ],
    ids=str,
)
def test_what_is_not_finite_is_told_with_its_place(length: Any, pointer: str) -> None:
    line: Any = [{"part": "pipe", "length": length}]
    with pytest.raises(QuantityError, match="nan is no finite number") as refused:
        FrictionRequest(line=line)
    assert refused.value.pointer == pointer


def test_what_json_cannot_say_is_told_with_its_place() -> None:
    line: Any = [{"part": "pipe", "name": object()}]
    with pytest.raises(TypeError, match=r"^/line/0/name: "):
        FrictionRequest(line=line)


def test_an_item_of_a_batch_takes_what_its_endpoint_takes() -> None:
    body = {"line": [{"part": "pipe", "length": "45 ft"}], "flows": (f"{flow} gpm" for flow in (2,))}
    mapping: Any = {"id": "b", "endpoint": "friction", "body": {"line": [], "flows": ["2 gpm"]}}
    items: Any = (item for item in (BatchItem(id="a", endpoint="friction", body=body), mapping))
    sent = _sent(BatchRequest(items=items))["items"]
    flows = [{"value": 2, "unit": "gal/min"}]
    assert sent[0]["body"] == {"line": [{"part": "pipe", "length": {"value": 45, "unit": "ft"}}], "flows": flows}
    assert sent[1]["body"] == {"line": [], "flows": flows}
    with pytest.raises(QuantityError, match=r"^/items/0/body/flows/0: '2 psi' is no Flow"):
        BatchRequest(items=[mapping | {"body": {"flows": ["2 psi"]}}])
