"""What other people's pages load: a script that is held to its bytes, its texts, and pages that load nothing else."""

import base64
import gzip
import hashlib
import json
import re
from html.parser import HTMLParser
from importlib.resources import files
from pathlib import Path
from urllib.parse import urljoin

import pytest

from footvalve.answers.tables import table
from footvalve.contract.examples import examples
from footvalve.quantity import DIMENSIONS, wire_units
from footvalve.web.application import create_app
from footvalve.web.embed_demo import DEMO_LANGUAGES
from footvalve.web.embed_script import embed_script
from footvalve.web.embed_texts import BadTexts, check_texts, texts_by_language
from footvalve.web.settings import Settings

FOLDER = files("footvalve").joinpath("embed")
SCRIPT = embed_script().source
PAGES = [
    *(f"/embed/v1/demo?lang={language}" for language in DEMO_LANGUAGES),
    "/embed/v1/demo",
    "/embed/v1/site-sheet",
    "/docs",
]
TEXTS = texts_by_language()


class Page(HTMLParser):
    """The elements of a page, each with its attributes, and whether a script or style has text inside."""

    def __init__(self, html):
        super().__init__()
        self.elements, self.inline, self._last = [], [], ""
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self._last = tag
        self.elements.append((tag, dict(attrs)))

    def handle_data(self, data):
        if self._last in ("script", "style") and data.strip():
            self.inline.append(data)

    def attributes(self, tag):
        return [attributes for name, attributes in self.elements if name == tag]


def policy(response):
    directives = (part.strip().split(" ", 1) for part in response.headers["content-security-policy"].split(";"))
    return {name: "".join(sources) for name, *sources in directives}


def test_both_addresses_hold_the_script(send):
    told = send("GET", "/embed/v1/integrity.json").json()
    for address in ("/embed/v1/suction-check.js", told["script"]):
        response = send("GET", address)
        assert response.content == SCRIPT
        assert response.headers["content-type"] == "text/javascript; charset=utf-8"
        assert response.headers["cross-origin-resource-policy"] == "cross-origin"
        assert response.headers["x-content-type-options"] == "nosniff"


def test_the_script_is_the_file_without_its_comments_and_air():
    lines = [line.strip() for line in FOLDER.joinpath("suction-check.js").read_text("utf-8").splitlines()]
    written = [line for line in lines if not line.startswith(("/**", "*", "//")) or line.startswith("* {")]
    assert len(lines) - len(written) > 100
    assert re.sub(r"\s", "", SCRIPT.decode()) == re.sub(r"\s", "", "".join(written))


def test_what_the_script_says_and_matches_keeps_its_spaces():
    source = re.sub(
        r"^ *(/\*\*.*?\*/|//[^\n]*)\n", "", FOLDER.joinpath("suction-check.js").read_text("utf-8"), flags=re.M | re.S
    )
    served = SCRIPT.decode()
    texts = re.findall(r"'(?:\\.|[^'\\\n])*'|`[^`\n]*`", source)
    assert len(texts) > 500
    assert [text for text in texts if text not in served] == []
    expressions = re.findall(r"(?<=[=(:] )/[^/ ].*/[gu]*(?=;)|(?<=\()/.*?/[giu]*(?=[.,)])", source)
    assert len(expressions) > 10
    assert [expression for expression in expressions if expression not in served] == []


def test_words_and_signs_of_the_script_stay_apart():
    """Where the air between two of them is needed, some is left."""
    parts = re.findall(
        r"\b(?:const|let|return|await|async|class|new|static|get|of|in|throw|else) ?\w+", SCRIPT.decode()
    )
    assert {"const NAME", "class SuctionCheck", "async begin", "get key", "return undefined"} <= set(parts)
    assert not re.search(r"//|/\*", re.sub(r"'[^'\n]*'|`[^`]*`", "", SCRIPT.decode()))


def test_no_string_of_the_script_runs_over_lines():
    """Else the indents that are left out would be missed."""
    source = FOLDER.joinpath("suction-check.js").read_text("utf-8")
    texts = re.findall(r"`[^`]*`", re.sub(r"/\*\*.*?\*/", "", source, flags=re.DOTALL))
    assert len(texts) > 50
    assert [text for text in texts if "\n" in text] == []


def test_the_script_and_its_look_are_small_enough_for_a_phone():
    assert len(gzip.compress(SCRIPT, 9)) < 15_000
    assert len(gzip.compress(FOLDER.joinpath("suction-check.css").read_bytes(), 9)) < 2_000


def test_the_look_is_read_from_pages_of_others_and_loads_nothing(send):
    response = send("GET", "/embed/v1/suction-check.css")
    assert response.content == FOLDER.joinpath("suction-check.css").read_bytes()
    assert response.headers["content-type"] == "text/css; charset=utf-8"
    assert response.headers["cross-origin-resource-policy"] == "cross-origin"
    assert response.headers["cache-control"] == "public, max-age=300"
    assert not re.search(r"url\(|@import", response.text)


def test_the_hash_is_that_of_the_bytes_and_stands_in_the_address(send):
    told = send("GET", "/embed/v1/integrity.json").json()
    digest = hashlib.sha384(SCRIPT)
    assert told["integrity"] == "sha384-" + base64.b64encode(digest.digest()).decode()
    assert told["script"] == f"/embed/v1/suction-check.{digest.hexdigest()[:16]}.js"
    (script,) = Page(told["tag"]).attributes("script")
    assert script == {"type": "module", "src": told["script"], "integrity": told["integrity"], "crossorigin": None}


def test_the_address_with_the_hash_is_kept_for_good_and_the_others_for_minutes(send):
    told = send("GET", "/embed/v1/integrity.json")
    assert told.headers["cache-control"] == "public, max-age=300"
    assert send("GET", "/embed/v1/suction-check.js").headers["cache-control"] == "public, max-age=300"
    assert send("GET", told.json()["script"]).headers["cache-control"] == "public, max-age=31536000, immutable"


def test_the_tag_is_ready_where_the_public_origin_is_known(send_to):
    send = send_to(create_app(Settings.from_environment({"FOOTVALVE_PUBLIC_ORIGIN": "https://water.example"})))
    told = send("GET", "/embed/v1/integrity.json").json()
    assert told["script"].startswith("https://water.example/embed/v1/suction-check.")
    assert f'src="{told["script"]}"' in told["tag"]
    assert send("GET", told["script"].removeprefix("https://water.example")).content == SCRIPT


@pytest.mark.parametrize("mark", ["0123456789abcdef", "", "..", hashlib.sha384(SCRIPT).hexdigest()[:15]])
def test_another_hash_leads_nowhere(send, mark):
    response = send("GET", f"/embed/v1/suction-check.{mark}.js")
    assert response.status_code == 404
    assert response.headers["content-type"] == "application/problem+json"
    assert response.headers["cache-control"] == "no-store"


@pytest.mark.parametrize("accept", ["*/*", "text/javascript", "application/javascript, */*;q=0.5"])
def test_a_script_is_given_to_who_admits_it(send, accept):
    assert send("GET", "/embed/v1/suction-check.js", headers={"accept": accept}).status_code == 200


def test_who_admits_no_script_gets_none(send):
    response = send("GET", "/embed/v1/suction-check.js", headers={"accept": "text/html"})
    assert response.status_code == 406
    assert "text/javascript" in response.json()["detail"]


def test_every_language_is_listed_and_served(send):
    listed = send("GET", "/embed/v1/texts").json()["languages"]
    assert listed == list(TEXTS)
    assert {"en", "es"} <= set(listed)
    for language in listed:
        response = send("GET", f"/embed/v1/texts/{language}.json")
        assert response.headers["content-type"] == "application/json"
        assert response.headers["cross-origin-resource-policy"] == "cross-origin"
        assert response.json() == json.loads(FOLDER.joinpath("texts", f"{language}.json").read_text("utf-8"))


@pytest.mark.parametrize("name", ["fr.json", "EN.json", "en", "en.JSON", "..%2Fdemo.json", "en.json%00"])
def test_a_language_without_texts_leads_nowhere(send, name):
    assert send("GET", f"/embed/v1/texts/{name}").status_code == 404


def test_texts_in_every_language_have_the_english_keys_and_fill_in_the_same():
    check_texts(TEXTS)
    filled_in = {language: filled(json.loads(raw)) for language, raw in TEXTS.items()}
    for language, places in filled_in.items():
        same = {pointer: places[pointer] for pointer in filled_in["en"]}
        assert same == filled_in["en"], f"{language}.json fills in something else than en.json"


@pytest.mark.parametrize("language", TEXTS)
def test_a_language_puts_only_cautions_and_units_of_the_service_into_its_own_words(language):
    texts = json.loads(TEXTS[language])
    codes = {caution.code for caution in table("cautions").rows}
    assert texts.get("cautions", {}).keys() <= codes
    assert texts["units"].keys() <= {unit for dimension in DIMENSIONS for unit in wire_units(dimension)}


@pytest.mark.parametrize("language", TEXTS)
def test_a_language_offers_the_choices_in_the_order_of_the_english_texts(language):
    """The first of them is taken where nothing is chosen."""
    fields, english = (json.loads(TEXTS[each])["fields"] for each in (language, "en"))
    for name, field in english.items():
        assert list(fields[name].get("options", {})) == list(field.get("options", {}))
    assert next(iter(fields["side"]["options"])) == "unset"


@pytest.mark.parametrize("language", TEXTS)
def test_a_spelling_belongs_to_one_unit_of_the_wire(language):
    spellings = json.loads(TEXTS[language])["spellings"]
    assert spellings.keys() <= {unit for dimension in DIMENSIONS for unit in wire_units(dimension)}
    spelled = [word for words in spellings.values() for word in words.split(" ")]
    assert "" not in spelled
    assert len(spelled) == len(set(spelled))
    assert all(word == word.lower() for word in spelled)
    for unit, words in spellings.items():
        assert unit.lower() in words.split(" ")


def test_every_doubt_that_has_words_of_its_own_is_one_of_the_service():
    """A piece of the service's sentence tells which doubt it is: it must stand in the service's source."""
    sources = Path(str(files("footvalve"))).glob("[acp]*/*.py")
    said = " ".join("".join(re.findall(r'"([^"\n]*)"', file.read_text("utf-8"))) for file in sources)
    assert [piece for piece in json.loads(TEXTS["en"])["doubts"] if piece not in said] == []


@pytest.mark.parametrize("language", TEXTS)
def test_a_homeowner_hears_of_no_policy(language):
    assert "policy" not in TEXTS[language].decode().lower()


@pytest.mark.parametrize("language", TEXTS)
def test_a_unit_has_one_name_or_one_for_each_number_of_the_language(language):
    """As CLDR names them; `other` goes for those that are not told."""
    for name in json.loads(TEXTS[language])["units"].values():
        if not isinstance(name, str):
            assert {"other"} <= name.keys() <= {"zero", "one", "two", "few", "many", "other"}


def test_the_check_and_the_demo_call_suction_by_one_word():
    spanish = TEXTS["es"].decode() + FOLDER.joinpath("demo.json").read_text("utf-8")
    assert "succión" in spanish
    assert "aspiraci" not in spanish


def filled(texts, pointer=""):
    """By JSON Pointer, what each text has filled in."""
    if isinstance(texts, str):
        return {pointer: sorted(set(re.findall(r"\{\w+\}", texts)))}
    pairs = texts.items() if isinstance(texts, dict) else enumerate(texts)
    return {key: places for name, part in pairs for key, places in filled(part, f"{pointer}/{name}").items()}


def test_a_language_may_put_what_the_service_says_into_its_own_words():
    check_texts({"en": b'{"a": "x"}', "es": b'{"a": "x", "cautions": {"frost": "y"}, "units": {"ft": "pies"}}'})


@pytest.mark.parametrize(
    ("other", "told"),
    [
        (b'{"a": "x"}', "the texts es.json lack /b/0, /b/1"),
        (b'{"a": "x", "b": ["x"]}', "the texts es.json lack /b/1"),
        (b'{"a": {"e": "x"}, "b": ["x", "y"]}', "the texts es.json lack /a"),
        (b'{"a": "x", "b": ["x", "y"], "c": {"d": "z"}}', "the texts es.json have /c/d, which en.json has not"),
        (b"{", "the texts es.json are not JSON"),
    ],
)
def test_texts_that_do_not_go_together_are_told(other, told):
    with pytest.raises(BadTexts, match=f"^{re.escape(told)}"):
        check_texts({"en": b'{"a": "x", "b": ["x", "y"]}', "es": other})


def test_a_file_of_texts_is_named_after_a_language():
    with pytest.raises(BadTexts, match="not notes"):
        check_texts({"en": b"{}", "notes": b"{}"})


@pytest.mark.parametrize("path", PAGES)
def test_a_page_loads_nothing_inline_and_nothing_from_elsewhere(send, path):
    response = send("GET", path)
    assert response.headers["content-type"] == "text/html; charset=utf-8"
    assert response.headers["cache-control"] == "no-cache"
    assert response.headers["referrer-policy"] == "no-referrer"
    directives = policy(response)
    for name in ("default-src", "base-uri", "form-action", "frame-ancestors"):
        assert directives[name] == "'none'"
    for name in ("script-src", "connect-src"):
        assert directives[name] == "'self'"
    assert "unsafe" not in response.headers["content-security-policy"]
    page = Page(response.text)
    assert page.inline == []
    for _, attributes in page.elements:
        assert not any(name == "style" or name.startswith("on") for name in attributes)
        for name in ("src", "href"):
            assert not attributes.get(name, "").startswith(("http", "//"))


@pytest.mark.parametrize("path", PAGES)
def test_what_a_page_loads_is_there_with_its_type(send, path):
    page = Page(send("GET", path).text)
    styles = [link["href"] for link in page.attributes("link") if link["rel"] == "stylesheet"]
    scripts = [script["src"] for script in page.attributes("script")]
    assert styles
    assert scripts
    for address, media_type in [*((style, "text/css") for style in styles), *((s, "text/javascript") for s in scripts)]:
        response = send("GET", urljoin(path, address))
        assert response.status_code == 200
        assert response.headers["content-type"] == f"{media_type}; charset=utf-8"


def test_the_sheet_may_bring_its_own_style_to_its_page(send):
    """The page puts the sheet that the service draws into itself: its style must be the one that is allowed."""
    plan = examples("site-plan")[0].request
    sheet = send("POST", "/v1/site-plan", json=plan, headers={"accept": "text/html"})
    (style,) = Page(sheet.text).inline
    allowed = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    assert policy(send("GET", "/embed/v1/site-sheet"))["style-src"] == f"'self' 'sha256-{allowed}'"
    assert 'style="' not in sheet.text


@pytest.mark.parametrize("path", ["/problems/schema"])
def test_a_page_without_a_program_loads_nothing(send, path):
    response = send("GET", path, headers={"accept": "text/html"})
    assert set(policy(response).values()) == {"'none'"}
    assert policy(response).keys() == {"default-src", "base-uri", "form-action", "frame-ancestors"}


@pytest.mark.parametrize("language", DEMO_LANGUAGES)
def test_the_demo_speaks_its_language_and_shows_two_pumps(send, language):
    page = Page(send("GET", f"/embed/v1/demo?lang={language}").text)
    assert page.attributes("html") == [{"lang": language}]
    checks = page.attributes("footvalve-suction-check")
    assert len(checks) == 2
    for check in checks:
        assert check["pump-name"]
        assert "rated-lift" in check or "npsh-required" in check
        assert re.fullmatch(r"\d+ (gal|L)/min", check["flow"])
        assert check["pump-style"] in ("rotary", "centrifugal")
    (other,) = (link for link in page.attributes("a"))
    assert send("GET", f"/embed/v1/demo{other['href']}").status_code == 200
    assert other["lang"] != language


def test_the_demo_loads_the_script_that_is_held_to_its_bytes(send):
    assert send("GET", "/embed/v1/integrity.json").json()["tag"] in send("GET", "/embed/v1/demo").text


def test_the_demo_is_in_english_where_nothing_is_asked(send):
    assert send("GET", "/embed/v1/demo").content == send("GET", "/embed/v1/demo?lang=en").content


@pytest.mark.parametrize(
    "query", ["lang=fr", "lang=", "lang", "lang=es&lang=es", "lang=ES", "a=b", "lang=es&a=b", "lang=%65s"]
)
def test_the_demo_takes_no_other_query(send, query):
    response = send("GET", f"http://service.test/embed/v1/demo?{query}")
    assert response.status_code == 400
    assert response.json()["type"] == "/problems/unknown-query"
    assert "?lang=en or ?lang=es" in response.json()["detail"]
