"""The contract document: it tells everything in full, and all that it tells is true."""

import re
from typing import get_args

import jsonschema
import pytest

from footvalve import __version__
from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.batch import BatchAnswer, BatchRequest
from footvalve.contract.battery_runtime import WireGauge
from footvalve.contract.examples import examples
from footvalve.contract.line import NominalSize
from footvalve.contract.problem import Problem
from footvalve.contract.ranges import Within
from footvalve.contract.tables import AnyTable
from footvalve.contract.unit_spelling import SPELLINGS
from footvalve.quantity import DIMENSIONS, to_base, wire_units
from footvalve.web.component_schemas import structs_in
from footvalve.web.document import contract_document, contract_text, operation_id
from footvalve.web.problem_types import PROBLEM_TYPES

DOCUMENT = contract_document(ENDPOINTS)
SCHEMAS = DOCUMENT["components"]["schemas"]
POSTS = {path: item["post"] for path, item in DOCUMENT["paths"].items() if "post" in item}
OPERATIONS = [(path, method, item[method]) for path, item in DOCUMENT["paths"].items() for method in item]


def resolved(node):
    """What a reference of the document points to; anything else as it is."""
    while "$ref" in node:
        target = DOCUMENT
        for part in node["$ref"].removeprefix("#/").split("/"):
            target = target[part]
        node = target
    return node


def validate(value, schema):
    """Against a schema of the document, with its references."""
    jsonschema.Draft202012Validator({**schema, "components": DOCUMENT["components"]}).validate(value)


def schemas_under(node):
    """Every object inside a part of the document."""
    if isinstance(node, dict):
        yield node
        for part in node.values():
            yield from schemas_under(part)
    elif isinstance(node, list):
        for part in node:
            yield from schemas_under(part)


def test_the_document_is_the_same_at_every_call():
    assert contract_text() == contract_text()


def test_the_service_gives_out_this_document(send):
    assert send("GET", "/openapi.json").json() == DOCUMENT


def test_the_version_is_the_packages():
    assert DOCUMENT["info"]["version"] == __version__


def test_no_server_is_named():
    assert [server["url"] for server in DOCUMENT["servers"]] == ["/"]


def test_every_schema_has_its_structs_name():
    """Two Structs share a name: rename one, or their schemas get the names of their modules."""
    roots = [kind for endpoint in ENDPOINTS for kind in (endpoint.request, endpoint.answer)]
    roots += [BatchRequest, BatchAnswer, *get_args(AnyTable)]
    names = [struct.__name__ for struct in structs_in(roots)]
    assert len(set(names)) == len(names)
    assert set(names) <= SCHEMAS.keys()


def test_every_endpoint_has_its_operation():
    assert POSTS.keys() == {"/v1/batch", *(f"/v1/{endpoint.name}" for endpoint in ENDPOINTS)}


@pytest.mark.parametrize(
    ("name", "identifier"),
    [("friction", "friction"), ("suction-feasibility", "suctionFeasibility"), ("a-b-cd", "aBCd")],
)
def test_an_operation_is_named_in_camel_case(name, identifier):
    assert operation_id(name) == identifier


def test_operations_are_told_apart():
    identifiers = [operation["operationId"] for _, _, operation in OPERATIONS]
    assert len(set(identifiers)) == len(identifiers)


@pytest.mark.parametrize(
    ("path", "method", "operation"), OPERATIONS, ids=lambda part: part if isinstance(part, str) else ""
)
def test_an_operation_is_told_in_full(path, method, operation):
    assert operation["summary"]
    assert operation["description"]
    assert operation["tags"][0] in {tag["name"] for tag in DOCUMENT["tags"]}
    expected = {"200", "400", "406", "408", "431", "500", "503"} | {
        "post": {"401", "403", "413", "415", "422", "429"},
        "get": {"404"} if "{" in path else set(),
    }[method]
    if path.startswith("/v1/tables/"):
        expected |= {"401", "403", "429"}
    if path in ("/", "/openapi.json") or path.startswith(("/v1/tables/", "/embed/", "/docs")):
        expected |= {"304"}
    assert operation["responses"].keys() == expected
    for status, response in zip(operation["responses"], map(resolved, operation["responses"].values()), strict=True):
        assert response["description"]
        assert "X-Request-Id" in response["headers"]
        if status == "304":
            assert "content" not in response
        else:
            assert (response["content"].keys() == {"application/problem+json"}) == (status != "200")


def test_every_status_of_a_problem_is_told_but_those_of_methods_which_belong_to_no_operation():
    told = {status for _, _, operation in OPERATIONS for status in operation["responses"]}
    assert {str(kind.status) for kind in PROBLEM_TYPES} - told == {"405", "501"}


@pytest.mark.parametrize("endpoint", ENDPOINTS, ids=lambda endpoint: endpoint.name)
def test_examples_keep_their_own_schema(endpoint):
    operation = POSTS[f"/v1/{endpoint.name}"]
    request = operation["requestBody"]["content"]["application/json"]
    answer = operation["responses"]["200"]["content"]["application/json"]
    assert request["examples"].keys() == answer["examples"].keys() == {e.name for e in examples(endpoint.name)}
    for example in request["examples"].values():
        validate(example["value"], request["schema"])
    for example in answer["examples"].values():
        validate(example["value"], answer["schema"])


@pytest.mark.parametrize("endpoint", ENDPOINTS, ids=lambda endpoint: endpoint.name)
def test_the_answers_of_the_examples_are_those_of_the_service(endpoint, send):
    operation = POSTS[f"/v1/{endpoint.name}"]
    for name, example in operation["requestBody"]["content"]["application/json"]["examples"].items():
        answer = send("POST", f"/v1/{endpoint.name}", json=example["value"]).json()
        assert answer == operation["responses"]["200"]["content"]["application/json"]["examples"][name]["value"]


@pytest.mark.parametrize("status", [400, 422])
@pytest.mark.parametrize("endpoint", ENDPOINTS, ids=lambda endpoint: endpoint.name)
def test_the_problems_of_the_examples_are_those_of_the_service(endpoint, status, send):
    spoiled = {
        400: {"units": "imperial", "site": {"altitude": 300}},
        422: {"site": {"altitude": {"value": 20_000, "unit": "m"}}},
    }[status]
    answer = send("POST", f"/v1/{endpoint.name}", json=examples(endpoint.name)[0].request | spoiled).json()
    content = POSTS[f"/v1/{endpoint.name}"]["responses"][str(status)]["content"]["application/problem+json"]
    (example,) = content["examples"].values()
    validate(example["value"], content["schema"])
    varying = ("instance", "request_id")
    assert {k: v for k, v in answer.items() if k not in varying} == {
        k: v for k, v in example["value"].items() if k not in varying
    }


def test_requests_are_closed():
    """A field that the service refuses must not pass the schema."""
    for struct in structs_in([BatchRequest, *(endpoint.request for endpoint in ENDPOINTS)]):
        assert SCHEMAS[struct.__name__]["additionalProperties"] is False, struct.__name__


def test_every_field_is_described_or_refers_to_what_is():
    bare = [
        f"{name}.{field}"
        for name, schema in SCHEMAS.items()
        for field, told in schema["properties"].items()
        if not ({"description", "$ref", "const"} & told.keys()) and field != "unit"
    ]
    assert bare == []


def test_choices_have_a_type_and_single_choices_are_constants():
    kinds = {"string": str, "integer": int}
    for schema in schemas_under(SCHEMAS):
        choices = schema.get("enum")
        if isinstance(choices, list):
            assert all(isinstance(choice, kinds[schema["type"]]) for choice in choices)
            assert len(choices) > 1


def test_ranges_are_told_in_words_and_for_machines():
    altitude = SCHEMAS["Site"]["properties"]["altitude"]
    assert altitude["x-range"] == {"low": -500.0, "high": 5000.0, "unit": "m"}
    assert altitude["description"].endswith("From -1640 to 16400 ft (-500 to 5000 m).")
    flows = SCHEMAS["FrictionRequest"]["properties"]["flows"]
    assert flows["items"]["x-range"]["unit"] == "m^3/s"
    assert "Each from 0.00159 to 1580 gal/min (0.006 to 6000 L/min)." in flows["description"]


def test_the_ends_of_a_told_range_are_inside_it():
    """Whoever sends what the description names is not refused."""
    for schema in schemas_under(SCHEMAS):
        ranged = schema.get("items", schema) if isinstance(schema.get("items", schema), dict) else {}
        if "x-range" in ranged and isinstance(schema.get("description"), str):
            told = re.search(r"rom (\S+)(?: (\S+))? to (\S+) ([^\s.]+)", schema["description"])
            low, low_unit, high, unit = told.groups()
            assert to_base(float(low), low_unit or unit) >= ranged["x-range"]["low"] - 1e-9
            assert to_base(float(high), unit) <= ranged["x-range"]["high"] * (1 + 1e-9) + 1e-9


def test_choices_stand_in_the_order_of_the_contract():
    """As text, 1-1/4 would come before 1/2."""
    assert SCHEMAS["PipeSize"]["properties"]["nominal"]["enum"] == list(get_args(NominalSize))
    assert SCHEMAS["Wire"]["properties"]["gauge"]["enum"] == list(get_args(WireGauge))
    assert SCHEMAS["Length"]["properties"]["unit"]["enum"] == list(wire_units("Length"))


def test_no_description_holds_the_indent_of_the_source():
    for schema in schemas_under(SCHEMAS):
        if isinstance(schema.get("description"), str):
            assert schema["description"] == " ".join(schema["description"].split())


def test_every_quantity_shows_how_it_is_written():
    for name in DIMENSIONS:
        unit = SCHEMAS[name]["properties"]["unit"]
        assert unit["x-spellings"] == SPELLINGS[name]
        for example in SCHEMAS[name]["examples"]:
            validate(example, SCHEMAS[name])


def test_the_file_holds_no_character_that_cannot_be_seen():
    assert all(character.isprintable() or character == "\n" for character in contract_text())


def test_every_range_of_the_code_is_published():
    declared = sum(
        str(hint).count(Within.__name__ + "(")
        for struct in structs_in([endpoint.request for endpoint in ENDPOINTS])
        for hint in struct.__annotations__.values()
    )
    published = sum("x-range" in schema for schema in schemas_under(SCHEMAS))
    assert published >= declared > 50


def test_patterns_are_read_alike_by_other_languages():
    for schema in schemas_under(SCHEMAS):
        if isinstance(schema.get("pattern"), str):
            assert re.compile(schema["pattern"])
            assert schema["pattern"].startswith("^")


def test_a_problem_has_the_members_of_rfc_9457():
    properties = SCHEMAS[Problem.__name__]["properties"]
    assert {"type", "title", "status", "detail", "instance", "request_id", "errors"} == properties.keys()
