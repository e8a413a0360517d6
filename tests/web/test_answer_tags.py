"""The tag of an answer: as long as it is the same, so is the answer (RFC 9110, section 8.8.3)."""

import json

import pytest

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.examples import examples

NAMES = [endpoint.name for endpoint in ENDPOINTS]


def asked(post, name, request, **headers):
    response = post(name, json.dumps(request).encode(), **headers)
    assert response.status_code == 200
    return response


@pytest.mark.parametrize("name", NAMES)
def test_the_tag_is_that_of_the_question_however_it_is_spelled(post, name):
    request = examples(name)[0].request
    other = dict(reversed(request.items())) | {"units": request.get("units", "us")}
    assert asked(post, name, request).headers["etag"] == asked(post, name, other).headers["etag"]


@pytest.mark.parametrize("name", NAMES)
def test_another_answer_has_another_tag(post, name):
    tags = {asked(post, name, example.request).headers["etag"] for example in examples(name)}
    assert len(tags) == len(examples(name))
    assert all(tag.startswith('"') for tag in tags), "a weak tag"


@pytest.mark.parametrize("name", NAMES)
def test_an_answer_is_the_callers_alone(post, name):
    assert asked(post, name, examples(name)[0].request).headers["cache-control"] == "private, no-cache"


def test_so_is_that_of_a_batch(post):
    assert asked(post, "batch", examples("batch")[0].request).headers["cache-control"] == "private, no-cache"


@pytest.mark.parametrize("accept", ["text/html", "image/svg+xml"])
def test_what_is_drawn_has_no_tag_and_is_the_callers_alone(post, accept):
    headers = asked(post, "site-plan", examples("site-plan")[0].request, accept=accept).headers
    assert "etag" not in headers
    assert headers["cache-control"] == "private, no-cache"


def test_a_tag_that_is_sent_back_with_a_question_changes_nothing(post):
    request = examples("friction")[0].request
    first = asked(post, "friction", request)
    again = asked(post, "friction", request, if_none_match=first.headers["etag"])
    assert again.content == first.content
