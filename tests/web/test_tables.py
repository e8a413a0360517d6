"""The tables over HTTP: kept by who has them, and sent again only where their bytes have changed."""

import hashlib

import jsonschema
import msgspec
import pytest

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.answers.tables import TABLES, table
from footvalve.contract.tables import AnyTable
from footvalve.web.document import contract_document

DOCUMENT = contract_document(ENDPOINTS)
OPERATION = DOCUMENT["paths"]["/v1/tables/{name}"]["get"]
JSON_200 = OPERATION["responses"]["200"]["content"]["application/json"]


@pytest.fixture(scope="module")
def read(send):
    def got(name, method="GET", **headers):
        headers = {key.replace("_", "-"): value for key, value in headers.items()}
        return send(method, f"/v1/tables/{name}", headers=headers)

    return got


@pytest.mark.parametrize("name", TABLES)
def test_a_table_comes_as_the_contract_has_it(read, name):
    response = read(name)
    assert response.status_code == 200
    assert response.headers["content-type"] == "application/json"
    assert msgspec.json.decode(response.content, type=AnyTable) == table(name)
    validator = jsonschema.Draft202012Validator({**JSON_200["schema"], "components": DOCUMENT["components"]})
    validator.validate(response.json())


@pytest.mark.parametrize("name", TABLES)
def test_the_tag_is_of_the_bytes_and_the_table_may_be_kept(read, name):
    response = read(name)
    assert response.headers["etag"] == f'"{hashlib.sha256(response.content).hexdigest()[:32]}"'
    assert response.headers["cache-control"] == "public, max-age=3600"
    assert read(name).headers["etag"] == response.headers["etag"]


def test_every_table_has_a_tag_of_its_own(read):
    assert len({read(name).headers["etag"] for name in TABLES}) == len(TABLES)


HOLDING = ["{0}", "W/{0}", '"x", {0}', '{0}, "x"', '"a,b",W/{0},"c"', " {0} ", "*", " * "]
NOT_HOLDING = ["", '"x"', "W/", "{1}", "W/{1}", '"x{1}"', '"{1}x"', '"{1}', '"x", "*"', '"x", *', "**", "\xff"]


@pytest.mark.parametrize("method", ["GET", "HEAD"])
@pytest.mark.parametrize("condition", HOLDING)
def test_who_holds_it_gets_a_304_with_the_same_headers_and_no_body(read, method, condition):
    whole = read("wires")
    response = read("wires", method, if_none_match=condition.format(whole.headers["etag"]))
    assert response.status_code == 304
    assert not response.content
    assert "content-type" not in response.headers
    for name in ("etag", "cache-control"):
        assert response.headers[name] == whole.headers[name]
    assert "x-request-id" in response.headers


@pytest.mark.parametrize("condition", NOT_HOLDING)
def test_who_holds_something_else_gets_the_table(read, condition):
    tag = read("wires").headers["etag"]
    response = read("wires", if_none_match=condition.format(tag, tag.strip('"')).encode("latin-1"))
    assert response.status_code == 200
    assert response.content


def test_tags_may_come_in_two_headers(send, read):
    tag = read("wires").headers["etag"]
    headers = [("if-none-match", '"x"'), ("if-none-match", tag)]
    assert send("GET", "/v1/tables/wires", headers=headers).status_code == 304


def test_the_tag_of_one_table_is_not_that_of_another(read):
    assert read("pipes", if_none_match=read("wires").headers["etag"]).status_code == 200


def test_head_tells_the_length(read):
    head, get = read("pipes", "HEAD"), read("pipes")
    assert head.status_code == 200
    assert not head.content
    assert int(head.headers["content-length"]) == len(get.content)


@pytest.mark.parametrize("name", ["pipe", "Pipes", "pumps", "pipes.json", "pipes/1", "..%2Fpipes", "%00", ""])
def test_there_is_no_other_table(read, name):
    response = read(name, if_none_match="*")
    assert response.status_code == 404
    assert response.json()["type"] == "/problems/not-found"


def test_a_table_is_not_acceptable_as_html_even_to_who_holds_it(read):
    response = read("pipes", accept="text/html", if_none_match="*")
    assert response.status_code == 406
    assert response.headers["cache-control"] == "no-store"


def test_the_document_names_every_table_and_tells_them_apart():
    (name,) = OPERATION["parameters"]
    assert name["schema"]["enum"] == list(TABLES)
    assert JSON_200["schema"]["discriminator"]["mapping"].keys() == set(TABLES)
    assert [part["$ref"] for part in JSON_200["schema"]["oneOf"]] == list(
        JSON_200["schema"]["discriminator"]["mapping"].values()
    )


def test_the_document_shows_a_table_as_the_service_sends_it(read):
    for name, example in JSON_200["examples"].items():
        assert example["value"] == read(name).json()
