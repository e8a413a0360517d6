"""A newer service does not break this client: what it adds is passed over, and what it renames in a list is a word."""

import random
from collections.abc import Callable
from functools import cache
from typing import Any, NamedTuple

import httpx
import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import footvalve_client
from footvalve.answers.endpoints import ENDPOINT, ENDPOINTS
from footvalve.answers.tables import TABLES
from footvalve.contract.examples import examples
from footvalve_client import Footvalve, Length, Problem, QuantityError, Refused, SuctionFeasibilityAnswer

PROBLEM_JSON = "application/problem+json"


def _answers(status: int, body: Any, media_type: str = "application/json") -> Footvalve:
    response = httpx.Response(status, content=msgspec.json.encode(body), headers={"content-type": media_type})
    transport = httpx.MockTransport(lambda _: response)
    return Footvalve("http://footvalve.test", http_client=httpx.Client(transport=transport))


class Asked(NamedTuple):
    """A question, as the client asks it and as HTTP carries it."""

    ask: Callable[[Footvalve], Any]
    path: str
    body: Any = None


def _to_table(name: Any) -> Asked:
    return Asked(lambda service: service.table(name), f"/v1/tables/{name}")


def _to_endpoint(name: str, body: dict[str, Any]) -> Asked:
    return Asked(lambda service: getattr(service, name.replace("-", "_"))(**body), f"/v1/{name}", body)


ASKED = {
    "index": Asked(lambda service: service.index(), "/"),
    "live": Asked(lambda service: service.live(), "/live"),
    "ready": Asked(lambda service: service.ready(), "/ready"),
    "batch": _to_endpoint(
        "batch", {"items": [{"id": name, "endpoint": name, "body": examples(name)[0].request} for name in ENDPOINT]}
    ),
    **{f"the table of {name}": _to_table(name) for name in TABLES},
    **{
        f"{endpoint.name}-{example.name}": _to_endpoint(endpoint.name, example.request)
        for endpoint in ENDPOINTS
        for example in examples(endpoint.name)
    },
}

every_answer = pytest.mark.parametrize("name", ASKED)


@cache
def _today(base_url: str, name: str) -> Any:
    """What the service of today answers, as JSON has it."""
    _, path, body = ASKED[name]
    answer = httpx.request("GET" if body is None else "POST", base_url + path, json=body)
    assert answer.is_success, answer.text
    return answer.json()


def _read(name: str, body: Any) -> Any:
    """What the client makes of an answer."""
    return ASKED[name].ask(_answers(200, body))


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=9),
    lambda inner: st.lists(inner, max_size=2) | st.dictionaries(st.text(max_size=9), inner, max_size=2),
    max_leaves=5,
)


def _with_more(body: Any, drawn: random.Random, value: Any) -> Any:
    """The body with more fields in some of its objects."""
    match body:
        case dict():
            grown = {key: _with_more(item, drawn, value) for key, item in body.items()}
            return {f"added_since_{drawn.random()}": value, **grown} if drawn.random() < 0.5 else grown
        case list():
            return [_with_more(item, drawn, value) for item in body]
    return body


def _with_other_words(body: Any, drawn: random.Random, word: str) -> Any:
    """The body with another word in some of the places that hold one."""
    match body:
        case dict():
            return {key: _with_other_words(item, drawn, word) for key, item in body.items()}
        case list():
            return [_with_other_words(item, drawn, word) for item in body]
        case str():
            return word if drawn.random() < 0.5 else body
    return body


@every_answer
def test_unknown_fields_change_nothing(base_url: str, name: str) -> None:
    today = _today(base_url, name)

    def known(answer: Any) -> Any:
        """Without the bodies of a batch, which are left as the service sends them."""
        return [(item.id, item.status) for item in answer.items] if name == "batch" else answer

    @settings(max_examples=10)
    @given(drawn=st.randoms(use_true_random=False), value=ANYTHING)
    def holds(drawn: random.Random, value: Any) -> None:
        assert known(_read(name, _with_more(today, drawn, value))) == known(_read(name, today))

    holds()


@every_answer
def test_an_unknown_word_is_read_as_it_is_sent(base_url: str, name: str) -> None:
    """In every place that holds one: a word of a closed list too is a text at run time."""
    known = msgspec.to_builtins(_read(name, _today(base_url, name)))

    @settings(max_examples=10)
    @given(drawn=st.randoms(use_true_random=False), word=st.text(max_size=9))
    def holds(drawn: random.Random, word: str) -> None:
        other = _with_other_words(known, drawn, word)
        assert msgspec.to_builtins(_read(name, other)) == other

    holds()


class _Everywhere(random.Random):
    """Draws so that nothing is left as it was."""

    def random(self) -> float:
        return 0.0


@every_answer
def test_all_may_be_new_at_once(base_url: str, name: str) -> None:
    other = _with_other_words(_today(base_url, name), _Everywhere(), "renewed")
    answer = _read(name, _with_more(other, _Everywhere(), {"deep": [1, None]}))
    assert type(answer) is type(_read(name, _today(base_url, name)))
    assert "renewed" in msgspec.json.encode(answer).decode()


@settings(max_examples=30)
@given(drawn=st.randoms(use_true_random=False), value=ANYTHING, word=st.text(max_size=9))
def test_a_problem_of_another_kind_with_more_fields_is_a_problem(drawn: random.Random, value: Any, word: str) -> None:
    errors = [{"pointer": "/flow", "detail": "is odd"}]
    problem = {"type": "/t", "title": "T", "status": 422, "detail": "D", "instance": "i", "request_id": "r"}
    other = _with_other_words({**problem, "errors": errors}, drawn, word)
    with pytest.raises(Refused) as raised:
        _answers(422, _with_more(other, drawn, value), PROBLEM_JSON).friction(line=[])
    assert raised.value.problem == msgspec.convert(other, Problem)
    assert str(raised.value)


def test_an_unknown_verdict_is_a_word_like_the_others() -> None:
    endpoint = ENDPOINT["suction-feasibility"]
    example: Any = examples(endpoint.name)[0].request
    direct = msgspec.to_builtins(endpoint(msgspec.convert(example, endpoint.request)))
    answer = _answers(200, {**direct, "verdict": "seasonal"}).suction_feasibility(**example)
    assert isinstance(answer, SuctionFeasibilityAnswer)
    assert str(answer.verdict) == "seasonal"


def test_an_unknown_unit_is_read_and_told_of_when_it_is_to_be_converted() -> None:
    length = msgspec.json.decode(b'{"value": 3, "unit": "yd", "confidence": 0.1}', type=Length)
    assert str(length) == "3 yd"
    for convert in (lambda: length.to("m"), lambda: length.quantity):
        with pytest.raises(QuantityError, match="this client does not know the unit 'yd'; a newer one may"):
            convert()


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
