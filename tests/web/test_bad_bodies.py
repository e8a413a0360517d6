"""Bad bodies as raw bytes, on every endpoint: the right status, problem details, and a pointer to the field."""

import json

import pytest

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.examples import examples

NAMES = [endpoint.name for endpoint in ENDPOINTS]
PLACEHOLDER = '"@"'


def sound(endpoint, **changes):
    """The first example of an endpoint with some members changed, as text."""
    return json.dumps(examples(endpoint)[0].request | changes)


def with_altitude(endpoint, altitude):
    """A sound body but for the altitude, which is written as given."""
    return sound(endpoint, site={"altitude": "@"}).replace(PLACEHOLDER, altitude).encode()


def with_altitude_value(endpoint, value):
    return with_altitude(endpoint, f'{{"value": {value}, "unit": "m"}}')


def assert_problem(response, status, slug, pointer=None):
    assert response.status_code == status, response.text
    assert response.headers["content-type"] == "application/problem+json"
    assert response.headers["cache-control"] == "no-store"
    problem = response.json()
    assert problem["type"] == f"/problems/{slug}"
    assert problem["status"] == status
    assert problem["request_id"] == response.headers["x-request-id"]
    assert "Traceback" not in response.text
    if pointer is not None:
        assert pointer in [error["pointer"] for error in problem["errors"]], problem
    return problem


@pytest.mark.parametrize("name", NAMES)
def test_a_sound_body_is_answered(post, name):
    response = post(name, sound(name).encode())
    assert response.status_code == 200, response.text
    assert response.headers["content-type"] == "application/json"
    assert {"basis", "cautions", "warnings"} <= response.json().keys()


NO_NUMBER = {
    "a string": '"5"',
    "beyond a double": "1e400",
    "beyond a double, below zero": "-1e400",
    "five thousand digits": "9" * 5000,
    "beyond the contract": "1e10",
    "true": "true",
    "null": "null",
    "an array": "[5]",
    "an object": "{}",
}


@pytest.mark.parametrize("value", NO_NUMBER.values(), ids=NO_NUMBER)
@pytest.mark.parametrize("name", NAMES)
def test_what_is_no_number_is_pointed_to(post, name, value):
    assert_problem(post(name, with_altitude_value(name, value)), 400, "schema", "/site/altitude/value")


@pytest.mark.parametrize("name", NAMES)
def test_a_number_outside_its_range_is_refused_by_physics(post, name):
    problem = assert_problem(post(name, with_altitude_value(name, 20_000)), 422, "refused", "/site/altitude")
    assert problem["errors"][0]["detail"] == "20000 m is outside the range from -500 to 5000 m"


@pytest.mark.parametrize("name", NAMES)
def test_a_bare_number_is_no_quantity(post, name):
    problem = assert_problem(post(name, with_altitude(name, "300")), 400, "schema", "/site/altitude")
    assert '{"value": 300, "unit": "m"}' in problem["errors"][0]["detail"]


@pytest.mark.parametrize("name", NAMES)
def test_a_unit_of_another_dimension_is_pointed_to_with_the_units_that_would_do(post, name):
    response = post(name, with_altitude(name, '{"value": 300, "unit": "gal"}'))
    problem = assert_problem(response, 400, "schema", "/site/altitude/unit")
    assert problem["errors"][0]["detail"].startswith("unit `gal` is not a unit of Length: use one of m, cm, mm, ft, in")


@pytest.mark.parametrize("name", NAMES)
def test_an_unknown_field_is_pointed_to(post, name):
    problem = assert_problem(post(name, sound(name, untis="us").encode()), 400, "schema", "/untis")
    assert "did you mean `units`?" in problem["errors"][0]["detail"]


@pytest.mark.parametrize("name", NAMES)
def test_every_fault_comes_in_one_answer(post, name):
    site = {"altitude": 5, "water_temperature": {"value": "5", "unit": "ft"}, "wind": 3}
    problem = assert_problem(post(name, sound(name, site=site, units="imperial", extra=1).encode()), 400, "schema")
    assert {error["pointer"] for error in problem["errors"]} == {
        "/units",
        "/site/altitude",
        "/site/water_temperature/value",
        "/site/water_temperature/unit",
        "/site/wind",
        "/extra",
    }


REPEATED = {
    "at the top": ('{"units": "us", "units": "us", ', "/units"),
    "at the top, with other spacing": ('{"units" :"us",\n"units"\t: "us", ', "/units"),
    "spelled with an escape": ('{"units": "us", "unit\\u0073": "us", ', "/units"),
    "further in": ('{"site": {"altitude": {"value": 1, "unit": "m", "value": 1}}, ', "/site/altitude/value"),
    "with another value": ('{"site": {"altitude": {"value": 1, "unit": "m", "unit": "ft"}}, ', "/site/altitude/unit"),
}


@pytest.mark.parametrize(("opening", "pointer"), REPEATED.values(), ids=REPEATED)
@pytest.mark.parametrize("name", NAMES)
def test_a_key_that_stands_twice_is_pointed_to(post, name, opening, pointer):
    request = {key: value for key, value in examples(name)[0].request.items() if key not in ("units", "site")}
    raw = opening + json.dumps(request).removeprefix("{")
    problem = assert_problem(post(name, raw.encode()), 400, "schema", pointer)
    assert "more than once" in problem["errors"][0]["detail"]


DEEP = 100_000
NO_JSON = {
    "nothing": b"",
    "blanks": b" \r\n\t ",
    "a word": b"hello",
    "a cut body": b'{"units": "us"',
    "two texts": b"{} {}",
    "a last comma": b'{"units": "us",}',
    "a comment": b"{} // no",
    "single quotes": b"{'units': 'us'}",
    "a NUL after the end": b"{}\x00",
    "a control character in a string": b'{"units": "u\x01s"}',
    "a leading zero": b'{"a": 01}',
    "an octet that is no UTF-8": b'{"units": "\xff"}',
    "an octet that is no UTF-8 in a key": b'{"\xff": 1}',
    "an overlong form": b'{"units": "\xc0\x80"}',
    "half a surrogate pair as octets": b'{"units": "\xed\xa0\x80"}',
    "UTF-16": '{"units": "us"}'.encode("utf-16"),
    "a byte order mark": b'\xef\xbb\xbf{"units": "us"}',
    "arrays nested deep": b"[" * DEEP,
    "arrays nested deep and closed": b"[" * DEEP + b"]" * DEEP,
    "objects nested deep": b'{"site":' * 20_000,
    "a field nested deep": b'{"site": ' + b"[" * DEEP + b"]" * DEEP + b"}",
}


@pytest.mark.parametrize("raw", NO_JSON.values(), ids=NO_JSON)
@pytest.mark.parametrize("name", NAMES)
def test_what_is_no_json_is_told_so(post, name, raw):
    problem = assert_problem(post(name, raw), 400, "not-json")
    assert "errors" not in problem


@pytest.mark.parametrize("word", ["NaN", "Infinity", "-Infinity"])
@pytest.mark.parametrize("name", NAMES)
def test_a_word_of_javascript_is_no_json_and_its_place_is_told(post, name, word):
    """It stands behind a string that holds the same word, an escaped quote, and a line feed."""
    opening = '{"NaN \\" Infinity": 1,\n '
    raw = f'{opening}"a": {word}, "b": NaN}}'
    problem = assert_problem(post(name, raw.encode()), 400, "not-json")
    assert problem["detail"] == f"JSON has no {word}, as stands at line 2, column 7."
    assert "errors" not in problem


@pytest.mark.parametrize("name", NAMES)
def test_half_a_surrogate_pair_in_a_string_is_no_json(post, name):
    raw = sound(name)[:-1] + ', "units": "\\ud800"}'
    assert post(name, raw.encode()).status_code == 400


@pytest.mark.parametrize("raw", [b"null", b"true", b"5", b'"units"', b"[]", b"[{}]"])
@pytest.mark.parametrize("name", NAMES)
def test_json_that_is_no_object_is_told_so(post, name, raw):
    problem = assert_problem(post(name, raw), 400, "schema", "")
    assert problem["errors"][0]["detail"].startswith("expected an object, got ")


@pytest.mark.parametrize("name", NAMES)
def test_null_is_no_way_to_leave_a_field_out(post, name):
    problem = assert_problem(post(name, sound(name, site=None).encode()), 400, "schema", "/site")
    assert "leave the field out" in problem["errors"][0]["detail"]


@pytest.mark.parametrize("name", NAMES)
def test_text_of_the_caller_goes_back_cleaned_and_cut(post, name):
    spoiled = sound(name, **{"a\u202eb\u0000" + "x" * 500: 1})
    problem = assert_problem(post(name, spoiled.encode()), 400, "schema")
    detail = problem["errors"][0]["detail"]
    assert "a?b?xxx" in detail
    assert len(detail) < 120
    assert detail.isprintable()


def test_what_stands_twice_below_a_key_that_cannot_be_sent_back_is_pointed_to_where_that_key_stands(post):
    raw = sound(NAMES[0])[:-1] + r', "site": {"a\u0004b": [{"unit": "ft", "unit": "m"}]}}'
    problem = assert_problem(post(NAMES[0], raw.encode()), 400, "schema")
    assert {fault["pointer"] for fault in problem["errors"]} == {"/site"}


@pytest.mark.parametrize("endpoint", [NAMES[0], "batch"])
def test_no_more_faults_than_fifty_come_back_and_that_there_are_more_is_told(post, endpoint):
    raw = json.dumps({f"x{number}": number for number in range(5000)}).encode()
    problem = post(endpoint, raw).json()
    assert len(problem["errors"]) == 50
    assert problem["detail"] == "At /x0: unknown field `x0` (and more: `errors` holds the first 50)."


def test_fifty_faults_are_told_as_all_that_there_are(post):
    raw = sound("friction", **{f"x{number}": number for number in range(50)}).encode()
    problem = post("friction", raw).json()
    assert len(problem["errors"]) == 50
    assert problem["detail"].endswith("(and 49 more in `errors`).")


def test_a_question_ends_the_sentence_that_it_stands_in(post):
    problem = post("friction", sound("friction", untis="us").encode()).json()
    assert problem["detail"] == "At /untis: unknown field `untis`; did you mean `units`?"


@pytest.mark.parametrize(
    ("unit", "meant"),
    [("gpm", "gal/min"), ("GPH", "gal/h"), ("lpm", "L/min"), ("l/min", "L/min"), ("gal/mn", "gal/min")],
)
def test_a_unit_as_installers_write_it_is_told_as_the_wire_has_it(post, unit, meant):
    raw = sound("friction", flow={"value": 5, "unit": unit}).encode()
    problem = assert_problem(post("friction", raw), 400, "schema", "/flow/unit")
    assert problem["errors"][0]["detail"].endswith(f"; did you mean `{meant}`?")


def test_a_whole_number_may_be_written_with_a_point(post):
    """JSON Schema holds 1.0 for an integer."""
    line = '"line": [{"part": "resistance", "flow_coefficient": 5, "basis": "Cv"}, {"part": "fitting", "fitting": '
    bore = '"bore": {"diameter": {"value": 1, "unit": "in"}}'
    answers = [
        post(
            "friction",
            f'{{"flow": {{"value": 5, "unit": "gal/min"}}, {line} "elbow-90", {bore}, "count": {count}}}]}}'.encode(),
        )
        for count in ("2", "2.0", "0.2e1")
    ]
    assert [answer.status_code for answer in answers] == [200, 200, 200], answers[0].text
    assert answers[0].json() == answers[1].json() == answers[2].json()


def test_a_whole_number_may_not_have_a_fraction(post):
    raw = b'{"flow": {"value": 5, "unit": "gal/min"}, "line": [{"part": "fitting", "fitting": "exit", "count": 1.5}]}'
    problem = assert_problem(post("friction", raw), 400, "schema", "/line/0/count")
    assert problem["errors"][0]["detail"] == "expected a whole number, got the number 1.5"
