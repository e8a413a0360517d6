"""A site plan leaves as JSON, as a sheet, or as its head profile, by what the request accepts."""

import json
from datetime import UTC, datetime
from xml.etree import ElementTree

import pytest

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.examples import examples
from footvalve.web.answer_forms import DRAWN
from footvalve.web.document import contract_document

PLAN = json.dumps(examples("site-plan")[0].request).encode()
JSON, HTML, SVG = "application/json", "text/html; charset=utf-8", "image/svg+xml"
BROWSER = "text/html,application/xhtml+xml,application/xml;q=0.9,image/avif,image/webp,*/*;q=0.8"


@pytest.mark.parametrize(
    ("accept", "content_type"),
    [
        ("", JSON),
        ("*/*", JSON),
        ("application/json", JSON),
        ("text/html", HTML),
        ("image/svg+xml", SVG),
        ("image/*", SVG),
        ("text/*", HTML),
        (BROWSER, HTML),
        ("text/html;q=0.4, application/json;q=0.5", JSON),
        ("text/html;q=0.5, application/json;q=0.4", HTML),
        ("image/svg+xml;q=0.9, text/html;q=0.8, */*;q=0.1", SVG),
        ("text/html, application/json", JSON),
        ("application/json;q=0, */*", HTML),
        ("text/html;q=0, application/json;q=0, */*;q=0.1", SVG),
        ("application/*;q=0.2, text/html;q=0.1", JSON),
    ],
)
def test_the_form_is_the_one_that_is_liked_best(post, accept, content_type):
    response = post("site-plan", PLAN, accept=accept)
    assert response.status_code == 200
    assert response.headers["content-type"] == content_type
    assert response.headers["vary"] == "Accept"
    assert int(response.headers["content-length"]) == len(response.content)


@pytest.mark.parametrize("accept", ["application/pdf", "image/png", "*/*;q=0", "text/plain"])
def test_another_form_is_not_to_be_had(post, accept):
    response = post("site-plan", PLAN, accept=accept)
    assert response.status_code == 406
    assert response.headers["content-type"] == "application/problem+json"


def test_the_sheet_is_todays_and_shut_off(post):
    before, response, after = datetime.now(UTC), post("site-plan", PLAN, accept="text/html"), datetime.now(UTC)
    assert any(f'datetime="{now.date().isoformat()}"' in response.text for now in (before, after))
    policy = response.headers["content-security-policy"]
    assert policy.startswith("default-src 'none'")
    assert "style-src 'sha256-" in policy
    assert response.headers["x-content-type-options"] == "nosniff"
    assert response.headers["x-request-id"]


def test_the_head_profile_is_a_drawing(post):
    response = post("site-plan", PLAN, accept="image/svg+xml")
    root = ElementTree.fromstring(response.text)
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert "default-src 'none'" in response.headers["content-security-policy"]


@pytest.mark.parametrize("accept", ["text/html", "image/svg+xml"])
@pytest.mark.parametrize(
    ("raw", "status"),
    [
        (b"{", 400),
        (b"{}", 400),
        (b"", 400),
        (
            json.dumps(examples("site-plan")[0].request | {"site": {"altitude": {"value": 2e4, "unit": "m"}}}).encode(),
            422,
        ),
    ],
)
def test_problems_are_json_whatever_is_accepted(post, accept, raw, status):
    response = post("site-plan", raw, accept=accept)
    assert response.status_code == status
    assert response.headers["content-type"] == "application/problem+json"
    assert response.json()["status"] == status


@pytest.mark.parametrize("example", examples("site-plan"), ids=lambda example: example.name)
@pytest.mark.parametrize("accept", ["text/html", "image/svg+xml"])
def test_every_example_has_every_form(post, example, accept):
    assert post("site-plan", json.dumps(example.request).encode(), accept=accept).status_code == 200


def test_the_other_endpoints_have_one_form(post):
    others = [endpoint.name for endpoint in ENDPOINTS if endpoint.name not in DRAWN]
    assert len(others) == len(ENDPOINTS) - len(DRAWN)
    for name in others:
        response = post(name, json.dumps(examples(name)[0].request).encode())
        assert "vary" not in response.headers


def test_the_contract_document_tells_all_forms():
    document = contract_document(ENDPOINTS)
    answer = document["paths"]["/v1/site-plan"]["post"]["responses"]["200"]
    assert list(answer["content"]) == ["application/json", "text/html", "image/svg+xml"]
    assert {"Vary", "Content-Security-Policy"} <= answer["headers"].keys()
    for media_type in ("text/html", "image/svg+xml"):
        assert answer["content"][media_type]["schema"]["type"] == "string"


def test_every_reference_of_the_contract_document_leads_somewhere():
    document = contract_document(ENDPOINTS)

    def references(node):
        if isinstance(node, dict):
            yield from [node["$ref"]] if isinstance(node.get("$ref"), str) else []
            for part in node.values():
                yield from references(part)
        elif isinstance(node, list):
            for part in node:
                yield from references(part)

    for reference in set(references(document)):
        target = document
        for part in reference.removeprefix("#/").split("/"):
            target = target[part]
        assert target
