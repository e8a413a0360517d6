"""Each endpoint through the client answers what the service's own function answers."""

from typing import Any

import msgspec
import pint
import pytest

import footvalve_client
from footvalve.answers.endpoints import ENDPOINTS, Endpoint
from footvalve.answers.tables import TABLES, table
from footvalve.contract.examples import Example, examples
from footvalve_client import (
    BadRequest,
    BatchItem,
    BatchRequest,
    Footvalve,
    FrictionAnswer,
    FrictionRequest,
    Length,
    Pipe,
    PipeSize,
    RotaryPump,
    SuctionFeasibilityRequest,
)

PE_1_INCH = PipeSize(product="pe-sidr-15", nominal="1")

EXAMPLES = [(endpoint, example) for endpoint in ENDPOINTS for example in examples(endpoint.name)]


def _name(given: object) -> str:
    return given.name if isinstance(given, Endpoint | Example) else str(given)


every_example = pytest.mark.parametrize(("endpoint", "example"), EXAMPLES, ids=_name)


def _method(endpoint: Endpoint) -> str:
    return endpoint.name.replace("-", "_")


def _direct(endpoint: Endpoint, example: Example) -> object:
    return msgspec.to_builtins(endpoint(msgspec.convert(example.request, endpoint.request)))


def _request(endpoint: Endpoint, example: Example) -> Any:
    return msgspec.convert(example.request, getattr(footvalve_client, endpoint.request.__name__))


@every_example
def test_keyword_arguments_give_the_direct_answer(service: Footvalve, endpoint: Endpoint, example: Example) -> None:
    answer = getattr(service, _method(endpoint))(**example.request)
    assert isinstance(answer, getattr(footvalve_client, endpoint.answer.__name__))
    assert msgspec.to_builtins(answer) == _direct(endpoint, example)


@every_example
def test_a_request_struct_gives_the_direct_answer(service: Footvalve, endpoint: Endpoint, example: Example) -> None:
    answer = getattr(service, _method(endpoint))(_request(endpoint, example))
    assert msgspec.to_builtins(answer) == _direct(endpoint, example)


@every_example
def test_the_awaited_client_gives_the_direct_answer(awaited: Any, endpoint: Endpoint, example: Example) -> None:
    answer = awaited(lambda service: getattr(service, _method(endpoint))(_request(endpoint, example)))
    assert msgspec.to_builtins(answer) == _direct(endpoint, example)


@every_example
def test_a_request_is_sent_as_it_was_given(endpoint: Endpoint, example: Example) -> None:
    """No null, and no default that the caller did not give."""
    assert msgspec.json.decode(msgspec.json.encode(_request(endpoint, example))) == example.request


@every_example
def test_texts_and_quantities_of_pint_at_any_depth_give_the_direct_answer(
    service: Footvalve, endpoint: Endpoint, example: Example
) -> None:
    method = getattr(service, _method(endpoint))
    direct = _direct(endpoint, example)
    assert msgspec.to_builtins(method(**_with_quantities(example.request, _as_text))) == direct
    assert msgspec.to_builtins(method(**_with_quantities(example.request, _as_pint))) == direct


def _with_quantities(body: Any, written: Any) -> Any:
    match body:
        case {"value": value, "unit": unit}:
            return written(value, unit)
        case dict():
            return {key: _with_quantities(value, written) for key, value in body.items()}
        case list():
            return [_with_quantities(value, written) for value in body]
    return body


def _as_text(value: float, unit: str) -> str:
    return f"{value} {unit}"


def _as_pint(value: float, unit: str) -> pint.Quantity:
    return pint.Quantity(value, unit)


def test_every_endpoint_has_its_method_on_both_clients() -> None:
    names = {_method(endpoint) for endpoint in ENDPOINTS} | {"live", "ready"}
    for client in (footvalve_client.Footvalve, footvalve_client.AsyncFootvalve):
        missing = names - set(dir(client))
        assert not missing, f"run client/generate.py: {client.__name__} lacks {missing}"


def test_the_service_tells_that_it_lives_and_is_ready(service: Footvalve) -> None:
    assert (service.live().status, service.ready().status) == ("live", "ready")


def test_the_awaited_client_hears_that_the_service_lives_and_is_ready(awaited: Any) -> None:
    assert awaited(lambda service: service.live()).status == "live"
    assert awaited(lambda service: service.ready()).status == "ready"


def test_none_leaves_a_field_out(service: Footvalve) -> None:
    line = [Pipe(length="45 ft", size=PE_1_INCH, name=None)]
    given = service.friction(flow="5 gal/min", line=line, flows=None, units=None, site=None)
    assert given == service.friction(flow="5 gal/min", line=line)


def test_one_number_changed_in_a_request_moves_the_margin(service: Footvalve) -> None:
    request = SuctionFeasibilityRequest(
        depth_to_water="12 ft",
        drawdown="2 ft",
        flow="4 gal/min",
        pump=RotaryPump(inlet_elevation="-3 ft", npsh_required="7 ft"),
        line=[Pipe(length="60 ft", size=PE_1_INCH, end_elevation="-3 ft")],
    )
    deeper = msgspec.structs.replace(request, depth_to_water="16 ft")
    moved = service.suction_feasibility(request).margin.value - service.suction_feasibility(deeper).margin.value
    assert moved == pytest.approx(4, abs=0.01), "4 ft more lift costs 4 ft of margin"


def test_a_request_and_its_fields_together_are_no_call(service: Footvalve) -> None:
    with pytest.raises(TypeError, match="a FrictionRequest or its fields, not both"):
        service.friction(FrictionRequest(line=[]), flow="5 gal/min")  # type: ignore[call-overload]


def test_a_request_of_another_endpoint_is_no_call(service: Footvalve) -> None:
    with pytest.raises(TypeError, match="expected a SuctionFeasibilityRequest, got FrictionRequest"):
        service.suction_feasibility(FrictionRequest(line=[]))  # type: ignore[call-overload]


def test_a_missing_field_and_an_unknown_one_are_told_before_anything_is_sent(service: Footvalve) -> None:
    with pytest.raises(TypeError, match="line"):
        service.friction(flow="5 gal/min")  # type: ignore[call-overload]
    with pytest.raises(TypeError, match="flwo"):
        service.friction(flwo="5 gal/min", line=[])  # type: ignore[call-overload]


def test_quantities_of_an_answer_turn_into_other_units_and_into_pint(service: Footvalve) -> None:
    line = [Pipe(length="45 ft", size=PE_1_INCH)]
    loss = service.friction(flow="5 gal/min", line=line).total_head_loss
    assert loss.unit == "ft"
    assert loss.to("m") == Length(loss.value * 0.3048, "m")
    assert loss.quantity.m_as("m") == pytest.approx(loss.value * 0.3048)


@pytest.mark.parametrize("name", TABLES)
def test_a_table_is_the_services_own(service: Footvalve, awaited: Any, name: Any) -> None:
    kind = getattr(footvalve_client, type(table(name)).__name__)
    for read in (service.table(name), awaited(lambda client: client.table(name))):
        assert isinstance(read, kind)
        assert msgspec.to_builtins(read) == msgspec.to_builtins(table(name))


def test_a_name_of_no_table_is_told_before_anything_is_sent(service: Footvalve) -> None:
    with pytest.raises(ValueError, match="there is no 'pumps', only pipes, fittings"):
        service.table("pumps")  # type: ignore[call-overload]


def test_a_batch_takes_structs_and_mappings_and_spoils_no_item_for_another(service: Footvalve) -> None:
    struct = FrictionRequest(flow="5 gpm", line=[Pipe(length="45 ft", size=PE_1_INCH)])
    mapping = msgspec.to_builtins(struct)
    items: list[Any] = [
        BatchItem(id="struct", endpoint="friction", body=struct),
        BatchItem(id="mapping", endpoint="friction", body=mapping),
        {"id": "item", "endpoint": "friction", "body": struct},
        BatchItem(id="spoiled", endpoint="friction", body={}),
    ]
    direct = service.friction(struct)
    for answer in (service.batch(items=items), service.batch(BatchRequest(items=items))):
        assert [(item.id, item.status) for item in answer.items] == [
            ("struct", 200),
            ("mapping", 200),
            ("item", 200),
            ("spoiled", 400),
        ]
        assert [msgspec.convert(item.body, FrictionAnswer) for item in answer.items[:3]] == [direct] * 3
        assert msgspec.convert(answer.items[3].body, footvalve_client.Problem).status == 400


def test_a_batch_without_items_is_refused_as_a_whole(service: Footvalve) -> None:
    with pytest.raises(BadRequest, match="/items"):
        service.batch(items=[])
