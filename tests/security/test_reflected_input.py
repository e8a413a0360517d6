"""What a caller sends comes back as text, never as markup or as a sentence that is not his."""

import json
from html.parser import HTMLParser
from xml.etree import ElementTree

import pytest

from footvalve.contract.examples import examples

JSON = {"content-type": "application/json"}
HOSTILE = [
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    "</title></style></svg><script>alert(1)</script>",
    "]]><svg onload=alert(1)>",
    "javascript:alert(1)",
    "{{7*7}}${7*7}<%= 7*7 %>",
    "&lt;script&gt;",
    "--><!--",
]
HARMFUL_TAGS = {"script", "img", "iframe", "object", "embed", "link", "base", "form", "foreignobject"}


def with_names(value, name):
    """A body in which every name is this one, each with a number where it must differ."""
    count = iter(range(10_000))

    def renamed(value):
        match value:
            case dict():
                return {k: f"{name} {next(count)}" if k == "name" else renamed(v) for k, v in value.items()}
            case list():
                return [renamed(item) for item in value]
        return value

    return renamed(value)


class Markup(HTMLParser):
    """The tags of a page with their attributes, and its text."""

    def __init__(self):
        super().__init__()
        self.tags, self.attributes, self.words = set(), {}, []

    def handle_starttag(self, tag, attributes):
        self.tags.add(tag)
        self.attributes |= {(tag, name): value for name, value in attributes}

    def handle_data(self, data):
        self.words.append(data)


def markup(text):
    parser = Markup()
    parser.feed(text)
    parser.close()
    return parser


@pytest.fixture(scope="module")
def plain(caller):
    """A sheet with harmless names, whose tags and attributes are all that any sheet may have."""
    return markup(sheet(caller, "pump").text)


def sheet(caller, name, accept="text/html"):
    body = json.dumps(with_names(examples("site-plan")[0].request, name))
    response = caller.post("/v1/site-plan", content=body, headers=JSON | {"accept": accept})
    assert response.status_code == 200, response.text
    return response


@pytest.mark.parametrize("name", HOSTILE)
def test_a_name_adds_nothing_to_a_sheet_but_its_text(caller, plain, name):
    page = markup(sheet(caller, name).text)
    assert page.tags == plain.tags
    assert not page.tags & HARMFUL_TAGS
    assert page.attributes.keys() == plain.attributes.keys()
    assert not [key for key in page.attributes if key[1].startswith("on")]
    assert name in "".join(page.words), "the name itself must be there to be read"


@pytest.mark.parametrize("name", HOSTILE)
def test_a_name_adds_nothing_to_a_drawing_but_its_text(caller, name):
    def drawn(name):
        root = ElementTree.fromstring(sheet(caller, name, "image/svg+xml").content)
        return [(element.tag, sorted(element.attrib)) for element in root.iter() if not element.tag.endswith("text")]

    kinds = {tag for tag, _ in drawn(name)}
    assert kinds == {tag for tag, _ in drawn("pump")}
    assert not [tag for tag in kinds if tag.rpartition("}")[2].lower() in HARMFUL_TAGS]
    assert not [key for _, attributes in drawn(name) for key in attributes if key.startswith("on")]


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("path", ["/{}", "/v1/tables/{}", "/problems/{}", "/embed/v1/demo?lang={}", "/docs?x={}"])
def test_a_path_comes_back_as_json_and_never_as_a_page(caller, path, text):
    response = caller.get(path.format(text), headers={"accept": "text/html"})
    assert response.status_code in {400, 404}
    assert response.headers["content-type"] == "application/problem+json"
    assert response.json()["status"] == response.status_code


@pytest.mark.parametrize("text", [*HOSTILE, "\u202e\u2066", "a\r\nSet-Cookie: x=1", "\x1b[2J", "\x00"])
def test_a_key_comes_back_in_one_line_that_can_be_read(caller, text):
    response = caller.post("/v1/friction", content=json.dumps({text: 1}), headers=JSON)
    problem = response.json()
    assert response.status_code == 400
    assert problem["detail"].isprintable()
    assert all(fault["detail"].isprintable() for fault in problem["errors"])
    assert "set-cookie" not in response.headers


@pytest.mark.parametrize("text", [b"a\tb", b"<b>", b"x" * 65, b"\xff", b"../.."])
def test_a_request_id_that_could_do_harm_is_not_given_back(caller, text):
    assert caller.get("/live", headers={"x-request-id": text}).headers["x-request-id"].encode() != text
