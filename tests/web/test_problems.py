"""From exceptions to problem details: one table, no internals, and a page for each kind."""

import asyncio
import json
import logging
import uuid
from html import escape

import msgspec
import pytest

from footvalve.answers.endpoints import Endpoint
from footvalve.contract.friction import FrictionAnswer, FrictionRequest
from footvalve.contract.problem import Fault, Problem, Refused
from footvalve.contract.quantities import Flow, Length, Pressure
from footvalve.physics.method import OutsideDomain
from footvalve.web.application import create_app
from footvalve.web.problem_types import PROBLEM_TYPES
from footvalve.web.settings import Settings

BODY = (
    b'{"flow": {"value": 5, "unit": "gal/min"}, "line": [{"part": "resistance", "flow_coefficient": 5, "basis": "Cv"}]}'
)


@pytest.fixture
def answer_with(send_to):
    """Post a sound body to an endpoint that does what is given."""

    def answered(compute):
        endpoint = Endpoint("friction", "T", "D", FrictionRequest, FrictionAnswer, compute)
        send = send_to(create_app(Settings(), [endpoint]))
        return send("POST", "/v1/friction", content=BODY, headers={"content-type": "application/json"})

    return answered


def raising(error):
    def compute(_):
        raise error

    return compute


def test_what_nobody_foresaw_is_logged_and_told_without_internals(answer_with, caplog):
    response = answer_with(raising(KeyError("a secret of the inside")))
    assert response.status_code == 500
    problem = response.json()
    assert problem["type"] == "/problems/internal-error"
    assert "secret" not in response.text
    assert "KeyError" not in response.text
    logged = next(record for record in caplog.records if record.name == "footvalve.web.problems")
    assert logged.levelno == logging.ERROR
    assert problem["request_id"] in logged.getMessage()
    assert "a secret of the inside" in caplog.text


@pytest.mark.parametrize(
    "error", [ZeroDivisionError("x"), OverflowError("x"), OutsideDomain("x"), ArithmeticError("x")]
)
def test_what_cannot_be_reckoned_is_no_failure_of_the_service(answer_with, caplog, error):
    caplog.set_level(logging.INFO, "footvalve")
    response = answer_with(raising(error))
    assert response.status_code == 422
    assert response.json()["type"] == "/problems/beyond-reckoning"
    assert "errors" not in response.json()
    assert type(error).__name__ in caplog.text


def test_a_refusal_carries_all_its_faults(answer_with):
    faults = (Fault("/flow", "is too small"), Fault("/line/0", "is too long"))
    problem = answer_with(raising(Refused(*faults))).json()
    assert problem["status"] == 422
    assert problem["detail"] == "At /flow: is too small (and 1 more in `errors`)."
    assert msgspec.convert(problem["errors"], tuple[Fault, ...]) == faults


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_no_answer_ever_carries_a_number_that_is_not_finite(answer_with, number):
    def compute(_):
        return FrictionAnswer(
            flow=Flow(5.0, "gal/min"),
            total_head_loss=Length(number, "ft"),
            total_pressure_drop=Pressure(1.0, "psi"),
            parts=[],
            basis=[],
            cautions=[],
            warnings=[],
        )

    response = answer_with(compute)
    assert response.status_code == 422
    assert response.json()["type"] == "/problems/beyond-reckoning"


@pytest.mark.parametrize("number", [float("nan"), float("inf")])
def test_a_quantity_of_an_answer_is_never_made_of_a_number_that_is_not_finite(number):
    with pytest.raises(ArithmeticError, match="no finite number"):
        Length.from_base(number, "ft")


def test_a_name_that_reads_null_is_no_missing_number(send):
    body = BODY.replace(b'"part"', b'"name": "null", "part"')
    response = send("POST", "/v1/friction", content=body, headers={"content-type": "application/json"})
    assert response.status_code == 200
    assert response.json()["parts"][0]["name"] == "null"


@pytest.mark.parametrize("kind", PROBLEM_TYPES, ids=lambda kind: kind.slug)
def test_every_type_uri_answers_with_a_page(send, kind):
    page = send("GET", kind.uri, headers={"accept": "text/html,application/xhtml+xml,*/*;q=0.8"})
    assert page.headers["content-type"] == "text/html; charset=utf-8"
    assert page.headers["content-security-policy"].startswith("default-src 'none'")
    assert f"<h1>{escape(kind.title)}</h1>" in page.text
    data = send("GET", kind.uri, headers={"accept": "application/json"}).json()
    assert data == {"type": kind.uri, "title": kind.title, "status": kind.status, "remedy": kind.remedy}


def test_slugs_are_not_shared():
    slugs = [kind.slug for kind in PROBLEM_TYPES]
    assert len(set(slugs)) == len(slugs)


def test_a_problem_is_as_the_contract_has_it(send):
    problem = msgspec.json.decode(send("GET", "/x").content, type=Problem)
    assert uuid.UUID(problem.instance).version == 8
    assert uuid.UUID(problem.request_id).variant == uuid.RFC_4122


def test_a_host_header_that_is_none_is_a_bad_request(send):
    response = send("GET", "/live", headers={"host": "a b<script>"})
    assert response.status_code == 400
    assert response.json()["type"] == "/problems/bad-request"
    assert "<script>" not in response.text


def test_a_connection_that_ends_before_its_body_is_no_failure_of_the_service(app):
    """Straight at the ASGI border: no client library lets itself be cut off."""
    sent = []
    scope = {
        "type": "http",
        "method": "POST",
        "path": "/v1/friction",
        "query_string": b"",
        "headers": [(b"content-type", b"application/json")],
    }
    messages = iter([{"type": "http.request", "body": b"{", "more_body": True}, {"type": "http.disconnect"}])

    async def receive():
        return next(messages)

    async def send(message):
        sent.append(message)

    asyncio.run(app(scope, receive, send))
    assert sent[0]["status"] == 400
    assert json.loads(sent[1]["body"])["type"] == "/problems/bad-request"
