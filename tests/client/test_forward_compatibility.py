"""A newer service does not break this client: what it adds is passed over, and what it renames in a list is a word."""

from typing import Any

import httpx
import msgspec
import pytest

import footvalve_client
from footvalve.answers.endpoints import ENDPOINT, ENDPOINTS, Endpoint
from footvalve.contract.examples import examples
from footvalve_client import Footvalve, Length, QuantityError, Refused, SuctionFeasibilityAnswer


def _answers(status: int, body: Any, media_type: str = "application/json") -> Footvalve:
    response = httpx.Response(status, content=msgspec.json.encode(body), headers={"content-type": media_type})
    transport = httpx.MockTransport(lambda _: response)
    return Footvalve("http://footvalve.test", http_client=httpx.Client(transport=transport))


def _renewed(value: Any) -> Any:
    """The body as a newer service might send it: every object has more fields, and every text is another word."""
    match value:
        case dict():
            return {**{key: _renewed(item) for key, item in value.items()}, "added_since": {"deep": [1, None]}}
        case list():
            return [_renewed(item) for item in value]
        case str():
            return f"{value}-renewed"
    return value


@pytest.mark.parametrize("endpoint", ENDPOINTS, ids=lambda endpoint: endpoint.name)
def test_unknown_fields_and_unknown_words_are_read(endpoint: Endpoint) -> None:
    example = examples(endpoint.name)[0].request
    direct = msgspec.to_builtins(endpoint(msgspec.convert(example, endpoint.request)))
    service = _answers(200, _renewed(direct))
    answer = getattr(service, endpoint.name.replace("-", "_"))(**example)
    assert isinstance(answer, getattr(footvalve_client, endpoint.answer.__name__))
    assert answer.basis[0].step.endswith("-renewed")


def test_an_unknown_verdict_is_a_word_like_the_others() -> None:
    endpoint = ENDPOINT["suction-feasibility"]
    example: Any = examples(endpoint.name)[0].request
    direct = msgspec.to_builtins(endpoint(msgspec.convert(example, endpoint.request)))
    answer = _answers(200, {**direct, "verdict": "seasonal"}).suction_feasibility(**example)
    assert isinstance(answer, SuctionFeasibilityAnswer)
    assert str(answer.verdict) == "seasonal"


def test_an_unknown_unit_is_read_and_told_of_when_it_is_to_be_converted() -> None:
    length = msgspec.json.decode(b'{"value": 3, "unit": "yd", "uncertainty": 0.1}', type=Length)
    assert str(length) == "3 yd"
    for convert in (lambda: length.to("m"), lambda: length.quantity):
        with pytest.raises(QuantityError, match="this client does not know the unit 'yd'; a newer one may"):
            convert()


def test_a_problem_with_more_fields_is_read() -> None:
    problem = {
        "type": "/problems/new",
        "title": "New",
        "status": 422,
        "detail": "It is new.",
        "instance": "urn:uuid:1",
        "request_id": "r",
        "errors": [{"pointer": "/flow", "detail": "is odd", "hint": "less"}],
        "balance": 30,
    }
    with pytest.raises(Refused, match="/flow"):
        _answers(422, problem, "application/problem+json").friction(line=[])


def test_no_answer_has_to_know_its_members_by_a_tag() -> None:
    """An unknown tag of a union cannot be read, so answers have none."""
    tagged = [
        name
        for name in footvalve_client.__all__
        if isinstance(kind := getattr(footvalve_client, name), type)
        and issubclass(kind, msgspec.Struct)
        and kind.__module__.endswith("answers")
        and kind.__struct_config__.tag_field
    ]
    assert not tagged
